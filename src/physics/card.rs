//! From a card to the numbers of the mechanics.

use super::bow::BowSpec;
use super::column::{ArrowSpec, VANE_POSITION_M};
use super::kinds::Setup;
use super::prior::Case;
use super::spine::SpineBow;
use crate::gear::Card;

/// The arrow of a card as it is about to be shot: with the trial point where
/// one is named. The card's point mass includes the insert.
#[must_use]
pub(crate) fn arrow_spec(card: &Card) -> ArrowSpec {
    let arrow = &card.arrow;
    ArrowSpec {
        shaft_length_m: arrow.shaft_length.m(),
        ei: arrow.spine.stiffness(),
        shaft_mass_per_m: arrow.shaft_mass.kg_per_m(),
        point_mass_kg: arrow.next_point().kg(),
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
pub(crate) fn bow_spec(card: &Card) -> BowSpec {
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
pub(crate) fn case(card: &Card) -> Case {
    Case {
        arrow: arrow_spec(card),
        bow: bow_spec(card),
        setup: setup(card),
        paper_m: card.paper.distance.m(),
        weighed: card.bow.weighed,
    }
}

#[cfg(test)]
mod tests {
    use super::super::prior::response_prior;
    use super::*;
    use crate::fixtures::SPINE_COMPOUND;
    use crate::gear::CardText;

    fn card(changes: &[(&str, &str)]) -> Card {
        let mut text = CardText::from_toml(SPINE_COMPOUND).expect("a sound card");
        for (key, value) in changes {
            text.set(key, value).expect("a known field");
        }
        Card::read(&text).expect("a sound card").0
    }

    #[test]
    fn a_card_gives_the_numbers_of_the_mechanics() {
        let case = case(&card(&[
            ("bow.speed", "280 ft/s"),
            ("rest.contact_ahead", "1 in"),
        ]));
        assert!((case.bow.stroke_m() - 20.25 * 0.0254).abs() < 1e-9);
        assert!((case.bow.rest_m() - 28.25 * 0.0254).abs() < 1e-9);
        assert!((case.bow.chronograph_m_s.expect("given") - 85.344).abs() < 1e-9);
        assert!((case.arrow.ei - 6.3654).abs() < 1e-3);
    }

    #[test]
    fn odd_cards_give_a_finite_prior_or_none() {
        for change in [
            ("bow.peak_weight", "200 lb"),
            ("bow.draw_length", "9 in"),
            ("bow.draw_length", "200 in"),
            ("bow.speed", "30 ft/s"),
            ("bow.speed", "900 ft/s"),
            ("arrow.shaft_length", "3 in"),
            ("arrow.spine", "4.5"),
            ("arrow.point_mass", "3000 gr"),
            ("paper.distance", "0.4 m"),
            ("rest.kind", "capture"),
            ("rest.contact_ahead", "-6 in"),
        ] {
            if let Some(prior) = response_prior(&card(&[change]), 1) {
                let finite = prior
                    .gains
                    .iter()
                    .all(|g| g.mean.is_finite() && g.sd.is_finite());
                assert!(
                    finite && prior.start_sd_mm.iter().all(|x| x.is_finite()),
                    "{change:?}"
                );
            }
        }
        assert!(response_prior(&card(&[]), 1).is_some());
        assert!(response_prior(&card(&[("bow.draw_length", "9 in")]), 1).is_none());
    }
}
