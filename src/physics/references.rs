//! What load number a bow wants: the one table of references.
//!
//! Nobody publishes a law. These rest on a few printed rows and on
//! remembered ones, and agree among themselves to about 15 %; that is why
//! anything within 15 % is called matched.

use super::kinds::{BowKind, Release, RestKind};

/// One row of the reference table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// What sort of bow, in the trade's words.
    pub name: &'static str,
    /// Load number `F L^2 / EI` that suits it with a 100 grain point.
    pub load_number: f64,
    /// What the figure rests on, to be shown with it.
    pub standing: &'static str,
}

/// Compound with a release aid.
pub const COMPOUND_AID: Reference = Reference {
    name: "compound, release aid",
    load_number: 21.5,
    standing: "one printed row (70 lb, 29 in draw, 0.340: 21.0 to 22.6) and seven remembered ones (20.3 to 22.1); about 15 % either way",
};

/// Recurve cut to centre, shot off a plunger.
pub const RECURVE_PLUNGER: Reference = Reference {
    name: "centre-cut recurve on a plunger",
    load_number: 21.5,
    standing: "from memory: taken equal to the compound's; about 15 % either way",
};

/// Compound shot with fingers: one shaft group stiffer than with an aid
/// (0.400 to 0.340, 0.340 to 0.300: a factor of 0.85 to 0.88).
pub const COMPOUND_FINGERS: Reference = Reference {
    name: "compound, fingers",
    load_number: 18.5,
    standing: "from memory: one shaft group stiffer than with a release aid; about 15 % either way",
};

/// Bow shot off its shelf, or any longbow.
pub const SHELF: Reference = Reference {
    name: "bow shot off the shelf",
    load_number: 27.8,
    standing: "the wooden-arrow convention: 26 in over the deflection under 2 lb equals the draw weight, 28 in arrow; about 15 % either way",
};

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

    #[test]
    fn each_sort_of_bow_has_its_reference() {
        use BowKind::{Compound, Longbow, Recurve};
        assert_eq!(
            reference(Compound, Release::Aid, RestKind::DropAway),
            COMPOUND_AID
        );
        assert_eq!(
            reference(Compound, Release::Fingers, RestKind::Plunger),
            COMPOUND_FINGERS
        );
        assert_eq!(
            reference(Recurve, Release::Fingers, RestKind::Plunger),
            RECURVE_PLUNGER
        );
        assert_eq!(reference(Recurve, Release::Fingers, RestKind::Shelf), SHELF);
        assert_eq!(reference(Longbow, Release::Fingers, RestKind::Fixed), SHELF);
    }
}
