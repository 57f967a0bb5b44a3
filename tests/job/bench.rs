//! A bench for whole jobs: a session in memory, and a made-up bow that
//! answers to its adjusters in a straight line.

use tearbench::advice::{self, Analysis, Verdict};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::proof::{self, FaceUnit, Stage};
use tearbench::range::Today;
use tearbench::report::{self, Format, Options};
use tearbench::session::{Event, Session, Shot, Timeline};
use tearbench::setup::{self, Measure};
use tearbench::step::State;
use tearbench::units::System;

/// How the made-up bow answers, mm.
pub struct Bow {
    /// Mean tear at the start.
    pub start: (f64, f64),
    /// Tear for each unit of the sideways adjuster.
    pub sideways: f64,
    /// Tear for each unit of the vertical adjuster.
    pub vertical: f64,
    /// Size of the scatter.
    pub scatter: f64,
}

/// What a turn firmer does to the tear of a right-handed bow, mm.
const TURN: f64 = 5.0;

const SCATTER: [(f64, f64); 6] = [
    (1.0, -1.0),
    (-1.5, 0.0),
    (0.0, 1.5),
    (1.5, -0.5),
    (-1.0, 0.0),
    (0.0, 0.0),
];

/// The session with its bow.
pub struct Bench {
    pub session: Session,
    pub bow: Bow,
    pub system: System,
}

impl Bench {
    pub fn new(card: &str, bow: Bow) -> Self {
        let session = Session::from_text(card).unwrap();
        let system = session.timeline().card.paper.system;
        Self {
            session,
            bow,
            system,
        }
    }

    pub fn timeline(&self) -> &Timeline {
        self.session.timeline()
    }

    pub fn analysis(&self) -> Analysis {
        advice::analyse(self.timeline(), Today::now())
    }

    pub fn record(&mut self, event: Event) {
        self.session.record(event).unwrap();
    }

    pub fn answer(&mut self, test: &str, result: &str) {
        self.record(Event::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        });
    }

    pub fn measure(&mut self, item: &str, value: &str) -> State {
        let event = setup::record(self.timeline(), item, value).unwrap_or_else(|e| panic!("{e}"));
        self.record(event);
        self.state(item)
    }

    pub fn state(&self, item: &str) -> State {
        let list = setup::checklist(self.timeline());
        list.into_iter()
            .find(|s| s.item.id.id() == item)
            .unwrap()
            .state
    }

    /// Goes through the list as it comes: the figures given, all else by eye.
    pub fn go_through_the_list(&mut self, figures: &[(&str, &str)]) {
        for _ in 0..60 {
            let list = setup::checklist(self.timeline());
            let Some(next) = setup::next_open(&list) else {
                return;
            };
            let (id, measure) = (next.item.id.id(), next.item.measure);
            match figures.iter().find(|(item, _)| *item == id) {
                Some((_, value)) => {
                    self.measure(id, value);
                }
                None if measure == Measure::Look || !next.item.gate => {
                    let event = setup::by_word(self.timeline(), id, true).unwrap();
                    self.record(event);
                }
                None => panic!("{id} wants a figure"),
            }
        }
        panic!("the list does not end");
    }

    /// The tear the bow shoots where it stands.
    pub fn shoot(&mut self) {
        let timeline = self.timeline();
        let at = |kind: Option<AdjusterKind>| kind.map_or(0.0, |k| timeline.now.get(k));
        let card = &timeline.card;
        let scatter = SCATTER[timeline.shots.len() % SCATTER.len()];
        let right = self.bow.start.0
            + self.bow.sideways * at(card.sideways().map(|a| a.kind))
            + TURN * at(Some(AdjusterKind::PlungerTension))
            + self.bow.scatter * scatter.0;
        let up = self.bow.start.1
            + self.bow.vertical * at(card.vertical().map(|a| a.kind))
            + self.bow.scatter * scatter.1;
        self.record(Event::Shot(Shot {
            right: right.round(),
            up: up.round(),
            ..Shot::default()
        }));
    }

    /// Follows the advice until it says done. Returns shots and moves it took.
    pub fn paper(&mut self) -> (usize, usize) {
        for _ in 0..60 {
            let advice = self.analysis().advice;
            match advice.verdict {
                Verdict::Done => {
                    return (self.timeline().shots.len(), self.timeline().moves.len());
                }
                Verdict::Move => {
                    let steps: Vec<Step> = advice.movement.unwrap().moves();
                    self.record(Event::Pending {
                        steps: steps.clone(),
                    });
                    let confirms = self.timeline().pending.as_ref().map(|p| p.entry);
                    self.record(Event::Move {
                        steps,
                        said: None,
                        confirms,
                    });
                    self.shoot();
                }
                Verdict::Probe => {
                    let probe = advice.probe.unwrap();
                    match probe.answers.first() {
                        Some(harmless) => self.answer(probe.kind.id(), harmless.id()),
                        None => self.shoot(),
                    }
                }
                Verdict::Shoot => self.shoot(),
                Verdict::Refuse | Verdict::Stop => {
                    panic!("it refuses: {:?}", advice.headline)
                }
            }
        }
        panic!("not inside after {} shots", self.timeline().shots.len());
    }

    pub fn group(&mut self, stage: Stage, what: &str, distance: &str, impacts: &str) {
        let event = proof::record_group(stage, &what.into(), distance, impacts, FaceUnit::Cm);
        self.record(event.unwrap_or_else(|e| panic!("{e}")));
    }

    pub fn proof(&self, stage: Stage) -> proof::StageVerdict {
        proof::assess(self.timeline(), &self.analysis(), stage)
    }

    pub fn next_stage(&self) -> Option<Stage> {
        let all = proof::stages(self.timeline(), &self.analysis());
        proof::next_stage(&all).map(|s| s.verdict.stage)
    }

    pub fn passes(&self, stage: Stage) {
        let verdict = self.proof(stage);
        assert_eq!(verdict.status, State::Ok, "{stage:?}: {:?}", verdict.found);
    }

    pub fn sheet(&self, format: Format) -> String {
        let options = Options {
            system: self.system,
            contact: false,
        };
        report::render(self.timeline(), &self.analysis(), format, &options)
    }
}
