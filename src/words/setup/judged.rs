//! Why a measured value is in order or not.

use super::told;
use crate::gear::Card;
use crate::setup::{ArrowMatch, Judged, Judgement, Measure};
use crate::units::{MM_PER_INCH, System, trim_number};

/// Why a value is in order or not, with what follows where it is not.
pub(crate) fn judged(found: &Judgement, card: &Card, system: System) -> String {
    let text = why(found, system);
    if found.ok || found.found == Judged::TooFew {
        text
    } else {
        format!("{text}. {}", told(found.item, card, system).if_off)
    }
}

fn why(judgement: &Judgement, system: System) -> String {
    let show = |v: f64| figure(judgement.measure, v, system);
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
            let limits = limits(judgement.measure, (*low, *high), system);
            format!("{place}{}, {limits}", show(*value))
        }
        Judged::Near {
            value,
            target,
            tolerance,
        } => near(judgement.measure, *value, (*target, *tolerance), system),
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

fn figure(measure: Measure, v: f64, system: System) -> String {
    let aside = |minus: &str, plus: &str| match v {
        0.0 => format!("0 {}", system.unit()),
        v if v < 0.0 => format!("{} {minus}", system.measured(-v)),
        v => format!("{} {plus}", system.measured(v)),
    };
    match measure {
        Measure::Force => format!("{} lb", trim_number(v, 1)),
        Measure::Mass | Measure::Masses => format!("{} gr", trim_number(v, 1)),
        Measure::Turns => format!("{} turns", trim_number(v, 2)),
        Measure::Count => trim_number(v, 0),
        Measure::OutIn => aside("in", "out"),
        Measure::HighLow => aside("low", "high"),
        _ => system.measured(v),
    }
}

fn limits(measure: Measure, (low, high): (Option<f64>, Option<f64>), system: System) -> String {
    let show = |limit: f64| figure(measure, limit, system);
    match (low, high) {
        (Some(low), Some(high)) => {
            let low = if low >= 0.0 {
                figure(Measure::Length, low, system)
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

fn near(measure: Measure, v: f64, (target, tolerance): (f64, f64), system: System) -> String {
    let difference = (v - target).abs();
    let show = |v: f64| figure(measure, v, system);
    if difference < 1e-6 {
        return format!("{}, as wanted", show(v));
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
        show(v),
        figure(plain, difference, system),
        show(target),
        figure(plain, tolerance, system)
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
