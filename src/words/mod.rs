//! Every sentence that is shown, written by one guide and one glossary.
//!
//! The rooms below reckon and give findings: types with figures, no text and
//! no unit system. What a finding says is made here, at the last moment, so
//! that screen, command line, sheet and JSON say it with the same words.

mod bench;
mod card;
mod cautions;
mod entries;
mod findings;
mod first;
mod forecast;
mod learned;
mod moves;
pub mod order;
mod placed;
mod powder;
pub mod proof;
mod range;
mod reckoning;
mod response;
mod safety;
mod said;
mod scatter;
pub mod screens;
pub mod setup;
mod spine;
mod steps;
mod tears;
pub mod trouble;
mod verdict;
mod warning;

pub use bench::{
    after, bench_plan, moves_command, place, put_back, put_back_command, stands, target,
};
pub use card::{card_label, card_value};
pub use cautions::caution;
pub use entries::{entry, shot, standing, standing_short, steps};
pub use findings::say;
pub use first::ask;
pub use forecast::{gain, next_shot};
pub use learned::{earlier_bows, learned, slope, slope_of};
pub use moves::{
    amount, bench_headline, bench_text, reading, step_advised, step_bench, step_command,
    step_headline, turns_of,
};
pub use placed::{entries, placed};
use powder::powder;
pub use range::{
    BEFORE_EVERY_SHOT, RANGE_TITLE, range_due, range_due_short, range_item, range_look, range_off,
    range_said, range_stood,
};
pub use reckoning::reckoned;
pub use response::{known_sentence, obstacle, response};
pub use safety::{broadhead, danger, overdraw, safety, safety_that_stood, unconfirmed, waiting};
pub use said::{
    Reason, SCHEMA, Said, SaidCheck, SaidChecks, SaidEstimate, SaidMove, SaidPrior, SaidProbe,
    SaidStep, reason, said,
};
pub use scatter::scatter;
pub use spine::{STOP_LOAD_IS, spine};
pub use steps::{brief, cure, in_order};
pub use tears::{TWO_OF_THREE, expected, tear, tear_with_unit};
pub use verdict::{
    check, check_name, check_word, figure, figure_and_limit, headline, status, stop_line,
    stop_lines, title, verdict_title,
};
pub use warning::{warning, warnings};

/// A probability in per cent, never 0 or 100 %.
pub fn percent(p: f64) -> String {
    match p {
        p if !p.is_finite() => "unknown".into(),
        p if p >= 0.995 => "over 99 %".into(),
        p if p <= 0.005 => "under 1 %".into(),
        p => format!("{:.0} %", p * 100.0),
    }
}

/// A count with its noun: `1 shot`, `3 shots`.
pub fn count(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// With its first letter a capital.
pub fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

#[cfg(test)]
mod tests;
