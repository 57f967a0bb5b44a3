//! Two sessions of one bow: what moved, what changed in the tears.

use crate::advice;
use crate::gear::{AdjusterKind, Card};
use crate::proof;
use crate::report::{Block, Document};
use crate::restore::Difference;
use crate::session::{Impact, Shooter, Timeline};
use crate::tear::Tear;
use crate::units::{Length, System, clean, trim_number};
use crate::words;

/// One thing that differs.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// A card field or an adjuster.
    pub(crate) what: String,
    /// In the earlier session.
    pub(crate) before: String,
    /// In the later one.
    pub after: String,
}

/// Two sessions against each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Signs that they are not the same bow; empty when they may be.
    pub(crate) doubts: Vec<String>,
    /// Card fields that differ.
    pub card: Vec<Change>,
    /// Adjusters that stand elsewhere at the end.
    pub places: Vec<Change>,
    /// What the tears did, line by line.
    pub(crate) tears: Vec<String>,
    /// What forbids the next shot, in either session.
    pub(crate) stops: Vec<String>,
}

impl Comparison {
    /// As a page.
    pub(crate) fn page(&self) -> Document {
        let doubts = self
            .doubts
            .iter()
            .map(|d| Block::Text(format!("Mind: {d}")));
        Document::new("Two sessions of one bow")
            .after(self.stops.clone())
            .with("Tears", vec![Block::Lines(self.tears.clone())])
            .with("Where it stands at the end", vec![changes(&self.places)])
            .with("Card", vec![changes(&self.card)])
            .with("Is it one bow?", doubts.collect())
    }
}

fn changes(changes: &[Change]) -> Block {
    if changes.is_empty() {
        return Block::Text("No difference.".into());
    }
    let one = |c: &Change| format!("{}: {} -> {}", c.what, c.before, c.after);
    Block::Lines(changes.iter().map(one).collect())
}

/// Compares an earlier session with a later one.
pub fn compare(before: &Timeline, after: &Timeline, system: System) -> Comparison {
    Comparison {
        doubts: doubts(&before.card, &after.card),
        card: card_changes(before, after),
        places: places(before, after, system),
        tears: tears(before, after, system),
        stops: stops(before, after),
    }
}

/// One bow: what stops it in one session stands above both, the later first.
fn stops(before: &Timeline, after: &Timeline) -> Vec<String> {
    let of = |timeline: &Timeline, earlier: bool| {
        let stop = advice::stopped(timeline);
        stop.map(|stop| words::compared_stop(&stop, earlier, timeline.card.paper.system))
    };
    [of(after, false), of(before, true)]
        .into_iter()
        .flatten()
        .flatten()
        .collect()
}

fn doubts(before: &Card, after: &Card) -> Vec<String> {
    let mut found = Vec::new();
    if (before.bow.kind, before.bow.hand) != (after.bow.kind, after.bow.hand) {
        found.push("another kind of bow or another hand: hardly the same bow".into());
    }
    let named = |card: &Card| (card.bow.name.clone(), card.job.owner.clone());
    let (a, b) = (named(before), named(after));
    let differ =
        |a: &Option<String>, b: &Option<String>| matches!((a, b), (Some(a), Some(b)) if a != b);
    if differ(&a.0, &b.0) || differ(&a.1, &b.1) {
        found.push("another name or owner on the card".into());
    }
    found
}

fn card_changes(before: &Timeline, after: &Timeline) -> Vec<Change> {
    let (a, b) = (&before.card_text.fields, &after.card_text.fields);
    let keys: std::collections::BTreeSet<&String> = a.keys().chain(b.keys()).collect();
    keys.into_iter()
        // The job is of the visit, not of the bow.
        .filter(|key| !key.starts_with("job."))
        .filter_map(|key| {
            let text = |map: &std::collections::BTreeMap<String, crate::gear::Entered>| {
                map.get(key)
                    .map_or("not given".to_owned(), |e| clean(&e.text))
            };
            let (before, after) = (text(a), text(b));
            (before != after).then(|| Change {
                what: key.clone(),
                before,
                after,
            })
        })
        .collect()
}

/// Where each adjuster stands: by calipers where both sessions read them,
/// else from each session's own start.
fn places(before: &Timeline, after: &Timeline, system: System) -> Vec<Change> {
    AdjusterKind::ALL
        .into_iter()
        .filter(|k| before.card.adjuster(*k).is_some() || after.card.adjuster(*k).is_some())
        .filter_map(|kind| {
            let reading = |t: &Timeline| {
                t.card
                    .adjuster(kind)?
                    .reading_at(t.now.get(kind), t.card.bow.hand)
            };
            let stands = |t: &Timeline| {
                let at = Difference::of(kind, t.now.get(kind), &t.card);
                words::stands(&at, system)
            };
            let (what, a, b) = match (reading(before), reading(after)) {
                (Some(a), Some(b)) => (
                    format!("{} (calipers)", kind.id()),
                    format!("{} mm", trim_number(a, 2)),
                    format!("{} mm", trim_number(b, 2)),
                ),
                _ => (
                    format!("{} (each from its own start)", kind.id()),
                    stands(before),
                    stands(after),
                ),
            };
            (a != b).then_some(Change {
                what,
                before: a,
                after: b,
            })
        })
        .collect()
}

/// Good fletched shots by the owner at the last setting that was shot.
struct Last {
    setting: u32,
    distance: Length,
    shots: Vec<Impact>,
}

fn last(timeline: &Timeline) -> Option<Last> {
    let counts = |s: &&crate::session::ShotAt| {
        !s.shot.called_bad && !s.shot.bare && s.shot.by == Shooter::Owner
    };
    let latest = timeline.shots.iter().rev().find(counts)?;
    let shots = timeline
        .shots
        .iter()
        .filter(counts)
        .filter(|s| s.setting == latest.setting && s.distance == latest.distance)
        .map(|s| Impact {
            right: s.shot.right,
            up: s.shot.up,
        })
        .collect();
    Some(Last {
        setting: timeline.settings[latest.setting].number,
        distance: latest.distance,
        shots,
    })
}

fn tears(before: &Timeline, after: &Timeline, system: System) -> Vec<String> {
    let (Some(a), Some(b)) = (last(before), last(after)) else {
        return vec!["one of them has no good shots by the owner".into()];
    };
    let mut lines: Vec<String> = [("before", &a), ("after", &b)]
        .into_iter()
        .filter_map(|(word, last)| {
            let centre = proof::spot(&last.shots)?;
            Some(format!(
                "{word}: {} on average over {} at setting {}, {}",
                words::tear_with_unit(Tear::new(centre.right, centre.up), system),
                words::count(last.shots.len(), "shot"),
                last.setting,
                system.distance(last.distance)
            ))
        })
        .collect();
    if (a.distance.mm() / b.distance.mm() - 1.0).abs() > 0.05 {
        lines.push("shot at different distances: not to be compared".into());
        return lines;
    }
    lines.push(match proof::compare(&b.shots, &a.shots) {
        None => "too few shots to say whether the tear changed".into(),
        Some(d) if d.is_real() => format!(
            "the tear changed by {}: by chance alone about {}",
            words::tear_with_unit(Tear::new(d.right, d.up), system),
            words::one_time_in(d.judged_chance())
        ),
        Some(_) => "no change that these shots could show".into(),
    });
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::Step;
    use crate::session::{Event, Shot};
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

    fn shots(rights: &[f64]) -> Vec<Event> {
        rights
            .iter()
            .map(|r| {
                Event::Shot(Shot {
                    right: *r,
                    ..Shot::default()
                })
            })
            .collect()
    }

    #[test]
    fn two_sessions_of_one_bow_show_what_moved_and_whether_the_tear_changed() {
        let early = timeline(COMPOUND, shots(&[0.0, 1.0, -1.0, 0.5]));
        let mut events = vec![Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: 1.0,
            }],
            said: None,
            confirms: None,
        }];
        events.extend(shots(&[12.0, 13.0, 11.0, 12.5]));
        let late = timeline(&COMPOUND.replace("60 lb", "61 lb"), events);
        let found = compare(&early, &late, System::Mm);
        assert_eq!(found.card.len(), 1);
        assert_eq!(found.card[0].what, "bow.peak_weight");
        assert_eq!(found.places[0].after, "1.00 mm right (4 clicks)");
        assert!(
            found
                .tears
                .last()
                .unwrap()
                .starts_with("the tear changed by 12 mm right"),
            "{:?}",
            found.tears
        );
        assert!(found.doubts.is_empty());
    }

    #[test]
    fn the_same_session_twice_shows_no_difference() {
        let t = timeline(COMPOUND, shots(&[0.0, 1.0, -1.0]));
        let found = compare(&t, &t, System::Mm);
        assert!(found.card.is_empty() && found.places.is_empty());
        assert!(found.tears.last().unwrap().starts_with("no change"));
    }

    #[test]
    fn another_kind_of_bow_is_doubted() {
        let found = compare(
            &timeline(COMPOUND, vec![]),
            &timeline(RECURVE, vec![]),
            System::Mm,
        );
        assert!(!found.doubts.is_empty());
        assert_eq!(
            found.page().sections.last().unwrap().title,
            "Is it one bow?"
        );
    }
}
