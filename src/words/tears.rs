//! Tears and what to expect of a shot.

use std::fmt;

use crate::tear::{Tear, TearError};
use crate::units::System;

/// A tear as people say it: `12 left 4 high`, `clean`. No unit.
pub fn tear(tear: Tear, system: System) -> String {
    let part = |value: f64, minus: &str, plus: &str| {
        let number = system.tear_number(value.abs());
        (number != "0").then(|| format!("{number} {}", if value < 0.0 { minus } else { plus }))
    };
    match (
        part(tear.right, "left", "right"),
        part(tear.up, "low", "high"),
    ) {
        (None, None) => "clean".into(),
        (Some(one), None) | (None, Some(one)) => one,
        (Some(sideways), Some(vertical)) => format!("{sideways} {vertical}"),
    }
}

/// A tear as it is typed, in the unit a bare number has.
pub(crate) const fn tear_example(system: System) -> &'static str {
    match system {
        System::Mm => "12 left 4 high",
        System::Inch => "1/2 left 1/4 high",
    }
}

/// A move as it is typed.
pub(crate) const fn move_example(system: System) -> &'static str {
    match system {
        System::Mm => "rest left 1.5 mm",
        System::Inch => "rest left 1/16 in",
    }
}

/// Moves as they are typed, a calipers reading among them.
pub(crate) const fn move_examples(system: System) -> &'static str {
    match system {
        System::Mm => "rest left 1.5 mm, nock up 2 clicks, rest at 19.3 mm",
        System::Inch => "rest left 1/16 in, nock up 2 clicks, rest at 0.76 in",
    }
}

impl fmt::Display for TearError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (word, problem, example) = (&self.word, &self.problem, tear_example(self.system));
        let short = tear_short(self.system);
        write!(
            out,
            "'{word}': {problem}; write for example {example}, {short}, or clean"
        )
    }
}

impl std::error::Error for TearError {}

/// The same in as few keys as it takes.
pub(crate) const fn tear_short(system: System) -> &'static str {
    match system {
        System::Mm => "l12 h4",
        System::Inch => "l1/2",
    }
}

/// A tear with its unit, for sentences: `12 mm left, 4 mm high`.
pub(crate) fn tear_with_unit(tear: Tear, system: System) -> String {
    let part = |value: f64, minus: &str, plus: &str| {
        let number = system.tear_number(value.abs());
        (number != "0").then(|| {
            format!(
                "{number} {} {}",
                system.unit(),
                if value < 0.0 { minus } else { plus }
            )
        })
    };
    match (
        part(tear.right, "left", "right"),
        part(tear.up, "low", "high"),
    ) {
        (None, None) => "clean".into(),
        (Some(one), None) | (None, Some(one)) => one,
        (Some(sideways), Some(vertical)) => format!("{sideways}, {vertical}"),
    }
}

/// Radius that holds two shots of three when both components scatter with
/// the same sd: sd x sqrt(-2 ln(1/3)) (Rayleigh distribution).
pub(crate) const TWO_OF_THREE: f64 = 1.482;

/// What to expect of a shot: `2 mm left, 2 mm high, 2 of 3 shots within 6 mm`.
/// `sd` is that of one component, mm; less than a millimetre is not promised.
pub(crate) fn expected(tear: Tear, sd: f64, system: System) -> String {
    format!(
        "{}, 2 of 3 shots within {}",
        tear_with_unit(tear, system),
        system.tear((sd * TWO_OF_THREE).max(1.0))
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tear_is_exampled_in_the_unit_a_bare_number_has() {
        let read = |text: &str, system| {
            let hole = crate::tear::read_hole(text, system).unwrap();
            (hole.tear.right, hole.tear.up)
        };
        assert_eq!(read(tear_example(System::Mm), System::Mm), (-12.0, 4.0));
        for text in [tear_example(System::Inch), "l1/2 h1/4"] {
            assert_eq!(read(text, System::Inch), (-12.7, 6.35), "{text}");
        }
    }
}
