//! What was measured before paper of the figures that safety rests on.

use std::collections::BTreeMap;

use super::{SetupAt, Timeline};
use crate::gear::{AdjusterKind, BowKind, Card};
use crate::question::{Answer, SetupItem};
use crate::units::{Force, Length, Mass};

const WEIGHT: &str = "bow.peak_weight";
const DRAW: &str = "bow.draw_length";
/// A draw longer by no more than this is the same draw, inches (common
/// practice, no source).
const LONGER_IN: f64 = 0.25;

impl Timeline {
    /// Whether safety rests on what is said of an item before paper.
    pub(super) fn safety_rests_on(item: SetupItem) -> bool {
        use SetupItem::{ArrowMass, DrawLength, DrawWeight, LimbBolts};
        matches!(item, LimbBolts | DrawWeight | DrawLength | ArrowMass)
    }

    /// The draw weight read off a scale, where no weight was entered on the
    /// card since, and how many turns the limb bolts stand further in by now.
    pub(crate) fn weight_read(&self) -> Option<(Force, f64)> {
        let read = self.read(SetupItem::DrawWeight, WEIGHT)?;
        let force = Force::parse(read.value.as_deref()?).ok()?;
        let then = read.positions.get(AdjusterKind::LimbBolts);
        let now = self.now.get(AdjusterKind::LimbBolts);
        Some((force, (now - then).max(0.0)))
    }

    /// The draw length that was measured, where none was entered on the card since.
    pub(crate) fn draw_read(&self) -> Option<Length> {
        let read = self.read(SetupItem::DrawLength, DRAW)?;
        Length::parse(read.value.as_deref()?).ok()
    }

    /// What an arrow like those now on the card weighed on a scale.
    pub(crate) fn arrow_read(&self) -> Option<Mass> {
        let read = self.read(SetupItem::ArrowMass, "")?;
        let of_these = read.arrow_epoch == self.arrow_epoch;
        Mass::parse(read.value.as_deref().filter(|_| of_these)?).ok()
    }

    /// Whether an item was said to be off without a figure, and the card was
    /// told nothing of it since.
    pub(crate) fn said_off(&self, item: SetupItem) -> bool {
        let key = match item {
            SetupItem::DrawWeight => WEIGHT,
            SetupItem::DrawLength => DRAW,
            _ => "",
        };
        self.read(item, key).is_some_and(|last| {
            last.value.is_none()
                && last.result == Answer::Off
                && (!key.is_empty() || last.arrow_epoch == self.arrow_epoch)
        })
    }

    /// Whether a change of the card makes the weight of a bow without a wall
    /// another one: it is the scale's at this archer's draw, and the draw is
    /// longer by now (2 to 3 lb an inch on a recurve, a bow maker's note and a
    /// club's guide). A compound draws no more at its wall.
    pub(super) fn outdraws(&self, card: &Card, set: &BTreeMap<String, String>) -> bool {
        let longer = card.bow.draw_length.inches() - self.card.bow.draw_length.inches();
        card.bow.kind != BowKind::Compound && longer > LONGER_IN && !set.contains_key(WEIGHT)
    }

    /// The last word on an item, unless the card was told its figure since.
    fn read(&self, item: SetupItem, key: &str) -> Option<&SetupAt> {
        let last = self.setup.iter().rev().find(|s| s.item == item)?;
        let later = self.said.get(key).is_none_or(|said| *said < last.entry);
        later.then_some(last)
    }
}
