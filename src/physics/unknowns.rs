//! What nobody publishes about a launch, each as a named number with a range.
//!
//! The ranges are wide on purpose and from memory unless said otherwise. What
//! lies to one side is given for a right-handed bow and mirrored for a
//! left-handed one: plus is towards the riser.

use super::kinds::{BowKind, Release, RestKind, Setup};
use super::rng::Rng;
use super::si::GRAIN_KG;

macro_rules! unknowns {
    ($($(#[doc = $doc:literal])+ $name:ident),+ $(,)?) => {
        /// One guess at everything that nobody publishes.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct Unknowns {
            $($(#[doc = $doc])+ pub $name: f64,)+
        }

        /// The range of each unknown for one kind of set-up.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct Ranges {
            $($(#[doc = $doc])+ pub $name: Range,)+
        }

        impl Ranges {
            /// A set of unknowns, each chosen from its range.
            pub fn choose(&self, mut pick: impl FnMut(&Range) -> f64) -> Unknowns {
                Unknowns { $($name: pick(&self.$name),)+ }
            }

            /// Names and ranges, in order.
            #[must_use]
            pub fn list(&self) -> Vec<(&'static str, Range)> {
                vec![$((stringify!($name), self.$name),)+]
            }
        }
    };
}

unknowns! {
    /// How stiffly the string holds the nock sideways, as a multiple of the
    /// string force over the distance still to go (F/b, limb tips fixed). A
    /// launch computed with an actual string (exudyn 1.13.6) holds 0.9 to 1.1
    /// times that when the string is nearly massless, 0.6 to 0.95 where the
    /// tips give; the string's own mass, drawn beside it, does the rest.
    string_hold_side,
    /// The same up and down; softer, since there the string pivots about its
    /// ends: F b / l^2 with l half the string.
    string_hold_up,
    /// Mass of string that moves with the nock, kg: 15 to 60 gr, the most with
    /// a loop and a peep.
    string_kg,
    /// Virtual mass of the bow, as a multiple of the middling one.
    virtual_mass,
    /// Share of the drawn energy lost to hysteresis.
    hysteresis,
    /// Damping ratio of the arrow's bending.
    damping,
    /// Stiffness of the rest or button sideways, N/m.
    rest_side,
    /// Stiffness of the rest up and down, N/m.
    rest_up,
    /// Damping of the rest, N s/m.
    rest_damping,
    /// Preload of a button's spring, N; nothing for other rests.
    preload_n,
    /// How far a button goes in before its stop, m.
    button_travel_m,
    /// What one turn of the button's spring changes its length by, m.
    turn_m,
    /// Share of the stroke after which a drop-away rest is gone.
    drop_share,
    /// Impulse of the release on the nock, away from the riser, N s.
    release_side,
    /// Impulse of the release on the nock, upwards, N s.
    release_up,
    /// How long the release acts, s.
    release_s,
    /// Sideways bow of the string's path at mid-stroke, towards the riser, m.
    path_side_m,
    /// Upward bow of the nock's path at mid-stroke, m.
    path_up_m,
    /// How far off the string's plane the starting centre shot is, m. With
    /// fingers the trade starts 1/16 to 1/8 in out from the riser.
    start_side_m,
    /// How far above level the starting nocking point is, m; the trade starts
    /// level to slightly high, with fingers higher.
    start_up_m,
    /// Area of one vane of three, m^2.
    vane_m2,
}

/// How chances are spread over a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Spread {
    /// Even chances between the ends.
    Even,
    /// Even chances for the logarithm.
    Log,
}

/// A range of one unknown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
    /// How chances are spread between them.
    pub(crate) spread: Spread,
}

impl Range {
    const fn even(low: f64, high: f64) -> Self {
        Self {
            low,
            high,
            spread: Spread::Even,
        }
    }

    const fn log(low: f64, high: f64) -> Self {
        Self {
            low,
            high,
            spread: Spread::Log,
        }
    }

    const fn both_ways(size: f64) -> Self {
        Self::even(-size, size)
    }

    /// The value at a share of the way through the range.
    #[must_use]
    pub fn at(&self, share: f64) -> f64 {
        match self.spread {
            Spread::Even => self.low + share * (self.high - self.low),
            Spread::Log => self.low * (self.high / self.low).powf(share),
        }
    }
}

impl Unknowns {
    /// The middle of every range.
    #[must_use]
    pub fn middling(setup: &Setup) -> Self {
        ranges(setup).choose(|range| range.at(0.5))
    }

    /// A random draw from every range.
    pub fn draw(setup: &Setup, rng: &mut Rng) -> Self {
        ranges(setup).choose(|range| range.at(rng.share()))
    }
}

/// The ranges for a kind of set-up.
#[must_use]
pub fn ranges(setup: &Setup) -> Ranges {
    let compound = setup.kind == BowKind::Compound;
    let fingers = setup.release == Release::Fingers;
    let (rest_side, rest_up) = rest_stiffness(setup.rest);
    let button = setup.rest == RestKind::Plunger;
    Ranges {
        string_hold_side: Range::even(0.5, 1.3),
        string_hold_up: Range::log(0.25, 3.0),
        string_kg: Range::even(15.0 * GRAIN_KG, 60.0 * GRAIN_KG),
        virtual_mass: Range::even(0.75, 1.3),
        hysteresis: if compound {
            Range::even(0.02, 0.15)
        } else {
            Range::even(0.0, 0.08)
        },
        damping: Range::log(0.005, 0.02),
        rest_side,
        rest_up,
        rest_damping: Range::log(0.2, 5.0),
        preload_n: if button {
            Range::even(0.5, 3.0)
        } else {
            Range::even(0.0, 0.0)
        },
        button_travel_m: Range::even(2e-3, 4e-3),
        turn_m: Range::even(0.5e-3, 0.8e-3),
        drop_share: Range::even(0.1, 0.8),
        release_side: if fingers {
            Range::even(3e-3, 14e-3)
        } else {
            Range::both_ways(3e-3)
        },
        release_up: if fingers {
            Range::both_ways(5e-3)
        } else {
            Range::both_ways(2e-3)
        },
        release_s: if fingers {
            Range::even(2e-3, 5e-3)
        } else {
            Range::even(0.5e-3, 2e-3)
        },
        path_side_m: if compound {
            Range::both_ways(1.5e-3)
        } else {
            Range::both_ways(0.7e-3)
        },
        path_up_m: if compound {
            Range::both_ways(2e-3)
        } else {
            Range::both_ways(1.5e-3)
        },
        start_side_m: match (setup.rest, fingers) {
            (RestKind::Shelf, _) => Range::even(-6e-3, -1e-3),
            (_, true) => Range::even(-4e-3, -0.5e-3),
            (_, false) => Range::both_ways(2e-3),
        },
        start_up_m: if fingers {
            Range::even(-1e-3, 8e-3)
        } else {
            Range::even(-2e-3, 4e-3)
        },
        vane_m2: Range::even(300e-6, 800e-6),
    }
}

/// Stiffness sideways and up and down, N/m.
fn rest_stiffness(rest: RestKind) -> (Range, Range) {
    match rest {
        RestKind::DropAway => (Range::log(1e3, 2e4), Range::log(500.0, 1e4)),
        RestKind::Blade => (Range::log(500.0, 5e3), Range::log(200.0, 3e3)),
        RestKind::Capture => (Range::log(300.0, 3e3), Range::log(300.0, 3e3)),
        RestKind::Plunger => (Range::log(300.0, 1.5e3), Range::log(200.0, 3e3)),
        RestKind::Fixed => (Range::log(2e3, 2e4), Range::log(500.0, 1e4)),
        RestKind::Shelf => (Range::log(1e3, 1e4), Range::log(2e3, 2e4)),
    }
}

#[cfg(test)]
mod tests {
    use super::super::kinds::Hand;
    use super::*;

    #[test]
    fn the_string_holds_about_as_geometry_says_and_weighs_what_strings_weigh() {
        let setup = Setup {
            kind: BowKind::Compound,
            release: Release::Aid,
            rest: RestKind::DropAway,
            hand: Hand::Right,
        };
        let ranges = ranges(&setup);
        let hold = ranges.string_hold_side;
        assert_eq!((hold.low, hold.high), (0.5, 1.3));
        // 15 and 60 grains of 64.79891 mg.
        assert!((ranges.string_kg.low - 0.000_971_98).abs() < 1e-8);
        assert!((ranges.string_kg.high - 0.003_887_93).abs() < 1e-8);
    }

    #[test]
    fn every_range_runs_upwards_and_log_ranges_are_positive() {
        use {BowKind::*, RestKind::*};
        for kind in [Compound, Recurve, Longbow] {
            for rest in [DropAway, Blade, Capture, Plunger, Fixed, Shelf] {
                for release in [Release::Aid, Release::Fingers] {
                    let setup = Setup {
                        kind,
                        release,
                        rest,
                        hand: Hand::Right,
                    };
                    for (name, range) in ranges(&setup).list() {
                        assert!(range.low <= range.high, "{name}");
                        assert!(range.spread == Spread::Even || range.low > 0.0, "{name}");
                    }
                }
            }
        }
    }
}
