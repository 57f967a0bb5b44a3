//! What load number a bow wants, and the bands about it: the one table.
//!
//! Nobody publishes a law. The references rest on a few printed rows, on
//! remembered ones and on guesses; how far off a load may be before anything
//! is refused follows from how much its reference can be trusted.

use super::column::{ArrowSpec, VANE_POSITION_M};
use super::kinds::{BowKind, Release, RestKind};
use super::si::{GRAIN_KG, INCH_M};
use super::spine::ei_from_spine;

/// Bands of the load ratio. Every edge belongs to the milder side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bands {
    /// Least and greatest load ratio of a matched arrow.
    pub(crate) matched: (f64, f64),
    /// Least and greatest load ratio that is borderline; past either it fails.
    /// With a release aid the lower one only warns.
    pub(crate) borderline: (f64, f64),
    /// Load ratio past which the arrow is not shot at all: a rule of thumb, no
    /// source, and a margin. Strain computed with the launch model would put
    /// the limit 1.1 to 1.7 times higher (`tests/published/stop_load.rs`).
    pub stop: f64,
}

/// The sorts of bow that want loads of their own. What each reference rests on
/// is said in [`crate::words`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BowSort {
    /// A compound with a release aid.
    CompoundAid,
    /// A recurve cut to centre, on a plunger.
    RecurvePlunger,
    /// A compound shot with fingers.
    CompoundFingers,
    /// A bow shot off its shelf, or any longbow.
    Shelf,
}

/// One row of the reference table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// What sort of bow it is for, and so what the figure rests on.
    pub sort: BowSort,
    /// Load number `F L^2 / EI` that suits it, for the build of [`reference_arrow`].
    pub load_number: f64,
    /// Whether the figure is a guess: then the arrow maker's chart decides.
    pub(crate) guess: bool,
    /// How far off is how bad.
    pub bands: Bands,
}

/// Compound with a release aid.
pub(crate) const COMPOUND_AID: Reference = Reference {
    sort: BowSort::CompoundAid,
    load_number: 21.5,
    guess: false,
    bands: Bands {
        matched: (0.85, 1.15),
        borderline: (0.85, 1.25),
        stop: 1.6,
    },
};

/// Recurve cut to centre, shot off a plunger.
pub(crate) const RECURVE_PLUNGER: Reference = Reference {
    sort: BowSort::RecurvePlunger,
    load_number: 21.5,
    guess: true,
    bands: Bands {
        matched: (0.8, 1.2),
        borderline: (0.77, 1.3),
        stop: 1.7,
    },
};

/// Compound shot with fingers: one shaft group stiffer than with an aid
/// (0.400 to 0.340, 0.340 to 0.300: a factor of 0.85 to 0.88).
pub(crate) const COMPOUND_FINGERS: Reference = Reference {
    sort: BowSort::CompoundFingers,
    load_number: 18.5,
    guess: true,
    bands: Bands {
        matched: (0.8, 1.2),
        borderline: (0.77, 1.3),
        stop: 2.0,
    },
};

/// Bow shot off its shelf, or any longbow.
pub(crate) const SHELF: Reference = Reference {
    sort: BowSort::Shelf,
    load_number: 27.8,
    guess: false,
    bands: Bands {
        matched: (0.85, 1.15),
        borderline: (0.8, 1.25),
        stop: 1.6,
    },
};

#[cfg(test)]
/// Every row.
pub(crate) const REFERENCES: [Reference; 4] =
    [COMPOUND_AID, RECURVE_PLUNGER, COMPOUND_FINGERS, SHELF];

/// Point of the printed rows, grains.
pub(crate) const REFERENCE_POINT_GR: f64 = 100.0;
/// Insert that goes with it, grains. The rows name the point alone; 12 gr is
/// a plain aluminium insert (common practice, no source).
pub(crate) const REFERENCE_INSERT_GR: f64 = 12.0;

/// The one build all references are meant for: the shaft of the row 60 lb,
/// 28 in, 0.400, at 8 gr/in, with a 100 gr point and its 12 gr insert, a
/// 10 gr nock and 18 gr of vanes (the masses are common practice, no source).
///
/// It is the same whatever arrow is held against it, so that a heavy nock, a
/// wrap or a heavier shaft counts in the comparison as it does on the bow.
#[must_use]
pub fn reference_arrow() -> ArrowSpec {
    ArrowSpec {
        shaft_length_m: 28.0 * INCH_M,
        ei: ei_from_spine(0.400),
        shaft_mass_per_m: 8.0 * GRAIN_KG / INCH_M,
        point_mass_kg: REFERENCE_POINT_GR * GRAIN_KG,
        insert_mass_kg: REFERENCE_INSERT_GR * GRAIN_KG,
        nock_mass_kg: 10.0 * GRAIN_KG,
        vane_mass_kg: 18.0 * GRAIN_KG,
        vane_position_m: VANE_POSITION_M,
        diameter_m: 6.5e-3,
        bare: false,
    }
}

/// The reference for a bow, its release and its rest.
#[must_use]
pub fn reference(kind: BowKind, release: Release, rest: RestKind) -> Reference {
    match (kind, release, rest) {
        (BowKind::Compound, Release::Aid, _) => COMPOUND_AID,
        (BowKind::Compound, Release::Fingers, _) => COMPOUND_FINGERS,
        (BowKind::Longbow, _, _) | (_, _, RestKind::Shelf) => SHELF,
        (BowKind::Recurve, _, _) => RECURVE_PLUNGER,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn each_sort_of_bow_has_its_reference() {
        use BowKind::{Compound, Longbow, Recurve};
        let figure = |kind, release, rest| {
            let row = reference(kind, release, rest);
            (row.load_number, row.bands.stop, row.guess)
        };
        let rests = [
            RestKind::DropAway,
            RestKind::Blade,
            RestKind::Capture,
            RestKind::Plunger,
            RestKind::Fixed,
            RestKind::Shelf,
        ];
        for rest in rests {
            let shelf = rest == RestKind::Shelf;
            let recurve = if shelf {
                (27.8, 1.6, false)
            } else {
                (21.5, 1.7, true)
            };
            assert_eq!(figure(Compound, Release::Aid, rest), (21.5, 1.6, false));
            assert_eq!(figure(Compound, Release::Fingers, rest), (18.5, 2.0, true));
            assert_eq!(figure(Recurve, Release::Fingers, rest), recurve);
            assert_eq!(figure(Recurve, Release::Aid, rest), recurve);
            assert_eq!(figure(Longbow, Release::Fingers, rest), (27.8, 1.6, false));
        }
    }

    /// Both readings of "100 gr point" written out: 112 gr in front is the
    /// one used, 100 gr the one that leaves the insert out. The critical
    /// values were worked out separately, by the same series in another
    /// language.
    #[test]
    fn the_reference_point_is_a_hundred_grains_and_its_insert() {
        let used = reference_arrow();
        assert_relative_eq!(used.front_kg() / GRAIN_KG, 112.0, max_relative = 1e-12);
        assert_relative_eq!(used.mass_kg() / GRAIN_KG, 364.0, max_relative = 1e-12);
        assert_relative_eq!(used.critical_number(), 15.5333, max_relative = 1e-5);
        let without = ArrowSpec {
            insert_mass_kg: 0.0,
            ..used
        };
        assert_relative_eq!(without.critical_number(), 15.8273, max_relative = 1e-5);
    }
}
