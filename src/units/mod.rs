//! Lengths, masses, forces: types, reading, writing.
//!
//! Every quantity is stored in one SI-like base (named by its constructor) and
//! read from text in any unit the trade uses: `29 3/8 in`, `737 mm`, `60 lb`,
//! `8.5 gr/in`. Conversions are the exact international definitions
//! (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, 1 gr = 64.798 91 mg; NIST SP 811).

mod display;
mod number;

pub use display::System;
pub(crate) use display::{format_fraction, trim_number};
pub(crate) use number::{Scan, scan_number};

use std::fmt;

/// Standard gravity, m/s^2 (NIST SP 811).
pub const GRAVITY: f64 = 9.806_65;
/// Kilograms in a pound avoirdupois, exact.
pub(crate) const KG_PER_LB: f64 = 0.453_592_37;
/// Kilograms in a grain, exact (1/7000 lb).
pub(crate) const KG_PER_GRAIN: f64 = KG_PER_LB / 7000.0;
/// Newtons in a pound-force.
pub(crate) const N_PER_LBF: f64 = KG_PER_LB * GRAVITY;
/// Millimetres in an inch, exact.
pub const MM_PER_INCH: f64 = 25.4;

/// Why a text is not the quantity that was wanted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("'{text}' is not {what}: {problem}; write for example {examples}")]
pub struct QuantityError {
    /// What was read.
    pub text: String,
    /// The kind of quantity wanted, with its article.
    pub(crate) what: &'static str,
    /// What is wrong with the text.
    pub problem: String,
    /// Three things that would be right.
    pub(crate) examples: &'static str,
}

/// One unit: the names it goes by and its size in the base unit.
type Unit = (&'static [&'static str], f64);

fn read(
    text: &str,
    what: &'static str,
    examples: &'static str,
    units: &[Unit],
) -> Result<f64, QuantityError> {
    let fail = |problem: String| QuantityError {
        text: clean(text),
        what,
        problem,
        examples,
    };
    let Some(scan) = scan_number(text) else {
        return Err(fail("it does not begin with a number".into()));
    };
    let unit = scan.rest.trim();
    if unit.is_empty() {
        return Err(fail("the unit is missing".into()));
    }
    let lower = unit.to_lowercase();
    let factor = units
        .iter()
        .find(|(names, _)| names.contains(&lower.as_str()))
        .map(|(_, factor)| *factor)
        .ok_or_else(|| fail(format!("'{}' is no unit known here", clean(unit))))?;
    let value = scan.value * factor;
    if !value.is_finite() {
        return Err(fail("it is not a finite number".into()));
    }
    Ok(value)
}

/// A text made safe to show: control characters replaced, length bounded.
pub(crate) fn clean(text: &str) -> String {
    let mut out: String = text.chars().take(80).map(visible_char).collect();
    if text.chars().count() > 80 {
        out.push_str("...");
    }
    out
}

/// Characters that reorder, hide or break text on a terminal without being
/// control characters: bidirectional marks, zero-width and soft ones, line and
/// paragraph separators, annotation marks and tags (Unicode 15, general
/// categories Cf, Zl and Zp, but for the visible Arabic number signs).
pub(crate) fn is_direction_mark(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

fn visible_char(c: char) -> char {
    if c.is_control() || is_direction_mark(c) {
        '?'
    } else {
        c
    }
}

/// A text with nothing in it that a terminal acts on or does not show: each
/// such character becomes `?`. Nothing is cut off.
pub(crate) fn visible(text: &str) -> String {
    text.chars().map(visible_char).collect()
}

/// JSON in which every character that a terminal acts on or does not show is
/// written as its `\u` escape, so that it reads as before and shows as it is.
pub(crate) fn visible_json(json: &str) -> String {
    use std::fmt::Write as _;
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if c == '\n' || visible_char(c) == c {
            out.push(c);
            continue;
        }
        for unit in c.encode_utf16(&mut [0; 2]) {
            let _ = write!(out, "\\u{unit:04x}");
        }
    }
    out
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $what:literal, $examples:literal, [$(($names:expr, $factor:expr)),+ $(,)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Reads the quantity from text with a unit.
            ///
            /// # Errors
            /// When there is no number, no unit, or an unknown unit.
            pub fn parse(text: &str) -> Result<Self, QuantityError> {
                const UNITS: &[Unit] = &[$((&$names, $factor)),+];
                read(text, $what, $examples, UNITS).map(Self)
            }
        }

        impl std::str::FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> { Self::parse(text) }
        }
    };
}

macro_rules! accessors {
    ($name:ident: $($(#[$doc:meta])* $from:ident / $get:ident = $factor:expr),+ $(,)?) => {
        impl $name {
            $(
                $(#[$doc])*
                pub const fn $from(value: f64) -> Self { Self(value * $factor) }
                $(#[$doc])*
                pub const fn $get(self) -> f64 { self.0 / $factor }
            )+
        }
    };
}

quantity!(
    /// A length, stored in millimetres.
    Length, "a length", "12 mm, 1/2 in, 29 3/8\"",
    [
        (["mm", "millimetre", "millimetres", "millimeter", "millimeters"], 1.0),
        (["cm", "centimetre", "centimetres"], 10.0),
        (["m", "metre", "metres", "meter", "meters"], 1000.0),
        (["in", "in.", "inch", "inches", "\"", "''", "\u{2033}", "\u{201d}"], MM_PER_INCH),
        (["ft", "foot", "feet", "'", "\u{2032}"], 304.8),
        (["yd", "yard", "yards"], 914.4),
        (["thou"], 0.0254),
    ]
);
accessors!(Length:
    /// Millimetres.
    from_mm / mm = 1.0,
    /// Inches.
    from_inches / inches = MM_PER_INCH,
    /// Metres.
    from_m / m = 1000.0,
);

quantity!(
    /// A mass, stored in kilograms.
    Mass, "a mass", "100 gr, 6.5 g, 1 oz",
    [
        (["gr", "gr.", "grain", "grains", "grs"], KG_PER_GRAIN),
        (["g", "gram", "grams", "gramme", "grammes"], 1e-3),
        (["kg"], 1.0),
        (["oz", "ounce", "ounces"], KG_PER_LB / 16.0),
    ]
);
accessors!(Mass:
    /// Kilograms.
    from_kg / kg = 1.0,
    /// Grains.
    from_grains / grains = KG_PER_GRAIN,
    /// Grams.
    from_grams / grams = 1e-3,
);

quantity!(
    /// A force (draw weight), stored in newtons.
    Force, "a draw weight", "60 lb, 267 N, 27 kg",
    [
        (["lb", "lbs", "lb.", "#", "lbf", "pound", "pounds"], N_PER_LBF),
        (["n", "newton", "newtons"], 1.0),
        (["kg", "kgf", "kp", "kg-force"], GRAVITY),
    ]
);
accessors!(Force:
    /// Newtons.
    from_newtons / newtons = 1.0,
    /// Pounds-force.
    from_pounds / pounds = N_PER_LBF,
);

quantity!(
    /// A mass per length (shaft), stored in kilograms per metre.
    LinearMass, "a mass per length", "8.5 gr/in, 0.55 g/cm, 21.7 g/m",
    [
        (["gr/in", "gr/inch", "gpi", "grains/in", "grains/inch", "gr per in", "gr per inch", "grains per inch"], KG_PER_GRAIN / 0.0254),
        (["g/m"], 1e-3),
        (["g/cm"], 1e-1),
    ]
);
accessors!(LinearMass:
    /// Kilograms per metre.
    from_kg_per_m / kg_per_m = 1.0,
    /// Grains per inch.
    from_grains_per_inch / grains_per_inch = (KG_PER_GRAIN / 0.0254),
);

quantity!(
    /// A speed, stored in metres per second.
    Speed, "a speed", "282 ft/s, 86 m/s, 310 km/h",
    [
        (["m/s"], 1.0),
        (["ft/s", "fps", "feet/s", "feet per second"], 0.3048),
        (["km/h"], 1.0 / 3.6),
    ]
);
accessors!(Speed:
    /// Metres per second.
    from_mps / mps = 1.0,
    /// Feet per second.
    from_fps / fps = 0.3048,
);

/// A share such as let-off, stored as a fraction (0.75 for `75 %`).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Share(f64);

impl Share {
    /// From a fraction: 0.75 is 75 %.
    pub(crate) const fn from_fraction(fraction: f64) -> Self {
        Self(fraction)
    }
    /// As a fraction.
    pub(crate) const fn fraction(self) -> f64 {
        self.0
    }
    /// As percent.
    pub(crate) const fn percent(self) -> f64 {
        self.0 * 100.0
    }
    /// Reads `75 %`, `75%`, `75 percent` or a fraction between 0 and 1.
    ///
    /// # Errors
    /// When there is no number or another unit; `75` alone is ambiguous and
    /// is refused.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        const EXAMPLES: &str = "75 %, 0 %, 0.8";
        if let Some(scan) = scan_number(text)
            && scan.rest.trim().is_empty()
            && (0.0..=1.0).contains(&scan.value)
        {
            return Ok(Self(scan.value));
        }
        let units: &[Unit] = &[(&["%", "percent", "per cent", "pct"], 0.01)];
        read(text, "a percentage", EXAMPLES, units).map(Self)
    }
}

/// Static spine, stored as deflection in inches on the 28 in span under
/// 1.94 lb (ASTM F2031).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Spine(f64);

/// Bending stiffness times inch of deflection on the 28 in / 1.94 lb test,
/// N m^2 in: EI = F S^3 / (48 d) with F = 1.94 lbf, S = 28 in (ASTM F2031-05
/// for the test; simply supported beam, central load).
pub(crate) const EI_TIMES_DEFLECTION: f64 =
    1.94 * N_PER_LBF * (28.0 * 0.0254) * (28.0 * 0.0254) * (28.0 * 0.0254) / (48.0 * 0.0254);

/// Deflection under 2 lb on 26 in for one inch under 1.94 lb on 28 in:
/// (2/1.94) (26/28)^3, the older wooden-arrow convention.
pub(crate) const D26_PER_D28: f64 = (2.0 / 1.94) * (26.0 * 26.0 * 26.0) / (28.0 * 28.0 * 28.0);

impl Spine {
    /// From the deflection in inches (0.400).
    pub const fn from_deflection(inches: f64) -> Self {
        Self(inches)
    }
    /// From a bending stiffness EI in N m^2.
    pub(crate) const fn from_stiffness(ei: f64) -> Self {
        Self(EI_TIMES_DEFLECTION / ei)
    }
    /// Deflection in inches, 28 in span, 1.94 lb.
    pub(crate) const fn deflection(self) -> f64 {
        self.0
    }
    /// Bending stiffness EI, N m^2.
    pub const fn stiffness(self) -> f64 {
        EI_TIMES_DEFLECTION / self.0
    }
    /// Deflection in inches on the 26 in span under 2 lb.
    pub const fn deflection_26(self) -> f64 {
        self.0 * D26_PER_D28
    }
    /// Reads `0.400`, `400`, `6.37 N m2` or `45 lb` (wooden-arrow pounds,
    /// 26 over the deflection on the 26 in span under 2 lb).
    ///
    /// # Errors
    /// When there is no number, the unit is unknown, or the value is not positive.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let fail = |problem: &str| QuantityError {
            text: clean(text),
            what: "a spine",
            problem: problem.into(),
            examples: "0.400, 400, 6.4 N m2",
        };
        let scan = scan_number(text).ok_or_else(|| fail("it does not begin with a number"))?;
        if !(scan.value.is_finite() && scan.value > 0.0) {
            return Err(fail("it must be a positive number"));
        }
        let v = scan.value;
        match scan.rest.trim().to_lowercase().as_str() {
            "" if v < 5.0 => Ok(Self(v)),
            "" => Ok(Self(v / 1000.0)),
            "in" | "\"" | "inch" => Ok(Self(v)),
            "n m2" | "nm2" | "n m^2" | "nm^2" | "n m\u{b2}" => Ok(Self::from_stiffness(v)),
            "lb" | "lbs" | "#" => Ok(Self(26.0 / v / D26_PER_D28)),
            _ => Err(fail("the unit is not one used for spine")),
        }
    }
}

impl fmt::Display for Spine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.3}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn lengths_are_read_in_every_unit_of_the_trade() {
        for (text, mm) in [
            ("12 mm", 12.0),
            ("1.2cm", 12.0),
            ("2 m", 2000.0),
            ("1/2 in", 12.7),
            ("29 3/8\"", 746.125),
            ("29-3/8 in", 746.125),
            ("6 ft", 1828.8),
            ("20 yd", 18288.0),
            ("6,5 mm", 6.5),
            ("\u{bd} in", 12.7),
            ("1\u{bc} in", 31.75),
        ] {
            assert_relative_eq!(Length::parse(text).unwrap().mm(), mm, epsilon = 1e-9);
        }
    }

    #[test]
    fn a_missing_or_strange_unit_is_named_with_examples() {
        let error = Length::parse("29").unwrap_err().to_string();
        assert!(error.contains("unit is missing"), "{error}");
        assert!(error.contains("29 3/8"), "{error}");
        let error = Force::parse("60 stone").unwrap_err().to_string();
        assert!(error.contains("'stone'"), "{error}");
        assert!(Length::parse("1/0 in").is_err());
        assert!(Length::parse("1e999 mm").is_err());
        assert!(Length::parse("nan mm").is_err());
    }

    #[test]
    fn masses_forces_and_speeds_convert() {
        assert_relative_eq!(
            Mass::parse("100 gr").unwrap().grams(),
            6.479891,
            epsilon = 1e-9
        );
        assert_relative_eq!(Mass::parse("1 oz").unwrap().grains(), 437.5, epsilon = 1e-9);
        assert_relative_eq!(
            Force::parse("60 lb").unwrap().newtons(),
            266.893_296,
            epsilon = 1e-5
        );
        assert_relative_eq!(
            Force::parse("27.2 kg").unwrap().pounds(),
            59.9657,
            epsilon = 1e-3
        );
        assert_relative_eq!(
            Speed::parse("282 fps").unwrap().mps(),
            85.9536,
            epsilon = 1e-9
        );
        let gpi = LinearMass::parse("8.5 gr/in").unwrap();
        assert_relative_eq!(
            gpi.kg_per_m() * 0.7112,
            Mass::from_grains(8.5 * 28.0).kg(),
            epsilon = 1e-12
        );
    }

    #[test]
    fn spine_is_read_as_inches_thousandths_stiffness_or_wooden_pounds() {
        assert_relative_eq!(Spine::parse("0.400").unwrap().deflection(), 0.4);
        assert_relative_eq!(Spine::parse("400").unwrap().deflection(), 0.4);
        assert_relative_eq!(
            Spine::parse("6.3654 N m2").unwrap().deflection(),
            0.4,
            epsilon = 1e-4
        );
        assert_relative_eq!(
            Spine::parse("63.0 lb").unwrap().deflection(),
            0.5,
            epsilon = 1e-3
        );
        assert!(Spine::parse("0").is_err());
    }

    #[test]
    fn shares_are_read_as_percent_or_fraction() {
        assert_relative_eq!(Share::parse("75 %").unwrap().fraction(), 0.75);
        assert_relative_eq!(Share::parse("0.8").unwrap().percent(), 80.0);
        assert!(Share::parse("75").is_err());
    }
}
