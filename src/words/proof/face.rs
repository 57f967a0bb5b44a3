//! Where arrows hit a face.

use crate::proof::FaceUnit;
use crate::session::Impact;
use crate::units::trim_number;

/// Digits after the point: a millimetre, or hundredths of an inch.
const fn digits(unit: FaceUnit) -> usize {
    match unit {
        FaceUnit::Cm => 1,
        FaceUnit::Inch => 2,
    }
}

/// A length on the face: `3.5 cm`, `1.4 in`.
pub fn length(mm: f64, unit: FaceUnit) -> String {
    format!("{} {}", trim_number(mm / unit.mm(), 1), unit.unit())
}

/// An impact as it is echoed: `3 left 2 high (cm)`, `on the spot`.
pub(crate) fn impact(impact: Impact, unit: FaceUnit) -> String {
    let part = |mm: f64, minus: &str, plus: &str| {
        let number = trim_number(mm.abs() / unit.mm(), digits(unit));
        (number != "0").then(|| format!("{number} {}", if mm < 0.0 { minus } else { plus }))
    };
    let parts: Vec<String> = [
        part(impact.right, "left", "right"),
        part(impact.up, "low", "high"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        "on the spot".into()
    } else {
        format!("{} ({})", parts.join(" "), unit.unit())
    }
}

/// A length to one side: `3 cm left`; `None` where it shows as nothing.
pub(super) fn aside(mm: f64, (minus, plus): (&str, &str), unit: FaceUnit) -> Option<String> {
    let shown = trim_number(mm.abs() / unit.mm(), 1) != "0";
    let side = if mm < 0.0 { minus } else { plus };
    shown.then(|| format!("{} {side}", length(mm.abs(), unit)))
}

/// Where something landed against something else: `14 cm left and 2 cm high`;
/// `None` where it landed together with it.
pub(crate) fn landed(at: Impact, unit: FaceUnit) -> Option<String> {
    let parts = [
        aside(at.right, ("left", "right"), unit),
        aside(at.up, ("low", "high"), unit),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(" and "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(right: f64, up: f64) -> Impact {
        Impact { right, up }
    }

    #[test]
    fn an_impact_is_said_back() {
        assert_eq!(
            impact(at(-30.0, 25.0), FaceUnit::Cm),
            "3 left 2.5 high (cm)"
        );
        assert_eq!(impact(at(0.1, 0.0), FaceUnit::Cm), "on the spot");
    }

    #[test]
    fn each_side_has_its_word() {
        for (right, up, said) in [
            (-140.0, 0.0, Some("14 cm left")),
            (140.0, 0.0, Some("14 cm right")),
            (0.0, 25.0, Some("2.5 cm high")),
            (0.0, -25.0, Some("2.5 cm low")),
            (-140.0, -25.0, Some("14 cm left and 2.5 cm low")),
            (0.1, -0.1, None),
        ] {
            assert_eq!(landed(at(right, up), FaceUnit::Cm).as_deref(), said);
        }
    }
}
