//! What the rest does to the shaft: a massless spring and damper, two-sided
//! or one-sided, with a preload for a button.

use super::kinds::{RestKind, Setup};
use super::unknowns::Unknowns;

/// Stiffness of a button's own seat and of the stop behind it, N/m: shaft
/// wall and fittings (from memory, stiff enough not to matter).
const SEAT: f64 = 2e4;

/// Which way the shaft may leave the rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Side {
    /// Held both ways.
    Both,
    /// The rest stands on the side of this sign and can only push away.
    One(f64),
}

/// The law of one contact in one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Which way the shaft may leave.
    pub(crate) side: Side,
    /// Stiffness, N/m.
    pub stiffness: f64,
    /// Damping, N s/m.
    pub damping: f64,
    /// Spring preload, N; the shaft meets the seat first.
    pub(crate) preload: f64,
    /// Travel up to a hard stop, m.
    pub(crate) travel: f64,
}

impl Contact {
    /// The contacts sideways and up and down of a set-up.
    #[must_use]
    pub fn pair(setup: &Setup, unknowns: &Unknowns) -> [Self; 2] {
        let button = setup.rest == RestKind::Plunger;
        let two_sided = matches!(
            setup.rest,
            RestKind::DropAway | RestKind::Blade | RestKind::Capture
        );
        let side = Self {
            side: if two_sided {
                Side::Both
            } else {
                Side::One(setup.riser_side())
            },
            stiffness: unknowns.rest_side,
            damping: unknowns.rest_damping,
            preload: if button { unknowns.preload_n } else { 0.0 },
            travel: if button {
                unknowns.button_travel_m
            } else {
                f64::INFINITY
            },
        };
        let up = Self {
            side: if setup.rest == RestKind::Capture {
                Side::Both
            } else {
                Side::One(-1.0)
            },
            stiffness: unknowns.rest_up,
            damping: unknowns.rest_damping,
            preload: 0.0,
            travel: f64::INFINITY,
        };
        [side, up]
    }

    /// Force on the shaft, N, for its displacement past the rest, m, and the
    /// rate of that, m/s. `yields` is how much of the rate a force of 1 N
    /// takes away within the step (m/s per N): the damper feels the mean of
    /// the rates before and after.
    #[must_use]
    #[inline]
    pub fn force(&self, past: f64, rate: f64, yields: f64) -> f64 {
        let share = 1.0 / (1.0 + self.damping * yields);
        match self.side {
            Side::Both => -share * (self.stiffness * past + self.damping * rate),
            Side::One(side) => {
                let depth = side * past;
                if depth <= 0.0 {
                    return 0.0;
                }
                let spring =
                    (self.preload + self.stiffness * depth).min(SEAT.max(self.stiffness) * depth);
                let stop = SEAT * (depth - self.travel).max(0.0);
                -side * (share * (spring + stop + self.damping * side * rate)).max(0.0)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn a_button_pushes_one_way_and_starts_with_its_preload() {
        let button = Contact {
            side: Side::One(1.0),
            stiffness: 1000.0,
            damping: 0.0,
            preload: 2.0,
            travel: 3e-3,
        };
        assert_relative_eq!(button.force(-1e-3, 0.0, 0.0), 0.0);
        assert_relative_eq!(button.force(5e-5, 0.0, 0.0), -1.0);
        assert_relative_eq!(button.force(1e-3, 0.0, 0.0), -3.0);
        assert!(button.force(4e-3, 0.0, 0.0) < -20.0);
        let left = Contact {
            side: Side::One(-1.0),
            ..button
        };
        assert_relative_eq!(left.force(-1e-3, 0.0, 0.0), 3.0);
    }

    #[test]
    fn a_one_sided_contact_never_pulls() {
        let shelf = Contact {
            side: Side::One(-1.0),
            stiffness: 1e4,
            damping: 5.0,
            preload: 0.0,
            travel: 1.0,
        };
        assert!(shelf.force(-1e-5, 10.0, 0.0) >= 0.0);
    }

    #[test]
    fn a_button_stands_on_the_risers_side_of_either_hand_and_a_shelf_below() {
        use crate::physics::kinds::{BowKind, Hand, Release};
        let pair = |rest, hand| {
            let setup = Setup {
                kind: BowKind::Recurve,
                release: Release::Fingers,
                rest,
                hand,
            };
            Contact::pair(&setup, &Unknowns::middling(&setup)).map(|contact| contact.side)
        };
        for rest in [RestKind::Plunger, RestKind::Fixed, RestKind::Shelf] {
            assert_eq!(pair(rest, Hand::Right), [Side::One(1.0), Side::One(-1.0)]);
            assert_eq!(pair(rest, Hand::Left), [Side::One(-1.0), Side::One(-1.0)]);
        }
        for hand in [Hand::Right, Hand::Left] {
            assert_eq!(pair(RestKind::Capture, hand), [Side::Both, Side::Both]);
            for rest in [RestKind::DropAway, RestKind::Blade] {
                assert_eq!(pair(rest, hand), [Side::Both, Side::One(-1.0)]);
            }
        }
    }
}
