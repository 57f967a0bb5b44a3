//! The end of a practice bow: what the player says of it, what that is worth,
//! and how it went.

use super::super::{count, tear_with_unit};
use crate::practice::standing::Level;
use crate::practice::{Conclusion, Judged, Played, Reveal};
use crate::tear::Tear;
use crate::units::System;

/// What is said of the bow, as a technician would say it: the line of a list.
pub(crate) const fn conclusion(said: Conclusion) -> &'static str {
    match said {
        Conclusion::Tuned => "it is tuned: hand it over",
        Conclusion::Arrow => "the arrow does not suit this bow",
        Conclusion::Archer => "the shots do not repeat: the archer first",
        Conclusion::Contact => "something touches the arrow",
        Conclusion::GaveUp => "I give up: show me",
    }
}

/// The same without what follows from it, inside a sentence.
const fn answer(said: Conclusion) -> &'static str {
    match said {
        Conclusion::Tuned => "it is tuned",
        Conclusion::Archer => "the shots do not repeat",
        Conclusion::GaveUp => "no answer",
        Conclusion::Arrow | Conclusion::Contact => conclusion(said),
    }
}

/// What a conclusion is worth.
pub(crate) fn judged(judged: Judged) -> String {
    match judged {
        Judged::Right(said @ Conclusion::Tuned) => {
            format!("Right: {}. Hand it over.", answer(said))
        }
        Judged::Right(said @ Conclusion::Archer) => {
            format!("Right: {}. The archer comes first.", answer(said))
        }
        Judged::Right(said) => format!("Right: {}.", answer(said)),
        Judged::WasTuned => "It is tuned. You could have handed it over.".into(),
        Judged::MovesWouldHave => "Moves would have brought it within tolerance.".into(),
        Judged::WasThis(truth) => format!("The answer was: {}.", answer(truth)),
        Judged::NotYet => "Not yet: the true tear is still out of tolerance.".into(),
        Judged::CanBeTuned => "No: this bow can be tuned as it is.".into(),
        Judged::WasOther(truth) => format!("No, the answer was: {}.", answer(truth)),
    }
}

/// How the program's own advice ended: `rightly: it is tuned`.
pub(crate) fn ended(end: Conclusion) -> &'static str {
    match end {
        Conclusion::GaveUp => "with no answer",
        other => conclusion(other),
    }
}

fn shots_and_moves(shots: u32, moves: usize) -> String {
    format!(
        "{}, {}",
        count(shots as usize, "shot"),
        count(moves, "move")
    )
}

fn par(program: &Played) -> String {
    let how = match (program.end, program.right) {
        (Conclusion::GaveUp, _) => "It ended with no answer".to_owned(),
        (end, true) => format!("It ended rightly: {}", answer(end)),
        (end, false) => format!("It ended wrongly: {}", answer(end)),
    };
    format!(
        "Par: {}. That is the program's own advice, followed to the letter on this bow. {how}.",
        shots_and_moves(program.shots, program.moves)
    )
}

/// How it went, line by line; `tolerance` in mm.
pub(crate) fn how_it_went(found: &Reveal, tolerance: f64, system: System) -> Vec<String> {
    let [right, up] = found.tear_mm;
    let mut lines = vec![
        format!(
            "The true tear where the bow stands now: {}, {} the tolerance of {}.",
            tear_with_unit(Tear::new(right, up), system),
            if found.inside { "within" } else { "out of" },
            system.tear(tolerance)
        ),
        format!("You: {}.", shots_and_moves(found.shots, found.moves)),
        par(&found.program),
    ];
    let (guesses, right) = found.guesses;
    if guesses > 0 {
        lines.push(format!(
            "Your guesses before the advice: {right} of {guesses} true of this bow."
        ));
    }
    lines
}

/// How the same bow is had again, the command last so that it can be copied.
pub(crate) fn the_same_again(level: u8, seed: u64) -> String {
    format!("The same bow again: tearbench practice --level {level} --seed {seed}")
}

/// The counts of one level.
pub(crate) fn counts(level: &Level) -> String {
    let mut words = format!(
        "{}, {} right; {} against par {}",
        count(level.rounds as usize, "round"),
        level.right,
        count(level.shots as usize, "shot"),
        level.par
    );
    if level.guesses > 0 {
        let noun = if level.guesses == 1 {
            "guess"
        } else {
            "guesses"
        };
        words.push_str(&format!(
            "; {} of {} {noun} right",
            level.guesses_right, level.guesses
        ));
    }
    words
}

/// The counts of a level with its number: `level 2: 3 rounds, 2 right`.
pub(crate) fn level_counts(number: u8, level: &Level) -> String {
    format!("level {number}: {}", counts(level))
}
