//! Whether a measured value is in order, and why not.

use super::item::{Item, Measure, Rule};
use super::matching::{ArrowMatch, match_arrows};
use super::read::{Unread, Value, read};
use super::{compute, item};
use crate::question::{Answer, Said, SetupItem};
use crate::session::{Event, Timeline};
use crate::units::Length;

/// What stands in the file where an item is in order and was not measured.
const NOT_MEASURED: &str = "not measured";

/// Why an entry cannot be taken; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq)]
pub struct SetupError {
    /// Which item.
    pub item: Said<SetupItem>,
    /// Why not.
    pub why: SetupRefused,
}

/// Why what was said of an item cannot be taken.
#[derive(Debug, Clone, PartialEq)]
pub enum SetupRefused {
    /// It cannot be read as what is written down for the item.
    Unread(Measure, Unread),
    /// This bow's list has no such item; it has these.
    NoSuchItem(Vec<SetupItem>),
    /// A safety item is not skipped.
    NeverSkipped,
    /// A safety item wants its figure.
    WantsFigure(Measure),
}

impl SetupRefused {
    const fn of(self, item: SetupItem) -> SetupError {
        SetupError {
            item: Said::Known(item),
            why: self,
        }
    }
}

/// What a measured value amounts to.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// The item.
    pub item: SetupItem,
    /// What is written down for it.
    pub measure: Measure,
    /// In order.
    pub ok: bool,
    /// Why, with the figures.
    pub found: Judged,
}

/// Why a value is in order or not. Lengths in mm, forces in pounds, masses in
/// grains, each as the item's measure has it.
#[derive(Debug, Clone, PartialEq)]
pub enum Judged {
    /// Looked at, and in order.
    InOrder,
    /// Looked at, and not: as it was typed.
    Seen(String),
    /// Done, and not written down.
    NotMeasured,
    /// Written down.
    Written,
    /// A figure that is only written down.
    Recorded(f64),
    /// Front of centre by the balance point and by the card, percent.
    Balance {
        /// As measured.
        measured: f64,
        /// By the card's parts.
        card: f64,
    },
    /// A figure against its limits.
    Band {
        /// The figure.
        value: f64,
        /// The least, where there is one.
        low: Option<f64>,
        /// The most, where there is one.
        high: Option<f64>,
        /// It was worked out for the arrow's point from two places.
        at_the_point: bool,
    },
    /// A figure against what is wanted.
    Near {
        /// The figure.
        value: f64,
        /// Wanted.
        target: f64,
        /// Within.
        tolerance: f64,
    },
    /// Top less bottom.
    TopLessBottom(f64),
    /// Run-out on the 28 in span.
    Straightness {
        /// On that span.
        scaled: f64,
        /// The limit.
        limit: f64,
        /// The span it was read over, where it was scaled.
        span: Option<f64>,
    },
    /// Fewer than three arrows.
    TooFew,
    /// A set of arrows.
    Set(ArrowMatch, f64),
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
    let value = read(found.measure, text)
        .map_err(|unread| SetupRefused::Unread(found.measure, unread).of(found.id))?;
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
        return Err(SetupRefused::NeverSkipped.of(found.id));
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
        return Err(SetupRefused::WantsFigure(found.measure).of(found.id));
    }
    let value = ok.then(|| NOT_MEASURED.to_owned());
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
    item(&timeline.card, id.clone()).ok_or_else(|| {
        let all = super::items(&timeline.card);
        SetupError {
            item: id.clone(),
            why: SetupRefused::NoSuchItem(all.iter().map(|i| i.id).collect()),
        }
    })
}

fn weigh(timeline: &Timeline, item: &Item, value: &Value) -> Judgement {
    let say = |ok: bool, found: Judged| Judgement {
        item: item.id,
        measure: item.measure,
        ok,
        found,
    };
    let band = |v: f64, low: Option<f64>, high: Option<f64>, at_the_point: bool| {
        let ok = low.is_none_or(|low| v >= low - 1e-6) && high.is_none_or(|high| v <= high + 1e-6);
        let found = Judged::Band {
            value: v,
            low,
            high,
            at_the_point,
        };
        say(ok, found)
    };
    match (item.rule, value) {
        (Rule::Between(low, high), Value::Places(near, far)) => {
            let length = timeline.card.arrow.shaft_length.mm();
            let out = compute::centre_shot(*near, *far, length).map_or(f64::NAN, |c| c.out_mm);
            band(out, Some(low), Some(high), true)
        }
        (_, Value::Look(true, _)) => say(true, Judged::InOrder),
        (_, Value::Look(false, what)) => say(false, Judged::Seen(what.clone())),
        (_, Value::Text(text)) if text == NOT_MEASURED => say(true, Judged::NotMeasured),
        (_, Value::Text(_)) => say(true, Judged::Written),
        (Rule::Record, Value::One(v)) => say(true, recorded(timeline, item, *v)),
        (Rule::Between(low, high), Value::One(v)) => band(*v, Some(low), Some(high), false),
        (Rule::AtLeast(low), Value::One(v)) => band(*v, Some(low), None, false),
        (Rule::AtMost(high), Value::One(v)) => band(*v, None, Some(high), false),
        (Rule::Near { target, tolerance }, Value::One(v)) => say(
            (v - target).abs() <= tolerance + 1e-6,
            Judged::Near {
                value: *v,
                target,
                tolerance,
            },
        ),
        (Rule::TopMinusBottom(low, high), Value::Pair(top, bottom)) => {
            let difference = top - bottom;
            let ok = difference >= low - 1e-6 && difference <= high + 1e-6;
            say(ok, Judged::TopLessBottom(difference))
        }
        (Rule::StraightnessAtMost(limit), Value::RunOut { scaled, span }) => {
            let as_it_is = (span - compute::STANDARD_SPAN_MM).abs() <= compute::SPAN_TOLERANCE_MM;
            let found = Judged::Straightness {
                scaled: *scaled,
                limit,
                span: (!as_it_is).then_some(*span),
            };
            say(*scaled <= limit + 1e-9, found)
        }
        (Rule::SpreadAtMost(most), Value::Many(all)) => match match_arrows(all) {
            None => say(false, Judged::TooFew),
            Some(found) => {
                let odd = found.odd.is_some_and(|o| o.certain);
                let ok = found.spread <= most + 1e-9 && !odd;
                say(ok, Judged::Set(found, most))
            }
        },
        _ => say(true, Judged::Written),
    }
}

fn recorded(timeline: &Timeline, item: &Item, v: f64) -> Judged {
    if item.id != SetupItem::ArrowBalance {
        return Judged::Recorded(v);
    }
    Judged::Balance {
        measured: compute::foc_percent(Length::from_mm(v), timeline.card.arrow.shaft_length),
        card: compute::card_foc_percent(&timeline.card),
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
        let Judged::Near { value, target, .. } = off.found else {
            panic!("{off:?}")
        };
        assert!(!off.ok && (value - target - 7.2).abs() < 1e-9);
        assert!(compound("draw-weight", "27 kg").ok);
        assert!(!compound("draw-weight", "67 lb").ok);
        assert!(compound("nocking-point", "3 mm high").ok);
        // Nothing has no way, in any unit.
        for nothing in ["0", "0 mm", "0 in"] {
            assert!(compound("nocking-point", nothing).ok, "{nothing}");
        }
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
        let Judged::Band {
            value,
            at_the_point: true,
            ..
        } = out.found
        else {
            panic!("{out:?}")
        };
        // 2 mm over 500 mm; the point is 636.6 mm past the first place.
        assert!(!out.ok && (value - 2.5464).abs() < 1e-9, "{value}");
        let nock = compound("nocking-point", "1202 mm / 1198 mm");
        let Judged::Band { value, .. } = nock.found else {
            panic!("{nock:?}")
        };
        assert!(nock.ok && (value - 4.0).abs() < 1e-9);
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
        let refused = skip(&t, "inspection").unwrap_err();
        assert_eq!(refused.why, SetupRefused::NeverSkipped);
        assert!(skip(&t, "cam-lean").is_ok());
        let refused = record(&t, "cam-lien", "ok").unwrap_err();
        assert_eq!(refused.item.word(), "cam-lien");
        let SetupRefused::NoSuchItem(has) = refused.why else {
            panic!("{refused:?}")
        };
        assert!(has.contains(&SetupItem::CamLean));
        let refused = judge(&t, "brace-height", "7").unwrap_err();
        assert!(matches!(
            refused.why,
            SetupRefused::Unread(Measure::Length, Unread::Quantity(_))
        ));
    }

    #[test]
    fn the_odd_arrow_of_the_set_is_named_in_the_reason() {
        let off = compound(
            "arrow-match",
            "412 gr, 411.5, 412.5, 412, 411, 412, 418.5, 412.5, 411.5, 412, 412, 411.5",
        );
        assert!(!off.ok);
        let Judged::Set(set, _) = &off.found else {
            panic!("{off:?}")
        };
        let odd = set.odd.unwrap();
        assert_eq!((odd.number, odd.certain), (7, true));
        assert!(compound("arrow-match", "412 gr, 411, 413").ok);
    }

    #[test]
    fn a_balance_point_gives_the_front_of_centre_beside_the_cards() {
        let found = compound("arrow-balance", "17.4 in").found;
        let Judged::Balance { measured, .. } = found else {
            panic!("{found:?}")
        };
        assert!((measured - 10.0).abs() < 1e-9, "{measured}");
    }
}
