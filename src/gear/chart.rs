//! What the arrow maker's chart says, as it was read off.

use crate::units::{Force, Length, Mass, Spine, clean};

/// One reading of the arrow maker's chart: the weakest shaft it gives for a
/// draw weight, a shaft length and a point.
///
/// It carries what it was read for, so that it stops counting when the card
/// comes to ask more of the arrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct MakerChart {
    /// The weakest static spine the chart gives.
    pub(crate) spine: Spine,
    /// For this draw weight.
    pub weight: Force,
    /// For this shaft, nock throat to shaft end.
    pub length: Length,
    /// For this point with its insert.
    pub(crate) point: Mass,
}

/// What would be right.
pub(crate) const CHART_EXAMPLE: &str = "0.400 at 60 lb, 29 in, 125 gr";

/// Rounding of a figure that was read off a scale: pounds, millimetres, grains.
const HAIR: (f64, f64, f64) = (0.05, 0.5, 0.5);

impl MakerChart {
    /// Reads `0.400 at 60 lb, 29 in, 125 gr`: the chart's spine, then draw
    /// weight, shaft length and point.
    ///
    /// # Errors
    /// In words, with an example, when a part is missing or is no such quantity.
    pub fn parse(text: &str) -> Result<Self, String> {
        let wrong = |what: &str| {
            format!(
                "'{}' {what}; write the chart's spine at draw weight, shaft length, point: {CHART_EXAMPLE}",
                clean(text)
            )
        };
        let (spine, rest) = text
            .split_once(" at ")
            .ok_or_else(|| wrong("has no 'at'"))?;
        let parts: Vec<&str> = rest.split(',').map(str::trim).collect();
        let [weight, length, point] = parts[..] else {
            return Err(wrong("does not name three figures after 'at'"));
        };
        let say = |e: crate::units::QuantityError| wrong(&format!("cannot be read ({e})"));
        let chart = Self {
            spine: Spine::parse(spine.trim()).map_err(say)?,
            weight: Force::parse(weight).map_err(say)?,
            length: Length::parse(length).map_err(say)?,
            point: Mass::parse(point).map_err(say)?,
        };
        let usual = (0.1..=2.5).contains(&chart.spine.deflection())
            && (5.0..=150.0).contains(&chart.weight.pounds())
            && (300.0..=1200.0).contains(&chart.length.mm())
            && (10.0..=700.0).contains(&chart.point.grains());
        if usual {
            Ok(chart)
        } else {
            Err(wrong("holds a figure that cannot be right"))
        }
    }

    /// Whether it was read for at least this draw weight, shaft length and
    /// point. What a chart gives for more, it gives for less.
    pub(crate) fn covers(&self, weight: Force, length: Length, point: Mass) -> bool {
        self.weight.pounds() >= weight.pounds() - HAIR.0
            && self.length.mm() >= length.mm() - HAIR.1
            && self.point.grains() >= point.grains() - HAIR.2
    }

    /// Whether a shaft is at least as stiff as the chart asks.
    pub(crate) fn gives(&self, spine: Spine) -> bool {
        spine.deflection() <= self.spine.deflection() + 5e-4
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chart_reading_is_spine_weight_length_and_point() {
        let chart = MakerChart::parse("0.400 at 60 lb, 29 in, 125 gr").unwrap();
        assert_eq!(chart.spine.deflection(), 0.4);
        assert!((chart.weight.pounds() - 60.0).abs() < 1e-9);
        assert!((chart.length.inches() - 29.0).abs() < 1e-9);
        assert!((chart.point.grains() - 125.0).abs() < 1e-9);
        for wrong in [
            "0.400",
            "0.400 at 60 lb",
            "0.400 at 60 lb, 29 in",
            "0.400 at 29 in, 60 lb, 125 gr",
            "0.400 at 60 lb, 29 in, 125 gr, 3 gr",
            "stiff at 60 lb, 29 in, 125 gr",
            "40 at 60 lb, 29 in, 125 gr",
            "0.400 at 600 lb, 29 in, 125 gr",
        ] {
            let said = MakerChart::parse(wrong).unwrap_err();
            assert!(said.contains("0.400 at 60 lb, 29 in, 125 gr"), "{said}");
        }
    }

    #[test]
    fn it_counts_for_what_it_was_read_for_and_for_less() {
        let chart = MakerChart::parse("0.400 at 60 lb, 29 in, 125 gr").unwrap();
        let covers = |pounds, inches, grains| {
            chart.covers(
                Force::from_pounds(pounds),
                Length::from_inches(inches),
                Mass::from_grains(grains),
            )
        };
        assert!(covers(60.0, 29.0, 125.0) && covers(55.0, 28.0, 100.0));
        assert!(!covers(60.1, 29.0, 125.0));
        assert!(!covers(60.0, 29.1, 125.0));
        assert!(!covers(60.0, 29.0, 126.0));
        assert!(chart.gives(Spine::from_deflection(0.4)));
        assert!(chart.gives(Spine::from_deflection(0.34)));
        assert!(!chart.gives(Spine::from_deflection(0.402)));
    }
}
