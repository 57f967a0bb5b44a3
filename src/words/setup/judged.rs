//! Why a measured value is in order or not.

use super::told;
use crate::gear::Card;
use crate::setup::{ArrowMatch, Judged, Judgement, Measure};
use crate::units::{MM_PER_INCH, trim_number};

/// Why a value is in order or not, with what follows where it is not.
pub(crate) fn judged(found: &Judgement, card: &Card) -> String {
    let text = why(found);
    if found.ok || found.found == Judged::TooFew {
        text
    } else {
        format!("{text}. {}", told(found.item, card).if_off)
    }
}

fn why(judgement: &Judgement) -> String {
    let show = |v: f64| figure(judgement.measure, v);
    match &judgement.found {
        Judged::InOrder => "in order".into(),
        Judged::Seen(what) => what.clone(),
        Judged::NotMeasured => "done, not written down".into(),
        Judged::Written => "written down".into(),
        Judged::Recorded(v) => format!("{}, written down", show(*v)),
        Judged::Balance { measured, card } => balance(*measured, *card),
        Judged::Band {
            value,
            low,
            high,
            at_the_point,
        } => {
            let place = if *at_the_point { "at the point " } else { "" };
            let limits = limits(judgement.measure, *low, *high);
            format!("{place}{}, {limits}", show(*value))
        }
        Judged::Near {
            value,
            target,
            tolerance,
        } => near(judgement.measure, *value, *target, *tolerance),
        Judged::TopLessBottom(difference) => format!("top less bottom {}", show(*difference)),
        Judged::Straightness {
            scaled,
            limit,
            span,
        } => {
            let inches = |mm: f64| format!("{:.4} in", mm / MM_PER_INCH);
            let how = span.map_or_else(
                || " over the 28 in span".into(),
                |span| {
                    format!(
                        " scaled from {} in to the 28 in span",
                        trim_number(span / MM_PER_INCH, 2)
                    )
                },
            );
            format!("{}{how} (limit {})", inches(*scaled), inches(*limit))
        }
        Judged::TooFew => "at least three arrows are wanted".into(),
        Judged::Set(set, most) => matched(set, *most, judgement.ok),
    }
}

fn figure(measure: Measure, v: f64) -> String {
    match measure {
        Measure::OutIn | Measure::HighLow if v == 0.0 => "0 mm".into(),
        Measure::Force => format!("{} lb", trim_number(v, 1)),
        Measure::Mass | Measure::Masses => format!("{} gr", trim_number(v, 1)),
        Measure::Turns => format!("{} turns", trim_number(v, 2)),
        Measure::Count => trim_number(v, 0),
        Measure::OutIn if v < 0.0 => format!("{} mm in", trim_number(-v, 1)),
        Measure::OutIn => format!("{} mm out", trim_number(v, 1)),
        Measure::HighLow if v < 0.0 => format!("{} mm low", trim_number(-v, 1)),
        Measure::HighLow => format!("{} mm high", trim_number(v, 1)),
        _ if v.abs() >= 1000.0 => format!("{} m", trim_number(v / 1000.0, 2)),
        _ => format!("{} mm", trim_number(v, 1)),
    }
}

fn limits(measure: Measure, low: Option<f64>, high: Option<f64>) -> String {
    let show = |limit: f64| figure(measure, limit);
    match (low, high) {
        (Some(low), Some(high)) => {
            let low = if low >= 0.0 {
                figure(Measure::Length, low)
            } else {
                show(low)
            };
            format!("wanted {low} to {}", show(high))
        }
        (Some(low), None) => format!("at least {} wanted", show(low)),
        (None, Some(high)) => format!("at most {} wanted", show(high)),
        (None, None) => "written down".into(),
    }
}

fn near(measure: Measure, v: f64, target: f64, tolerance: f64) -> String {
    let difference = (v - target).abs();
    if difference < 1e-6 {
        return format!("{}, as wanted", figure(measure, v));
    }
    let more = if v > target { "more" } else { "less" };
    // Differences carry no side word.
    let plain = if matches!(measure, Measure::OutIn | Measure::HighLow) {
        Measure::Length
    } else {
        measure
    };
    format!(
        "{}: {} {more} than {}, within {} wanted",
        figure(measure, v),
        figure(plain, difference),
        figure(measure, target),
        figure(plain, tolerance)
    )
}

fn balance(measured: f64, card: f64) -> String {
    // One percent is 7 mm of balance point on a 29 in arrow.
    let apart = if (measured - card).abs() > 1.0 {
        ": more than 1 % apart, so a part on the card is wrong or missing"
    } else {
        ""
    };
    format!("front of centre {measured:.1} %, {card:.1} % by the card{apart}")
}

fn matched(set: &ArrowMatch, most: f64, ok: bool) -> String {
    let mut text = format!(
        "{} arrows, mean {:.1} gr, lightest to heaviest {:.1} gr (limit {} gr)",
        set.count,
        set.mean,
        set.spread,
        trim_number(most, 1)
    );
    if let Some(odd) = set.odd.filter(|_| !ok) {
        let sure = if odd.certain {
            "is the odd one"
        } else {
            "is farthest off"
        };
        text.push_str(&format!(
            "; arrow {} {sure}, {:.1} gr {} than the others",
            odd.number,
            odd.off.abs(),
            if odd.off > 0.0 { "more" } else { "less" }
        ));
        if let Some(rest) = set.spread_without_odd {
            text.push_str(&format!("; without it {rest:.1} gr"));
        }
    }
    text
}
