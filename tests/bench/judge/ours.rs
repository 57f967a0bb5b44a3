//! The program as a user follows it: what `advise` says is done, a shot when
//! it says shoot, the move it shows, the test it asks for, until it ends.

use super::bow::{Bench, Powder, Shape};
use super::policy::{CAP, End};
use super::rng::Rng;
use super::world::Kind;
use tearbench::advice::view::View;
use tearbench::advice::{Advice, ProbeKind, Verdict, advise};
use tearbench::belief::Belief;
use tearbench::gear::{AdjusterKind, CardText, Step};
use tearbench::physics::prior::{DRAWS, MODEL_VERSION};
use tearbench::question::{Answer, Refusal};
use tearbench::range::Today;
use tearbench::session::{Event, LearnedRecord, PriorGain, PriorRecord, Session, Shot};
use tearbench::tuner::{Choice, Track, choose};
use tearbench::units::System;

/// Verdicts after which a run that does not end is given up.
const MOST_VERDICTS: usize = 200;
/// Share of contact tests that are misread.
const MISREAD: f64 = 0.1;

/// How a run went, beside its end.
#[derive(Clone, Copy, Default, Debug)]
pub struct Ran {
    /// Chance stated where it ended as done.
    pub stated: f64,
    /// Moves made right after another, no shot between.
    pub without_shot: usize,
    /// Moves made before any setting had been shot twice.
    pub before_repeat: usize,
    /// Tests asked for.
    pub probes: usize,
}

/// Settings of a run.
#[derive(Clone, Copy)]
pub struct Style {
    /// The chance asked for.
    pub level: f64,
    /// `None` follows the program. A number asks the tuner alone, as if the
    /// archer were judged by so many shots at the first setting: what that
    /// rule costs.
    pub first_shots: Option<usize>,
}

pub const USUAL: Style = Style {
    level: 0.95,
    first_shots: None,
};

const COMPOUND: &str = include_str!("../../scenarios/cards/compound.toml");
const RECURVE: &str = include_str!("../../scenarios/cards/recurve.toml");

/// Sideways and vertical adjuster of a kind of bow.
pub const fn adjusters(kind: Kind) -> [AdjusterKind; 2] {
    match kind {
        Kind::Plunger => [AdjusterKind::PlungerTension, AdjusterKind::RestHeight],
        _ => [AdjusterKind::RestSideways, AdjusterKind::RestHeight],
    }
}

/// The card of a bow on the bench: arrows that suit, its own adjusters.
pub fn card(bench: &Bench, kind: Kind, level: f64) -> String {
    let base = if kind == Kind::Aid { COMPOUND } else { RECURVE };
    let mut text = CardText::from_toml(base).expect("a card");
    text.set("paper.sureness", &format!("{} %", 100.0 * level))
        .expect("a field of the card");
    let mut text = text.to_toml();
    for (a, kind) in adjusters(kind).into_iter().enumerate() {
        let (step, range) = (bench.bow.step[a], bench.bow.travel[a]);
        let unit = kind.unit().id();
        text.push_str(&format!(
            "\n[[adjuster]]\nname = \"{}\"\nstep = \"{step} {unit}\"\nrange = \"{range} {unit}\"\n",
            kind.id()
        ));
    }
    text
}

/// One who follows the program on a virtual bow.
struct User<'b, 'w> {
    bench: &'b mut Bench<'w>,
    kind: Kind,
    session: Session,
    eyes: Rng,
    today: Today,
    ran: Ran,
    just_moved: bool,
    looked_twice: bool,
}

/// Runs to the end.
pub fn run(bench: &mut Bench, kind: Kind, style: Style, seed: u64) -> (End, Ran) {
    let text = card(bench, kind, style.level);
    let (end, ran, _) = run_on(bench, kind, style, seed, &text, None);
    (end, ran)
}

/// Runs to the end on this card, with what earlier bows taught; the session as
/// it was left.
pub fn run_on(
    bench: &mut Bench,
    kind: Kind,
    style: Style,
    seed: u64,
    text: &str,
    learned: Option<LearnedRecord>,
) -> (End, Ran, Session) {
    let session = Session::from_text(text).unwrap_or_else(|e| panic!("{text}\n{e:?}"));
    let mut user = User {
        bench,
        kind,
        session,
        eyes: Rng::new(seed ^ 0x00E7_E500),
        today: Today::now(),
        ran: Ran::default(),
        just_moved: false,
        looked_twice: false,
    };
    user.expect();
    if let Some(learned) = learned {
        user.record(Event::Prior(PriorRecord {
            model: MODEL_VERSION,
            seed: 1,
            draws: 0,
            gains: Vec::new(),
            learned: Some(learned),
        }));
    }
    let end = user.follow(style);
    super::failures::tell(user.bench, kind, seed, end, &user.session);
    (end, user.ran, user.session)
}

impl User<'_, '_> {
    /// Keeps what to expect of a bow of the launch model, as a new session
    /// does; `JUDGE_NO_LEAN` leaves it out, to see what it is worth.
    fn expect(&mut self) {
        let engine = self.bench.bow.engine.clone();
        let leans = self.kind == Kind::Aid && std::env::var("JUDGE_NO_LEAN").is_err();
        if let Some(negative) = engine.filter(|_| leans).and_then(|e| e.expected()) {
            let gain = PriorGain {
                adjuster: AdjusterKind::RestSideways,
                mean: 0.0,
                sd: 0.0,
                wander: 0.0,
                negative,
            };
            self.record(Event::Prior(PriorRecord {
                model: MODEL_VERSION,
                seed: 1,
                draws: DRAWS as u32,
                gains: vec![gain],
                learned: None,
            }));
        }
    }

    fn follow(&mut self, style: Style) -> End {
        for _ in 0..MOST_VERDICTS {
            if self.bench.shots >= CAP {
                return End::Unresolved;
            }
            let advice = advise(self.session.timeline(), self.today);
            self.trace(&advice);
            let step = match style.first_shots {
                Some(first) => self.tuner_alone(&advice, first),
                None => self.obey(&advice),
            };
            if let Some(end) = step {
                return end;
            }
        }
        End::NotEnded
    }

    fn obey(&mut self, advice: &Advice) -> Option<End> {
        match advice.verdict {
            Verdict::Shoot => self.shoot(),
            Verdict::Move => {
                let steps = advice
                    .movement
                    .iter()
                    .flat_map(tearbench::advice::MoveAdvice::moves);
                self.make(steps.collect());
            }
            Verdict::Probe => self.test(advice),
            Verdict::Done => {
                self.ran.stated = advice.estimate.probability_within_tolerance.unwrap_or(0.0);
                return Some(End::Done);
            }
            Verdict::Refuse if self.looks_again(advice) => {}
            Verdict::Refuse => return Some(refusal(advice)),
            Verdict::Stop => return Some(End::Other),
        }
        None
    }

    /// The same without the rule that shots repeat before a move: the tuner's
    /// own choice once so many shots stand at the first setting.
    fn tuner_alone(&mut self, advice: &Advice, first: usize) -> Option<End> {
        if matches!(advice.verdict, Verdict::Refuse | Verdict::Probe) || self.bench.shots < first {
            if self.bench.shots == 0 {
                self.shoot();
                return None;
            }
            if self.bench.shots >= first {
                return self.obey(advice);
            }
            self.shoot();
            return None;
        }
        let view = View::of(self.session.timeline());
        let belief = Belief::fit(&view.prior, &view.shots, view.here.shooter);
        let track = Track::count(&view.shots, &view.here, view.here.shooter);
        let decision = choose(&belief, &view.task, &track);
        match decision.choice {
            Choice::Shoot => self.shoot(),
            Choice::Limit => return Some(End::Limit),
            Choice::Done => {
                self.ran.stated = decision.here;
                return Some(End::Done);
            }
            Choice::Move(steps) => {
                let step = |(k, n): &(usize, i32)| Step {
                    adjuster: view.kinds[*k],
                    amount: f64::from(*n) * view.task.adjusters[*k].step,
                };
                self.make(steps.iter().map(step).collect());
            }
        }
        None
    }

    fn record(&mut self, event: Event) {
        self.session.record(event).expect("an entry that applies");
    }

    fn shoot(&mut self) {
        let [right, up] = self.bench.shoot();
        self.just_moved = false;
        self.record(Event::Shot(Shot {
            right,
            up,
            ..Shot::default()
        }));
    }

    fn make(&mut self, steps: Vec<Step>) {
        let kinds = adjusters(self.kind);
        let mut to = self.bench.x;
        for step in &steps {
            let a = kinds
                .iter()
                .position(|k| *k == step.adjuster)
                .unwrap_or_else(|| panic!("this bow has no {:?}", step.adjuster));
            to[a] += step.amount;
        }
        self.ran.without_shot += usize::from(self.just_moved);
        let settings = &self.session.timeline().shots;
        let twice = settings
            .iter()
            .any(|s| settings.iter().filter(|o| o.setting == s.setting).count() > 1);
        self.ran.before_repeat += usize::from(!twice);
        self.just_moved = true;
        self.bench.go(to);
        self.record(Event::Move {
            steps,
            said: None,
            confirms: None,
        });
    }

    fn test(&mut self, advice: &Advice) {
        let Some(probe) = &advice.probe else { return };
        self.ran.probes += 1;
        let result = match probe.kind {
            ProbeKind::Contact => self.powder(&probe.answers),
            // Nothing else is wrong with these bows: the harmless answer.
            _ => probe.answers.first().copied().unwrap_or(Answer::None),
        };
        let test = probe.kind.id();
        self.record(Event::Answer {
            test: test.into(),
            result: result.into(),
            detail: None,
        });
    }

    /// Contact found is cleared and looked for once more, as the program
    /// says: it is given up where it shows again.
    fn looks_again(&mut self, advice: &Advice) -> bool {
        let contact = advice.refusal == Some(Refusal::Contact);
        let again = contact && !self.looked_twice;
        if again {
            self.looked_twice = true;
            self.bench.cleared = true;
            let result = self.powder(&[Answer::None, Answer::Other]);
            self.record(Event::Answer {
                test: "contact".into(),
                result: result.into(),
                detail: None,
            });
        }
        again
    }

    /// What powder shows, misread one time in ten.
    fn powder(&mut self, answers: &[Answer]) -> Answer {
        if answers.contains(&Answer::Button) {
            return match self.bench.powder() {
                Powder::Clean => Answer::None,
                Powder::Slap => Answer::Button,
            };
        }
        if !self.bench.bow.looks {
            return Answer::None;
        }
        let misread = self.eyes.chance(MISREAD);
        match touches(self.bench) != misread {
            true => Answer::Other,
            false => Answer::None,
        }
    }

    fn trace(&self, advice: &Advice) {
        if std::env::var("JUDGE_TRACE").is_ok() {
            let shots = &self.session.timeline().shots;
            let last = shots.last().map(|s| (s.shot.right, s.shot.up));
            let e = &advice.estimate;
            let (tear, chance) = (e.tear_mm, e.probability_within_tolerance);
            let tear = tear.map(|t| format!("{:.1} {:.1} +- {:.1}", t.right, t.up, t.sd));
            let gains: Vec<String> = e
                .gain
                .values()
                .map(|g| format!("{:.1}+-{:.1} ({:.2})", g.mean, g.sd, g.probability_negative))
                .collect();
            let engine = self.bench.bow.engine.as_ref();
            let against = engine.and_then(|e| e.expected());
            eprintln!(
                "   x {:?} last {last:?} tear {tear:?} chance {chance:.2?} gains {gains:?} by the card against {against:.2?} -> {} {}",
                self.bench.x,
                tearbench::words::title(advice),
                tearbench::words::headline(advice, System::Mm)
            );
        }
    }
}

/// Whether the vanes touch at this setting.
fn touches(bench: &Bench) -> bool {
    let knocks = bench.bow.knock > 0.0 && !bench.cleared;
    knocks
        || (0..2).any(|a| match bench.bow.shape[a] {
            Shape::Contact { at, .. } => (bench.x[a] - at) * at.signum() > 0.0,
            _ => false,
        })
}

const fn refusal(advice: &Advice) -> End {
    match advice.refusal {
        Some(Refusal::Scatter) => End::Scatter,
        Some(Refusal::NoResponse) => End::Dead,
        Some(Refusal::Jumps) => End::Jumps,
        Some(Refusal::TravelLimit) => End::Limit,
        Some(Refusal::HugeTear) => End::Huge,
        _ => End::Other,
    }
}
