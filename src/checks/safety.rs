//! Safety: what forbids the next shot. It cannot be waived.
//!
//! The bow maker's own figures, local law and licensed practice come first;
//! these limits are only the floor under them.

mod bolts;
mod broadhead;
mod build;
mod finding;
mod measured;
mod waiting;

use crate::gear::{Card, grains_per_pound};
use crate::session::Timeline;
pub use broadhead::{Carried, broadhead};
pub(crate) use build::{LEAST_GPP, LEAST_REACH_IN, MOST_LB_A_TURN, TRADITIONAL_GPP};
use build::{SCALE_HAIR_GR, least_grains, traditional};
pub use build::{Whose, bare_next, reach_inches, shaft_end_inches};
pub use finding::{Danger, Safety, Worst};
pub(crate) use measured::{DRAW_AGREES_IN, MASS_AGREES_GR, WEIGHT_AGREES_LB};
pub use waiting::{ArrowPart, Waiting, Weighing, waiting};

/// Everything that forbids the next shot, worst first.
pub fn dangers(timeline: &Timeline) -> Vec<Danger> {
    let mut found = Vec::new();
    if let Some(incident) = timeline.open_incident() {
        found.push(Danger::Incident {
            what: incident.what.clone(),
            entry: incident.entry,
            open: timeline.parts_open(incident),
            bow: timeline.card.bow.kind,
        });
    }
    found.extend(bolts::past_the_makers_turns(timeline));
    found.extend(of_build(timeline, bare_next(timeline)));
    found
}

/// What forbids shooting the arrow, `bare` without its vanes, at the draw
/// weight that is known, or at what it may be while it is not.
fn of_build(timeline: &Timeline, bare: bool) -> Vec<Danger> {
    let found = if timeline.weight_unknown() {
        bolts::unweighed(timeline, bare)
    } else {
        build_dangers(&timeline.card, bare)
    };
    if found.is_empty() {
        return measured::danger(timeline, bare).into_iter().collect();
    }
    found
}

/// What forbids shooting the arrow without its vanes, of what turns on their
/// weight: it is too light, or too weak once they are off its rear.
pub fn bare_forbidden(timeline: &Timeline) -> Option<Danger> {
    let of_vanes =
        |d: &Danger| !matches!(d.itself(), Danger::TooShort(_) | Danger::OverWeight { .. });
    of_build(timeline, true).into_iter().find(of_vanes)
}

/// A stop that a change of the card lifted.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Lifted {
    /// The entry of the change.
    pub entry: u32,
    /// What stopped before it.
    pub(crate) was: Danger,
}

/// Every stop that a change of the card lifted, in order: of the arrow and the
/// bow, of the limb bolts and their weighing, and of a bow kind that has fewer
/// parts to look at.
pub(crate) fn lifted_by_card(timeline: &Timeline) -> Vec<Lifted> {
    let pairs = timeline.stands().windows(2);
    pairs
        .filter_map(|pair| Some((&pair[0], &pair[1], pair[1].by_card?)))
        .flat_map(|(before, after, entry)| {
            let was = gone(&dangers(&before.timeline), &after.timeline);
            was.into_iter().map(move |was| Lifted { entry, was })
        })
        .collect()
}

/// Whether the card or the limb bolts forbade the shot that was recorded with
/// this number. What an incident forbade is marked on the shot itself.
pub(crate) fn stood_at(timeline: &Timeline, entry: u32) -> bool {
    let stood = timeline.stood_at(entry).map(dangers).unwrap_or_default();
    stood.iter().any(|d| !matches!(d, Danger::Incident { .. }))
}

/// What forbade the shot before something was undone or done again, and
/// forbids it no more.
pub(crate) fn gone(before: &[Danger], timeline: &Timeline) -> Vec<Danger> {
    let after = dangers(timeline);
    let stands = |d: &Danger| after.iter().any(|a| a.is_like(d));
    let gone = before.iter().filter(|d| !stands(d));
    gone.cloned().collect()
}

/// What the card alone forbids, the arrow shot with its fletching.
pub fn card_dangers(card: &Card) -> Vec<Danger> {
    build_dangers(card, false)
}

/// What the card alone forbids of an arrow with the point of the next shots,
/// `bare` without its vanes.
pub(crate) fn build_dangers(card: &Card, bare: bool) -> Vec<Danger> {
    let too_heavy = bolts::over_the_makers_weight(card);
    let too_weak = super::spine::danger(card, bare);
    let all = [too_light(card, bare), too_short(card), too_heavy, too_weak];
    all.into_iter().flatten().collect()
}

fn too_light(card: &Card, bare: bool) -> Option<Danger> {
    let (least, whose) = least_grains(card);
    let mass = card.arrow.next_mass(bare).grains();
    if mass >= least - SCALE_HAIR_GR {
        return None;
    }
    Some(Danger::TooLight {
        grains: mass,
        least,
        whose,
        pounds: card.bow.peak_weight.pounds(),
        bare,
        trial: card.arrow.trial_point.is_some(),
    })
}

fn too_short(card: &Card) -> Option<Danger> {
    let reach = reach_inches(card);
    (reach < LEAST_REACH_IN - 1e-9).then_some(Danger::TooShort(reach))
}

/// How far the shaft's end stands behind the grip pivot at full draw, inches;
/// `None` where it stands at the pivot or ahead of it.
pub fn overdraw(card: &Card) -> Option<f64> {
    let behind = -shaft_end_inches(card);
    (behind > 1e-9).then_some(behind)
}

/// The safety check.
pub fn check(timeline: &Timeline) -> Safety {
    if let Some(danger) = dangers(timeline).into_iter().next() {
        return Safety::Danger(danger);
    }
    let waits = waiting(timeline);
    if !waits.is_empty() {
        return Safety::Waits(waits);
    }
    passed(timeline)
}

/// Nothing forbids the shot and nothing is waited for: the figures, and what
/// stands beside them.
fn passed(timeline: &Timeline) -> Safety {
    let card = &timeline.card;
    let bare = bare_next(timeline);
    let gpp = grains_per_pound(card.arrow.next_mass(bare), card.bow.peak_weight);
    if let Some(behind) = overdraw(card) {
        return Safety::Overdraw(behind);
    }
    if traditional(card) && gpp < TRADITIONAL_GPP {
        return Safety::Light(card.bow.kind, gpp);
    }
    Safety::Ok {
        gpp,
        reach: reach_inches(card),
        bare: bare_forbidden(timeline),
    }
}

#[cfg(test)]
mod bare_tests;
#[cfg(test)]
mod tests;
