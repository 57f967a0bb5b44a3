//! What each remedy for a weak or stiff arrow says.

use super::offers::{Case, Offer, Sized, TURN_LB, left_past_rest_in};
use crate::cautions::Caution;
use crate::gear::{BowKind, Card};
use crate::physics::remedies::RemedyKind;
use crate::question::Answer;
use crate::units::{Force, Length, Mass, format_fraction, trim_number};
use crate::words;

/// Front of centre outside which a build is remarked on, percent (from memory).
const USUAL_FOC: (f64, f64) = (7.0, 20.0);

/// Firmer makes the arrow act stiffer (direction printed), whatever the hand.
pub(super) fn plunger(weak: bool) -> Offer {
    let way = if weak { "firmer" } else { "softer" };
    Offer {
        id: Answer::Plunger,
        title: format!("Plunger {way} by 1/8 to 1/4 turn"),
        text: "Fine control only: it does not make up for a wrong shaft (size from memory, direction printed).".into(),
        reversible: true,
        reaches: None,
        with: None,
        card: None,
        load_ratio: None,
    }
}

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
fn title(size: &Sized, partner: Option<&Sized>) -> String {
    let (from, to) = (size.from, size.to);
    let what = match size.kind {
        RemedyKind::Point => format!(
            "Trial point {} gr instead of {} gr",
            grains(to),
            grains(from)
        ),
        RemedyKind::DrawWeight => {
            format!(
                "Draw weight {} lb instead of {} lb",
                pounds(to),
                pounds(from)
            )
        }
        RemedyKind::Shaft => format!(
            "Other shafts, static spine about {to:.2} in instead of {from:.3} in, same length and point"
        ),
        RemedyKind::Cut => format!(
            "Cut to {} in from {} in (cannot be undone)",
            inches(to),
            inches(from)
        ),
    };
    let with = partner.map_or(String::new(), |p| match p.kind {
        RemedyKind::Point => format!(", with the {} gr trial point", grains(p.to)),
        _ => format!(", with {} lb of draw weight", pounds(p.to)),
    });
    what + &with
}

/// Its place on the card.
fn on_card(size: &Sized) -> (&'static str, String) {
    match size.kind {
        RemedyKind::Point => ("arrow.trial_point", format!("{} gr", grains(size.to))),
        RemedyKind::DrawWeight => ("bow.peak_weight", format!("{} lb", pounds(size.to))),
        RemedyKind::Shaft => ("arrow.spine", format!("{:.2}", size.to)),
        RemedyKind::Cut => ("arrow.shaft_length", format!("{} in", inches(size.to))),
    }
}

const fn id(kind: RemedyKind) -> Answer {
    match kind {
        RemedyKind::Point => Answer::Point,
        RemedyKind::DrawWeight => Answer::Weight,
        RemedyKind::Shaft => Answer::Shafts,
        RemedyKind::Cut => Answer::Cut,
    }
}

/// Turns of both bolts for a change of draw weight, in quarters.
fn turns(size: &Sized) -> String {
    let change = Force::from_newtons((size.to - size.from).abs()).pounds();
    let quarters = |lb: f64| format_fraction((change / lb * 4.0).round().max(1.0) / 4.0, 4);
    format!(
        "about {} to {} turns",
        quarters(TURN_LB.1),
        quarters(TURN_LB.0)
    )
}

fn bolts(size: &Sized, card: &Card) -> String {
    let up = size.to > size.from;
    let (strain, way, limit, edge) = if up {
        let most = card.bow.maker_max_weight;
        (
            "Only if the owner draws it without strain. ",
            "in",
            most,
            "over",
        )
    } else {
        ("", "out", card.bow.maker_min_weight, "under")
    };
    let most = card.bow.maker_max_turns.map_or(String::new(), |turns| {
        format!(" (at most {} out)", words::turns_of(turns))
    });
    let limit = limit.map_or(String::new(), |weight| {
        format!(", nor {edge} {} lb", trim_number(weight.pounds(), 1))
    });
    format!(
        "{strain}Turn both limb bolts {way} the same, {} (2 to 4 lb a turn, rule of thumb), never past the bow maker's turns{most}{limit}. {} Then weigh the bow and put the scale's figure on the card",
        turns(size),
        crate::words::caution(Caution::Weighing)
    )
}

/// What goes with it: how it is done, its limits and cautions.
fn how(size: &Sized, case: &Case<'_>) -> String {
    match size.kind {
        RemedyKind::Point => "A test kit of points tells before anything is bought".into(),
        RemedyKind::DrawWeight => bolts(size, case.card),
        RemedyKind::Shaft => {
            "Their own weight will differ: put it on the card. Static spine as ASTM F2031".into()
        }
        RemedyKind::Cut => {
            let left = left_past_rest_in(case.card);
            let why = match case.card.bow.kind {
                BowKind::Compound if case.card.archer.junior => "for a junior",
                BowKind::Compound => "past the rest contact with a wall",
                _ => "past the rest contact without a clicker",
            };
            format!(
                "Last of all. Cut one arrow and shoot it before any other. Use an abrasive wheel, eye protection and a dust mask. At least {} in stay {why} (common practice)",
                trim_number(left, 0)
            )
        }
    }
}

/// The offer of a size; with the other offer that it needs, where it does.
pub(super) fn describe(size: &Sized, case: &Case<'_>, partner: Option<&Sized>) -> Offer {
    let now = case.build.effects();
    let after = &size.after;
    let reach = match (size.suits, partner) {
        (true, None) => "Suits then",
        (true, Some(_)) => "Suits then, both together",
        (false, _) => "Helps, but not enough alone",
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
    let effects = format!(
        "{reach}: load {} % {side} matched, arrow {} gr ({:.1} gr/lb), front of centre {:.1} %{balance}, speed {:+.0} ft/s",
        trim_number(off.abs(), 0),
        grains(after.mass_kg),
        after.grains_per_pound,
        after.foc_percent,
        (after.speed_m_s - now.speed_m_s) / 0.3048
    );
    Offer {
        id: id(size.kind),
        title: title(size, partner),
        text: format!("{effects}. {}.", how(size, case)),
        reversible: size.kind != RemedyKind::Cut,
        reaches: Some(size.suits),
        with: partner.map(|p| id(p.kind)),
        card: Some(on_card(size)),
        load_ratio: Some(after.load_ratio),
    }
}
