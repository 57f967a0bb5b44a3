//! Changes of the card, and what they make unknown.

use std::collections::BTreeMap;

use super::{ShotAt, Timeline};
use crate::gear::{Card, CardProblem};
use crate::question::Taken;

/// What a change of the card makes unknown again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Resets {
    /// Another arrow: the likely tear and the learned response.
    Arrow,
    /// Another bow, release or rest: the likely tear.
    Bow,
}

/// What is unknown again when one card takes the place of another; the
/// larger of the two where both changed.
pub(crate) fn resets(before: &Card, after: &Card) -> Option<Resets> {
    let arrow = |c: &Card| {
        let a = &c.arrow;
        (
            a.shaft_length,
            a.spine,
            a.shaft_mass,
            a.next_point(),
            a.nock_mass,
            a.vane_mass,
        )
    };
    let bow = |c: &Card| {
        let b = &c.bow;
        (
            b.kind,
            b.hand,
            b.release,
            b.draw_length,
            b.brace_height,
            c.rest.kind,
        )
    };
    if arrow(before) != arrow(after) {
        return Some(Resets::Arrow);
    }
    (bow(before) != bow(after)).then_some(Resets::Bow)
}

const TURNS_OUT: &str = "bow.turns_out";

/// Distances to the paper within this factor are one distance to learn from.
const DISTANCES: f64 = 1.25;

/// Whether what was learned of the bow on one card may be used for the other:
/// same kind of bow, release and rest, the same hand, much the same distance.
pub(crate) fn alike(a: &Card, b: &Card) -> bool {
    let class = |c: &Card| (c.bow.kind, c.bow.release, c.rest.kind);
    class(a) == class(b)
        && a.bow.hand == b.bow.hand
        && near(a.paper.distance.m(), b.paper.distance.m())
}

/// Whether two distances are one to learn from.
pub(crate) fn near(a: f64, b: f64) -> bool {
    a.max(b) <= DISTANCES * a.min(b)
}

impl Timeline {
    /// Takes a change of the card. Of one that cannot be read as a whole, what
    /// can be read is taken; the rest is a warning, and a limit may have stood
    /// on it.
    pub(super) fn take_card(
        &mut self,
        number: u32,
        set: &BTreeMap<String, String>,
        taken: Option<Taken>,
    ) {
        if self.take_all(number, set, taken).is_ok() {
            return;
        }
        let mut unread = Vec::new();
        for (key, value) in set {
            let one = BTreeMap::from([(key.clone(), value.clone())]);
            if let Err(problems) = self.take_all(number, &one, taken) {
                unread.extend(problems.into_iter().map(|p| (key.clone(), p)));
            }
        }
        self.warnings.extend(unread.iter().map(|(_, p)| p.clone()));
        self.unread.extend(unread);
    }

    fn take_all(
        &mut self,
        number: u32,
        set: &BTreeMap<String, String>,
        taken: Option<Taken>,
    ) -> Result<(), Vec<CardProblem>> {
        let mut text = self.card_text.clone();
        set.iter()
            .try_for_each(|(key, value)| text.set(key, value))
            .map_err(|problem| vec![problem])?;
        let (mut card, warnings) = Card::read(&text)?;
        if taken != Some(Taken::Corrected) && self.outdraws(&card, set) {
            let weight = text.get("bow.peak_weight").unwrap_or_default().to_owned();
            text.fill("bow.peak_weight", &weight)
                .map_err(|problem| vec![problem])?;
        }
        self.note_changes(&card, set, taken);
        self.note_weighing(set, &mut card);
        if set.contains_key(TURNS_OUT) && text.get(TURNS_OUT).is_some() {
            self.turns_said = Some(number);
        }
        self.said
            .extend(set.keys().map(|key| (key.clone(), number)));
        self.unread.retain(|key, _| !set.contains_key(key));
        // What an incident stands at changes without a stand of its own.
        if !self.incidents.is_empty() {
            self.note_stand(number, None);
        }
        self.card = card;
        self.card_text = text;
        self.warnings = warnings;
        self.note_stand(number, Some(number));
        Ok(())
    }

    /// A changed arrow restarts the mean and the arrow type; a changed bow the
    /// mean; a corrected typo neither.
    fn note_changes(&mut self, card: &Card, set: &BTreeMap<String, String>, taken: Option<Taken>) {
        let differs = resets(&self.card, card);
        let found = match taken {
            Some(Taken::Corrected) => None,
            Some(Taken::Changed) => differs.or_else(|| named(set)),
            None => differs,
        };
        if !alike(&self.card, card) {
            self.learned = None;
        }
        let weight = |c: &Card| (c.bow.peak_weight, c.bow.let_off, c.bow.speed);
        if found == Some(Resets::Arrow) {
            self.arrow_epoch += 1;
        }
        if differs.is_some() || weight(card) != weight(&self.card) {
            self.prior = None;
        }
        if taken == Some(Taken::Corrected) {
            // The sheet hung where the card says now.
            let own = |s: &&mut ShotAt| s.shot.distance.is_none();
            for shot in self.shots.iter_mut().filter(own) {
                shot.distance = card.paper.distance;
            }
        }
        // A corrected weight is the same bow, known better; its shots still hold.
        if found.is_some() && !self.shots.is_empty() {
            self.epoch += 1;
            self.add_setting(None);
        }
    }
}

/// What a change is of that was said to be one, by what was set.
fn named(set: &BTreeMap<String, String>) -> Option<Resets> {
    let any = |keys: &[&str]| set.keys().any(|key| keys.contains(&key.as_str()));
    if any(&ARROW) {
        return Some(Resets::Arrow);
    }
    any(&BOW).then_some(Resets::Bow)
}

/// What of the card makes the arrow fly as it does.
const ARROW: [&str; 8] = [
    "arrow.shaft_length",
    "arrow.spine",
    "arrow.shaft_mass",
    "arrow.point_mass",
    "arrow.trial_point",
    "arrow.nock_mass",
    "arrow.vane_mass",
    "arrow.diameter",
];

/// What of the card makes the bow shoot as it does.
const BOW: [&str; 10] = [
    "bow.kind",
    "bow.hand",
    "bow.release",
    "bow.peak_weight",
    "bow.let_off",
    "bow.speed",
    "bow.draw_length",
    "bow.brace_height",
    "bow.axle_to_axle",
    "rest.kind",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::told::timeline;
    use crate::session::{Event, Shot};
    use crate::setup::tests::COMPOUND;

    fn of(key: &str, value: &str, taken: Option<Taken>) -> Timeline {
        let shot = || Event::Shot(Shot::default());
        let change = Event::Card {
            set: BTreeMap::from([(key.to_owned(), value.to_owned())]),
            taken: taken.map(Into::into),
        };
        let events = [shot(), change, shot()];
        timeline(COMPOUND, events)
    }

    /// Whether the second shot stands under another mean, and another arrow.
    fn apart(key: &str, value: &str, taken: Option<Taken>) -> (bool, bool) {
        let t = of(key, value, taken);
        let [first, second] = t.shots.as_slice() else {
            panic!("{:?}", t.shots);
        };
        (
            first.epoch != second.epoch,
            first.arrow_epoch != second.arrow_epoch,
        )
    }

    #[test]
    fn a_corrected_typo_makes_nothing_unknown_and_a_change_does() {
        let (corrected, changed) = (Some(Taken::Corrected), Some(Taken::Changed));
        for (key, value, as_today) in [
            ("arrow.point_mass", "100 gr", (true, true)),
            ("bow.draw_length", "28 in", (true, false)),
            ("bow.peak_weight", "62 lb", (false, false)),
            ("bow.name", "blue", (false, false)),
        ] {
            assert_eq!(apart(key, value, None), as_today, "{key}");
            assert_eq!(apart(key, value, corrected), (false, false), "{key}");
        }
        assert_eq!(apart("arrow.point_mass", "100 gr", changed), (true, true));
        assert_eq!(apart("bow.draw_length", "28 in", changed), (true, false));
        // A weight that was changed and not only known better.
        assert_eq!(apart("bow.peak_weight", "62 lb", changed), (true, false));
        assert_eq!(apart("bow.name", "blue", changed), (false, false));
    }

    #[test]
    fn a_corrected_distance_is_where_the_sheet_hung_all_along() {
        let metres = |taken| -> Vec<f64> {
            let t = of("paper.distance", "3 m", taken);
            t.shots.iter().map(|s| s.distance.m()).collect()
        };
        assert_eq!(metres(Some(Taken::Corrected)), [3.0, 3.0]);
        assert_eq!(metres(None), [2.0, 3.0]);
        assert_eq!(metres(Some(Taken::Changed)), [2.0, 3.0]);
    }
}
