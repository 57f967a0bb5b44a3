//! Why an answer after a refusal or an incident is not taken.

use std::fmt;

use crate::question::InspectPart;
use crate::trouble::{NoAnswer, PartRefused};
use crate::units::clean;

const GOOD: &str = InspectPart::GOOD.id();
const BAD: &str = InspectPart::BAD.id();

fn names(parts: &[InspectPart]) -> String {
    let ids: Vec<&str> = parts.iter().map(|part| part.id()).collect();
    ids.join(", ")
}

impl fmt::Display for PartRefused {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoIncident => {
                out.write_str("no incident is open, so no part waits to be looked at")
            }
            Self::OneWord(open) => write!(
                out,
                "one word does not clear an incident: each part is looked at. Still open: {}. Write answer FILE {} {GOOD}, or {BAD}",
                names(open),
                open.first().map_or("", |part| part.id())
            ),
            Self::NoSuchPart(part, bow, open) => {
                let (bow, open) = (bow.id(), names(open));
                write!(out, "a {bow} has no {part}; still open: {open}")
            }
            Self::NoAnswer(part, said) => {
                let said = clean(&said.word());
                write!(
                    out,
                    "'{said}' is no answer to {part}: write {GOOD} or {BAD}"
                )
            }
            Self::DrawnLast(open) => write!(
                out,
                "nothing is drawn before every part was looked at. Still open: {}",
                names(open)
            ),
        }
    }
}

impl fmt::Display for NoAnswer {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let answers: Vec<&str> = self.answers.iter().map(|a| a.id()).collect();
        let (said, answers) = (clean(&self.said.word()), answers.join(", "));
        write!(out, "'{said}' is no answer here; answer {answers}")
    }
}

impl std::error::Error for NoAnswer {}
