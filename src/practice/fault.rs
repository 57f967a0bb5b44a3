//! What can be wrong with a practice bow, and which faults a level draws.

use crate::physics::rng::Rng;

/// Something hidden in a practice bow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fault {
    /// The rest stands off to one side.
    OffCentre,
    /// The nocking point or rest stands too high or too low.
    Height,
    /// The tail follows the rest, against what most guides say.
    Backwards,
    /// The arrow is too weak.
    Weak,
    /// The arrow is too stiff, shot with fingers.
    Stiff,
    /// The archer's shots spread too widely to tell anything.
    PoorArcher,
    /// The vanes strike something.
    Contact,
    /// The weight on the bow's label is too high, so a good arrow looks weak.
    Label,
}

impl Fault {
    #[cfg(test)]
    /// Every fault.
    pub(crate) const ALL: [Self; 8] = [
        Self::OffCentre,
        Self::Height,
        Self::Backwards,
        Self::Weak,
        Self::Stiff,
        Self::PoorArcher,
        Self::Contact,
        Self::Label,
    ];

    /// Whether moves of the rest or nocking point cure it.
    pub(crate) const fn is_of_the_rest(self) -> bool {
        matches!(self, Self::OffCentre | Self::Height | Self::Backwards)
    }
}

/// The levels there are.
pub const LEVELS: std::ops::RangeInclusive<u8> = 1..=5;

/// What a level drew for one bow.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plan {
    pub faults: Vec<Fault>,
    /// A recurve off a plunger, else a compound with a release aid.
    pub fingers: bool,
    pub(crate) left_handed: bool,
    /// Spread of the archer's shots on paper, as a share of the tolerance.
    pub(crate) spread: f64,
}

impl Plan {
    pub fn draw(level: u8, rng: &mut Rng) -> Self {
        use Fault::{Backwards, Contact, Height, Label, OffCentre, PoorArcher, Stiff, Weak};
        let choices: &[&[Fault]] = match level {
            0 | 1 => &[&[OffCentre], &[Height]],
            2 => &[
                &[OffCentre],
                &[OffCentre, Height],
                &[Backwards, OffCentre],
                &[Backwards, OffCentre],
            ],
            3 => &[
                &[OffCentre, Height],
                &[Backwards, OffCentre, Height],
                &[Contact],
                &[PoorArcher],
            ],
            4 => &[
                &[OffCentre, Height],
                &[Weak],
                &[Weak],
                &[Stiff],
                &[PoorArcher],
                &[Contact],
            ],
            _ => &[
                &[Backwards, OffCentre, Height],
                &[Weak, OffCentre],
                &[Stiff, Height],
                &[Contact, OffCentre],
                &[Label, OffCentre],
                &[PoorArcher, Height],
            ],
        };
        let faults = choices[rng.below(choices.len())].to_vec();
        let has = |f| faults.contains(&f);
        // With a release aid a stiff arrow is only warned of, and fingers on
        // a button have no printed rule to go against.
        let may_be_fingers = level >= 3 && !has(Backwards) && !has(Label);
        let fingers = has(Stiff) || (may_be_fingers && rng.share() < 0.35);
        let left_handed = level >= 2 && rng.share() < 0.3;
        let steady = match level {
            0 | 1 => rng.between(0.25, 0.4),
            2 => rng.between(0.3, 0.55),
            _ => rng.between(0.35, 0.65),
        };
        // A spread that cannot be read is well past 1.2 tolerances.
        let spread = if has(PoorArcher) {
            rng.between(1.9, 2.6)
        } else {
            steady
        };
        Self {
            faults,
            fingers,
            left_handed,
            spread,
        }
    }

    pub(crate) fn has(&self, fault: Fault) -> bool {
        self.faults.contains(&fault)
    }

    /// A steady shooter's spread as a share of the owner's.
    pub(crate) fn steady_share(&self) -> f64 {
        (0.3 / self.spread).min(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_fault_is_drawn_by_some_level_and_low_levels_are_of_the_rest_alone() {
        let mut seen = std::collections::HashSet::new();
        for level in LEVELS {
            for seed in 0..60 {
                let plan = Plan::draw(level, &mut Rng::new(seed));
                assert!(level > 2 || plan.faults.iter().all(|f| f.is_of_the_rest()));
                assert!(level > 2 || !plan.fingers);
                seen.extend(plan.faults);
            }
        }
        assert_eq!(seen.len(), Fault::ALL.len());
    }
}
