//! Whether a measured value is in order, and why not.

use super::item::{Item, Measure, Rule};
use super::matching::match_arrows;
use super::read::{Value, read};
use super::{compute, item};
use crate::question::{Answer, Said, SetupItem};
use crate::session::{Event, Timeline};
use crate::units::{Length, MM_PER_INCH, clean, trim_number};

/// Why an entry cannot be taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{item}: {problem}")]
pub struct SetupError {
    /// Which item.
    pub item: String,
    /// What is wrong and what would be right.
    pub problem: String,
}

/// What a measured value amounts to.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// In order.
    pub ok: bool,
    /// Why, with the figures.
    pub text: String,
}

/// Judges what was typed for an item of this bow's list.
///
/// # Errors
/// An unknown item, or a value that cannot be read.
pub fn judge(
    timeline: &Timeline,
    id: impl Into<Said<SetupItem>>,
    text: &str,
) -> Result<Judgement, SetupError> {
    let found = find(timeline, &id.into())?;
    let value = read(found.measure, text).map_err(|problem| SetupError {
        item: found.id.to_string(),
        problem: with_example(problem, found.measure),
    })?;
    Ok(weigh(timeline, &found, &value))
}

/// A measured length of an item, mm, as its band is held against; `None`
/// where it is no length or was not measured.
pub(super) fn in_mm(timeline: &Timeline, id: SetupItem, text: &str) -> Option<f64> {
    let found = find(timeline, &id.into()).ok()?;
    match read(found.measure, text).ok()? {
        Value::One(mm) => Some(mm),
        Value::Places(near, far) => {
            let length = timeline.card.arrow.shaft_length.mm();
            compute::centre_shot(near, far, length).map(|c| c.out_mm)
        }
        _ => None,
    }
}

fn with_example(problem: String, measure: Measure) -> String {
    if problem.contains("write") || problem.contains("such as") {
        problem
    } else {
        format!("{problem}; write for example {}", measure.example())
    }
}

/// The entry that records a measured value, judged.
///
/// # Errors
/// As [`judge`].
pub fn record(
    timeline: &Timeline,
    id: impl Into<Said<SetupItem>>,
    text: &str,
) -> Result<Event, SetupError> {
    let id = id.into();
    let judgement = judge(timeline, id.clone(), text)?;
    Ok(Event::Setup {
        item: id,
        value: Some(text.trim().chars().take(400).collect()),
        result: in_order(judgement.ok).into(),
    })
}

/// The entry that records an item skipped knowingly.
///
/// # Errors
/// An unknown item, or one that is needed before anything is drawn.
pub fn skip(timeline: &Timeline, id: impl Into<Said<SetupItem>>) -> Result<Event, SetupError> {
    let found = find(timeline, &id.into())?;
    if found.gate {
        return Err(SetupError {
            item: found.id.to_string(),
            problem: "this is a safety item and is not skipped; answer ok when it is so".into(),
        });
    }
    Ok(Event::Setup {
        item: found.id.into(),
        value: None,
        result: Answer::Skipped.into(),
    })
}

/// The entry for an item answered in one word: in order, or not, without a figure.
///
/// # Errors
/// An unknown item, or a safety item that wants a figure.
pub fn by_word(
    timeline: &Timeline,
    id: impl Into<Said<SetupItem>>,
    ok: bool,
) -> Result<Event, SetupError> {
    let found = find(timeline, &id.into())?;
    let look = found.measure == Measure::Look;
    if ok && look {
        return record(timeline, found.id, Answer::Ok.id());
    }
    if ok && found.gate {
        return Err(SetupError {
            item: found.id.to_string(),
            problem: format!(
                "a safety item wants its figure, such as {}",
                found.measure.example()
            ),
        });
    }
    let value = ok.then(|| "not measured".to_owned());
    Ok(Event::Setup {
        item: found.id.into(),
        value,
        result: in_order(ok).into(),
    })
}

const fn in_order(ok: bool) -> Answer {
    if ok { Answer::Ok } else { Answer::Off }
}

fn find(timeline: &Timeline, id: &Said<SetupItem>) -> Result<Item, SetupError> {
    item(&timeline.card, id.clone()).ok_or_else(|| SetupError {
        item: clean(&id.word()),
        problem: format!(
            "this bow's list has no such item; it has {}",
            super::items(&timeline.card)
                .iter()
                .map(|i| i.id.id())
                .collect::<Vec<_>>()
                .join(", ")
        ),
    })
}

fn weigh(timeline: &Timeline, item: &Item, value: &Value) -> Judgement {
    let say = |ok: bool, text: String| Judgement { ok, text };
    if let (Rule::Between(low, high), Value::Places(near, far)) = (item.rule, value) {
        let length = timeline.card.arrow.shaft_length.mm();
        let out = compute::centre_shot(*near, *far, length).map_or(f64::NAN, |c| c.out_mm);
        let found = band(item, out, low, high);
        return say(found.ok, format!("at the point {}", found.text));
    }
    match (item.rule, value) {
        (_, Value::Look(true, _)) => say(true, "in order".into()),
        (_, Value::Look(false, what)) => say(false, format!("{what}. {}", item.if_off)),
        (_, Value::Text(text)) => say(
            true,
            if text == "not measured" {
                "done, not written down"
            } else {
                "written down"
            }
            .into(),
        ),
        (Rule::Record, Value::One(v)) => say(true, recorded(timeline, item, *v)),
        (Rule::Between(low, high), Value::One(v)) => band(item, *v, low, high),
        (Rule::AtLeast(low), Value::One(v)) => band(item, *v, low, f64::INFINITY),
        (Rule::AtMost(high), Value::One(v)) => band(item, *v, f64::NEG_INFINITY, high),
        (Rule::Near { target, tolerance }, Value::One(v)) => near(item, *v, target, tolerance),
        (Rule::TopMinusBottom(low, high), Value::Pair(top, bottom)) => {
            let difference = top - bottom;
            let ok = difference >= low - 1e-6 && difference <= high + 1e-6;
            say(
                ok,
                tail(
                    item,
                    ok,
                    format!("top less bottom {}", figure(item.measure, difference)),
                ),
            )
        }
        (Rule::StraightnessAtMost(most), Value::RunOut { scaled, span }) => {
            let ok = *scaled <= most + 1e-9;
            let inches = |mm: f64| format!("{:.4} in", mm / MM_PER_INCH);
            let how = if (span - compute::STANDARD_SPAN_MM).abs() > compute::SPAN_TOLERANCE_MM {
                format!(
                    " scaled from {} in to the 28 in span",
                    trim_number(span / MM_PER_INCH, 2)
                )
            } else {
                " over the 28 in span".into()
            };
            say(
                ok,
                tail(
                    item,
                    ok,
                    format!("{}{how}; limit {}", inches(*scaled), inches(most)),
                ),
            )
        }
        (Rule::SpreadAtMost(most), Value::Many(all)) => set(item, all, most),
        _ => say(true, "written down".into()),
    }
}

/// Appends what follows when it is off.
fn tail(item: &Item, ok: bool, text: String) -> String {
    if ok {
        text
    } else {
        format!("{text}. {}", item.if_off)
    }
}

fn figure(measure: Measure, v: f64) -> String {
    match measure {
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

fn band(item: &Item, v: f64, low: f64, high: f64) -> Judgement {
    let ok = v >= low - 1e-6 && v <= high + 1e-6;
    let show = |limit: f64| figure(item.measure, limit);
    let limits = match (low.is_finite(), high.is_finite()) {
        (true, true) => {
            let show_low = if low >= 0.0 {
                figure(Measure::Length, low)
            } else {
                show(low)
            };
            format!("wanted {show_low} to {}", show(high))
        }
        (true, false) => format!("at least {} wanted", show(low)),
        _ => format!("at most {} wanted", show(high)),
    };
    Judgement {
        ok,
        text: tail(item, ok, format!("{}, {limits}", show(v))),
    }
}

fn near(item: &Item, v: f64, target: f64, tolerance: f64) -> Judgement {
    let ok = (v - target).abs() <= tolerance + 1e-6;
    let more = if v > target { "more" } else { "less" };
    let difference = (v - target).abs();
    let text = if difference < 1e-6 {
        format!("{}, as wanted", figure(item.measure, v))
    } else {
        // Differences carry no side word.
        let plain = if matches!(item.measure, Measure::OutIn | Measure::HighLow) {
            Measure::Length
        } else {
            item.measure
        };
        format!(
            "{}: {} {more} than {}, within {} wanted",
            figure(item.measure, v),
            figure(plain, difference),
            figure(item.measure, target),
            figure(plain, tolerance)
        )
    };
    Judgement {
        ok,
        text: tail(item, ok, text),
    }
}

fn recorded(timeline: &Timeline, item: &Item, v: f64) -> String {
    if item.id == SetupItem::ArrowBalance {
        let measured = compute::foc_percent(Length::from_mm(v), timeline.card.arrow.shaft_length);
        let card = compute::card_foc_percent(&timeline.card);
        let mut text = format!("front of centre {measured:.1} %, {card:.1} % by the card");
        // One percent is 7 mm of balance point on a 29 in arrow.
        if (measured - card).abs() > 1.0 {
            text.push_str(": more than 1 % apart, so a part on the card is wrong or missing");
        }
        return text;
    }
    format!("{}, written down", figure(item.measure, v))
}

fn set(item: &Item, all: &[f64], most: f64) -> Judgement {
    let Some(found) = match_arrows(all) else {
        return Judgement {
            ok: false,
            text: "at least three arrows are wanted".into(),
        };
    };
    let odd = found.odd.filter(|o| o.certain);
    let ok = found.spread <= most + 1e-9 && odd.is_none();
    let mut text = format!(
        "{} arrows, mean {:.1} gr, lightest to heaviest {:.1} gr (limit {})",
        found.count,
        found.mean,
        found.spread,
        trim_number(most, 1)
    );
    if let Some(odd) = found.odd.filter(|_| !ok) {
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
        if let Some(rest) = found.spread_without_odd {
            text.push_str(&format!("; without it {rest:.1} gr"));
        }
    }
    Judgement {
        ok,
        text: tail(item, ok, text),
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{COMPOUND, RECURVE, timeline};
    use super::*;

    fn compound(id: &str, text: &str) -> Judgement {
        judge(&timeline(COMPOUND, vec![]), id, text).unwrap_or_else(|e| panic!("{e}"))
    }

    #[test]
    fn the_backstop_must_let_the_whole_arrow_through_the_sheet() {
        // 29 in is 736.6 mm; half a metre more is 1.237 m.
        assert!(!compound("range-backstop", "1.2 m").ok);
        assert!(compound("range-backstop", "1.24 m").ok);
        assert!(compound("range-backstop", "5 ft").ok);
    }

    #[test]
    fn a_measured_value_is_judged_in_any_unit_with_the_reason() {
        assert!(compound("brace-height", "7 1/16 in").ok);
        let off = compound("brace-height", "185 mm");
        assert!(
            !off.ok && off.text.contains("7.2 mm more than 177.8 mm"),
            "{}",
            off.text
        );
        assert!(compound("draw-weight", "27 kg").ok);
        assert!(!compound("draw-weight", "67 lb").ok);
        assert!(compound("nocking-point", "3 mm high").ok);
        assert!(!compound("nocking-point", "1 mm low").ok);
        assert!(!compound("cam-timing", "1/8 in").ok);
        assert!(!compound("inspection", "crack in the lower limb").ok);
        assert!(compound("arrow-straightness", "0.004 in over 25 in").ok);
        assert!(!compound("arrow-straightness", "0.005 in over 25 in").ok);
    }

    #[test]
    fn fingers_want_the_point_outside_the_string() {
        let t = timeline(RECURVE, vec![]);
        assert!(judge(&t, "centre-shot", "2 mm out").unwrap().ok);
        assert!(!judge(&t, "centre-shot", "0").unwrap().ok);
        assert!(judge(&t, "tiller", "190 mm / 187 mm").unwrap().ok);
        assert!(!judge(&t, "tiller", "187 mm / 190 mm").unwrap().ok);
    }

    #[test]
    fn offsets_at_two_places_and_two_heights_are_worked_out() {
        let out = compound("centre-shot", "0 at 100 mm / 2 mm out at 600 mm");
        assert!(
            !out.ok && out.text.contains("at the point 2.5 mm out"),
            "{}",
            out.text
        );
        let nock = compound("nocking-point", "1202 mm / 1198 mm");
        assert!(
            nock.ok && nock.text.starts_with("4 mm high"),
            "{}",
            nock.text
        );
        assert!(
            judge(
                &timeline(COMPOUND, vec![]),
                "centre-shot",
                "1 mm out at 4 in"
            )
            .is_err()
        );
    }

    #[test]
    fn a_safety_item_is_never_skipped_and_an_unknown_one_is_named() {
        let t = timeline(COMPOUND, vec![]);
        assert!(skip(&t, "inspection").is_err());
        assert!(skip(&t, "cam-lean").is_ok());
        let error = record(&t, "cam-lien", "ok").unwrap_err().to_string();
        assert!(error.contains("cam-lean"), "{error}");
        let error = judge(&t, "brace-height", "7").unwrap_err().to_string();
        assert!(error.contains("unit is missing"), "{error}");
    }

    #[test]
    fn the_odd_arrow_of_the_set_is_named_in_the_reason() {
        let off = compound(
            "arrow-match",
            "412 gr, 411.5, 412.5, 412, 411, 412, 418.5, 412.5, 411.5, 412, 412, 411.5",
        );
        assert!(!off.ok);
        assert!(
            off.text.contains("arrow 7 is the odd one, 6.6 gr more"),
            "{}",
            off.text
        );
        assert!(compound("arrow-match", "412 gr, 411, 413").ok);
    }

    #[test]
    fn a_balance_point_gives_the_front_of_centre_beside_the_cards() {
        let text = compound("arrow-balance", "17.4 in").text;
        assert!(text.contains("front of centre 10.0 %"), "{text}");
    }
}
