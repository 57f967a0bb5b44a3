//! The console on a virtual bow: its shots, its tests, its end.

use super::model::Look;
use super::names::Name;
use super::state::App;
use super::view::reveal::RevealScreen;
use super::wording;
use crate::actions::Action;
use crate::advice::{ProbeKind, Verdict};
use crate::practice::{Conclusion, Job, Practice};
use crate::question::{Answer, Question};
use crate::session::{Entry, Event, Session, files, whole_file};
use crate::tear::Hole;

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
pub fn new_seed() -> u64 {
    // The clock is enough: it only has to differ from one bow to the next.
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    now.map_or(1, |t| t.as_millis() as u64 % 100_000)
}

impl App {
    /// Leaves the session on screen, which is on disk if it is on a file, for
    /// a practice bow.
    pub(super) fn begin_practice(&mut self, seed: u64, level: u8) {
        self.put_down();
        let look = self.look.clone();
        *self = begin(seed, level, look);
    }

    fn welcome(&mut self, practice: Practice) {
        let card = &self.timeline().card;
        let owner = card.job.owner.clone().unwrap_or_default();
        let bow = card.bow.name.clone().unwrap_or_default();
        let reason = card.job.reason.clone().unwrap_or_default();
        let [shoot, practise] = [Action::Shot, Action::Practice].map(|a| self.look.keymap.first(a));
        let level = practice.level();
        self.practice = Some(practice);
        self.say(format!(
            "PRACTICE, level {level}: {owner} brings a {bow} ({reason}). Something is wrong with it. \
             {shoot} shoots it through paper; follow the verdict or do as you think; \
             {practise} has tests, cures, and takes your answer."
        ));
    }

    /// What the console says to a tear typed in practice.
    pub(super) fn practice_reads(&mut self) {
        let shoot = self.look.keymap.first(Action::Shot);
        self.say(format!(
            "in practice the paper is read for you: {shoot} shoots"
        ));
    }

    /// Shoots the virtual bow once and records what the paper shows.
    pub(super) fn practice_shot(&mut self) {
        if let Some(stop) = crate::advice::stopped(self.timeline()) {
            return self.complain(crate::words::stop_line(&stop));
        }
        let mirrored = std::mem::take(&mut self.next.mirrored);
        let asked = self.shot(&Hole::default(), "");
        self.next.mirrored = mirrored;
        let asked = match asked {
            Ok(asked) => asked,
            Err(two) => return self.complain(two.to_string()),
        };
        let Some(practice) = &mut self.model.practice else {
            return;
        };
        let shot = practice.shoot_as(self.model.session.timeline(), asked);
        let words = wording::shot(&shot, self.system);
        match self.record(Event::Shot(shot)) {
            Ok(_) => {
                self.next.called_bad = false;
                let key = self.look.keymap.first(Action::Practice);
                let more = match self.analysis.advice.verdict {
                    Verdict::Done => format!(". If you think it is tuned, {key} takes your answer"),
                    Verdict::Refuse => {
                        let next = self.look.keymap.first(Action::Answer);
                        format!(". {next}: troubleshooting; {key}: tests, cures, your answer")
                    }
                    _ => String::new(),
                };
                self.say(format!("through the paper: {words}{more}"));
            }
            Err(problem) => self.complain(problem),
        }
    }

    /// A test that is asked, answered by what is true of the bow.
    pub(super) fn practice_answer(&mut self, kind: ProbeKind) {
        if kind == ProbeKind::Contact {
            return self.practice_job(Job::Powder);
        }
        let timeline = self.session.timeline();
        let practice = self.practice.as_ref();
        let found = kind
            .test()
            .and_then(|test| Some((test, practice?.answer(test, timeline)?)));
        let Some((test, result)) = found else {
            return self.complain("this bow has no answer to that test");
        };
        let words = format!("{test}: {result}");
        match self.record(Event::Answer {
            test: Question::Test(test).into(),
            result: result.into(),
            detail: None,
        }) {
            Ok(_) => self.say(words),
            Err(problem) => self.complain(problem),
        }
    }

    /// Does a job at the bench and records what came of it.
    pub(super) fn practice_job(&mut self, job: Job) {
        let Some(practice) = &mut self.model.practice else {
            return;
        };
        let found = practice.work(job, self.model.session.timeline());
        if !found.events.is_empty()
            && let Err(problem) = self.record_together(found.events)
        {
            return self.complain(problem);
        }
        if let Err(error) = crate::advice::prior::refresh(&mut self.session) {
            return self.complain(error.to_string());
        }
        self.refresh();
        self.say(found.words);
    }

    /// On the demo: what was wrong with its bow, once it is tuned; before
    /// that the way to another bow.
    pub(super) fn show_what_was_wrong(&mut self) {
        if self.analysis.advice.verdict != Verdict::Done {
            return self.show(Name::Practice);
        }
        self.end_first_steps();
        self.show(Name::Reveal(Conclusion::Tuned));
    }

    /// Takes the player's answer and shows what was wrong.
    pub(super) fn conclude(&self, said: Conclusion) -> Option<RevealScreen> {
        let practice = self.practice.as_ref()?;
        Some(RevealScreen::new(practice.reveal(said, self.timeline())))
    }

    /// Keeps the practice session as it stands as a file of its own.
    pub(super) fn save_practice(&mut self, name: &str) -> Result<String, String> {
        let path = self.new_path(name);
        let session: &Session = &self.session;
        let card = self.practice.as_ref().map(Practice::card);
        let card = card.unwrap_or_else(|| session.first_card());
        let mut entries = session.entries().to_vec();
        // So that no later session takes the virtual bow for one of the folder's.
        let next = entries.last().map_or(1, |e| e.number + 1);
        entries.push(Entry::now(
            next,
            Event::Answer {
                test: Question::Practice.into(),
                result: Answer::Virtual.into(),
                detail: None,
            },
        ));
        let text = whole_file(card, &entries);
        files::create(&path, text.as_bytes()).map_err(|e| files::explain(&e))?;
        Ok(path.display().to_string())
    }
}
