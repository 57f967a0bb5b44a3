//! How well each test tells what it is asked for, measured on virtual bows.
//!
//! `cargo bench --bench probes` repeats the figures: launch-model bows whose
//! unknowns are drawn widely, an average archer, tears read to 1 mm, three
//! shots here and two at the test; the rule is settled on some bows and
//! judged on others. Bows of both kinds count alike, so that guessing is
//! right half the time. A test that is right less often than
//! [`WORTH_ASKING`] is never asked for: its answer would be believed and
//! should not be. What the misses were is in DEVELOPERS.md.
//!
//! The powder test is not here: it is a look at the arrow, not a tear, and no
//! launch model can say how well eyes find a wiped path (common practice).

use crate::gear::Release;

/// Share of right answers from which a test is asked for.
pub(crate) const WORTH_ASKING: f64 = 0.75;

/// A test that is shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Test {
    /// Paper half a flex wavelength further.
    HalfWave,
    /// Paper at 4.5 m.
    Far,
    /// Bare shafts at the same distance.
    Bare,
    /// Two other arrows of the set.
    OtherArrows,
}

/// What a test is to tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// A weak arrow (load ratio over 1.25), or one that suits.
    Weak,
    /// A quarter or more of the tear is the arrow's bending, or less.
    Flex,
    /// Something touches the vanes, or nothing does.
    Contact,
    /// The one arrow shot so far is odd (tears a tolerance or more off its
    /// set), or it is the bow.
    OddArrow,
}

/// One measured figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Telling {
    /// The test.
    pub test: Test,
    /// What it is to tell.
    pub(crate) question: Question,
    /// With an aid (compounds) or fingers (recurves on a button).
    pub release: Release,
    /// Share of right answers, both kinds weighed alike.
    pub right: f64,
    /// The change of the mean tear from which the answer is yes, mm; only
    /// where the test is asked for.
    pub limit_mm: f64,
}

const fn row(
    test: Test,
    question: Question,
    release: Release,
    right: f64,
    limit_mm: f64,
) -> Telling {
    Telling {
        test,
        question,
        release,
        right,
        limit_mm,
    }
}

/// The figures.
///
/// The bows are those on which the tuner itself is stuck, a hundred or so of
/// each kind, so a figure is good to about 4 in the hundred; for flex and
/// angle, settings with a small tear out of tolerance.
pub(crate) const MEASURED: [Telling; 20] = {
    use Question::{Contact, Flex, OddArrow, Weak};
    use Release::{Aid, Fingers};
    use Test::{Bare, Far, HalfWave, OtherArrows};
    [
        row(HalfWave, Weak, Aid, 0.72, 0.0),
        row(Far, Weak, Aid, 0.57, 0.0),
        row(Bare, Weak, Aid, 0.62, 0.0),
        row(HalfWave, Weak, Fingers, 0.48, 0.0),
        row(Far, Weak, Fingers, 0.49, 0.0),
        row(Bare, Weak, Fingers, 0.64, 0.0),
        row(HalfWave, Flex, Aid, 0.65, 0.0),
        row(Far, Flex, Aid, 0.61, 0.0),
        row(Bare, Flex, Aid, 0.45, 0.0),
        row(HalfWave, Flex, Fingers, 0.71, 0.0),
        row(Far, Flex, Fingers, 0.55, 0.0),
        row(Bare, Flex, Fingers, 0.54, 0.0),
        row(Bare, Contact, Aid, 0.62, 0.0),
        row(HalfWave, Contact, Aid, 0.55, 0.0),
        row(Far, Contact, Aid, 0.51, 0.0),
        row(Bare, Contact, Fingers, 0.57, 0.0),
        row(HalfWave, Contact, Fingers, 0.59, 0.0),
        row(Far, Contact, Fingers, 0.54, 0.0),
        row(OtherArrows, OddArrow, Aid, 0.92, 8.0),
        row(OtherArrows, OddArrow, Fingers, 0.80, 10.0),
    ]
};

/// Shots the test with other arrows takes: one with each of two.
pub(crate) const OTHER_ARROWS: u32 = 2;

/// The figure of a test for a question, if it is worth asking for.
pub(crate) fn worth_asking(test: Test, question: Question, release: Release) -> Option<Telling> {
    MEASURED
        .into_iter()
        .find(|t| t.test == test && t.question == question && t.release == release)
        .filter(|t| t.right >= WORTH_ASKING)
}

impl Telling {
    /// How many times in ten it is right, rounded down.
    pub(crate) fn times_in_ten(&self) -> u32 {
        (10.0 * self.right + 1e-9) as u32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_tells_three_times_in_four_is_asked_for() {
        for t in MEASURED {
            let asked = worth_asking(t.test, t.question, t.release);
            assert_eq!(asked.is_some(), t.right >= WORTH_ASKING, "{t:?}");
            assert!(asked.is_none_or(|t| t.limit_mm > 0.0), "{t:?}");
            assert!((0.4..=1.0).contains(&t.right), "{t:?}");
        }
        let arrow = worth_asking(Test::OtherArrows, Question::OddArrow, Release::Aid).unwrap();
        assert_eq!(arrow.times_in_ten(), 9);
        assert!(worth_asking(Test::HalfWave, Question::Weak, Release::Aid).is_none());
    }
}
