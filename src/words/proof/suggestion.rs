//! The move that a stage suggests, and what it rests on.

use super::super::{bench_text, percent, step_command};
use crate::proof::{By, NoMove, Rests, Rule, Suggestion};
use crate::units::System;

/// A suggested move for the bench, with what it rests on.
pub fn suggestion(found: &Suggestion, system: System) -> String {
    format!("{}. {}", bench_text(&found.bench, system), why(found))
}

/// The same for the command line: the move as it is typed.
pub(crate) fn typed(found: &Suggestion) -> String {
    format!("{}. {}", step_command(&found.step()), why(found))
}

/// What a suggested move rests on: this bow's own moves, the rule of the
/// trade, both or neither.
pub fn why(found: &Suggestion) -> String {
    let rests = match found.rests {
        Rests::Shown { by, odds: p, rule } => {
            let by = match by {
                By::Groups => "by how these groups responded to this bow's own move",
                By::Paper => {
                    "by this bow's own moves on paper, taken to hold at distance 4 times in 5 (an assumption)"
                }
            };
            let rule = match rule {
                None => String::new(),
                Some((rule, true)) => format!(" The usual rule says the same: {}.", says(rule)),
                Some((rule, false)) => format!(
                    " The usual rule says the other way: {}. This bow's own moves decide.",
                    says(rule)
                ),
            };
            format!("Chance {} that this way helps, {by}.{rule}", percent(p))
        }
        Rests::OnRule(rule) => {
            format!("The usual rule: {}. Not shown by this bow yet.", says(rule))
        }
        Rests::Nothing => {
            "No rule of the trade says which way, and this bow has not shown it yet.".into()
        }
    };
    if found.test() {
        format!(
            "A test move. {rests} Keep it if it helps; if not, put it back and go the other way."
        )
    } else {
        rests
    }
}

/// A rule of the trade, with its standing.
const fn says(rule: Rule) -> &'static str {
    match rule {
        Rule::TowardFletched => {
            "the rest goes toward the fletched group (from memory; guides contradict each other on paper)"
        }
        Rule::TowardFieldPoints => "the rest goes toward the field points (from memory)",
        Rule::BareRest => "bare shafts low, rest up; high, rest down (from memory)",
        Rule::BroadheadRest => "broadheads low, rest up; high, rest down (from memory)",
        Rule::BareNock => "bare shafts high, nocking point up; low, down (from memory)",
        Rule::BroadheadNock => "broadheads high, nocking point up; low, down (from memory)",
        Rule::WeakFirmer => {
            "an arrow that acts weak wants the plunger firmer, a stiff one softer (a hunting site's chart)"
        }
        Rule::AgainstDrift => "the rest goes against the drift (from memory)",
    }
}

/// Why no move is suggested.
pub(crate) fn no_move(why: NoMove) -> String {
    match why {
        NoMove::NothingMovesIt => {
            "Nothing on the card moves it that way: what remains is the arrow.".into()
        }
        NoMove::NothingMovesCentreShot => "Nothing on the card moves the centre shot.".into(),
        NoMove::NoPlunger => "The card has no plunger: what remains is the arrow (point weight, draw weight).".into(),
        NoMove::NotOnCard(kind) => {
            format!("No move is suggested: the card has no {}.", kind.spoken())
        }
        NoMove::NoTravel(kind) => format!(
            "No move is suggested: the {} has no more travel that way.",
            kind.spoken()
        ),
        NoMove::InsideTheString => "No move is suggested: the point would stand inside the string's line, which no finger bow wants. Look elsewhere.".into(),
        NoMove::BelowSquare => "No move is suggested: the nocking point would stand below square. Look elsewhere.".into(),
    }
}
