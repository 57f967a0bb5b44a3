//! What was measured before paper of the figures that safety rests on.

use super::{SetupAt, Timeline};
use crate::gear::AdjusterKind;
use crate::question::SetupItem;
use crate::units::{Force, Length, Mass};

impl Timeline {
    /// Whether safety rests on what is said of an item before paper.
    pub(super) fn safety_rests_on(item: SetupItem) -> bool {
        use SetupItem::{ArrowMass, DrawLength, DrawWeight, LimbBolts};
        matches!(item, LimbBolts | DrawWeight | DrawLength | ArrowMass)
    }

    /// The draw weight read off a scale, where no weight was entered on the
    /// card since, and how many turns the limb bolts stand further in by now.
    pub(crate) fn weight_read(&self) -> Option<(Force, f64)> {
        let read = self.read(SetupItem::DrawWeight, "bow.peak_weight")?;
        let force = Force::parse(read.value.as_deref()?).ok()?;
        let then = read.positions.get(AdjusterKind::LimbBolts);
        let now = self.now.get(AdjusterKind::LimbBolts);
        Some((force, (now - then).max(0.0)))
    }

    /// The draw length that was measured, where none was entered on the card since.
    pub(crate) fn draw_read(&self) -> Option<Length> {
        let read = self.read(SetupItem::DrawLength, "bow.draw_length")?;
        Length::parse(read.value.as_deref()?).ok()
    }

    /// What an arrow like those now on the card weighed on a scale.
    pub(crate) fn arrow_read(&self) -> Option<Mass> {
        let read = self.read(SetupItem::ArrowMass, "")?;
        let of_these = read.arrow_epoch == self.arrow_epoch;
        Mass::parse(read.value.as_deref().filter(|_| of_these)?).ok()
    }

    /// The last word on an item, unless the card was told its figure since.
    fn read(&self, item: SetupItem, key: &str) -> Option<&SetupAt> {
        let last = self.setup.iter().rev().find(|s| s.item == item)?;
        let later = self.said.get(key).is_none_or(|said| *said < last.entry);
        later.then_some(last)
    }
}
