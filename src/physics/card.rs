//! From a card to the numbers of the mechanics.

use super::bow::BowSpec;
use super::column::{ArrowSpec, VANE_POSITION_M};
use super::kinds::Setup;
use super::prior::Case;
use super::spine::SpineBow;
use crate::gear::Card;

/// The arrow of a card. The card's point mass includes the insert.
#[must_use]
pub fn arrow_spec(card: &Card) -> ArrowSpec {
    let arrow = &card.arrow;
    ArrowSpec {
        shaft_length_m: arrow.shaft_length.m(),
        ei: arrow.spine.stiffness(),
        shaft_mass_per_m: arrow.shaft_mass.kg_per_m(),
        point_mass_kg: arrow.point_mass.kg(),
        insert_mass_kg: 0.0,
        nock_mass_kg: arrow.nock_mass.kg(),
        vane_mass_kg: arrow.vane_mass.kg(),
        vane_position_m: VANE_POSITION_M,
        diameter_m: arrow.diameter.m(),
        bare: false,
    }
}

/// The bow of a card.
#[must_use]
pub fn bow_spec(card: &Card) -> BowSpec {
    BowSpec {
        kind: card.bow.kind,
        peak_force_n: card.bow.peak_weight.newtons(),
        draw_length_m: card.bow.draw_length.m(),
        brace_height_m: card.bow.brace_height.m(),
        let_off: card.bow.let_off.fraction(),
        chronograph_m_s: card.bow.speed.map(crate::units::Speed::mps),
        rest_ahead_m: card.rest.contact_ahead.m(),
    }
}

/// The bow of a card as the spine match needs it.
#[must_use]
pub fn spine_bow(card: &Card) -> SpineBow {
    SpineBow {
        kind: card.bow.kind,
        release: card.bow.release,
        rest: card.rest.kind,
        peak_force_n: card.bow.peak_weight.newtons(),
    }
}

/// The kinds and hand of a card.
#[must_use]
pub fn setup(card: &Card) -> Setup {
    Setup {
        kind: card.bow.kind,
        release: card.bow.release,
        rest: card.rest.kind,
        hand: card.bow.hand,
    }
}

/// A card as a case for the response prior or a virtual bow.
#[must_use]
pub fn case(card: &Card) -> Case {
    Case {
        arrow: arrow_spec(card),
        bow: bow_spec(card),
        setup: setup(card),
        paper_m: card.paper.distance.m(),
    }
}
