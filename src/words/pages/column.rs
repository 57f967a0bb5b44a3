//! The arrow as a column: its weights, how it swings, how its load stands
//! against what suits the bow, and what that rests on.

use super::super::STOP_LOAD_IS;
use crate::gear::Release;
use crate::physics::SpineMatch;
use crate::physics::bending::Bending;
use crate::physics::column::ArrowSpec;
use crate::physics::references::{REFERENCE_INSERT_GR, Reference};
use crate::units::{Length, Mass, System, trim_number};

const FT_S: f64 = 0.3048;

/// The head of the remedies.
pub(crate) const NOTHING_TO_CHANGE: &str = "Nothing needs to change.";
/// Why cutting is not among the remedies.
pub(crate) const NOT_CUT: &str = "Cutting is left out: the card holds no full draw mark to cut by. Read it off a shaft at this archer's full draw.";

fn grains(kg: f64) -> String {
    trim_number(Mass::from_kg(kg).grains(), 0)
}

/// What each part of the arrow weighs, on a bow of this draw weight in
/// newtons.
pub(crate) fn weights(arrow: &ArrowSpec, draw_weight_n: f64) -> String {
    format!(
        "Weights: nock {} gr, vanes {} gr, shaft {} gr, point {} gr. That is {} gr in all, {:.1} gr/lb. Front of centre: {:.1} %.",
        grains(arrow.nock_mass_kg),
        grains(arrow.vanes_kg()),
        grains(arrow.shaft_mass_per_m * arrow.shaft_length_m),
        grains(arrow.front_kg()),
        grains(arrow.mass_kg()),
        arrow.grains_per_pound(draw_weight_n),
        arrow.foc_percent()
    )
}

/// How the arrow swings when it is free of the string.
pub(crate) fn swing(arrow: &ArrowSpec, bending: &Bending, system: System) -> String {
    let long = |m: f64| system.long(Length::from_m(m));
    let nodes: Vec<String> = bending.nodes_m.iter().map(|x| long(*x)).collect();
    format!(
        "Free of the string it swings {:.0} times a second about the ringed places, {} from the nock. At about {:.0} ft/s that is once in {} of flight. It balances {} from the nock.",
        bending.swings_hz,
        nodes.join(" and "),
        bending.speed_m_s / FT_S,
        system.distance(Length::from_m((bending.wave_m() * 20.0).round() / 20.0)),
        long(arrow.balance_m())
    )
}

/// What the load is and where its bands lie.
pub(crate) fn band(found: &SpineMatch, release: Release) -> String {
    let bands = &found.reference.bands;
    let (fingers, borderline) = match release {
        Release::Fingers => (
            ", shot with fingers,",
            format!("{:.2} to {:.2}", bands.borderline.0, bands.borderline.1),
        ),
        Release::Aid => ("", format!("up to {:.2}", bands.borderline.1)),
    };
    format!(
        "The string pushes the arrow like a column. Its load{fingers} is {:.2} times that of an arrow that suits this bow. Suits: {:.2} to {:.2}. Borderline: {borderline}. Not shot at all: over {:.2} (rule of thumb, no source). That is a margin: {STOP_LOAD_IS}.",
        found.load_ratio, bands.matched.0, bands.matched.1, bands.stop,
    )
}

/// What the sizes of the remedies rest on, and how they are done; `stopped`
/// where the arrow is not shot at all.
pub(crate) fn sizes(stopped: bool) -> String {
    let then = match stopped {
        true => "None of them is tried by a shot: the card decides.",
        false => "Do one at a time, then shoot again.",
    };
    format!("The sizes come from the same equations, and none goes under the safety floor. {then}")
}

/// What the reference rests on.
pub(crate) fn standing(reference: &Reference) -> String {
    format!(
        "Little is known of which load suits ({}). The reference is one arrow, whatever is shot: 28 in, 8 gr/in, 100 gr point and {REFERENCE_INSERT_GR:.0} gr insert, 10 gr nock, 18 gr of vanes.",
        super::super::load_standing(reference.sort)
    )
}
