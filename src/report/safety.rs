//! What stood when the shots were made: the range safety list, incidents, and
//! stops that a change of the card lifted.

use super::document::{Block, Section};
use crate::checks::safety;
use crate::range;
use crate::session::{Clearance, Timeline};
use crate::units::visible;
use crate::words;

/// The section; a session without shots says only what happened.
pub(super) fn section(timeline: &Timeline) -> Section {
    Section::new("Safety on the record", vec![Block::Lines(lines(timeline))])
}

/// The same, line by line.
pub(super) fn lines(timeline: &Timeline) -> Vec<String> {
    let mut lines: Vec<String> = range::record(timeline)
        .into_iter()
        .map(|stood| format!("{}: {}", words::RANGE_TITLE, words::range_stood(&stood)))
        .collect();
    if lines.is_empty() {
        lines.push(format!("{}: nothing was shot.", words::RANGE_TITLE));
    }
    lines.extend(incidents(timeline));
    lines.extend(under_stop(timeline));
    lines.extend(lifted(timeline));
    lines
}

fn incidents(timeline: &Timeline) -> Vec<String> {
    let kind = timeline.card.bow.kind;
    let one = |i: &crate::session::IncidentAt| {
        let what = format!("Incident: {} (entry {})", visible(&i.what), i.entry);
        match timeline.clearance(i) {
            Clearance::ByParts => {
                format!("{what}. Every part was looked at, part by part.")
            }
            Clearance::OneWord(entry) => {
                format!("{what}. Cleared in one word (entry {entry}), not part by part.")
            }
            Clearance::Open => {
                let open = timeline.parts_open(i);
                let names: Vec<&str> = open
                    .iter()
                    .map(|p| words::trouble::part(*p, kind))
                    .collect();
                format!("{what}. OPEN, DO NOT SHOOT: {}.", names.join("; "))
            }
        }
    };
    timeline.incidents.iter().map(one).collect()
}

/// Shots recorded while an incident, the card or the limb bolts stopped shooting.
fn under_stop(timeline: &Timeline) -> Option<String> {
    let shots = timeline.shots.iter();
    let under = shots.filter(|s| s.shot.under_stop || safety::stood_at(timeline, s.entry));
    let entries: Vec<String> = under.map(|s| s.entry.to_string()).collect();
    (!entries.is_empty()).then(|| {
        format!(
            "{} recorded while DO NOT SHOOT stood: entry {}.",
            words::count(entries.len(), "shot"),
            entries.join(", ")
        )
    })
}

fn lifted(timeline: &Timeline) -> Vec<String> {
    let one = |l: safety::Lifted| {
        format!(
            "A change of the card (entry {}) lifted DO NOT SHOOT. Before it: {}.",
            l.entry,
            visible(words::danger(&l.was).trim_end_matches('.'))
        )
    };
    safety::lifted_by_card(timeline)
        .into_iter()
        .map(one)
        .collect()
}
