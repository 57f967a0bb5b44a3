//! Levels, nock, nocking point, rest, sight.

use super::item::{Again, Item, Measure, Part, Rule, Source, Standing};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card, Release, RestKind};
use crate::question::SetupItem;
use crate::units::MM_PER_INCH;

pub(super) fn items(card: &Card) -> Vec<Item> {
    let mut all = vec![levels()];
    if card.bow.kind == BowKind::Compound && card.bow.release == Release::Aid {
        all.push(peep());
    }
    all.extend([nock_fit(), nocking_point(card)]);
    if card.rest.kind != RestKind::Shelf {
        all.push(rest_height());
    }
    if !matches!(card.rest.kind, RestKind::Shelf | RestKind::Fixed) {
        all.push(centre_shot(card));
    }
    all.extend(rest_kind(card.rest.kind));
    all.extend([eye_to_pin(), sight_click()]);
    all
}

fn levels() -> Item {
    Item::new(SetupItem::Levels, Part::Fit)
        .standing(Standing::Source(Source::SightAxes))
        .again(Again::PRESS)
}

fn peep() -> Item {
    Item::new(SetupItem::Peep, Part::Fit)
        .standing(Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
        .again(Again::PRESS)
}

fn nock_fit() -> Item {
    Item::new(SetupItem::NockFit, Part::Fit)
        .standing(Standing::Disputed(Source::NockFit))
        .again(Again {
            press: true,
            arrow: true,
            ..Again::NEVER
        })
        .gate()
}

/// Band of nocking heights to begin with, mm: the bottom of the nock above
/// the square line.
///
/// With fingers guides print about 1/2 in (12 mm) and the ones seen do not say
/// which side of the nock they mean (from memory). A marker above the nock
/// sets its top there, and a nock is about 6 mm thick (common practice, no
/// source), so the band holds both readings with a millimetre or two to spare.
pub(crate) fn nocking_band(card: &Card) -> (f64, f64) {
    match (card.bow.release, card.rest.kind) {
        (Release::Aid, _) => (0.0, 0.25 * MM_PER_INCH),
        (Release::Fingers, RestKind::Shelf) => (0.25 * MM_PER_INCH, 0.75 * MM_PER_INCH),
        (Release::Fingers, _) => (4.0, 14.0),
    }
}

fn nocking_point(card: &Card) -> Item {
    let (low, high) = nocking_band(card);
    let standing = match (card.bow.release, card.rest.kind) {
        (Release::Fingers, RestKind::Shelf) => Standing::Source(Source::ShelfNocking),
        _ => Standing::FromMemory,
    };
    Item::new(SetupItem::NockingPoint, Part::Fit)
        .standing(standing)
        .measured(Measure::HighLow, Rule::Between(low, high))
        .again(Again::PRESS)
}

fn rest_height() -> Item {
    Item::new(SetupItem::RestHeight, Part::Fit)
        .standing(Standing::CommonPractice)
        .measured(Measure::HighLow, Rule::Between(-0.5, 3.5))
}

/// Band of the point's place outside the string to begin with, mm, outward positive.
pub(crate) fn centre_shot_band(card: &Card) -> (f64, f64) {
    match card.bow.release {
        Release::Aid => (-1.0, 1.0),
        Release::Fingers => (MM_PER_INCH / 16.0 - 0.1, MM_PER_INCH / 8.0 + 0.1),
    }
}

fn centre_shot(card: &Card) -> Item {
    let (low, high) = centre_shot_band(card);
    Item::new(SetupItem::CentreShot, Part::Fit)
        .standing(Standing::Source(Source::CentreShot))
        .measured(Measure::OutIn, Rule::Between(low, high))
}

fn rest_kind(kind: RestKind) -> Vec<Item> {
    let timing = Again {
        press: true,
        rest_height: true,
        ..Again::NEVER
    };
    match kind {
        RestKind::DropAway => vec![
            Item::new(SetupItem::RestTiming, Part::Fit)
                .careful(Caution::Helper)
                .standing(Standing::CommonPractice)
                .again(timing),
        ],
        RestKind::Blade => {
            vec![Item::new(SetupItem::Blade, Part::Fit).standing(Standing::FromMemory)]
        }
        RestKind::Plunger => vec![
            Item::new(SetupItem::Plunger, Part::Fit)
                .standing(Standing::Source(Source::PlungerTension))
                .measured(Measure::Note, Rule::Record),
        ],
        RestKind::Capture | RestKind::Fixed | RestKind::Shelf => vec![],
    }
}

fn eye_to_pin() -> Item {
    Item::new(SetupItem::EyeToPin, Part::Fit)
        .careful(Caution::Helper)
        .standing(Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
}

fn sight_click() -> Item {
    Item::new(SetupItem::SightClick, Part::Fit)
        .standing(Standing::CommonPractice)
        .measured(Measure::Length, Rule::Record)
}
