//! A session's timeline as the belief and the tuner want it: plain numbers.

use std::collections::BTreeSet;

use super::another::{self, Standing};
use super::usual::{axis, least_shots};
use crate::belief::{self, Obs, Place, Prior};
use crate::gear::{AdjusterKind, Axis, Positions};
use crate::session::{Shooter, ShotAt, Timeline};
use crate::tuner::{Range, Task};

/// The timeline in the belief's terms.
#[derive(Debug, Clone)]
pub struct View {
    /// Adjusters by column.
    pub kinds: Vec<AdjusterKind>,
    /// What is believed beforehand.
    pub prior: Prior,
    /// One observation for each shot of the timeline, in order.
    pub shots: Vec<Obs>,
    /// What the tuner may do.
    pub task: Task,
    /// Where the bow stands, judged shooter, plain arrow.
    pub here: Place,
    /// Whose shots are judged.
    pub shooter: Shooter,
    /// Marks of the numbered arrows, in the order of the belief's numbers.
    pub(crate) arrows: Vec<String>,
    /// Shots taken for fliers or slips of the finger: they count for nothing,
    /// and the advice says so.
    pub(crate) fliers: Vec<usize>,
    /// Whether the one arrow shot so far is odd, where that is a question.
    pub(super) another: Standing,
}

impl View {
    /// Lays a timeline out as numbers.
    pub fn of(timeline: &Timeline) -> Self {
        let card = &timeline.card;
        let kinds = columns(timeline);
        let mut prior = super::lean::prior(timeline, &kinds);
        super::earlier::teach(&mut prior, timeline, &kinds);
        let shooter = judged(timeline);
        let arrows = arrow_marks(timeline);
        let fliers = super::fliers::find(timeline);
        let cures = super::cures::cures(timeline, shooter, &fliers);
        let cured_by = |shot: usize| cures.iter().filter(|before| **before <= shot).count();
        let mut shots: Vec<Obs> = timeline
            .shots
            .iter()
            .enumerate()
            .map(|(i, s)| observation(s, &kinds, &arrows, cured_by(i)))
            .collect();
        for i in &fliers {
            shots[*i].called_bad = true;
        }
        // A rest that did nothing or jumped, and was mended, is another rest.
        // So is one whose slap was cleared, and a hand that was opened.
        let mended =
            super::cures::shots_before_mending(timeline).max(super::asked::shots_before(timeline));
        for shot in shots.iter_mut().take(mended) {
            shot.called_bad = true;
        }
        let here = Place {
            positions: row(&timeline.now, &kinds),
            epoch: timeline.epoch,
            response_epoch: timeline.arrow_epoch,
            shooter: number(shooter, cures.len()),
            arrow: None,
            bare: false,
            distance_m: card.paper.distance.m(),
        };
        super::earlier::steady(&mut prior, timeline, here.shooter);
        let another = another::standing(timeline, &shots, &prior, &here);
        for i in another::set_aside(timeline, &another) {
            shots[i].called_bad = true;
        }
        let mut task = task(timeline, &kinds);
        task.both_at_once &= !contact_marked(timeline);
        if timeline.learned.is_some() {
            let misled = super::earlier::misled(&prior, &shots);
            let together = super::earlier::together(timeline);
            task.earlier = !misled;
            task.earlier_both = together != super::earlier::Together::No;
            task.both_at_once &= !misled;
        }
        Self {
            kinds,
            prior,
            shots,
            task,
            here,
            shooter,
            arrows,
            fliers,
            another,
        }
    }

    /// The column of an adjuster.
    pub(crate) fn column(&self, kind: AdjusterKind) -> Option<usize> {
        self.kinds.iter().position(|k| *k == kind)
    }
}

/// Adjusters the belief learns: those that move the arrow's line without
/// making the bow another bow (press work, weight and brace height restart
/// the mean instead), on the card or moved at some time.
fn columns(timeline: &Timeline) -> Vec<AdjusterKind> {
    let learned =
        |kind: &AdjusterKind| kind.axis() != Axis::Whole && !timeline.card.needs_press(*kind);
    let moved: BTreeSet<AdjusterKind> = timeline
        .moves
        .iter()
        .flat_map(|m| m.steps.iter().map(|s| s.adjuster))
        .collect();
    AdjusterKind::ALL
        .into_iter()
        .filter(learned)
        .filter(|kind| timeline.card.adjuster(*kind).is_some() || moved.contains(kind))
        .collect()
}

fn row(positions: &Positions, kinds: &[AdjusterKind]) -> Vec<f64> {
    kinds.iter().map(|kind| positions.get(*kind)).collect()
}

/// The belief's number for a shooter. Once the cause of the scatter was found
/// and cured, how well the shots repeat is to be learned anew: the belief
/// meets the shooter as another one, and the old scatter does not count.
const fn number(shooter: Shooter, cures: usize) -> belief::Shooter {
    let person = match shooter {
        Shooter::Owner => belief::OWNER,
        Shooter::Technician => 1,
        Shooter::Machine => 2,
    };
    person + 3 * cures as belief::Shooter
}

/// The owner once the owner has shot at this setting, or where nobody has;
/// otherwise whoever shot last.
fn judged(timeline: &Timeline) -> Shooter {
    let counts = |s: &&ShotAt| !s.shot.called_bad;
    if timeline
        .shots_here()
        .filter(counts)
        .any(|s| s.shot.by == Shooter::Owner)
    {
        return Shooter::Owner;
    }
    timeline
        .shots
        .iter()
        .rfind(counts)
        .map_or(Shooter::Owner, |s| s.shot.by)
}

fn arrow_marks(timeline: &Timeline) -> Vec<String> {
    let mut marks: Vec<String> = Vec::new();
    for mark in timeline.shots.iter().filter_map(|s| s.shot.arrow.as_ref()) {
        if !marks.contains(mark) {
            marks.push(mark.clone());
        }
    }
    marks
}

fn observation(at: &ShotAt, kinds: &[AdjusterKind], arrows: &[String], cures: usize) -> Obs {
    let mark = at.shot.arrow.as_ref();
    let arrow = mark
        .and_then(|m| arrows.iter().position(|a| a == m))
        .map(|i| i as u32);
    Obs {
        place: Place {
            positions: row(&at.positions, kinds),
            epoch: at.epoch,
            response_epoch: at.arrow_epoch,
            shooter: number(at.shot.by, cures),
            arrow,
            bare: at.shot.bare,
            distance_m: at.distance.m(),
        },
        called_bad: at.shot.called_bad,
        tear: [at.shot.right, at.shot.up],
    }
}

/// Latest shots looked at for marks of contact.
const MARKS: usize = 4;

/// Whether one of the latest shots is marked ragged or with an extra slit,
/// nothing found clear since: then one axis is moved at a time.
fn contact_marked(timeline: &Timeline) -> bool {
    let since = timeline
        .answer(crate::question::Test::Contact)
        .map_or(0, |a| a.shots_before);
    let latest = timeline.shots.iter().skip(since).rev().take(MARKS);
    latest
        .filter(|s| !s.shot.called_bad)
        .any(|s| s.shot.ragged || s.shot.slit_extra)
}

fn task(timeline: &Timeline, kinds: &[AdjusterKind]) -> Task {
    let card = &timeline.card;
    let chosen = [
        card.vertical().map(|a| a.kind),
        super::asked::sideways(timeline),
    ];
    let ranges = kinds
        .iter()
        .map(|kind| {
            let standard = crate::gear::Adjuster::standard(*kind);
            let adjuster = card.adjuster(*kind).unwrap_or(&standard);
            let (low, high) = super::asked::travel(timeline, *kind, adjuster.range);
            Range {
                axis: axis(*kind),
                step: adjuster.step,
                low,
                high,
                usable: chosen.contains(&Some(*kind)),
            }
        })
        .collect();
    let mut task = Task::new(ranges, card.paper.tolerance);
    task.caution = kinds
        .iter()
        .zip(&task.adjusters)
        .map(|(kind, range)| super::caution::of(timeline, *kind, range))
        .collect();
    task.aim = [card.paper.aim.0, card.paper.aim.1];
    task.level = card.paper.sureness;
    task.least_shots = least_shots(card);
    task
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;
    use crate::session::told::timeline_of;
    use crate::session::{Event, Shot};

    fn view(ragged: &[bool], cleared: bool) -> View {
        let card = CardText::from_toml(crate::fixtures::COMPOUND).unwrap();
        let mut events: Vec<Event> = ragged
            .iter()
            .map(|ragged| {
                Event::Shot(Shot {
                    ragged: *ragged,
                    ..Shot::default()
                })
            })
            .collect();
        if cleared {
            events.push(Event::Answer {
                test: "contact".into(),
                result: "none".into(),
                detail: None,
            });
        }
        View::of(&timeline_of(&card, events))
    }

    #[test]
    fn marked_contact_keeps_to_one_axis_a_move_until_it_is_cleared() {
        assert!(view(&[false, false], false).task.both_at_once);
        assert!(!view(&[false, true], false).task.both_at_once);
        assert!(view(&[false, true], true).task.both_at_once);
        assert!(
            view(&[true, false, false, false, false], false)
                .task
                .both_at_once
        );
    }

    #[test]
    fn one_shot_at_the_last_setting_with_an_aid_two_with_fingers_or_as_told() {
        let cards = [
            (include_str!("../../tests/scenarios/cards/compound.toml"), 1),
            (include_str!("../../tests/scenarios/cards/recurve.toml"), 2),
        ];
        for (text, usual) in cards {
            let at = |said: Option<&str>| {
                let mut card = CardText::from_toml(text).unwrap();
                if let Some(said) = said {
                    card.set("paper.least_shots", said).unwrap();
                }
                View::of(&Timeline::new(&card, &[]).unwrap())
                    .task
                    .least_shots
            };
            assert_eq!(at(None), usual);
            assert_eq!(at(Some("1")), 1);
            assert_eq!(at(Some("3")), 3);
        }
    }
}
