//! Entries of the session, one line each: what was shot, moved, answered.

use super::{amount, card_label, card_value, learned, proof, step_headline, tear_with_unit};
use crate::gear::{AdjusterKind, Card, Step};
use crate::question::{Answer, Question, Said, Test, clears_in_one_word};
use crate::session::{Event, HandStage, RangeSaid, Shooter, Shot, Timeline};
use crate::units::System;

/// A tear with its unit and what else is known of the shot.
pub fn shot(shot: &Shot, system: System) -> String {
    let mut text = tear_with_unit(shot.tear(), system);
    let mut add = |note: String| {
        text.push_str(if text.contains('(') { ", " } else { " (" });
        text.push_str(&note);
    };
    if let Some(arrow) = &shot.arrow {
        add(format!("arrow {}", crate::units::clean(arrow)));
    }
    if shot.bare {
        add("bare".into());
    }
    if let Some(distance) = shot.distance() {
        add(format!("at {}", system.distance(distance)));
    }
    if shot.by != Shooter::Owner {
        add(format!("by the {}", shot.by.id()));
    }
    if shot.called_bad {
        add("called bad".into());
    }
    if shot.slit_extra {
        add("extra slit".into());
    }
    if shot.ragged {
        add("ragged".into());
    }
    if text.contains('(') {
        text.push(')');
    }
    text
}

/// A move in one line: `Rest OUT 1.50 mm (6 clicks), LEFT`.
pub fn steps(steps: &[Step], card: &Card, system: System) -> String {
    let all: Vec<String> = steps
        .iter()
        .map(|s| step_headline(s, card, system))
        .collect();
    all.join("; ")
}

/// The kinds that stand away from the start: those of the card in its order,
/// then what was moved and is not listed there, such as limb bolts.
fn moved(timeline: &Timeline) -> Vec<AdjusterKind> {
    let listed = timeline.card.adjusters.iter().map(|a| a.kind);
    let unlisted = AdjusterKind::ALL
        .into_iter()
        .filter(|kind| timeline.card.adjuster(*kind).is_none());
    let all = listed.chain(unlisted);
    all.filter(|kind| timeline.now.get(*kind) != 0.0).collect()
}

/// Where the adjusters stand, from the start: `rest 1.50 mm left`.
pub fn standing(timeline: &Timeline, system: System) -> String {
    let parts: Vec<String> = moved(timeline)
        .into_iter()
        .map(|kind| {
            let at = timeline.now.get(kind);
            let (minus, plus) = kind.directions();
            let way = if at < 0.0 { minus } else { plus };
            format!("{} {} {way}", kind.noun(), amount(kind, at, system))
        })
        .collect();
    if parts.is_empty() {
        "start position".into()
    } else {
        parts.join(", ")
    }
}

/// The same in as few letters as say it: `rest 3 right, 1.75 up`.
pub(crate) fn standing_short(timeline: &Timeline, system: System) -> String {
    let mut noun = "";
    let parts: Vec<String> = moved(timeline)
        .into_iter()
        .map(|kind| {
            let at = timeline.now.get(kind);
            let (minus, plus) = kind.directions();
            let way = if at < 0.0 { minus } else { plus };
            let size = amount(kind, at, system);
            let size = size.trim_end_matches(" mm");
            let size = match size.contains('.') {
                true => size.trim_end_matches('0').trim_end_matches('.'),
                false => size,
            };
            let same = noun == kind.noun();
            noun = kind.noun();
            if same {
                format!("{size} {way}")
            } else {
                format!("{noun} {size} {way}")
            }
        })
        .collect();
    if parts.is_empty() {
        "start position".into()
    } else {
        parts.join(", ")
    }
}

/// A step of handing shots over, in one line.
fn hand_over(stage: HandStage, file: &str, shots: usize) -> String {
    let shots = super::count(shots, "shot");
    let file = crate::units::clean(file);
    match stage {
        HandStage::Begun => format!("{shots} to be handed to {file}"),
        HandStage::Copied => format!("{shots} taken over from {file}"),
        HandStage::Undone => format!("{shots} handed to {file}: they count there"),
        HandStage::Settled => format!("{shots} from {file}: they no longer count there"),
    }
}

/// An entry in one line, for the log and for undo.
pub fn entry(event: &Event, card: &Card, system: System) -> String {
    match event {
        Event::Shot(s) => format!("shot {}", shot(s, system)),
        Event::Move {
            steps: s, confirms, ..
        } => {
            let how = if confirms.is_some() {
                "move made"
            } else {
                "move"
            };
            format!("{how}: {}", steps(s, card, system))
        }
        Event::PlacedMove {
            before, steps: s, ..
        } => format!(
            "move made before entry {before}: {}",
            steps(s, card, system)
        ),
        Event::HandOver {
            stage,
            file,
            entries,
            ..
        } => hand_over(*stage, file, entries.len()),
        Event::Pending { steps: s } => format!("pending move: {}", steps(s, card, system)),
        Event::NotMade { pending } => format!("move {pending} was not made"),
        Event::Note { text } => format!("note: {text}"),
        Event::Card { set, taken } => {
            let parts: Vec<String> = set.iter().map(|(k, v)| set_words(k, v)).collect();
            let taken = taken.as_ref().map_or(String::new(), |t| format!(" {t}"));
            format!("card{taken}: {}", parts.join(", "))
        }
        Event::Undo { target } => format!("undo of entry {target}"),
        Event::Redo { target } => format!("redo of entry {target}"),
        Event::Answer { test, result, .. } if clears_in_one_word(test, result) => {
            format!("{test}: {result} (cleared in one word: holds only where shots follow)")
        }
        Event::Answer {
            test,
            result,
            detail,
        } => {
            let (what, result) = answered(test, result, card);
            let detail = detail.as_ref().map_or(String::new(), |d| format!(" ({d})"));
            format!("{what}: {result}{detail}")
        }
        Event::Incident { what } => format!("INCIDENT: {what}"),
        Event::Restart {
            setting: Some(n), ..
        } => format!("back to setting {n}, likely tear forgotten"),
        Event::Restart { .. } => "start over: likely tear forgotten".into(),
        Event::Prior(prior) => match &prior.learned {
            Some(record) => format!("what to expect of this bow: {}", learned(record)),
            None => "what to expect of this bow, worked out from its card".into(),
        },
        Event::Setup { item, value, .. }
            if value.is_none() || crate::setup::item(card, item.clone()).is_none() =>
        {
            RangeSaid::of(event).map_or_else(|| setup_words(event, card), super::range_said)
        }
        Event::Setup { .. } => setup_words(event, card),
        Event::Group {
            proof: stage,
            what,
            distance,
            impacts,
        } => {
            let stage = stage.word().replace('-', " ");
            let what = what
                .known()
                .map_or_else(|| what.word(), |k| proof::kind(k).into());
            format!("{stage}: {} {what} at {distance}", impacts.len())
        }
        Event::Close { how } => format!("closed: {how}"),
    }
}

/// What was answered, and the answer, in the words of the page that asked.
pub(crate) fn answered(
    test: &Said<Question>,
    result: &Said<Answer>,
    card: &Card,
) -> (String, String) {
    let what = match test.known() {
        Some(Question::Part(part)) => {
            let part = super::trouble::part(part, card.bow.kind);
            let found = match result.known() {
                Some(Answer::Sound) => "undamaged".to_owned(),
                _ => result.to_string(),
            };
            return (format!("inspected, {part}"), found);
        }
        Some(Question::Test(Test::Contact)) => "powder test".to_owned(),
        Some(Question::Test(Test::Hand)) => "bow hand".to_owned(),
        Some(Question::Test(Test::Arrow)) => "other arrows".to_owned(),
        _ => test.word().replace('-', " "),
    };
    (what, result.to_string())
}

/// An item of the checklist: `Brace height: ok (7 in)`.
fn setup_words(event: &Event, card: &Card) -> String {
    let Event::Setup {
        item,
        value,
        result,
    } = event
    else {
        return String::new();
    };
    let found = crate::setup::item(card, item.clone());
    let title = found.map_or_else(|| item.word(), |i| super::setup::title(i.id).into());
    match value.as_deref().filter(|v| *v != result.word()) {
        Some(value) => format!("{title}: {result} ({value})"),
        None => format!("{title}: {result}"),
    }
}

/// One change of the card: `peak weight 38 lb`.
fn set_words(key: &str, value: &str) -> String {
    let (label, value) = (card_label(key), card_value(key, value.into()));
    let value = if value.is_empty() {
        "left empty"
    } else {
        &value
    };
    let adjuster = key
        .strip_prefix("adjuster.")
        .and_then(|k| k.split_once('.'));
    adjuster.map_or(format!("{label} {value}"), |(name, _)| {
        format!("{} {label} {value}", name.replace('-', " "))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Given;

    #[test]
    fn a_shot_is_echoed_with_everything_it_is_recorded_with() {
        let hole = crate::tear::read_hole("12l4h #3 bad ragged", System::Mm).unwrap();
        assert_eq!(
            shot(&Shot::of(&hole, "", &Given::default()).unwrap(), System::Mm),
            "12 mm left, 4 mm high (arrow 3, called bad, ragged)"
        );
    }
}
