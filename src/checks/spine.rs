//! Spine match: whether the arrow suits the bow, from column mechanics.
//!
//! The arrow is an accelerated column; its load over the critical load of its
//! mass distribution is held against what suits this kind of bow. What the
//! reference figures rest on stands in [`crate::physics::references`].

use super::{Check, Status};
use crate::gear::Card;
pub use crate::physics::card::{arrow_spec, bow_spec, spine_bow};
use crate::physics::spine::{FAIL_BAND, MATCHED_BAND};
use crate::physics::{SpineGrade, SpineMatch, spine_match};
use crate::session::{Shooter, ShotAt, Timeline};
use crate::tear::Tear;

/// Good shots inside tolerance by the owner that lift a computed fail.
pub const LIFTING_SHOTS: usize = 3;

/// The match of a card's arrow and bow.
pub fn of_card(card: &Card) -> SpineMatch {
    spine_match(&arrow_spec(card), &spine_bow(card))
}

/// How the spine check stands, with what moved it.
#[derive(Debug, Clone, PartialEq)]
pub struct SpineReport {
    /// The computed match.
    pub computed: SpineMatch,
    /// Pass, borderline or fail.
    pub status: Status,
    /// Whether good shots lifted a computed fail to borderline.
    pub lifted: bool,
}

impl SpineReport {
    /// Whether the arrow is on the weak side.
    pub fn weak(&self) -> bool {
        self.computed.load_ratio > 1.0
    }
    /// Stable code of the reason this gives, if any.
    pub const fn code(&self) -> Option<&'static str> {
        match (self.status, self.computed.grade) {
            (Status::Fail, SpineGrade::WeakFail) => Some("spine-weak"),
            (Status::Fail, _) => Some("spine-stiff"),
            (_, SpineGrade::Matched) => None,
            (_, SpineGrade::WeakBorderline | SpineGrade::WeakFail) => Some("spine-weak-borderline"),
            (_, _) => Some("spine-stiff-borderline"),
        }
    }
}

/// Assesses the arrow now on the card, with what its shots have shown.
pub fn assess(timeline: &Timeline) -> SpineReport {
    let computed = of_card(&timeline.card);
    let fails = matches!(computed.grade, SpineGrade::WeakFail | SpineGrade::StiffFail);
    let lifted = fails && proven_good(timeline);
    let status = match computed.grade {
        SpineGrade::Matched => Status::Pass,
        _ if fails && !lifted => Status::Fail,
        _ => Status::Borderline,
    };
    SpineReport {
        computed,
        status,
        lifted,
    }
}

/// Whether the owner's last good shots with this arrow, at one setting, were
/// inside tolerance [`LIFTING_SHOTS`] times in a row.
fn proven_good(timeline: &Timeline) -> bool {
    let counts = |s: &&ShotAt| {
        s.shot.by == Shooter::Owner
            && !s.shot.called_bad
            && !s.shot.bare
            && s.arrow_epoch == timeline.arrow_epoch
    };
    let aim = timeline.card.paper.aim;
    let inside = |s: &ShotAt| {
        Tear::new(s.shot.right - aim.0, s.shot.up - aim.1).length() <= timeline.card.paper.tolerance
    };
    let mut run = 0;
    let mut setting = usize::MAX;
    for shot in timeline.shots.iter().filter(counts) {
        run = match inside(shot) {
            true if shot.setting == setting => run + 1,
            true => 1,
            false => 0,
        };
        setting = shot.setting;
        if run >= LIFTING_SHOTS {
            return true;
        }
    }
    false
}

/// The spine check.
pub fn check(timeline: &Timeline) -> Check {
    let report = assess(timeline);
    let ratio = report.computed.load_ratio;
    let side = if report.weak() { "weak" } else { "stiff" };
    let off = ((ratio - 1.0).abs() * 100.0).round();
    let weigh = if timeline.card.bow.weighed {
        ""
    } else {
        "; weigh the bow on a scale, a label can be out by 7 lb"
    };
    let (text, limit) = match (report.status, report.computed.grade) {
        (Status::Fail, _) => (
            format!(
                "the arrow is {off:.0} % {side} for this bow: past {:.0} % no rest position can be trusted to cure it{weigh}",
                FAIL_BAND * 100.0
            ),
            edge(report.weak(), FAIL_BAND),
        ),
        (_, SpineGrade::Matched) => (
            format!(
                "the arrow suits this bow (within {:.0} %)",
                MATCHED_BAND * 100.0
            ),
            edge(report.weak(), MATCHED_BAND),
        ),
        (_, _) if report.lifted => (
            format!(
                "computed {off:.0} % {side}, but {LIFTING_SHOTS} good shots in a row were inside tolerance: go on, watchful{weigh}"
            ),
            edge(report.weak(), FAIL_BAND),
        ),
        (_, SpineGrade::StiffWarned) => (
            format!(
                "the arrow is {off:.0} % stiff for this bow; with a release aid such arrows have still been tuned clean: go on"
            ),
            edge(false, MATCHED_BAND),
        ),
        _ => (
            format!(
                "the arrow is {off:.0} % {side} for this bow, on the border: go on, watchful{weigh}"
            ),
            edge(report.weak(), FAIL_BAND),
        ),
    };
    Check::measured(report.status, text, ratio, limit, "x")
}

fn edge(weak: bool, band: f64) -> f64 {
    if weak { 1.0 + band } else { 1.0 - band }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;
    use crate::session::{Entry, Event, Shot};

    fn timeline(changes: &[(&str, &str)], shots: &[f64]) -> Timeline {
        let mut text = CardText::from_toml("[bow]\nkind=\"compound\"\nhand=\"right\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\n[arrow]\nshaft_length=\"28 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"100 gr\"\n[paper]\ndistance=\"2 m\"\n").unwrap();
        for (key, value) in changes {
            text.set(key, value).unwrap();
        }
        let entries: Vec<Entry> = shots
            .iter()
            .enumerate()
            .map(|(i, r)| {
                Entry::now(
                    i as u32 + 1,
                    Event::Shot(Shot {
                        right: *r,
                        ..Shot::default()
                    }),
                )
            })
            .collect();
        Timeline::new(&text, &entries).unwrap()
    }

    #[test]
    fn a_usual_arrow_passes_and_a_very_weak_one_fails() {
        assert_eq!(check(&timeline(&[], &[])).status, Status::Pass);
        let weak = timeline(&[("arrow.spine", "0.600")], &[]);
        assert_eq!(check(&weak).status, Status::Fail);
        assert_eq!(assess(&weak).code(), Some("spine-weak"));
        assert!(check(&weak).text.contains("weigh the bow"));
        let weighed = timeline(&[("arrow.spine", "0.600"), ("bow.weighed", "true")], &[]);
        assert!(!check(&weighed).text.contains("weigh the bow"));
    }

    #[test]
    fn a_stiff_arrow_is_a_warning_with_an_aid_and_a_fail_with_fingers() {
        let stiff = [("arrow.spine", "0.250")];
        assert_eq!(check(&timeline(&stiff, &[])).status, Status::Borderline);
        let fingers = [("arrow.spine", "0.250"), ("bow.release", "fingers")];
        assert_eq!(assess(&timeline(&fingers, &[])).code(), Some("spine-stiff"));
    }

    #[test]
    fn three_good_shots_by_the_owner_lift_a_computed_fail() {
        let weak = [("arrow.spine", "0.600")];
        assert_eq!(check(&timeline(&weak, &[4.0, 5.0])).status, Status::Fail);
        assert_eq!(
            check(&timeline(&weak, &[4.0, 5.0, 9.0, 4.0])).status,
            Status::Fail
        );
        let lifted = timeline(&weak, &[9.0, 4.0, 5.0, 3.0]);
        assert_eq!(check(&lifted).status, Status::Borderline);
        assert!(assess(&lifted).lifted);
    }
}
