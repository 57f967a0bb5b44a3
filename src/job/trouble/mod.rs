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
mod offered;
mod offers;
mod paths;
mod says;
mod walk;

pub use incident::inspected;
pub(crate) use incident::{PartRefused, check_answer, found, put_right};
pub use offered::{Leaves, Offer, OfferKind, Offered, Taken};
pub(crate) use offers::offers;
pub use offers::{cut_wants_a_mark, offers_now};
pub use paths::shots_to_convince;
pub(crate) use says::{Asked, End, Fix, NoSuchArrow, Resumed, Says};
#[cfg(test)]
pub(crate) use walk::all_steps;
pub(crate) use walk::known_answers;
pub use walk::next_step;

use crate::advice::Analysis;
use crate::cautions::Caution;
use crate::question::{Answer, Question, Refusal, Said, Test};
use crate::restore::PutBack;
use crate::session::Event;

impl Refusal {
    /// Why this advice refuses, if it does.
    pub const fn of(analysis: &Analysis) -> Option<Self> {
        analysis.advice.refusal
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

/// One step of a path.
#[derive(Debug, Clone, PartialEq)]
pub struct PathStep {
    /// What it is recorded under.
    pub id: Question,
    /// What it asks for.
    pub ask: Ask,
    /// The caution that stands before it.
    pub caution: Option<Caution>,
    /// What to do or to ask.
    pub(crate) says: Says,
    /// Possible answers, the harmless one first; for the two ends the one word that goes on.
    pub answers: Vec<Answer>,
    /// Shots it takes; 0 where none.
    pub shots: u32,
    /// Which step of how many, from 1.
    pub place: (usize, usize),
    /// Moves that go with it: a put-back.
    pub put_back: Option<PutBack>,
    /// Sized remedies that go with it.
    pub offers: Vec<Offer>,
    /// The path it belongs to.
    pub(crate) reason: Refusal,
}

/// What was said answers no step; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoAnswer {
    /// What was said.
    pub said: Said<Answer>,
    /// What the step asks for.
    pub answers: Vec<Answer>,
}

impl PathStep {
    /// A step without answers yet; its place is known once its path is.
    const fn new(reason: Refusal, id: Question, ask: Ask, says: Says) -> Self {
        Self {
            id,
            ask,
            caution: None,
            says,
            answers: Vec::new(),
            shots: 0,
            place: (1, 1),
            put_back: None,
            offers: Vec::new(),
            reason,
        }
    }
    /// The entries that record an answer, in order.
    ///
    /// # Errors
    /// When the answer is none of those asked for.
    pub fn events(
        &self,
        said: impl Into<Said<Answer>>,
        detail: Option<&str>,
    ) -> Result<Vec<Event>, NoAnswer> {
        let said = said.into();
        let Some(word) = self.answers.iter().copied().find(|w| said == *w) else {
            return Err(NoAnswer {
                said,
                answers: self.answers.clone(),
            });
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
                    said: Some(format!("put back to {}", back.target)),
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
            events.push(Event::answer(Question::Path(self.reason), Answer::Resume));
        }
        if goes_on && self.reason != Refusal::Incident {
            events.push(Event::Restart {
                setting: None,
                why: Some(format!("after: {}", self.reason)),
            });
        }
        Ok(events)
    }
}
