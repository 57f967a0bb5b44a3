//! Paths after a refusal: one question or test at a time, in the trade's
//! order, cheap and reversible before costly.
//!
//! [`next_step`] reads the answers recorded so far and gives the next step; a
//! path ends in "resume" or "fix this first". The answers are ordinary
//! entries, so they feed the checks and stay on the record. Nothing here
//! waives safety: an incident ends only when every part was looked at.

mod incident;
mod node;
mod nodes;
mod offer_words;
mod offers;
mod paths;
mod scatter;
mod spine;
mod walk;

pub use incident::{Inspect, check_answer, found, inspection, still_open};
pub use offers::{Offer, cut_wants_a_mark, offers, offers_now};
pub use scatter::shots_to_convince;
#[cfg(test)]
pub(crate) use walk::texts;
pub use walk::{known_answers, next_step};

use crate::advice::Analysis;
use crate::question::{Answer, Question, Refusal, Said, Test};
use crate::restore::PutBack;
use crate::session::{Event, Timeline};

impl Refusal {
    /// Why this advice refuses, if it does.
    pub const fn of(analysis: &Analysis) -> Option<Self> {
        analysis.advice.refusal
    }

    /// What the path is called.
    pub const fn title(self) -> &'static str {
        match self {
            Self::SpineWeak => "The arrow is too weak",
            Self::SpineStiff => "The arrow is too stiff",
            Self::Scatter => "Repeat shots do not agree",
            Self::NoResponse => "The tear does not answer",
            Self::Jumps => "The tear jumps",
            Self::TravelLimit => "The rest went far",
            Self::HugeTear => "The tear is huge",
            Self::NoAdjuster => "Nothing moves it that way",
            Self::Contact => "Something touches the arrow",
            Self::Incident => "Inspection after an incident",
            Self::TooLight => "The arrow is too light",
            Self::TooShort => "The arrow is too short",
            Self::FarTooWeak => "The arrow is far too weak",
            Self::WeighFirst => "Weigh the bow first",
            Self::PastLimit => "Past the bow maker's limit",
        }
    }
}

/// What a step asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ask {
    /// A question answered in a word.
    Question,
    /// A test on the bench or at the line.
    Test,
    /// Something to do, then confirmed.
    Action,
    /// The path is at its end: go on with paper.
    Resume,
    /// The path is at its end: this is to be fixed first.
    FixFirst,
}

/// One possible answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// As it is recorded.
    pub word: Answer,
    /// What it would mean.
    pub means: String,
}

/// One step of a path.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What it is recorded under.
    pub id: Question,
    /// What it asks for.
    pub ask: Ask,
    /// What to do or to ask.
    pub text: String,
    /// Possible answers, the harmless one first; for the two ends the one word that goes on.
    pub answers: Vec<Choice>,
    /// Shots it takes; 0 where none.
    pub shots: u32,
    /// Which step of how many, from 1.
    pub place: (usize, usize),
    /// Moves that go with it: a put-back.
    pub put_back: Option<PutBack>,
    /// Sized remedies that go with it.
    pub offers: Vec<Offer>,
    /// The path it belongs to.
    pub reason: Refusal,
}

impl Step {
    /// The entries that record an answer, in order.
    ///
    /// # Errors
    /// In words, when the answer is none of those asked for.
    pub fn events(
        &self,
        said: impl Into<Said<Answer>>,
        detail: Option<&str>,
    ) -> Result<Vec<Event>, String> {
        let said = said.into();
        let Some(word) = self.answers.iter().map(|a| a.word).find(|w| said == *w) else {
            let known: Vec<&str> = self.answers.iter().map(|a| a.word.id()).collect();
            return Err(format!(
                "'{}' is no answer here; answer {}",
                crate::units::clean(&said.word()),
                known.join(", ")
            ));
        };
        let answer = Event::Answer {
            test: self.id.into(),
            result: word.into(),
            detail: detail.map(Into::into),
        };
        let mut events = vec![answer];
        if let (Some(back), Answer::Done) = (&self.put_back, word)
            && !back.is_there()
        {
            events.insert(
                0,
                Event::Move {
                    steps: back.moves(),
                    said: Some(format!("put back to {}", crate::words::target(back.target))),
                    confirms: None,
                },
            );
        }
        if (self.id, word) == (Test::WeighBow.into(), Answer::AsCard) {
            let set = [("bow.weighed".to_owned(), "true".to_owned())].into();
            events.push(Event::card(set));
        }
        // Once it is fixed there is nothing more to ask: paper goes on. Only
        // after an incident the part is looked at again first.
        let fixed = self.ask == Ask::FixFirst && word == Answer::Done;
        let goes_on = self.ask == Ask::Resume || fixed;
        if fixed && self.reason != Refusal::Incident {
            events.push(Event::Answer {
                test: Question::Path(self.reason).into(),
                result: Answer::Resume.into(),
                detail: None,
            });
        }
        if goes_on && self.reason != Refusal::Incident {
            events.push(Event::Restart {
                setting: None,
                why: Some(format!("after: {}", self.reason.title())),
            });
        }
        Ok(events)
    }
}

/// Where a path stands, in one line: `step 3 of 7`.
pub fn progress(timeline: &Timeline, reason: Refusal) -> Option<String> {
    next_step(timeline, reason).map(|step| match step.ask {
        Ask::Resume => "at its end: resume".into(),
        Ask::FixFirst => "at its end: fix this first".into(),
        _ => format!("step {} of {}", step.place.0, step.place.1),
    })
}
