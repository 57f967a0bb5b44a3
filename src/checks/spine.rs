//! Arrow spine: whether the arrow suits the bow, from column mechanics.
//!
//! The arrow is an accelerated column; its load over the critical load of its
//! mass distribution is held against what suits this kind of bow. What the
//! reference figures rest on stands in [`crate::physics::references`], and is
//! named in the check's text.

use super::safety::{Danger, MOST_LB_A_TURN};
use super::{Check, Status, rests};
use crate::gear::{BowKind, Card};
pub use crate::physics::card::{arrow_spec, bow_spec, spine_bow};
use crate::physics::{SpineGrade, SpineMatch, spine_match};
use crate::question::Refusal;
use crate::session::{Shooter, ShotAt, Timeline};
use crate::tear::Tear;
use crate::units::trim_number;

/// Good shots within tolerance by the owner, in a row at one setting, that
/// lift a computed fail.
pub const LIFTING_SHOTS: usize = 3;
/// Of the owner's last [`LIFTING_SHOTS`] shots, so many out of tolerance take
/// that back: one may be a flier.
pub const TAKING_BACK: usize = 2;

/// The match of a card's arrow, as it is about to be shot, and bow.
pub fn of_card(card: &Card) -> SpineMatch {
    spine_match(&arrow_spec(card), &spine_bow(card))
}

/// Whether the arrow maker's chart, read for at least this draw weight, shaft
/// length and point, gives a shaft no stiffer than the card's.
pub fn chart_gives(card: &Card) -> bool {
    let arrow = &card.arrow;
    arrow.maker_chart.is_some_and(|chart| {
        chart.covers(card.bow.peak_weight, arrow.shaft_length, arrow.next_point())
            && chart.gives(arrow.spine)
    })
}

/// Whether the arrow is past the stop load and nothing but stiffer shafts, a
/// corrected card or the arrow maker's chart lets it be shot.
pub fn stops(card: &Card) -> bool {
    of_card(card).grade == SpineGrade::FarTooWeak && !chart_gives(card)
}

/// What forbids shooting an arrow this weak, if it does.
pub fn danger(card: &Card) -> Option<Danger> {
    if !stops(card) {
        return None;
    }
    let found = of_card(card);
    let limit = found.reference.bands.stop;
    let text = format!(
        "Far too weak: {} (not shot past {}, a rule of thumb, no source). It may break as it is shot. {}Use stiffer shafts. Only the arrow maker's chart, read for this draw weight, length and point and entered on the card (maker chart), allows it",
        load(found.load_ratio, limit),
        percent(limit - 1.0),
        weigh(card)
    );
    Some(Danger {
        refusal: Refusal::FarTooWeak,
        text,
        figure: Some((found.load_ratio, limit, "x")),
    })
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
    /// Why it refuses, if it does.
    pub const fn refusal(&self) -> Option<Refusal> {
        match (self.status, self.computed.grade) {
            (Status::Fail, SpineGrade::StiffFail) => Some(Refusal::SpineStiff),
            (Status::Fail, _) => Some(Refusal::SpineWeak),
            _ => None,
        }
    }
    /// Stable code of the warning this gives, if any.
    pub const fn warning(&self) -> Option<&'static str> {
        match (self.status, self.computed.grade) {
            (Status::Fail, _) => None,
            (Status::Pending, _) | (_, SpineGrade::Matched) => None,
            (_, SpineGrade::WeakBorderline | SpineGrade::WeakFail | SpineGrade::FarTooWeak) => {
                Some("spine-weak-borderline")
            }
            (_, _) => Some("spine-stiff-borderline"),
        }
    }
}

/// Assesses the arrow now on the card, with what its shots have shown.
pub fn assess(timeline: &Timeline) -> SpineReport {
    let computed = computed(timeline);
    let fails = computed.grade.refuses();
    let lifted = fails && !stops(&timeline.card) && proven_good(timeline);
    let status = match computed.grade {
        SpineGrade::Matched => Status::Pass,
        _ if fails && !lifted => Status::Fail,
        _ => Status::Borderline,
    };
    let status = match status {
        Status::Pass | Status::Borderline if waits_for(timeline).is_some() => Status::Pending,
        other => other,
    };
    SpineReport {
        computed,
        status,
        lifted,
    }
}

/// The match at the weight on the card; while that is not known because the
/// limb bolts were moved, at the greatest it may be where the arrow would then
/// be too weak.
fn computed(timeline: &Timeline) -> SpineMatch {
    if !timeline.weight_unknown() {
        return of_card(&timeline.card);
    }
    let known = of_card(&timeline.card_at_worst(0.0));
    if timeline.card.bow.kind != BowKind::Compound {
        return known;
    }
    let worst = of_card(&timeline.card_at_worst(MOST_LB_A_TURN));
    match worst.grade {
        SpineGrade::WeakFail | SpineGrade::FarTooWeak => worst,
        _ => known,
    }
}

/// What keeps the match from being known: defaults, or a weighing.
fn waits_for(timeline: &Timeline) -> Option<String> {
    let weighing = timeline
        .weight_unknown()
        .then(|| "draw weight not known since the limb bolts were moved: weigh the bow".to_owned());
    let both = [rests::not_confirmed(timeline, rests::SPINE), weighing];
    let texts: Vec<String> = both.into_iter().flatten().collect();
    (!texts.is_empty()).then(|| texts.join("; "))
}

/// Whether the owner's shots with this arrow bear it out: three in a row
/// within tolerance at one setting, and not two of any three since outside.
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
    let shots: Vec<(usize, bool)> = timeline
        .shots
        .iter()
        .filter(counts)
        .map(|s| (s.setting, inside(s)))
        .collect();
    let mut proven = false;
    for end in LIFTING_SHOTS..=shots.len() {
        let last = &shots[end - LIFTING_SHOTS..end];
        let outside = last.iter().filter(|(_, inside)| !inside).count();
        let one_setting = last.iter().all(|(setting, _)| *setting == last[0].0);
        if outside == 0 && one_setting {
            proven = true;
        } else if outside >= TAKING_BACK {
            proven = false;
        }
    }
    proven
}

/// A share as a percentage, `25 %`.
fn percent(share: f64) -> String {
    format!("{} %", trim_number(share.abs() * 100.0, 0))
}

/// A load ratio in words, `load 54 % over matched`; one more digit where it
/// would read as the limit itself.
fn load(ratio: f64, limit: f64) -> String {
    let side = if ratio > 1.0 { "over" } else { "under" };
    let off = (ratio - 1.0).abs() * 100.0;
    let reads_as_limit = off.round() == ((limit - 1.0).abs() * 100.0).round();
    let places = usize::from(reads_as_limit && ratio != limit);
    format!("load {} % {side} matched", trim_number(off, places))
}

fn weigh(card: &Card) -> &'static str {
    if card.bow.weighed {
        ""
    } else {
        "Weigh the bow: a label can be out by 7 lb. "
    }
}

/// Where the load stands on its bands, in a sentence or two, with its limit.
fn place(report: &SpineReport, card: &Card) -> (String, f64) {
    let ratio = report.computed.load_ratio;
    let bands = &report.computed.reference.bands;
    let weak = report.weak();
    let edge = |(low, high): (f64, f64)| if weak { high } else { low };
    let fails = edge(bands.borderline);
    let (limit, before, after): (f64, &str, String) = match report.computed.grade {
        SpineGrade::FarTooWeak if stops(card) => {
            (bands.stop, "Far too weak", ". Do not shoot it.".into())
        }
        SpineGrade::Matched => (edge(bands.matched), "Suits", ".".into()),
        SpineGrade::StiffWarned => (
            edge(bands.matched),
            "Stiff",
            ". With a release aid such arrows have still been tuned clean: go on.".into(),
        ),
        _ if report.lifted => (
            fails,
            if weak {
                "Weak by the card"
            } else {
                "Stiff by the card"
            },
            format!(
                ", but {LIFTING_SHOTS} good shots in a row were within tolerance. Go on, carefully."
            ),
        ),
        _ if report.status == Status::Fail => (
            fails,
            if weak { "Weak" } else { "Stiff" },
            ". No rest position can be trusted to cure it.".into(),
        ),
        _ => (
            fails,
            if weak {
                "A little weak"
            } else {
                "A little stiff"
            },
            ". Go on, carefully.".into(),
        ),
    };
    let said = load(ratio, limit);
    let text = format!("{before}: {said} (limit {}){after}", percent(limit - 1.0));
    (text, limit)
}

/// The spine check: the load, its limit, and what its reference rests on.
pub fn check(timeline: &Timeline) -> Check {
    let report = assess(timeline);
    if let (Status::Pending, Some(text)) = (report.status, waits_for(timeline)) {
        return Check::plain(Status::Pending, text);
    }
    let card = &timeline.card;
    let reference = &report.computed.reference;
    let (mut text, limit) = place(&report, card);
    let off = report.computed.grade != SpineGrade::Matched;
    if off && (report.weak() || report.status == Status::Fail) && !card.bow.weighed {
        text = format!("{text} {}", weigh(card).trim_end());
    }
    if report.computed.grade == SpineGrade::FarTooWeak && chart_gives(card) {
        text.push_str(" The arrow maker's chart gives this shaft, so it is not stopped.");
    } else if off && reference.guess {
        text.push_str(" The arrow maker's chart decides.");
    }
    text.push_str(&format!(" Reference: {}.", reference.rests_on));
    Check::measured(report.status, text, report.computed.load_ratio, limit, "x")
}

#[cfg(test)]
mod tests;
