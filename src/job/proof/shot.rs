//! What was shot of a stage of proof where the bow stands, and what is next.

use super::{GroupKind, Stage};
use crate::session::{GroupAt, Impact, Timeline};
use crate::setup;
use crate::units::{Length, System};

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
pub(crate) fn arrows(timeline: &Timeline, stage: Stage, what: GroupKind, distance: &str) -> usize {
    hits(timeline, stage, what, distance).len()
}

/// Where they hit, at this distance.
pub(crate) fn hits(
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

/// The first distance at which something is still to be shot, as people pace
/// it out; the last one where all is shot.
pub(crate) fn next_distance(timeline: &Timeline, stage: Stage, system: System) -> String {
    let all = stage.distances_m(&timeline.card).into_iter();
    let all: Vec<String> = all.map(|m| system.paced(m)).collect();
    let open = |d: &&String| {
        let mut whats = stage.whats().iter();
        whats.any(|w| arrows(timeline, stage, *w, d) == 0)
    };
    all.iter()
        .find(open)
        .or(all.last())
        .cloned()
        .unwrap_or_default()
}
