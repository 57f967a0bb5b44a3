//! Arrow spine: where the load stands, in a sentence or two.

use super::safety::not_confirmed;
use crate::checks::Status;
use crate::checks::spine::{LIFTING_SHOTS, SpineReport};
use crate::physics::SpineGrade;
use crate::physics::references::BowSort;
use crate::units::trim_number;

/// What the stop load is, measured with the launch model over its unknowns
/// against published strengths of carbon, aluminium and wood: no place where
/// shafts break (`tests/published/stop_load.rs`).
pub(crate) const STOP_LOAD_IS: &str = "the bending computed there would not yet break an undamaged shaft, but may break a cracked one";

/// The spine check: the load, its limit, and what its reference rests on.
pub(crate) fn spine(report: &SpineReport) -> String {
    if report.status == Status::Pending {
        return waits(report);
    }
    let reference = &report.computed.reference;
    let mut text = place(report);
    let off = report.computed.grade != SpineGrade::Matched;
    if off && (report.weak() || report.status == Status::Fail) {
        let weigh = weigh(report.weighed).trim_end();
        text = format!("{text} {weigh}").trim_end().to_owned();
    }
    if report.computed.grade == SpineGrade::FarTooWeak && report.chart {
        text.push_str(" The arrow maker's chart gives this shaft, so it is not stopped.");
    } else if off && reference.guess {
        text.push_str(" The arrow maker's chart decides.");
    }
    text.push_str(&format!(" Reference: {}.", rests_on(reference.sort)));
    text
}

/// What a reference rests on, in a few words, beside the check.
const fn rests_on(sort: BowSort) -> &'static str {
    match sort {
        BowSort::CompoundAid => "chart rows, 1 read and 7 remembered",
        BowSort::RecurvePlunger => "a guess, taken equal to the compound's",
        BowSort::CompoundFingers => {
            "a rule of thumb, one shaft group stiffer than with a release aid"
        }
        BowSort::Shelf => "the wooden-arrow convention",
    }
}

/// For which sort of bow a reference is, and what it rests on, in full.
pub const fn load_standing(sort: BowSort) -> &'static str {
    match sort {
        BowSort::CompoundAid => {
            "compound, release aid: one printed row (70 lb, 29 in draw, 0.340: 21.0 to 22.6) and seven remembered ones (20.3 to 22.1); about 15 % either way"
        }
        BowSort::RecurvePlunger => {
            "centre-cut recurve on a plunger: a guess: taken equal to the compound's; about 20 % either way, and nothing is refused within 30 % weak or 23 % stiff"
        }
        BowSort::CompoundFingers => {
            "compound, fingers: a rule of thumb, from memory: one shaft group stiffer than with a release aid; about 20 % either way, and nothing is refused within 30 % weak or 23 % stiff"
        }
        BowSort::Shelf => {
            "bow shot off the shelf: the wooden-arrow convention: 26 in over the deflection under 2 lb equals the draw weight, 28 in arrow; about 15 % either way"
        }
    }
}

fn waits(report: &SpineReport) -> String {
    let open = &report.waits.unconfirmed;
    let mut parts = Vec::new();
    if !open.is_empty() {
        parts.push(not_confirmed(open));
    }
    if report.waits.weighing {
        parts.push(
            "The draw weight is not known since the limb bolts were moved. Weigh the bow.".into(),
        );
    }
    parts.join(" ")
}

/// Where the load stands on its bands.
fn place(report: &SpineReport) -> String {
    let weak = report.weak();
    let of = |side: [&'static str; 2]| if weak { side[0] } else { side[1] };
    let (before, after) = match report.computed.grade {
        SpineGrade::FarTooWeak if report.stops => ("Far too weak", ". Do not shoot it.".to_owned()),
        SpineGrade::Matched => ("Suits", ".".into()),
        SpineGrade::StiffWarned => (
            "Stiff",
            ". With a release aid such arrows have still been tuned clean: go on.".into(),
        ),
        _ if report.lifted => (
            of(["Weak by the card", "Stiff by the card"]),
            format!(
                ", but {LIFTING_SHOTS} good shots in a row were within tolerance. Go on with care."
            ),
        ),
        _ if report.status == Status::Fail => (
            of(["Weak", "Stiff"]),
            ". No rest position can be trusted to fix it.".into(),
        ),
        _ => (
            of(["A little weak", "A little stiff"]),
            ". Go on with care.".into(),
        ),
    };
    let limit = report.limit();
    let said = load(report.computed.load_ratio, limit);
    format!("{before}: {said} (limit {}){after}", percent(limit - 1.0))
}

/// A share as a percentage, `25 %`.
pub(super) fn percent(share: f64) -> String {
    format!("{} %", trim_number(share.abs() * 100.0, 0))
}

/// A load ratio in words, `load 54 % over matched`; one more digit where it
/// would read as the limit itself.
pub(super) fn load(ratio: f64, limit: f64) -> String {
    let side = if ratio > 1.0 { "over" } else { "under" };
    let off = (ratio - 1.0).abs() * 100.0;
    let reads_as_limit = off.round() == ((limit - 1.0).abs() * 100.0).round();
    let places = usize::from(reads_as_limit && ratio != limit);
    format!("load {} % {side} matched", trim_number(off, places))
}

/// What is said first of a bow that was not weighed.
pub(super) const fn weigh(weighed: bool) -> &'static str {
    match weighed {
        true => "",
        false => "Weigh the bow: a label can be out by 7 lb. ",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::references::REFERENCES;

    #[test]
    fn a_guess_says_so_and_every_row_says_what_it_rests_on() {
        for row in REFERENCES {
            let text = rests_on(row.sort);
            let said = text.contains("guess") || text.contains("rule of thumb");
            assert_eq!(row.guess, said, "{:?}", row.sort);
            assert!(text.len() < 80 && load_standing(row.sort).contains(": "));
        }
    }
}
