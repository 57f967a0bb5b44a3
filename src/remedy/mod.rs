//! Paths after a refusal: one question or test at a time, in the trade's
//! order, cheap and reversible before costly.
//!
//! [`next_step`] reads the answers recorded so far and gives the next step; a
//! path ends in "resume" or "fix this first". The answers are ordinary
//! entries, so they feed the checks and stay on the record. Nothing here
//! waives safety: an incident ends only when every part was looked at.

mod incident;
mod node;
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

use crate::advice::{Analysis, Verdict};
use crate::restore::PutBack;
use crate::session::{Event, Timeline};

/// Why the rest is to be left alone, or the bow not shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// The arrow is too weak for the bow.
    SpineWeak,
    /// The arrow is too stiff, shot with fingers.
    SpineStiff,
    /// Repeat shots do not agree.
    Scatter,
    /// The rest does nothing.
    NoResponse,
    /// The mean jumps between moves.
    Jumps,
    /// The rest's travel does not reach.
    TravelLimit,
    /// The tear is too large for the rest.
    HugeTear,
    /// The bow has no adjuster that way.
    NoAdjuster,
    /// Something touches the arrow.
    Contact,
    /// A safety incident.
    Incident,
    /// The arrow is too light for the bow.
    TooLight,
    /// The arrow is too short for the draw.
    TooShort,
    /// The arrow is too weak to be shot at all.
    FarTooWeak,
    /// The draw weight is not known since the limb bolts were moved.
    WeighFirst,
    /// Limb bolts or draw weight are past the bow maker's limit.
    PastLimit,
}

impl Reason {
    /// Every reason.
    pub const ALL: [Self; 15] = [
        Self::Incident,
        Self::PastLimit,
        Self::WeighFirst,
        Self::TooLight,
        Self::TooShort,
        Self::FarTooWeak,
        Self::SpineWeak,
        Self::SpineStiff,
        Self::Scatter,
        Self::Contact,
        Self::NoResponse,
        Self::Jumps,
        Self::TravelLimit,
        Self::HugeTear,
        Self::NoAdjuster,
    ];

    /// The code of the reason in the advice.
    pub const fn code(self) -> &'static str {
        match self {
            Self::SpineWeak => "spine-weak",
            Self::SpineStiff => "spine-stiff",
            Self::Scatter => "scatter",
            Self::NoResponse => "no-response",
            Self::Jumps => "jumps",
            Self::TravelLimit => "travel",
            Self::HugeTear => "huge-tear",
            Self::NoAdjuster => "no-adjuster",
            Self::Contact => "contact",
            Self::Incident => "incident",
            Self::TooLight => "arrow-too-light",
            Self::TooShort => "arrow-too-short",
            Self::FarTooWeak => "arrow-far-too-weak",
            Self::WeighFirst => "weigh-first",
            Self::PastLimit => "past-maker-limit",
        }
    }

    /// The reason with this code.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|r| r.code() == code)
    }

    /// Why this advice refuses, if it does.
    pub fn of(analysis: &Analysis) -> Option<Self> {
        let refuses = matches!(analysis.advice.verdict, Verdict::Refuse | Verdict::Stop);
        refuses
            .then(|| {
                analysis
                    .advice
                    .reasons
                    .iter()
                    .find_map(|r| Self::from_code(r.code))
            })
            .flatten()
    }

    /// Whether only the card lifts it: no answer does.
    pub const fn of_the_card(self) -> bool {
        matches!(
            self,
            Self::SpineWeak
                | Self::SpineStiff
                | Self::TooLight
                | Self::TooShort
                | Self::WeighFirst
                | Self::PastLimit
                | Self::FarTooWeak
        )
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

    /// The test under which the start and end of this path are recorded.
    pub fn marker(self) -> String {
        format!("remedy-{}", self.code())
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
    pub word: String,
    /// What it would mean.
    pub means: String,
}

/// One step of a path.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The test's name, as recorded.
    pub id: String,
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
    pub reason: Reason,
}

impl Step {
    /// The entries that record an answer, in order.
    ///
    /// # Errors
    /// In words, when the answer is none of those asked for.
    pub fn events(&self, word: &str, detail: Option<&str>) -> Result<Vec<Event>, String> {
        let word = word.trim().to_lowercase();
        if !self.answers.iter().any(|a| a.word == word) {
            let known: Vec<&str> = self.answers.iter().map(|a| a.word.as_str()).collect();
            return Err(format!(
                "'{}' is no answer here; answer {}",
                crate::units::clean(&word),
                known.join(", ")
            ));
        }
        let answer = Event::Answer {
            test: self.id.clone(),
            result: word.clone(),
            detail: detail.map(Into::into),
        };
        let mut events = vec![answer];
        if let (Some(back), "done") = (&self.put_back, word.as_str())
            && !back.steps.is_empty()
        {
            events.insert(
                0,
                Event::Move {
                    steps: back.moves(),
                    said: Some(format!("put back to {}", back.target.words())),
                    confirms: None,
                },
            );
        }
        if self.id == "weigh-bow" && word == "as-card" {
            let set = [("bow.weighed".to_owned(), "true".to_owned())].into();
            events.push(Event::Card { set });
        }
        // Once it is fixed there is nothing more to ask: paper goes on. Only
        // after an incident the part is looked at again first.
        let fixed = self.ask == Ask::FixFirst && word == "done";
        let goes_on = self.ask == Ask::Resume || fixed;
        if fixed && self.reason != Reason::Incident {
            events.push(Event::Answer {
                test: self.reason.marker(),
                result: "resume".into(),
                detail: None,
            });
        }
        if goes_on && self.reason != Reason::Incident {
            events.push(Event::Restart {
                setting: None,
                why: Some(format!("after: {}", self.reason.title())),
            });
        }
        Ok(events)
    }
}

/// Where a path stands, in one line: `step 3 of 7`.
pub fn progress(timeline: &Timeline, reason: Reason) -> Option<String> {
    next_step(timeline, reason).map(|step| match step.ask {
        Ask::Resume => "at its end: resume".into(),
        Ask::FixFirst => "at its end: fix this first".into(),
        _ => format!("step {} of {}", step.place.0, step.place.1),
    })
}
