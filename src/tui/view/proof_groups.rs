//! What was shot of a stage of proof where the bow stands, and what is next.

use crate::proof::{GroupKind, Stage};
use crate::session::{GroupAt, Impact, Timeline};
use crate::setup;
use crate::tui::model::Model;
use crate::units::{Length, System, trim_number};

/// A distance as people pace it out in a system.
fn paced(m: f64, system: System) -> String {
    match system {
        System::Mm => format!("{} m", trim_number(m, 1)),
        System::Inch => {
            let yards = m / 0.9144;
            let yards = if yards > 10.0 {
                (yards / 5.0).round() * 5.0
            } else {
                yards.round()
            };
            format!("{} yd", trim_number(yards, 0))
        }
    }
}

/// Groups of a stage where the bow stands now, with these arrows.
fn here(timeline: &Timeline, stage: Stage) -> impl Iterator<Item = &GroupAt> {
    timeline.groups.iter().filter(move |g| {
        g.proof == stage
            && g.arrow_epoch == timeline.arrow_epoch
            && g.positions == timeline.now
            && g.entry > setup::bow_changed(timeline)
    })
}

/// How many arrows of a kind were shot at this distance.
pub(super) fn arrows(timeline: &Timeline, stage: Stage, what: GroupKind, distance: &str) -> usize {
    hits(timeline, stage, what, distance).len()
}

/// Where they hit, at this distance.
pub(super) fn hits(
    timeline: &Timeline,
    stage: Stage,
    what: GroupKind,
    distance: &str,
) -> Vec<Impact> {
    let Ok(wanted) = Length::parse(distance) else {
        return Vec::new();
    };
    here(timeline, stage)
        .filter(|g| g.what == what)
        .filter(|g| {
            g.distance
                .is_some_and(|d| (d.mm() - wanted.mm()).abs() < 300.0)
        })
        .flat_map(|g| g.impacts.iter().copied())
        .collect()
}

/// The first distance at which something is still to be shot.
pub(super) fn next_distance(model: &Model, stage: Stage) -> String {
    let timeline = model.timeline();
    let all: Vec<String> = stage
        .distances_m(&timeline.card)
        .into_iter()
        .map(|m| paced(m, model.system))
        .collect();
    let open = |d: &&String| {
        let whats = stage.whats().iter();
        whats
            .into_iter()
            .any(|w| arrows(timeline, stage, *w, d) == 0)
    };
    all.iter()
        .find(open)
        .or(all.last())
        .cloned()
        .unwrap_or_default()
}
