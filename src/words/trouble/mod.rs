//! Troubleshooting: what a step asks, what each answer means, what is fixed
//! first; said alike by console and command line.

mod asks;
mod ends;
mod fixes;
mod means;
mod offers;
mod parts;
mod refused;

pub use means::means;
pub use offers::{offer, offer_title};
pub(crate) use parts::{part, part_in_full, part_title, still_open};

use super::step::{Fact, fact};
use super::{caution, count};
use crate::gear::Card;
use crate::question::Refusal;
use crate::trouble::{Ask, Fix, Offer, PathStep, Resumed, Says};

/// What the path after a refusal is called.
pub const fn title(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::SpineWeak => "The arrow is too weak",
        Refusal::SpineStiff => "The arrow is too stiff",
        Refusal::Scatter => "Repeat shots do not agree",
        Refusal::NoResponse => "The tear does not respond",
        Refusal::Jumps => "The tear jumps",
        Refusal::TravelLimit => "The rest went far",
        Refusal::HugeTear => "The tear is huge",
        Refusal::NoAdjuster => "Nothing moves it that way",
        Refusal::Contact => "Something touches the arrow",
        Refusal::Incident => "Inspection after an incident",
        Refusal::TooLight => "The arrow is too light",
        Refusal::TooShort => "The arrow is too short",
        Refusal::FarTooWeak => "The arrow is far too weak",
        Refusal::WeighFirst => "Weigh the bow first",
        Refusal::PastLimit => "Past the bow maker's limit",
    }
}

/// What a step asks for, in a few words.
const fn asks_for(ask: Ask) -> &'static str {
    match ask {
        Ask::Question => "a question",
        Ask::Test => "a test",
        Ask::Action => "something to do",
        Ask::Resume => "the end of it",
        Ask::FixFirst => "fix this first",
    }
}

/// How far down its path a step is, and what it asks for.
pub(crate) fn place(step: &PathStep) -> String {
    let (at, of) = step.place;
    let shots = match step.shots {
        0 => String::new(),
        n => format!(", {}", count(n as usize, "shot")),
    };
    format!("Step {at} of {of}, {}{shots}", asks_for(step.ask))
}

/// A remedy: what is done, and what it amounts to.
pub(crate) fn offered(found: &Offer) -> Fact {
    let back = if found.reversible() {
        " Can be undone."
    } else {
        ""
    };
    fact(offer_title(found), format!("{}{back}", offer(found)))
}

/// What a path says once its end was answered and its shots are awaited.
pub(crate) const GONE_THROUGH: &str = "This was gone through. Shoot 3 here without moving anything. If it is refused again, it begins again.";

/// What a step says, its caution before it.
pub fn text(step: &PathStep, card: &Card) -> String {
    let text = match &step.says {
        Says::Asks(asked) => asks::asks(asked, step.reason, card),
        Says::Resume(why) => format!("Resume: {}.", resumed(*why)),
        Says::Fix {
            what: Fix::Part, ..
        } => part_damaged(),
        Says::Fix { what, by_card } => {
            let how = fixes::fix(what);
            let card = if *by_card {
                " Only the card lifts this: put on it what was really done."
            } else {
                ""
            };
            format!("Fix this first: {how}.{card}")
        }
    };
    match step.caution {
        Some(before) => format!("{} {text}", caution(before)),
        None => text,
    }
}

/// What comes first where a part was found damaged.
pub(crate) fn part_damaged() -> String {
    format!("Fix this first: {}", fixes::damaged())
}

fn resumed(why: Resumed) -> &'static str {
    match why {
        Resumed::Answered(test, answer) => means::of_test(test, answer),
        Resumed::NothingFound => {
            "nothing found. Shoot 3 here without moving anything; if they agree, go on"
        }
        Resumed::PowderClean => "the powder test is clean",
        Resumed::Fixed => "fixed. Shoot 3 here before anything is moved",
    }
}

#[cfg(test)]
mod tests;
