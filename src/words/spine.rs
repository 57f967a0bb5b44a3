//! Arrow spine: where the load stands, in a sentence or two.

use super::safety::not_confirmed;
use crate::checks::Status;
use crate::checks::spine::{LIFTING_SHOTS, SpineReport};
use crate::physics::SpineGrade;
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
    text.push_str(&format!(" Reference: {}.", reference.rests_on));
    text
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
            ". No rest position can be trusted to cure it.".into(),
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
