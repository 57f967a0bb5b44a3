//! Safety: what forbids the next shot. It cannot be waived.
//!
//! The bow maker's own figures, local law and licensed practice come first;
//! these limits are only the floor under them.

mod bolts;
mod broadhead;
mod waiting;

use super::{Check, Status};
use crate::gear::{BowKind, Card, RestKind, grains_per_pound};
use crate::question::{Question, Refusal, Stage};
use crate::session::Timeline;
pub use bolts::MOST_LB_A_TURN;
pub use broadhead::{Carried, broadhead};
pub use waiting::{Waiting, waiting};

/// Least arrow mass, grains per pound of draw weight: the floor printed in
/// bow makers' warranty terms and tournament rules, and the test mass of
/// ASTM F1544.
pub const LEAST_GPP: f64 = 5.0;
/// Below this on a traditional bow, ask its bowyer (from memory).
pub const TRADITIONAL_GPP: f64 = 8.0;
/// Least reach of the shaft past the rest contact at full draw, inches.
pub const LEAST_REACH_IN: f64 = 0.5;
/// What the trade's draw length has beyond the grip pivot, inches (ASTM F1880).
pub const DRAW_BEYOND_PIVOT_IN: f64 = 1.75;
/// A hair of rounding in someone's scale is no danger, grains.
const SCALE_HAIR_GR: f64 = 0.05;

/// A longbow, or a recurve shot off its shelf.
fn traditional(card: &Card) -> bool {
    match card.bow.kind {
        BowKind::Longbow => true,
        BowKind::Recurve => card.rest.kind == RestKind::Shelf,
        BowKind::Compound => false,
    }
}

/// What a safety problem is.
#[derive(Debug, Clone, PartialEq)]
pub struct Danger {
    /// What it stops for.
    pub refusal: Refusal,
    /// In words, with what to do.
    pub text: String,
    /// The figure, its limit and their unit, where there are any.
    pub figure: Option<(f64, f64, &'static str)>,
}

/// Inches the shaft's end stands ahead of the grip pivot at full draw;
/// negative where it stands behind it. By the card's figures or by the mark
/// read at full draw, whichever draws further.
pub fn shaft_end_inches(card: &Card) -> f64 {
    let worked_out = card.bow.draw_length.inches() - DRAW_BEYOND_PIVOT_IN;
    let mark = card.rest.full_draw_mark;
    let read = mark.map_or(worked_out, |m| {
        m.inches() - card.rest.contact_ahead.inches()
    });
    card.arrow.shaft_length.inches() - worked_out.max(read)
}

/// Inches of shaft past the rest contact at full draw.
pub fn reach_inches(card: &Card) -> f64 {
    shaft_end_inches(card) - card.rest.contact_ahead.inches()
}

/// The least arrow this bow may shoot, grains, and whose figure it is.
fn least_grains(card: &Card) -> (f64, &'static str) {
    let floor = LEAST_GPP * card.bow.peak_weight.pounds();
    match card.bow.maker_min_arrow {
        Some(maker) if maker.grains() > floor => (maker.grains(), "the bow maker's minimum"),
        _ => (floor, "5 gr for each pound"),
    }
}

/// Whether the next shots are bare shafts: the console has them set so, or the
/// bare-shaft stage of proof is under way, which it is from its first group
/// until another stage, a shot through paper, or its being left out.
pub fn bare_next(timeline: &Timeline) -> bool {
    timeline.next_bare || bare_stage_under_way(timeline)
}

fn bare_stage_under_way(timeline: &Timeline) -> bool {
    let Some(last) = timeline.groups.last() else {
        return false;
    };
    let left_out = timeline.answer(Question::Stage(Stage::BareShaft));
    last.proof == Stage::BareShaft
        && last.arrow_epoch == timeline.arrow_epoch
        && timeline.shots.last().is_none_or(|s| s.entry < last.entry)
        && left_out.is_none_or(|a| a.entry < last.entry)
}

/// Everything that forbids the next shot, worst first.
pub fn dangers(timeline: &Timeline) -> Vec<Danger> {
    let mut found = Vec::new();
    if let Some(incident) = timeline.open_incident() {
        found.push(Danger {
            refusal: Refusal::Incident,
            text: format!(
                "{} (entry {}): every part is looked at before anything is drawn, by a trained person where in doubt. Still open: {}",
                crate::units::clean(&incident.what),
                incident.entry,
                parts_open(timeline, incident)
            ),
            figure: None,
        });
    }
    found.extend(bolts::past_the_makers_turns(timeline));
    let bare = bare_next(timeline);
    if timeline.weight_unknown() {
        found.extend(bolts::unweighed(timeline, bare));
    } else {
        found.extend(build_dangers(&timeline.card, bare));
    }
    found
}

/// The parts that still wait to be looked at, by name.
fn parts_open(timeline: &Timeline, incident: &crate::session::IncidentAt) -> String {
    let kind = timeline.card.bow.kind;
    let open = timeline.parts_open(incident);
    let names: Vec<&str> = open.iter().map(|p| p.name(kind)).collect();
    names.join("; ")
}

/// A stop of the card that a change of the card lifted.
#[derive(Debug, Clone, PartialEq)]
pub struct Lifted {
    /// The entry of the change.
    pub entry: u32,
    /// What stopped before it.
    pub was: Danger,
}

/// Every stop that a change of the card lifted, in order.
pub fn lifted_by_card(timeline: &Timeline) -> Vec<Lifted> {
    let changes = timeline.card_changes.iter();
    changes
        .flat_map(|change| {
            let after = card_dangers(&change.after);
            let gone = move |d: &Danger| after.iter().all(|a| a.refusal != d.refusal);
            let was = card_dangers(&change.before).into_iter().filter(gone);
            was.map(|was| Lifted {
                entry: change.entry,
                was,
            })
        })
        .collect()
}

/// What the card alone forbids, the arrow shot with its fletching.
pub fn card_dangers(card: &Card) -> Vec<Danger> {
    build_dangers(card, false)
}

/// What the card alone forbids of an arrow with the point of the next shots,
/// `bare` without its vanes.
pub fn build_dangers(card: &Card, bare: bool) -> Vec<Danger> {
    let too_heavy = bolts::over_the_makers_weight(card);
    let too_weak = super::spine::danger(card);
    let all = [too_light(card, bare), too_short(card), too_heavy, too_weak];
    all.into_iter().flatten().collect()
}

/// The arrow without its vanes, where it is too light to be shot so.
pub fn bare_too_light(card: &Card) -> Option<Danger> {
    too_light(card, true)
}

fn too_light(card: &Card, bare: bool) -> Option<Danger> {
    let (least, whose) = least_grains(card);
    let mass = card.arrow.next_mass(bare).grains();
    if mass >= least - SCALE_HAIR_GR {
        return None;
    }
    let trial = card.arrow.trial_point.is_some();
    let which = match (bare, trial) {
        (true, false) => "this arrow without its fletching",
        (true, true) => "this arrow without its fletching, with the trial point,",
        (false, true) => "this arrow with the trial point",
        (false, false) => "this arrow",
    };
    Some(Danger {
        refusal: Refusal::TooLight,
        text: format!(
            "{which} weighs {mass:.0} gr on {:.0} lb; {whose} asks for {least:.0} gr. A light arrow loads the bow like a dry fire: use a heavier point or shaft",
            card.bow.peak_weight.pounds()
        ),
        figure: Some((mass, least, "gr")),
    })
}

fn too_short(card: &Card) -> Option<Danger> {
    let reach = reach_inches(card);
    (reach < LEAST_REACH_IN - 1e-9).then(|| Danger {
        refusal: Refusal::TooShort,
        text: format!(
            "at full draw the shaft would reach {reach:.2} in past the rest contact; it must be at least {LEAST_REACH_IN} in, or it can fall behind the rest. Use longer arrows, or check the draw length and where the rest stands on the card"
        ),
        figure: Some((reach, LEAST_REACH_IN, "in")),
    })
}

/// How far the shaft's end stands behind the grip pivot at full draw, inches,
/// with its caution; `None` where it stands at the pivot or ahead of it.
pub fn overdraw(card: &Card) -> Option<(f64, String)> {
    let behind = -shaft_end_inches(card);
    (behind > 1e-9).then(|| {
        let text = format!(
            "keep the hand below the arrow: at full draw the shaft's end stands {behind:.2} in behind the grip pivot, over the hand. Shoot field points only, or longer arrows"
        );
        (behind, text)
    })
}

/// The safety check.
pub fn check(timeline: &Timeline) -> Check {
    if let Some(danger) = dangers(timeline).into_iter().next() {
        return match danger.figure {
            Some((value, limit, unit)) => {
                Check::measured(Status::Fail, danger.text, value, limit, unit)
            }
            None => Check::plain(Status::Fail, danger.text),
        };
    }
    let waits = waiting(timeline);
    if !waits.is_empty() {
        let texts: Vec<String> = waits.iter().map(|w| w.text(timeline)).collect();
        return Check::plain(Status::Pending, texts.join("; "));
    }
    passed(timeline)
}

/// Nothing forbids the shot and nothing is waited for: the figures, and what
/// stands beside them.
fn passed(timeline: &Timeline) -> Check {
    let card = &timeline.card;
    let bare = bare_next(timeline);
    let gpp = grains_per_pound(card.arrow.next_mass(bare), card.bow.peak_weight);
    if let Some((behind, text)) = overdraw(card) {
        return Check::measured(Status::Borderline, text, -behind, 0.0, "in");
    }
    if traditional(card) && gpp < TRADITIONAL_GPP {
        let text = format!(
            "{gpp:.1} gr/lb is light for a {}: ask its bowyer (many want {TRADITIONAL_GPP} gr/lb, from memory)",
            card.bow.kind.id()
        );
        return Check::measured(Status::Borderline, text, gpp, TRADITIONAL_GPP, "gr/lb");
    }
    let mut text = format!(
        "{gpp:.1} gr/lb, shaft {:.1} in past the rest; the bow maker's own limits come first",
        reach_inches(card)
    );
    if let Some((mass, least, _)) = bare_too_light(card).and_then(|d| d.figure) {
        text.push_str(&format!(
            ". Do not shoot it without its fletching: {mass:.0} gr then (limit {least:.0} gr)"
        ));
    }
    Check::measured(Status::Pass, text, gpp, LEAST_GPP, "gr/lb")
}

#[cfg(test)]
mod tests;
