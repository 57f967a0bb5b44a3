//! The console on a virtual bow: its shots, its tests, its end.

use crate::actions::Action;
use crate::advice::{ProbeKind, Verdict};
use crate::practice::standing::Level;
use crate::practice::{Conclusion, Guess, Job, Practice, tell};
use crate::question::{Answer, Question, Refusal};
use crate::session::{Entry, Event, Session, files, whole_file};
use crate::tear::Hole;
use crate::tui::app::App;
use crate::tui::model::Look;
use crate::tui::names::Name;
use crate::tui::wording;
use crate::words::practice as says;

/// A console on the practice bow of a seed and a level.
pub fn begin(seed: u64, level: u8, look: Look) -> App {
    let practice = Practice::new(seed, level);
    let mut app = App::new(
        practice.session(),
        false,
        crate::advice::analyse_after,
        look,
    );
    app.welcome(practice);
    app
}

/// A seed nobody chose.
pub(crate) fn new_seed() -> u64 {
    // The clock is enough: it only has to differ from one bow to the next.
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    now.map_or(1, |t| t.as_millis() as u64 % 100_000)
}

impl App {
    /// Leaves the session on screen, which is on disk if it is on a file, for
    /// a practice bow.
    pub(in crate::tui) fn begin_practice(&mut self, seed: u64, level: u8) {
        self.put_down();
        let look = self.model.look.clone();
        *self = begin(seed, level, look);
    }

    /// The same bow from the start: its end is not counted again.
    pub(in crate::tui) fn begin_practice_again(&mut self) {
        let bow = self.model.practice.as_ref();
        let Some((seed, level)) = bow.map(|p| (p.seed(), p.level())) else {
            return;
        };
        self.begin_practice(seed, level);
        self.model.practice = self.model.practice.take().map(Practice::met_before);
    }

    fn welcome(&mut self, practice: Practice) {
        let card = &self.timeline().card;
        let owner = card.job.owner.clone().unwrap_or_default();
        let bow = card.bow.name.clone().unwrap_or_default();
        let reason = card.job.reason.clone().unwrap_or_default();
        let [shoot, practise] =
            [Action::Shot, Action::Practice].map(|a| self.model.look.keymap.first(a));
        let level = practice.level();
        let (standing, damaged) = self.model.practice_standing();
        let mut practice = practice;
        practice.ask_guesses(standing.guess_first);
        self.model.practice = Some(practice);
        self.say(says::welcome(
            level,
            says::Customer {
                owner: &owner,
                bow: &bow,
                reason: &reason,
            },
            [&shoot, &practise],
            damaged,
        ));
    }

    /// Switches the guess before the advice on or off, and keeps that.
    pub(in crate::tui) fn ask_guesses(&mut self, on: bool) {
        let (mut standing, _) = self.model.practice_standing();
        standing.guess_first = on;
        standing.keep(self.model.look.recent.folder());
        if let Some(practice) = &mut self.model.practice {
            practice.ask_guesses(on);
        }
        let key = self.model.by_name(Action::Practice);
        self.say(says::guesses_asked(on, &key));
    }

    /// Asks for the player's guess where the advice is new: a move, or a
    /// refusal that did not stand before.
    pub(in crate::tui) fn ask_guess(&mut self, before: Option<Refusal>) -> bool {
        let advice = &self.model.analysis.advice;
        let new = Guess::is_asked_of(advice)
            && advice.refusal.is_none_or(|now| before != Some(now))
            && self.model.first_steps.is_none()
            && self.model.session.timeline().pending.is_none();
        let model = &mut self.model;
        let timeline = model.session.timeline();
        let asks = new
            && model
                .practice
                .as_mut()
                .is_some_and(|p| p.asks_guesses() && p.may_ask(timeline));
        if asks {
            self.show(Name::Guess);
        }
        asks
    }

    /// Takes the player's guess, and says what the advice is and why.
    pub(in crate::tui) fn take_guess(&mut self, guess: Guess) {
        let model = &mut self.model;
        let advice = &model.analysis.advice;
        let timeline = model.session.timeline();
        let Some(practice) = &mut model.practice else {
            return;
        };
        let guessed = practice.guess(guess, timeline, advice);
        let why = tell::why(advice, timeline).map(|found| says::why(&found));
        let other = (!guessed.as_advised).then(|| self.model.said().headline);
        self.say(says::guessed(guess, other.as_deref(), why.as_deref()));
    }

    /// What the console says to a tear typed in practice.
    pub(in crate::tui) fn practice_reads(&mut self) {
        let shoot = self.model.look.keymap.first(Action::Shot);
        self.say(says::paper_is_read(&shoot));
    }

    /// Shoots the virtual bow once and records what the paper shows.
    pub(in crate::tui) fn practice_shot(&mut self) {
        if let Some(stop) = crate::advice::stopped(self.timeline()) {
            return self.complain(crate::words::stop_line(&stop));
        }
        let mirrored = std::mem::take(&mut self.model.next.mirrored);
        let asked = self.model.shot(&Hole::default(), "");
        self.model.next.mirrored = mirrored;
        let asked = match asked {
            Ok(asked) => asked,
            Err(two) => return self.complain(two.to_string()),
        };
        let before = self.model.analysis.advice.refusal;
        let Some(practice) = &mut self.model.practice else {
            return;
        };
        let shot = practice.shoot_as(self.model.session.timeline(), asked);
        let words = wording::shot(&shot, self.model.system);
        match self.record(Event::Shot(shot)) {
            Ok(_) => {
                self.model.next.called_bad = false;
                let key = self.model.look.keymap.first(Action::Practice);
                let next = self.model.look.keymap.first(Action::Answer);
                let asks = self.ask_guess(before);
                let then = match self.model.analysis.advice.verdict {
                    _ if asks => says::Then::Verdict,
                    // The first steps say so themselves.
                    Verdict::Done if self.model.first_step().is_some() => says::Then::Verdict,
                    Verdict::Done => says::Then::Answer(&key),
                    Verdict::Refuse => says::Then::Troubleshooting(&next, &key),
                    _ => says::Then::Verdict,
                };
                self.say(says::through(&words, then));
            }
            Err(problem) => self.complain(problem),
        }
    }

    /// A test that is asked, answered by what is true of the bow.
    pub(in crate::tui) fn practice_answer(&mut self, kind: ProbeKind) {
        if kind == ProbeKind::Contact {
            return self.practice_job(Job::Powder);
        }
        let timeline = self.model.session.timeline();
        let practice = self.model.practice.as_ref();
        let found = kind
            .test()
            .and_then(|test| Some((test, practice?.answer(test, timeline)?)));
        let Some((test, result)) = found else {
            return self.complain(says::NO_ANSWER);
        };
        let words = format!("{test}: {result}");
        match self.record(Event::answer(Question::Test(test), result)) {
            Ok(_) => self.say(words),
            Err(problem) => self.complain(problem),
        }
    }

    /// Does a job at the bench and records what came of it.
    pub(in crate::tui) fn practice_job(&mut self, job: Job) {
        let stop = crate::advice::stopped(self.timeline());
        if let Some(stop) = stop.filter(|stop| job.waits_for(stop.refusal())) {
            return self.complain(crate::words::stop_line(&stop));
        }
        let Some(practice) = &mut self.model.practice else {
            return;
        };
        let found = practice.work(job, self.model.session.timeline());
        if !found.events.is_empty()
            && let Err(problem) = self.record_together(found.events)
        {
            return self.complain(problem);
        }
        if let Err(error) = crate::advice::prior::refresh(&mut self.model.session) {
            return self.complain(error.to_string());
        }
        self.refresh();
        self.say(says::seen(&found.seen));
    }

    /// On the demo: what was wrong with its bow, once it is tuned; before
    /// that the way to another bow.
    pub(in crate::tui) fn show_what_was_wrong(&mut self) {
        if self.model.analysis.advice.verdict != Verdict::Done {
            return self.show(Name::Practice);
        }
        self.end_first_steps();
        self.show(Name::Reveal(Conclusion::Tuned));
    }

    /// Counts the player's first answer to a bow.
    pub(in crate::tui) fn count_round(&mut self, said: Conclusion) {
        let (mut standing, _) = self.model.practice_standing();
        let model = &mut self.model;
        let Some(practice) = model.practice.as_mut() else {
            return;
        };
        if model.first_steps.is_some() || !practice.counts() {
            return;
        }
        let reveal = practice.reveal(said, model.session.timeline());
        let number = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let round = Level {
            rounds: 1,
            right: u32::from(reveal.right),
            shots: reveal.shots,
            par: reveal.program.shots,
            guesses: number(reveal.guesses.0),
            guesses_right: number(reveal.guesses.1),
        };
        standing.add(practice.level(), &round);
        standing.keep(model.look.recent.folder());
    }

    /// Keeps the practice session as it stands as a file of its own.
    pub(in crate::tui) fn save_practice(&mut self, name: &str) -> Result<String, String> {
        let path = self.model.new_path(name);
        let session: &Session = &self.model.session;
        let card = self.model.practice.as_ref().map(Practice::card);
        let card = card.unwrap_or_else(|| session.first_card());
        let mut entries = session.entries().to_vec();
        // So that no later session takes the virtual bow for one of the folder's.
        let next = entries.last().map_or(1, |e| e.number + 1);
        entries.push(Entry::now(
            next,
            Event::answer(Question::Practice, Answer::Virtual),
        ));
        let text = whole_file(card, &entries);
        files::create(&path, text.as_bytes()).map_err(|e| files::explain(&e))?;
        Ok(path.display().to_string())
    }
}
