//! Before paper: what each item of the list is called, how it is measured,
//! what is wanted, what follows where it is off; and how it stands.

mod arrow;
mod bow;
mod item;
mod judged;
mod range;
mod refused;
mod source;
mod string;

pub use item::Told;
pub(crate) use judged::judged;
pub(crate) use refused::example;
use source::source;

use super::step::{Fact, Weight, fact, since};
use crate::gear::Card;
use crate::question::{RangeItem, SetupItem};
use crate::setup::{ItemState, Part, Standing, Summary};
use crate::step::State;
use crate::units::System;

/// What is said of an item on this bow.
pub fn told(item: SetupItem, card: &Card, system: System) -> Told {
    range::told(item, card, system)
        .or_else(|| bow::told(item, card, system))
        .or_else(|| string::told(item, card, system))
        .or_else(|| arrow::told(item, card))
        .unwrap_or_default()
}

/// What an item is called.
pub const fn title(item: SetupItem) -> &'static str {
    match item {
        // The range safety list, whose items are only looked at.
        SetupItem::RangeList => super::RANGE_TITLE,
        SetupItem::RangeSize => super::range_item(RangeItem::Size),
        SetupItem::RangeClear => super::range_item(RangeItem::Clear),
        SetupItem::RangeEyes => super::range_item(RangeItem::Guards),
        SetupItem::RangeLaw => super::range_item(RangeItem::Law),
        SetupItem::RangeArrows => super::range_item(RangeItem::Arrows),
        SetupItem::RangeBow => super::range_item(RangeItem::Bow),
        SetupItem::RangeBackstop => "Backstop behind the sheet",
        SetupItem::RangePaper => "Paper frame",
        SetupItem::Accessories => "Everything the archer will use is on",
        SetupItem::AsFound => "As it came in, written down and marked",
        SetupItem::Inspection => "Safety inspection",
        SetupItem::StringSettled => "String shot in",
        SetupItem::DrawLength => "Draw length of this archer",
        SetupItem::DrawWeight => "Draw weight on a scale",
        SetupItem::BraceHeight => "Brace height",
        SetupItem::AxleToAxle => "Axle to axle",
        SetupItem::Tiller => "Tiller",
        SetupItem::LimbBolts => "Limb bolts",
        SetupItem::CamTiming => "Cams arrive together",
        SetupItem::CamLean => "Cam lean",
        SetupItem::Levels => "Level, one after another",
        SetupItem::Peep => "Peep",
        SetupItem::NockFit => "Nock fit",
        SetupItem::NockingPoint => "Nocking point",
        SetupItem::RestHeight => "Rest height",
        SetupItem::CentreShot => "Centre shot",
        SetupItem::RestTiming => "Drop-away timing",
        SetupItem::Blade => "Blade angle and stiffness",
        SetupItem::Plunger => "Plunger tension",
        SetupItem::EyeToPin => "Eye to pin",
        SetupItem::SightClick => "One click of the sight",
        SetupItem::ArrowFlex => "Each arrow looked at, felt and flexed",
        SetupItem::ArrowMass => "Finished arrow on the scale",
        SetupItem::ArrowMatch => "The set weighed and numbered",
        SetupItem::ArrowStraightness => "Straightness",
        SetupItem::ArrowBalance => "Balance point",
        SetupItem::ArrowEnds => "Ends, nocks, inserts",
        SetupItem::Clearance => "Clearance, by the powder test",
        SetupItem::WitnessMarks => "Witness marks and starting readings",
    }
}

/// The heading of a part of the list.
pub const fn part(part: Part) -> &'static str {
    match part {
        Part::Range => "Range, measured",
        Part::Bow => "Bow",
        Part::Fit => "String, rest and sight",
        Part::Arrows => "Arrows",
        Part::Last => "Before the first shot",
        Part::FirstShot => "With the first shot",
    }
}

/// How an item stands: since when it is due again, what was found.
pub(crate) fn stands(s: &ItemState, card: &Card, system: System) -> Vec<Fact> {
    let again = match s.state {
        State::Again(why) => Some(fact("Due again", since(why)).weighs(Weight::Careful)),
        _ => None,
    };
    let weight = match s.state {
        State::Off => Weight::Careful,
        _ => Weight::Plain,
    };
    let found = s.note.as_ref().map(|note| judged(note, card, system));
    let found = found.map(|text| fact("Found", text).weighs(weight));
    again.into_iter().chain(found).collect()
}

/// How an item is done, its caution before it, and what is wanted.
pub(crate) fn how(s: &ItemState, card: &Card, system: System) -> Vec<Fact> {
    let told = told(s.item.id, card, system);
    let careful = s.item.caution.map(|c| fact("Careful", super::caution(c)));
    // What follows stands in what was found already.
    let follows = s.note.as_ref().is_none_or(|found| found.ok);
    let all = [
        careful.map(|c| c.weighs(Weight::Careful)),
        Some(fact("How", told.how)),
        Some(fact("Wanted", told.start)),
        told.computed.map(|text| fact("Worked out", text)),
        follows.then(|| fact("If off", told.if_off)),
        // What a figure rests on is not read at the bench: it stands last.
        Some(fact("Standing", standing(s.item.standing)).weighs(Weight::Quiet)),
    ];
    all.into_iter().flatten().collect()
}

/// What a figure or a habit rests on, as it is printed beside it.
pub fn standing(standing: Standing) -> String {
    match standing {
        Standing::Source(of) => source(of).into(),
        Standing::Disputed(of) => format!("sources disagree: {}", source(of)),
        Standing::CommonPractice => "common practice, no source".into(),
        Standing::FromMemory => "from memory".into(),
    }
}

/// Which safety items are not answered ok; `None` when all are.
pub fn safety_open(open: &[SetupItem]) -> Option<String> {
    if open.is_empty() {
        return None;
    }
    let names: Vec<&str> = open.iter().map(|item| title(*item)).collect();
    Some(names.join("; "))
}

/// The list in one line: `12 of 34 items done, 1 off, 2 skipped`.
pub(crate) fn summary(all: &Summary) -> String {
    let mut text = format!("{} of {} done", all.done, super::count(all.items, "item"));
    for (count, word) in [
        (all.off, "off"),
        (all.skipped, "skipped"),
        (all.again, "due again"),
    ] {
        if count > 0 {
            text.push_str(&format!(", {count} {word}"));
        }
    }
    text
}

#[cfg(test)]
mod tests;
