//! What a mirror does to a session and to what is said of it. Written out
//! here by hand: nothing of it is asked of the program.
//!
//! Left and right change places: the hand, the holes, the hits, the sideways
//! positions. In and out are said from the riser, which stands on the other
//! side of a left-handed bow, so they stay; so do heights, sizes, clicks and
//! the turns of a plunger.

use serde_json::{Map, Value};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::session::Event;

/// Adjusters whose position has a side of its own.
fn has_a_side(kind: AdjusterKind) -> bool {
    match kind {
        AdjusterKind::RestSideways
        | AdjusterKind::CentreShot
        | AdjusterKind::YokeTwist
        | AdjusterKind::CamShim => true,
        AdjusterKind::RestHeight
        | AdjusterKind::NockingPoint
        | AdjusterKind::PlungerTension
        | AdjusterKind::LimbBolts
        | AdjusterKind::BraceHeight => false,
    }
}

fn step(step: &Step) -> Step {
    Step {
        adjuster: step.adjuster,
        amount: if has_a_side(step.adjuster) {
            -step.amount
        } else {
            step.amount
        },
    }
}

/// What would have been recorded of the mirrored bow.
pub fn event(event: &Event) -> Event {
    let mut mirrored = event.clone();
    match &mut mirrored {
        Event::Shot(shot) => shot.right = 0.0 - shot.right,
        Event::Move { steps, said, .. } => {
            steps.iter_mut().for_each(|s| *s = step(s));
            *said = said.as_deref().map(words);
        }
        Event::Pending { steps } => steps.iter_mut().for_each(|s| *s = step(s)),
        Event::Group { what, impacts, .. } => {
            *what = words(&what.word()).as_str().into();
            impacts.iter_mut().for_each(|i| i.right = 0.0 - i.right);
        }
        Event::Card { set, .. } => {
            if let Some(aim) = set.get_mut("paper.aim_right") {
                *aim = negated(aim);
            }
        }
        _ => {}
    }
    mirrored
}

/// `-3 mm` for `3 mm`.
fn negated(text: &str) -> String {
    match text.strip_prefix('-') {
        Some(rest) => rest.to_owned(),
        None => format!("-{text}"),
    }
}

/// The card of the mirrored bow.
pub fn card(text: &str) -> String {
    let line = |line: &str| -> String {
        let Some((key, value)) = line.split_once(" = ") else {
            return line.to_owned();
        };
        match key {
            "hand" | "eye" | "clockwise" => format!("{key} = {}", words(value)),
            "aim_right" => format!("{key} = \"{}\"", negated(value.trim_matches('"'))),
            _ => line.to_owned(),
        }
    };
    text.lines().map(|l| line(l) + "\n").collect()
}

/// Phrases in which right is no side.
const NO_SIDE: [&str; 21] = [
    "the right press",
    "the right arrow",
    "the right way",
    "right-arrow",
    "weights-right",
    "lengths-right",
    "the card is right",
    "card's arrow is right",
    "card's weight is right",
    "put right",
    "timing is right",
    "basics look right",
    "drop-away right",
    "right all along",
    "be right",
    "are right",
    "was right",
    "left out",
    "half an inch left",
    "left as",
    "nothing left",
];

/// Left and right exchanged, word by word.
pub fn words(text: &str) -> String {
    let mut text = text.to_owned();
    for (i, phrase) in NO_SIDE.iter().enumerate() {
        text = text.replace(phrase, &format!("\u{1}{i}\u{2}"));
    }
    let mut out = String::new();
    let mut word = String::new();
    for c in text.chars().chain(std::iter::once('\n')) {
        if c.is_alphabetic() {
            word.push(c);
            continue;
        }
        out.push_str(match word.as_str() {
            "left" => "right",
            "right" => "left",
            "Left" => "Right",
            "Right" => "Left",
            "LEFT" => "RIGHT",
            "RIGHT" => "LEFT",
            other => other,
        });
        word.clear();
        out.push(c);
    }
    out.pop();
    for (i, phrase) in NO_SIDE.iter().enumerate() {
        out = out.replace(&format!("\u{1}{i}\u{2}"), phrase);
    }
    out
}

/// Advice and verdicts as JSON, mirrored.
pub fn json(value: &Value) -> Value {
    match value {
        Value::Object(map) => object(map),
        Value::Array(all) => Value::Array(all.iter().map(json).collect()),
        Value::String(text) => Value::String(words(text)),
        other => other.clone(),
    }
}

/// Keys whose text is a name, not a sentence.
const NAMES: [&str; 6] = ["adjuster", "unit", "code", "verdict", "status", "kind"];

fn object(map: &Map<String, Value>) -> Value {
    let adjuster = map.get("adjuster").and_then(Value::as_str);
    let moves = adjuster
        .and_then(AdjusterKind::from_id)
        .is_some_and(has_a_side);
    let mirrored = map.iter().map(|(key, value)| {
        let value = match key.as_str() {
            key if NAMES.contains(&key) => value.clone(),
            "right" | "per_m" | "curve" => turned(value),
            "amount" | "clicks" if moves => turned(value),
            // A plunger's turns have no side, but what they do to the tear has.
            "plunger-tension" => plunger(value),
            _ => json(value),
        };
        (key.clone(), value)
    });
    Value::Object(mirrored.collect())
}

fn plunger(value: &Value) -> Value {
    let mut value = value.clone();
    if let Some(mean) = value.get_mut("mean") {
        *mean = turned(mean);
    }
    if let Some(share) = value.get_mut("probability_negative") {
        *share = share.as_f64().map_or(Value::Null, |p| (1.0 - p).into());
    }
    value
}

fn turned(value: &Value) -> Value {
    value.as_f64().map_or(value.clone(), |v| (0.0 - v).into())
}

/// Where two JSON values differ, numbers compared within the rounding of what
/// is said (four decimals).
pub fn difference(a: &Value, b: &Value) -> Option<String> {
    match (a, b) {
        (Value::Object(x), Value::Object(y)) => {
            if x.keys().ne(y.keys()) {
                return Some(format!("keys {:?} / {:?}", x.keys(), y.keys()));
            }
            x.iter()
                .find_map(|(k, v)| Some(format!("{k}: {}", difference(v, &y[k])?)))
        }
        (Value::Array(x), Value::Array(y)) if x.len() == y.len() => x
            .iter()
            .zip(y)
            .enumerate()
            .find_map(|(i, (v, w))| Some(format!("[{i}] {}", difference(v, w)?))),
        (Value::Number(x), Value::Number(y)) => {
            let (x, y) = (x.as_f64()?, y.as_f64()?);
            ((x - y).abs() > 3e-4 * (1.0 + x.abs())).then(|| format!("{x} / {y}"))
        }
        _ => (a != b).then(|| format!("{a}\n / {b}")),
    }
}
