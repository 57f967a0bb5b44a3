//! Writing lengths for people: millimetres or inch fractions.

use super::Length;

const METRES_PER_YARD: f64 = 0.9144;
/// What no tape tells apart, inches.
const HAIR_IN: f64 = 0.0025;

/// The display system of a sitting. It changes what is shown and what a bare
/// number means when typed, never what is stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum System {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches, tears as fractions and moves in thousandths.
    Inch,
}

impl System {
    /// The unit as written after a number.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Inch => "in",
        }
    }

    /// The other system.
    pub(crate) const fn other(self) -> Self {
        match self {
            Self::Mm => Self::Inch,
            Self::Inch => Self::Mm,
        }
    }

    /// Millimetres in one of this system's units.
    pub(crate) const fn mm_per_unit(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::Inch => super::MM_PER_INCH,
        }
    }

    /// A tear-sized length without its unit: whole millimetres or the nearest
    /// sixteenth of an inch.
    pub(crate) fn tear_number(self, mm: f64) -> String {
        match self {
            Self::Mm => trim_number(mm, 0),
            Self::Inch => format_fraction(mm / super::MM_PER_INCH, 16),
        }
    }

    /// A tear-sized length with its unit.
    pub fn tear(self, mm: f64) -> String {
        format!("{} {}", self.tear_number(mm), self.unit())
    }

    /// A move-sized length with its unit: hundredths of a millimetre or
    /// thousandths of an inch.
    pub(crate) fn fine(self, mm: f64) -> String {
        match self {
            Self::Mm => format!("{mm:.2} mm"),
            Self::Inch => format!("{:.3} in", mm / super::MM_PER_INCH),
        }
    }

    /// A distance from bow to paper, in metres or feet.
    pub fn distance(self, length: Length) -> String {
        match self {
            Self::Mm => format!("{} m", trim_number(length.m(), 2)),
            Self::Inch => format!("{} ft", trim_number(length.mm() / 304.8, 1)),
        }
    }

    /// A distance that was shot from at a target, in metres or yards.
    pub(crate) fn shot_from(self, length: Length) -> String {
        match self {
            Self::Mm => self.distance(length),
            Self::Inch => format!("{} yd", trim_number(length.m() / METRES_PER_YARD, 1)),
        }
    }

    /// The number of a shooting distance as people pace it out: metres, or
    /// whole yards, far ones in fives.
    pub(crate) fn paced_number(self, m: f64) -> String {
        let yards = m / METRES_PER_YARD;
        match self {
            Self::Mm => trim_number(m, 1),
            Self::Inch if yards > 10.0 => trim_number((yards / 5.0).round() * 5.0, 0),
            Self::Inch => trim_number(yards, 0),
        }
    }

    /// A shooting distance as people pace it out, with its unit.
    pub(crate) fn paced(self, m: f64) -> String {
        let unit = match self {
            Self::Mm => "m",
            Self::Inch => "yd",
        };
        format!("{} {unit}", self.paced_number(m))
    }

    /// A distance that must at least be kept, rounded up.
    pub(crate) fn at_least(self, m: f64) -> String {
        match self {
            Self::Mm => format!("{} m", trim_number((m * 100.0 - 1e-6).ceil() / 100.0, 2)),
            Self::Inch => {
                let feet = (m / METRES_PER_YARD * 30.0 - 1e-6).ceil() / 10.0;
                format!("{} ft", trim_number(feet, 1))
            }
        }
    }

    /// A length measured on bow or range: tenths of a millimetre; a fraction of
    /// an inch where it is one to a hair, else hundredths; far ones in metres or
    /// feet.
    pub(crate) fn measured(self, mm: f64) -> String {
        let inches = mm / super::MM_PER_INCH;
        let mark = (inches * 32.0).round() / 32.0;
        match self {
            Self::Mm if mm.abs() >= 1000.0 => format!("{} m", trim_number(mm / 1000.0, 2)),
            Self::Mm => format!("{} mm", trim_number(mm, 1)),
            Self::Inch if mm.abs() >= 1500.0 => format!("{} ft", trim_number(mm / 304.8, 1)),
            Self::Inch if (inches - mark).abs() < HAIR_IN && mark != 0.0 => {
                format!("{} in", format_fraction(mark, 32))
            }
            Self::Inch => format!("{} in", trim_number(inches, 2)),
        }
    }

    /// A bow-sized length (draw length, shaft length).
    pub(crate) fn long(self, length: Length) -> String {
        match self {
            Self::Mm => format!("{} mm", trim_number(length.mm(), 0)),
            Self::Inch => format!("{} in", format_fraction(length.inches(), 16)),
        }
    }
}

/// A number with at most `places` decimals, trailing zeros and a minus before
/// zero removed.
pub(crate) fn trim_number(value: f64, places: usize) -> String {
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text
        .trim_start_matches('-')
        .chars()
        .all(|c| c == '0' || c == '.')
    {
        return "0".into();
    }
    text
}

/// A number as a mixed fraction with the given power-of-two denominator,
/// reduced: `29 3/8`, `1/2`, `-1/16`, `0`.
pub(crate) fn format_fraction(value: f64, denominator: u32) -> String {
    if !value.is_finite() {
        return "?".into();
    }
    let ticks = (value.abs() * f64::from(denominator)).round() as u64;
    if ticks == 0 {
        return "0".into();
    }
    let sign = if value < 0.0 { "-" } else { "" };
    let (mut top, mut bottom) = (ticks % u64::from(denominator), u64::from(denominator));
    let whole = ticks / u64::from(denominator);
    while top != 0 && top.is_multiple_of(2) {
        top /= 2;
        bottom /= 2;
    }
    match (whole, top) {
        (0, _) => format!("{sign}{top}/{bottom}"),
        (_, 0) => format!("{sign}{whole}"),
        _ => format!("{sign}{whole} {top}/{bottom}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inch_fractions_are_reduced() {
        assert_eq!(format_fraction(29.375, 16), "29 3/8");
        assert_eq!(format_fraction(0.5, 16), "1/2");
        assert_eq!(format_fraction(-0.0625, 16), "-1/16");
        assert_eq!(format_fraction(0.01, 16), "0");
        assert_eq!(format_fraction(2.0, 16), "2");
    }

    #[test]
    fn a_distance_is_paced_out_in_whole_yards_and_far_ones_in_fives() {
        assert_eq!(System::Mm.paced(18.0), "18 m");
        assert_eq!(System::Mm.paced(2.5), "2.5 m");
        assert_eq!(System::Inch.paced(5.0), "5 yd");
        assert_eq!(System::Inch.paced(18.0), "20 yd");
        assert_eq!(System::Inch.paced(30.0), "35 yd");
        assert_eq!(System::Inch.paced_number(36.0), "40");
        assert_eq!(System::Inch.shot_from(Length::from_mm(18288.0)), "20 yd");
        assert_eq!(System::Inch.shot_from(Length::from_m(18.0)), "19.7 yd");
        assert_eq!(System::Mm.shot_from(Length::from_m(18.0)), "18 m");
    }

    #[test]
    fn a_distance_to_be_kept_is_never_rounded_down() {
        assert_eq!(System::Mm.at_least(1.2366), "1.24 m");
        assert_eq!(System::Mm.at_least(1.2366), "1.24 m");
        // 4.07 ft; a hair over 4 ft is 4.1.
        assert_eq!(System::Inch.at_least(1.24), "4.1 ft");
        assert_eq!(System::Inch.at_least(1.2200), "4.1 ft");
        assert_eq!(System::Inch.at_least(1.2192), "4 ft");
    }

    #[test]
    fn a_measured_length_is_a_fraction_where_it_is_one() {
        assert_eq!(System::Mm.measured(177.8), "177.8 mm");
        assert_eq!(System::Mm.measured(1202.0), "1.2 m");
        assert_eq!(System::Inch.measured(177.8), "7 in");
        assert_eq!(System::Inch.measured(180.975), "7 1/8 in");
        assert_eq!(System::Inch.measured(1.6), "1/16 in");
        assert_eq!(System::Inch.measured(-3.2), "-1/8 in");
        assert_eq!(System::Inch.measured(3.4), "0.13 in");
        assert_eq!(System::Inch.measured(1.0), "0.04 in");
        assert_eq!(System::Inch.measured(0.0), "0 in");
        assert_eq!(System::Inch.measured(2438.4), "8 ft");
    }

    #[test]
    fn a_negative_nothing_is_nothing() {
        assert_eq!(trim_number(-0.01, 1), "0");
        assert_eq!(trim_number(-1.50, 2), "-1.5");
        assert_eq!(System::Mm.fine(1.5), "1.50 mm");
        assert_eq!(System::Inch.tear(12.7), "1/2 in");
    }
}
