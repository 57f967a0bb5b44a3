//! The range safety list: its items, why it is due, what was said of it.

use crate::gear::Card;
use crate::question::RangeItem;
use crate::range::{Due, How, Stood, least_backstop_mm};
use crate::session::RangeSaid;
use crate::units::System;

/// What stands beside every SHOOT, every time: no daily items.
pub(crate) const BEFORE_EVERY_SHOT: &str = "Line clear? Arrow looked at and flexed?";
/// The heading of the list, and what it is called.
pub(crate) const RANGE_TITLE: &str = "Range safety list";

/// What is to be done first, in one sentence.
pub fn range_due(due: Due) -> String {
    match due {
        Due::Day => "Go through the range safety list first: it was not gone through today.".into(),
        Due::Shooter(by) => format!(
            "Go through the range safety list first: it was not gone through with the {} shooting.",
            by.id()
        ),
        Due::Place => {
            "Go through the range safety list first: the bench stands at another place.".into()
        }
        Due::Incident => {
            "Go through the range safety list again first: there was an incident.".into()
        }
        Due::Off(item) => format!(
            "Put the range right first: '{}' is OFF. Do not shoot before that.",
            range_item(item)
        ),
    }
}

/// The reason alone, for a pane of this day that has the heading already.
pub(crate) fn range_due_now(due: Due) -> String {
    match due {
        Due::Day => "not gone through today".into(),
        other => range_due_short(other),
    }
}

/// The reason alone, of any day.
pub(crate) fn range_due_short(due: Due) -> String {
    match due {
        Due::Day => "not gone through on this day".into(),
        Due::Shooter(by) => format!("not gone through with the {} shooting", by.id()),
        Due::Place => "not gone through at this place".into(),
        Due::Incident => "not gone through since the incident".into(),
        Due::Off(item) => format!("'{}' is OFF", range_item(item)),
    }
}

/// An item that keeps the whole list from being in order, and what then.
pub(crate) fn range_off(item: RangeItem) -> String {
    format!(
        "'{}' is OFF: put it right, then say {} ok",
        range_item(item),
        item.id()
    )
}

/// An item's few words.
pub const fn range_item(item: RangeItem) -> &'static str {
    match item {
        RangeItem::Backstop => "Backstop far enough behind the sheet",
        RangeItem::Size => "Backstop large enough for a miss",
        RangeItem::Clear => "Nobody beside or past the sheet",
        RangeItem::Guards => "Eye and arm guard on",
        RangeItem::Law => "Allowed here",
        RangeItem::Frame => "Paper frame firm",
        RangeItem::Arrows => "Arrows looked over and flexed",
        RangeItem::Bow => "Bow looked over",
    }
}

/// What is looked at, in a few words.
pub(crate) fn range_look(item: RangeItem, card: &Card, system: System) -> String {
    let compound = card.bow.kind == crate::gear::BowKind::Compound;
    match item {
        RangeItem::Backstop => format!(
            "{} or more, for this arrow",
            system.at_least(least_backstop_mm(card) / 1000.0)
        ),
        RangeItem::Size => "the worst shot ends in it or in a bank".into(),
        RangeItem::Clear => "everyone behind the archer".into(),
        RangeItem::Guards => "on the archer, and glasses on whoever stands near".into(),
        RangeItem::Law if card.archer.junior => {
            "a minor has an adult beside them, the bow suits them".into()
        }
        RangeItem::Law => "law and age, house and insurance".into(),
        RangeItem::Frame => "sheet held on all edges, centre at arrow height".into(),
        RangeItem::Arrows => "a cracked or split one: destroy it".into(),
        RangeItem::Bow if compound => "string, limbs, cams, bolts; nothing frayed or loose".into(),
        RangeItem::Bow => "string, limbs, handle; nothing frayed or loose".into(),
    }
}

/// What an entry about the list says, in words.
pub(crate) fn range_said(said: RangeSaid) -> String {
    match said {
        RangeSaid::AllInOrder(by) => {
            format!("range safety list: all in order, {} shooting", by.id())
        }
        RangeSaid::OtherPlace => "another place: the range safety list is due again".into(),
        RangeSaid::InOrder(item) => format!("{}: ok", range_item(item)),
        RangeSaid::Off(item) => format!("{}: OFF", range_item(item)),
    }
}

/// What stood when some shots were made.
pub(crate) fn range_stood(stood: &Stood) -> String {
    let how = match stood.how {
        How::Read(day, by) => format!("gone through on {day}, {} shooting", by.id()),
        How::Due(due) => range_due_short(due),
    };
    if stood.from == stood.to {
        format!("Shot {}: {how}.", stood.from)
    } else {
        format!("Shots {} to {}: {how}.", stood.from, stood.to)
    }
}
