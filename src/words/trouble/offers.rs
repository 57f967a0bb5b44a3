//! What each remedy for a weak or stiff arrow says.

use super::super::{caution, turns_of};
use crate::cautions::Caution;
use crate::physics::remedies::RemedyKind;
use crate::trouble::{Leaves, Offer, OfferKind, Offered, Taken};
use crate::units::{Force, Length, Mass, format_fraction, trim_number};

/// Front of centre outside which a build is remarked on, percent (from memory).
const USUAL_FOC: (f64, f64) = (7.0, 20.0);

fn grains(kg: f64) -> String {
    trim_number(Mass::from_kg(kg).grains(), 0)
}

fn pounds(newtons: f64) -> String {
    trim_number(Force::from_newtons(newtons).pounds(), 1)
}

fn inches(metres: f64) -> String {
    format_fraction(Length::from_m(metres).inches(), 16)
}

/// What is done, in one line.
pub fn offer_title(offer: &Offer) -> String {
    let size = match &offer.kind {
        OfferKind::Plunger { firmer: true } => {
            return "Plunger firmer by 1/8 to 1/4 turn".into();
        }
        OfferKind::Plunger { firmer: false } => {
            return "Plunger softer by 1/8 to 1/4 turn".into();
        }
        OfferKind::Sized(size) => size,
    };
    let (from, to) = (size.from, size.to);
    let what = match size.remedy {
        RemedyKind::Point => format!(
            "Trial point {} gr instead of {} gr",
            grains(to),
            grains(from)
        ),
        RemedyKind::DrawWeight => format!(
            "Draw weight {} lb instead of {} lb",
            pounds(to),
            pounds(from)
        ),
        RemedyKind::Shaft => format!(
            "Other shafts, static spine about {to:.2} in instead of {from:.3} in, same length and point"
        ),
        RemedyKind::Cut => format!(
            "Cut to {} in from {} in (cannot be undone)",
            inches(to),
            inches(from)
        ),
    };
    let with = size.with.map_or(String::new(), |(kind, to)| match kind {
        RemedyKind::Point => format!(", with the {} gr trial point", grains(to)),
        _ => format!(", with {} lb of draw weight", pounds(to)),
    });
    what + &with
}

/// What it does besides, how it is done, its limits and cautions.
pub fn offer(offer: &Offer) -> String {
    match &offer.kind {
        OfferKind::Plunger { .. } => "Fine control only: it does not make up for a wrong shaft (size from memory, direction printed).".into(),
        OfferKind::Sized(size) => {
            format!("{}. {}.", effects(size, offer.reaches), how(&size.taken))
        }
    }
}

fn effects(size: &Offered, reaches: Option<bool>) -> String {
    let (now, after) = (&size.now, &size.after);
    let reach = match (reaches, size.with) {
        (Some(true), None) => "Suits then",
        (Some(true), Some(_)) => "Suits then, both together",
        _ => "Helps, but not enough alone",
    };
    let off = (after.load_ratio - 1.0) * 100.0;
    let side = if off < 0.0 { "under" } else { "over" };
    let balance = match after.foc_percent {
        foc if foc < USUAL_FOC.0 && foc < now.foc_percent => {
            ", low for steady flight (from memory)"
        }
        foc if foc > USUAL_FOC.1 && foc > now.foc_percent => ", high (from memory)",
        _ => "",
    };
    format!(
        "{reach}: load {} % {side} matched, arrow {} gr ({:.1} gr/lb), front of centre {:.1} %{balance}, speed {:+.0} ft/s",
        trim_number(off.abs(), 0),
        grains(after.mass_kg),
        after.grains_per_pound,
        after.foc_percent,
        (after.speed_m_s - now.speed_m_s) / 0.3048
    )
}

fn how(taken: &Taken) -> String {
    match taken {
        Taken::Point => "A test kit of points tells before anything is bought".into(),
        Taken::Shafts => {
            "Their own weight will differ: put it on the card. Static spine as ASTM F2031".into()
        }
        Taken::Bolts { .. } => bolts(taken),
        Taken::Cut { leaves, why } => {
            let why = match why {
                Leaves::Junior => "for a junior",
                Leaves::Wall => "past the rest contact with a wall",
                Leaves::NoClicker => "past the rest contact without a clicker",
            };
            format!(
                "Last of all. Cut one arrow and shoot it before any other. Use an abrasive wheel, eye protection and a dust mask. At least {} in stay {why} (common practice)",
                trim_number(*leaves, 0)
            )
        }
    }
}

fn bolts(taken: &Taken) -> String {
    let Taken::Bolts {
        up,
        turns,
        most_out,
        edge,
    } = taken
    else {
        return String::new();
    };
    let (strain, way, side) = if *up {
        ("Only if the owner draws it without strain. ", "in", "over")
    } else {
        ("", "out", "under")
    };
    let most = most_out.map_or(String::new(), |turns| {
        format!(" (at most {} out)", turns_of(turns))
    });
    let limit = edge.map_or(String::new(), |weight| {
        format!(", nor {side} {} lb", trim_number(weight, 1))
    });
    let quarters = |turns: f64| format_fraction(turns, 4);
    let about = if turns.0 == turns.1 {
        turns_of(turns.0)
    } else {
        format!("{} to {} turns", quarters(turns.0), quarters(turns.1))
    };
    format!(
        "{strain}Turn both limb bolts {way} the same, about {about} (2 to 4 lb a turn, rule of thumb), never past the bow maker's turns{most}{limit}. {} Then weigh the bow and put the scale's figure on the card",
        caution(Caution::Weighing)
    )
}

/// The offer with whether it is enough.
pub(super) fn reach(offer: &Offer) -> String {
    let reach = match (offer.reaches, offer.with) {
        (Some(true), None) => ": brings it within the limits",
        (Some(true), Some(_)) => ": both bring it within the limits",
        (Some(false), _) => ": helps, not enough alone",
        (None, _) => "",
    };
    format!("{}{reach}", offer_title(offer))
}

/// What follows once it was chosen, without the full stop.
pub(super) fn done(offer: &Offer) -> String {
    let title = offer_title(offer);
    match &offer.card {
        Some((key, value)) => format!(
            "{title}; then put it on the card: {key} = \"{value}\" (the figure really made). The spine check is worked out again"
        ),
        None => format!("{title}, then shoot 3 and look at the spine check again"),
    }
}
