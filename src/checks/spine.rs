//! Arrow spine: whether the arrow suits the bow, from column mechanics.
//!
//! The arrow is an accelerated column; its load over the critical load of its
//! mass distribution is held against what suits this kind of bow. What the
//! reference figures rest on stands in [`crate::physics::references`], and is
//! named in the check's text.

use super::safety::{Danger, MOST_LB_A_TURN};
use super::{Figure, Status, Unit, rests};
use crate::gear::{BowKind, Card, Unconfirmed};
pub(crate) use crate::physics::card::{arrow_spec, bow_spec, spine_bow};
use crate::physics::{ArrowSpec, SpineGrade, SpineMatch, spine_match};
use crate::question::{Note, Refusal};
use crate::session::{Shooter, ShotAt, Timeline};
use crate::tear::Tear;

/// Good shots within tolerance by the owner, in a row at one setting, that
/// lift a computed fail.
pub(crate) const LIFTING_SHOTS: usize = 3;
/// Of the owner's last [`LIFTING_SHOTS`] shots, so many out of tolerance take
/// that back: one may be a flier.
pub(crate) const TAKING_BACK: usize = 2;

/// The match of a card's arrow, as it is about to be shot, and bow.
pub fn of_card(card: &Card) -> SpineMatch {
    spine_match(&arrow_spec(card), &spine_bow(card))
}

/// Whether the arrow maker's chart, read for at least this draw weight, shaft
/// length and point, gives a shaft no stiffer than the card's.
pub(crate) fn chart_gives(card: &Card) -> bool {
    let arrow = &card.arrow;
    arrow.maker_chart.is_some_and(|chart| {
        chart.covers(card.bow.peak_weight, arrow.shaft_length, arrow.next_point())
            && chart.gives(arrow.spine)
    })
}

/// Whether the arrow is past the stop load and nothing but stiffer shafts, a
/// corrected card or the arrow maker's chart lets it be shot.
pub fn stops(card: &Card) -> bool {
    danger(card, false).is_some()
}

/// What forbids shooting an arrow this weak, if it does. `bare`, it is without
/// the vanes' weight at its rear, and bends under more of the push.
pub(crate) fn danger(card: &Card, bare: bool) -> Option<Danger> {
    let arrow = ArrowSpec {
        bare,
        ..arrow_spec(card)
    };
    let found = spine_match(&arrow, &spine_bow(card));
    if found.grade != SpineGrade::FarTooWeak || chart_gives(card) {
        return None;
    }
    Some(Danger::FarTooWeak {
        ratio: found.load_ratio,
        limit: found.reference.bands.stop,
        weighed: card.bow.weighed,
        bare,
    })
}

/// What keeps the arrow's match from being known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SpineWaits {
    /// Values that nobody entered or confirmed.
    pub(crate) unconfirmed: Vec<Unconfirmed>,
    /// The draw weight, since the limb bolts were moved.
    pub(crate) weighing: bool,
}

impl SpineWaits {
    fn any(&self) -> bool {
        self.weighing || !self.unconfirmed.is_empty()
    }
}

/// What the spine check found, with what moved it.
#[derive(Debug, Clone, PartialEq)]
pub struct SpineReport {
    /// The computed match.
    pub computed: SpineMatch,
    /// Pass, borderline or fail.
    pub status: Status,
    /// Whether good shots lifted a computed fail to borderline.
    pub lifted: bool,
    /// Whether it is past the stop load and not shot at all.
    pub stops: bool,
    /// Whether the arrow maker's chart gives this shaft.
    pub chart: bool,
    /// Whether the bow was weighed.
    pub weighed: bool,
    /// What keeps it from being known.
    pub waits: SpineWaits,
}

impl SpineReport {
    /// Whether the arrow is on the weak side.
    pub(crate) fn weak(&self) -> bool {
        self.computed.load_ratio > 1.0
    }
    /// The load ratio against the edge of the band that it is judged by; none
    /// while something is waited for.
    pub fn figure(&self) -> Option<Figure> {
        if self.status == Status::Pending {
            return None;
        }
        let limit = self.limit();
        Some(Figure::new(self.computed.load_ratio, limit, Unit::Times))
    }

    /// The edge of the band that it is judged by, on the side it is off.
    pub(crate) fn limit(&self) -> f64 {
        let bands = &self.computed.reference.bands;
        let edge = |(low, high): (f64, f64)| if self.weak() { high } else { low };
        match self.computed.grade {
            SpineGrade::FarTooWeak if self.stops => bands.stop,
            SpineGrade::Matched | SpineGrade::StiffWarned => edge(bands.matched),
            _ => edge(bands.borderline),
        }
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
    pub const fn warning(&self) -> Option<Note> {
        match (self.status, self.computed.grade) {
            (Status::Fail, _) => None,
            (Status::Pending, _) | (_, SpineGrade::Matched) => None,
            (_, SpineGrade::WeakBorderline | SpineGrade::WeakFail | SpineGrade::FarTooWeak) => {
                Some(Note::SpineWeakBorderline)
            }
            (_, _) => Some(Note::SpineStiffBorderline),
        }
    }
}

/// Assesses the arrow now on the card, with what its shots have shown.
pub fn assess(timeline: &Timeline) -> SpineReport {
    let computed = computed(timeline);
    let fails = computed.grade.refuses();
    let stops = stops(&timeline.card);
    let lifted = fails && !stops && proven_good(timeline);
    let waits = waits_for(timeline);
    let status = match computed.grade {
        SpineGrade::Matched => Status::Pass,
        _ if fails && !lifted => Status::Fail,
        _ => Status::Borderline,
    };
    let status = match status {
        Status::Pass | Status::Borderline if waits.any() => Status::Pending,
        other => other,
    };
    SpineReport {
        computed,
        status,
        lifted,
        stops,
        chart: chart_gives(&timeline.card),
        weighed: timeline.card.bow.weighed,
        waits,
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
fn waits_for(timeline: &Timeline) -> SpineWaits {
    SpineWaits {
        unconfirmed: timeline.card_text.unconfirmed_of(rests::SPINE),
        weighing: timeline.weight_unknown(),
    }
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

#[cfg(test)]
mod tests;
