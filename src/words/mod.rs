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
pub(crate) mod guide;
pub(crate) mod help;
mod learned;
mod moves;
pub(crate) mod order;
pub(crate) mod pages;
mod placed;
mod powder;
pub mod practice;
pub mod proof;
mod range;
mod reckoning;
mod response;
mod safety;
mod said;
mod scatter;
pub(crate) mod screens;
mod session;
pub mod setup;
mod spine;
pub(crate) mod step;
mod steps;
mod tears;
pub mod trouble;
mod verdict;
mod warning;

pub use bench::{bench_plan, put_back, put_back_command};
pub(crate) use bench::{place, stands, target};
pub(crate) use card::{card_example, card_label, card_value, unusual};
pub(crate) use cautions::caution;
pub use entries::steps;
pub(crate) use entries::{answered, entry, shot, standing, standing_short};
pub(crate) use findings::say;
pub(crate) use first::{answer_means, ask, test_title, to_do};
pub(crate) use forecast::{gain, next_shot};
pub(crate) use learned::{earlier_bows, learned, slope, slope_of};
pub use moves::step_command;
pub(crate) use moves::{
    amount, bench_text, reading, step_advised, step_bench, step_headline, turns_of,
};
pub(crate) use placed::{entries, placed};
use powder::powder;
pub use range::range_item;
pub(crate) use range::{
    BEFORE_EVERY_SHOT, RANGE_TITLE, range_due, range_due_now, range_due_short, range_look,
    range_off, range_said, range_stood,
};
pub use reckoning::reckoned;
pub(crate) use response::{known_sentence, obstacle, response};
pub use safety::{broadhead, safety, waiting};
pub(crate) use safety::{
    danger, lifted_by_setting, lifted_by_undo, overdraw, safety_beside_the_list, safety_that_stood,
    unconfirmed,
};
pub(crate) use said::SCHEMA;
pub use said::{
    Reason, Said, SaidCheck, SaidChecks, SaidEstimate, SaidMove, SaidPrior, SaidProbe, SaidStep,
    said, said_here,
};
pub(crate) use scatter::scatter;
pub use spine::load_standing;
pub(crate) use spine::{STOP_LOAD_IS, spine};
pub(crate) use steps::{brief, cure, in_order};
pub(crate) use tears::{
    TWO_OF_THREE, expected, move_example, move_examples, tear, tear_example, tear_short,
    tear_with_unit,
};
pub(crate) use verdict::{check, check_word, compared_stop, stop_line, stop_lines, verdict_title};
pub use verdict::{check_name, headline, headline_here, status, title};
pub use warning::warning;
pub(crate) use warning::warnings;

/// A probability in per cent, never 0 or 100 %.
pub(crate) fn percent(p: f64) -> String {
    match p {
        p if !p.is_finite() => "unknown".into(),
        p if p >= 0.995 => "over 99 %".into(),
        p if p <= 0.005 => "under 1 %".into(),
        p => format!("{:.0} %", p * 100.0),
    }
}

/// A small probability as `1 time in 180`: two figures, and never past 1000.
pub(crate) fn one_time_in(chance: f64) -> String {
    let times = 1.0 / chance.max(0.001);
    let step = if times < 100.0 { 1.0 } else { 10.0 };
    format!("1 time in {:.0}", (times / step).round() * step)
}

/// A count with its noun: `1 shot`, `3 shots`.
pub fn count(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// A count with a noun whose plural takes more than an s: `1 entry`, `2 entries`.
pub fn counted(n: usize, one: &str, more: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { more })
}

/// With its first letter a capital.
pub(crate) fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars
        .next()
        .map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

#[cfg(test)]
mod refused_tests;
#[cfg(test)]
mod tests;
