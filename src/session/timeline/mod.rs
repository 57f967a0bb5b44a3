//! What the entries add up to: settings, which shots belong to which, where
//! each adjuster stands, what is pending, what is undone.

mod bolts;
mod cards;
mod history;
mod inspection;
mod kinds;
mod measured;
mod placed;
mod stands;

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{Entry, Event, LearnedRecord, PriorRecord, RangeSaid, Shot};
use crate::gear::{AdjusterKind, Card, CardProblem, CardText, Positions, Step};
use crate::question::{Question, Said};
use crate::units::Length;
use bolts::Bolts;
pub(crate) use cards::{Resets, near, resets};
use history::History;
pub(in crate::session) use history::company;
pub(crate) use inspection::Clearance;
pub use kinds::{AnswerAt, IncidentAt, MoveAt, Pending, Setting, SetupAt, ShotAt};
pub(crate) use kinds::{GroupAt, Holes, RangeAt};
pub(crate) use stands::Stand;

/// Everything the entries add up to.
#[derive(Debug, Clone)]
pub struct Timeline {
    /// The card as it stands.
    pub card: Card,
    /// The card's texts as they stand.
    pub card_text: CardText,
    /// Unusual but kept values on the card, and card changes that could not be applied.
    pub warnings: Vec<CardProblem>,
    /// Settings in the order they were reached; never empty.
    pub(crate) settings: Vec<Setting>,
    /// Shots that count, in order. Called-bad shots are among them, marked.
    pub shots: Vec<ShotAt>,
    /// Moves that count, in order.
    pub moves: Vec<MoveAt>,
    /// Where every adjuster stands now.
    pub now: Positions,
    /// The sign each adjuster last moved in, zero where it has not moved.
    pub(crate) last_way: [f64; AdjusterKind::ALL.len()],
    /// A move taken to the bench and not yet confirmed.
    pub pending: Option<Pending>,
    /// Answers that count, in order.
    pub answers: Vec<AnswerAt>,
    /// Checks before paper that count, in order.
    pub setup: Vec<SetupAt>,
    /// What was said of the range safety list, in order.
    pub(crate) range: Vec<RangeAt>,
    /// Groups after paper that count, in order.
    pub(crate) groups: Vec<GroupAt>,
    /// Incidents, in order.
    pub(crate) incidents: Vec<IncidentAt>,
    /// The latest response prior for the card as it stands.
    pub prior: Option<PriorRecord>,
    /// What earlier bows of the folder taught, where it is used and the bow,
    /// release and rest are still those it was taught for.
    pub learned: Option<LearnedRecord>,
    /// The limb bolts, where they were moved since the bow was last weighed.
    bolts: Option<Bolts>,
    /// The last change of the card that said how far out the limb bolts stood.
    turns_said: Option<u32>,
    /// The last change of the card that named a field.
    said: BTreeMap<String, u32>,
    /// What safety rests on, from entry to entry; the first as the session began.
    stands: Vec<Stand>,
    /// Fields of the card that a change named and that could not be read.
    pub(crate) unread: BTreeMap<String, CardProblem>,
    /// Whether the console has the next shots set to bare shafts. Not an
    /// entry: the entries cannot say it.
    pub(crate) next_bare: bool,
    /// Mean-tear epoch now.
    pub epoch: u32,
    /// Arrow-type epoch now.
    pub arrow_epoch: u32,
    /// How the sitting was closed, if nothing was shot or moved since.
    pub(crate) closed: Option<String>,
    /// Entries that are undone.
    pub undone: BTreeSet<u32>,
    /// What undo would take back.
    pub can_undo: Option<u32>,
    /// What redo would bring back.
    pub(crate) can_redo: Option<u32>,
    /// Entries in all.
    pub entries: usize,
    /// What of the file is not in here; nothing where it is sound.
    pub(crate) holes: Holes,
}

/// The entries that are undone.
pub(super) fn undone(entries: &[Entry]) -> BTreeSet<u32> {
    History::of(entries).undone
}

impl Timeline {
    /// Adds up the entries on a card.
    ///
    /// # Errors
    /// When the card cannot be read. A recorded card change that cannot be
    /// applied is a warning, and the card stays as it was.
    pub fn new(card_text: &CardText, entries: &[Entry]) -> Result<Self, Vec<CardProblem>> {
        Self::until(card_text, entries, u32::MAX)
    }

    /// Adds up what stood before the entry of this number: what was placed
    /// before it later is among it, and what is undone by now is not.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub(crate) fn until(
        card_text: &CardText,
        entries: &[Entry],
        until: u32,
    ) -> Result<Self, Vec<CardProblem>> {
        let (card, warnings) = Card::read(card_text)?;
        let history = History::of(entries);
        let mut timeline = Self {
            warnings,
            undone: history.undone,
            can_undo: history.can_undo,
            can_redo: history.can_redo,
            entries: entries.len(),
            ..Self::of_card(card, card_text.clone())
        };
        timeline.note_stand(0, None);
        timeline.fold(entries, until);
        Ok(timeline)
    }

    /// The setting the bow is in.
    pub fn setting(&self) -> &Setting {
        &self.settings[self.settings.len() - 1]
    }

    /// Index of the setting the bow is in.
    pub(crate) fn setting_index(&self) -> usize {
        self.settings.len() - 1
    }

    /// Shots at the setting the bow is in.
    pub fn shots_here(&self) -> impl Iterator<Item = &ShotAt> {
        let here = self.setting_index();
        self.shots.iter().filter(move |s| s.setting == here)
    }

    /// The latest answer to a question, within the present arrow type.
    pub(crate) fn answer(&self, question: impl Into<Question>) -> Option<&AnswerAt> {
        let question = question.into();
        self.answers
            .iter()
            .rev()
            .find(|a| a.test == question && a.arrow_epoch == self.arrow_epoch)
    }

    fn take(&mut self, entry: &Entry) {
        if let Some(said) = RangeSaid::of(&entry.event) {
            self.range.push(RangeAt {
                entry: entry.number,
                day: entry.at.date_naive(),
                said,
            });
        }
        match &entry.event {
            Event::Shot(shot) => self.take_shot(entry, shot),
            Event::Move {
                steps, confirms, ..
            } => self.take_move((entry.number, entry.number), steps, *confirms),
            Event::Pending { steps } => {
                self.pending = Some(Pending {
                    entry: entry.number,
                    steps: steps.clone(),
                });
            }
            Event::NotMade { .. } => self.pending = None,
            Event::Card { set, taken } => {
                let taken = taken.as_ref().and_then(Said::known);
                self.take_card(entry.number, set, taken);
            }
            Event::Answer {
                test,
                result,
                detail,
            } => self.answers.push(AnswerAt {
                entry: entry.number,
                test: test.clone(),
                result: result.clone(),
                detail: detail.clone(),
                shots_before: self.shots.len(),
                arrow_epoch: self.arrow_epoch,
            }),
            Event::Incident { what } => {
                self.incidents.push(IncidentAt {
                    entry: entry.number,
                    what: what.clone(),
                });
            }
            Event::Restart { setting, .. } => self.take_restart(entry.number, *setting),
            Event::Prior(prior) => {
                self.learned.clone_from(&prior.learned);
                self.prior = Some(prior.clone());
            }
            Event::Close { how } => self.closed = Some(how.clone()),
            Event::Setup {
                item,
                value,
                result,
            } => {
                self.setup.push(SetupAt {
                    entry: entry.number,
                    item: item.clone(),
                    value: value.clone(),
                    result: result.clone(),
                    positions: self.now,
                    arrow_epoch: self.arrow_epoch,
                });
                if item.known().is_some_and(Self::safety_rests_on) {
                    self.note_stand(entry.number, None);
                }
            }
            Event::Group {
                proof,
                what,
                distance,
                impacts,
            } => self.groups.push(GroupAt {
                entry: entry.number,
                proof: proof.clone(),
                what: what.clone(),
                distance: Length::parse(distance).ok(),
                impacts: impacts.clone(),
                setting: self.setting_index(),
                positions: self.now,
                arrow_epoch: self.arrow_epoch,
            }),
            // A placed move counts where it was placed.
            Event::PlacedMove { .. }
            | Event::HandOver { .. }
            | Event::Note { .. }
            | Event::Undo { .. }
            | Event::Redo { .. } => {}
        }
    }

    fn take_shot(&mut self, entry: &Entry, shot: &Shot) {
        self.closed = None;
        self.shots.push(ShotAt {
            entry: entry.number,
            at: entry.at,
            setting: self.setting_index(),
            positions: self.now,
            epoch: self.epoch,
            arrow_epoch: self.arrow_epoch,
            distance: shot.distance().unwrap_or(self.card.paper.distance),
            shot: shot.clone(),
        });
    }

    fn take_move(&mut self, (number, place): (u32, u32), steps: &[Step], confirms: Option<u32>) {
        self.closed = None;
        self.pending = None;
        let turned = self.note_bolts(steps);
        self.now = self.now.after(steps);
        if turned {
            self.note_stand(place, None);
        }
        for step in steps {
            self.last_way[step.adjuster.index()] = step.amount.signum();
        }
        // Press work, draw weight and brace height change how the whole bow
        // shoots: the mean tear is unknown again, the rest's response is not.
        let reshapes = |s: &Step| {
            self.card.needs_press(s.adjuster)
                || matches!(
                    s.adjuster,
                    AdjusterKind::LimbBolts | AdjusterKind::BraceHeight
                )
        };
        if steps.iter().any(reshapes) {
            self.epoch += 1;
        }
        self.moves.push(MoveAt {
            entry: number,
            place,
            steps: steps.to_vec(),
            shots_before: self.shots.len(),
            confirms,
        });
        self.add_setting(Some(number));
    }

    fn add_setting(&mut self, by_move: Option<u32>) {
        let number = self.settings.len() as u32 + 1;
        self.settings.push(Setting {
            number,
            positions: self.now,
            by_move,
            epoch: self.epoch,
        });
    }

    fn take_restart(&mut self, entry: u32, setting: Option<u32>) {
        self.closed = None;
        self.pending = None;
        if let Some(found) = setting.and_then(|n| self.setting_as_of(entry, n)) {
            let there = found.positions;
            let turned = self.note_bolts(&self.now.steps_to(&there));
            self.now = there;
            if turned {
                self.note_stand(entry, None);
            }
        }
        self.epoch += 1;
        self.add_setting(None);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::PLAIN_COMPOUND;
    use proptest::prelude::*;

    fn card() -> CardText {
        let mut text = CardText::from_toml(PLAIN_COMPOUND).unwrap();
        text.set("rest.click", "0.25 mm").unwrap();
        text
    }

    fn entries(events: Vec<Event>) -> Vec<Entry> {
        // One fixed moment: what is compared must not depend on the clock.
        let at = "2026-03-02T10:15:00+00:00".parse().unwrap();
        (1..)
            .zip(events)
            .map(|(number, event)| Entry {
                together: None,
                number,
                at,
                event,
            })
            .collect()
    }

    fn shot(right: f64) -> Event {
        Event::Shot(Shot {
            right,
            ..Shot::default()
        })
    }

    fn left(mm: f64) -> Event {
        Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: -mm,
            }],
            said: None,
            confirms: None,
        }
    }

    fn of(events: Vec<Event>) -> Timeline {
        Timeline::new(&card(), &entries(events)).unwrap()
    }

    #[test]
    fn shots_belong_to_the_setting_they_were_shot_at() {
        let t = of(vec![shot(9.0), shot(8.0), left(1.5), shot(4.0), left(0.5)]);
        let settings: Vec<usize> = t.shots.iter().map(|s| s.setting).collect();
        assert_eq!(settings, [0, 0, 1]);
        assert_eq!(t.settings.len(), 3);
        assert_eq!(t.now.get(AdjusterKind::RestSideways), -2.0);
        assert_eq!(t.shots_here().count(), 0);
    }

    #[test]
    fn undo_takes_back_the_latest_and_redo_brings_it_again() {
        let t = of(vec![
            shot(9.0),
            left(1.5),
            shot(4.0),
            Event::Undo { target: 3 },
            Event::Undo { target: 2 },
        ]);
        assert_eq!((t.shots.len(), t.settings.len()), (1, 1));
        assert_eq!((t.can_undo, t.can_redo), (Some(1), Some(2)));
        let t = of(vec![
            shot(9.0),
            left(1.5),
            Event::Undo { target: 2 },
            Event::Redo { target: 2 },
        ]);
        assert_eq!((t.settings.len(), t.can_redo), (2, None));
        let t = of(vec![shot(9.0), Event::Undo { target: 1 }, shot(8.0)]);
        assert_eq!((t.shots.len(), t.can_redo), (1, None));
    }

    #[test]
    fn a_changed_arrow_restarts_the_mean_and_the_arrow_type() {
        let set = std::collections::BTreeMap::from([(
            "arrow.point_mass".to_owned(),
            "100 gr".to_owned(),
        )]);
        let t = of(vec![shot(9.0), Event::card(set), shot(5.0)]);
        assert_eq!((t.shots[0].epoch, t.shots[1].epoch), (0, 1));
        assert_eq!((t.shots[0].arrow_epoch, t.shots[1].arrow_epoch), (0, 1));
        assert_eq!(t.card.arrow.point_mass.grains().round(), 100.0);
    }

    #[test]
    fn a_restart_at_a_setting_puts_the_rest_there() {
        let t = of(vec![
            shot(9.0),
            left(1.5),
            shot(5.0),
            left(1.0),
            Event::Restart {
                setting: Some(2),
                why: None,
            },
        ]);
        assert_eq!(t.now.get(AdjusterKind::RestSideways), -1.5);
        assert_eq!(t.epoch, 1);
    }

    #[test]
    fn press_work_forgets_the_mean_but_not_where_the_rest_is() {
        let yoke = Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::YokeTwist,
                amount: 0.5,
            }],
            said: None,
            confirms: None,
        };
        let t = of(vec![shot(9.0), left(1.5), yoke, shot(3.0)]);
        assert_eq!(t.epoch, 1);
        assert_eq!(t.now.get(AdjusterKind::RestSideways), -1.5);
    }

    fn any_event() -> impl Strategy<Value = Event> {
        prop_oneof![
            (-20i32..20).prop_map(|r| shot(f64::from(r))),
            (1i32..8).prop_map(|c| left(f64::from(c) * 0.25)),
            Just(Event::Note { text: "x".into() }),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]
        #[test]
        fn undo_then_redo_is_the_identity(events in prop::collection::vec(any_event(), 1..12)) {
            let before = of(events.clone());
            let target = before.can_undo.unwrap();
            let mut more = events;
            more.extend([Event::Undo { target }, Event::Redo { target }]);
            let after = of(more);
            prop_assert_eq!(&before.shots, &after.shots);
            prop_assert_eq!(&before.settings, &after.settings);
            prop_assert_eq!(before.now, after.now);
        }
    }
}
