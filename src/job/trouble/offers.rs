//! What brings a weak or stiff arrow and its bow together, sized by the spine
//! match's own equations, cheap and reversible first: plunger, trial point,
//! draw weight, other shafts, cutting last.
//!
//! None goes under the safety floor: five grains a pound or the maker's
//! minimum for the lightest build that may be shot, and the reach past the
//! rest.

use super::offered::{Leaves, Offer, OfferKind, Offered, Taken};
use crate::checks::safety;
use crate::checks::spine::{arrow_spec, bow_spec, of_card, spine_bow, stops};
use crate::gear::{AdjusterKind, BowKind, Card, Release};
use crate::physics::remedies::{Build, Effects, RemedyKind, RemedyLimits};
use crate::physics::si::INCH_M;
use crate::physics::{SpineGrade, SpineMatch};
use crate::question::Answer;
use crate::session::Timeline;
use crate::units::{Force, KG_PER_GRAIN, Length, MM_PER_INCH, Mass, format_fraction, trim_number};

/// Where a remedy aims: a twentieth inside the narrowest band.
const AIM_WEAK: f64 = 1.10;
const AIM_STIFF: f64 = 0.90;

/// What a turn of both limb bolts changes, lb: the least and the most (rule
/// of thumb).
pub(super) const TURN_LB: (f64, f64) = (2.0, 4.0);

/// Shaft left past the rest contact at full draw, inches, where the draw ends
/// at a wall, and where it does not or the archer is a junior (common
/// practice, no source).
pub(super) const LEFT_PAST_REST_IN: (f64, f64) = (1.0, 2.0);

/// Lowest and highest peak force the limb bolts allow, N, as far as the bow
/// maker's figures on the card say; the force now where they do not.
///
/// Without the maker's turns no bolt is turned, and a longbow has none. Down
/// counts as far as the maker's least weight and, where the turns out are
/// counted, as what is left of them surely gives; up to the maker's greatest
/// weight, and never for a junior.
fn bolts(card: &Card) -> (f64, f64) {
    let bow = &card.bow;
    let now = bow.peak_weight.newtons();
    let Some(turns) = bow.maker_max_turns.filter(|_| bow.kind != BowKind::Longbow) else {
        return (now, now);
    };
    let sure = |turns: f64| Force::from_pounds(TURN_LB.0 * turns.max(0.0)).newtons();
    let by_turns = bow.turns_out.map(|out| now - sure(turns - out));
    let least = match (bow.maker_min_weight.map(Force::newtons), by_turns) {
        (Some(weight), Some(turns)) => weight.max(turns),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => now,
    };
    let in_turns = bow.turns_out.map_or(f64::INFINITY, |out| now + sure(out));
    // No more than the arrow can carry: weight takes it towards the floor.
    let arrow = card.arrow.total_mass().grains();
    let arrow = arrow.min(card.arrow.next_mass(false).grains());
    // The maker's least arrow may be so many grains for each pound.
    let makers = bow.maker_min_arrow.map_or(0.0, Mass::grains) / bow.peak_weight.pounds();
    let carried = Force::from_pounds(arrow / makers.max(safety::LEAST_GPP)).newtons();
    let most = match bow.maker_max_weight {
        Some(weight) if !card.archer.junior => weight.newtons().min(in_turns).min(carried),
        _ => now,
    };
    (least.min(now), most.max(now))
}

/// Shortest shaft that may be cut to, m: only where rest contact and this
/// archer's full draw were measured, and the further of mark and card counts.
fn shortest(card: &Card, build: &Build) -> Option<f64> {
    let mark = card.rest.full_draw_mark?;
    if card.rest.mark_disagrees(&card.bow) {
        return None;
    }
    let contact = mark.m().max(build.bow.rest_m());
    Some(contact + left_past_rest_in(card) * INCH_M)
}

/// Inches that stay past the rest contact: a compound draws to a wall.
pub(super) const fn left_past_rest_in(card: &Card) -> f64 {
    let wall = matches!(card.bow.kind, BowKind::Compound) && !card.archer.junior;
    if wall {
        LEFT_PAST_REST_IN.0
    } else {
        LEFT_PAST_REST_IN.1
    }
}

/// Whether cutting is left out for want of a measurement alone.
pub fn cut_wants_a_mark(card: &Card) -> bool {
    let weak = of_card(card).load_ratio > 1.0;
    weak && !stops(card)
        && (card.rest.full_draw_mark.is_none() || card.rest.mark_disagrees(&card.bow))
}

fn limits(card: &Card, build: &Build) -> RemedyLimits {
    let usual = RemedyLimits::usual(&build.bow);
    let arrow = &card.arrow;
    let lightest = arrow.next_point().kg().min(arrow.point_mass.kg());
    RemedyLimits {
        maker_min_arrow_kg: card.bow.maker_min_arrow.map_or(0.0, Mass::kg),
        lighter_kg: arrow.vane_mass.kg() + arrow.next_point().kg() - lightest,
        min_length_m: shortest(card, build),
        peak_force_n: bolts(card),
        ..usual
    }
}

/// What a remedy is sized for.
pub(super) struct Case<'a> {
    pub card: &'a Card,
    pub build: Build,
    pub(crate) limits: RemedyLimits,
    pub found: SpineMatch,
}

impl Case<'_> {
    pub(super) fn weak(&self) -> bool {
        self.found.load_ratio > 1.0
    }
    fn aim(&self) -> f64 {
        if self.weak() { AIM_WEAK } else { AIM_STIFF }
    }
    fn suits(&self, after: &Effects) -> bool {
        let (low, high) = self.found.reference.bands.matched;
        if self.weak() {
            after.load_ratio <= high
        } else {
            after.load_ratio >= low
        }
    }
}

/// A size that was found and rounded.
pub(super) struct Sized {
    pub kind: RemedyKind,
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub after: Effects,
    pub(crate) suits: bool,
}

/// The remedies for the card as it stands, the limb bolts where they are now.
pub fn offers_now(timeline: &Timeline) -> Vec<Offer> {
    let mut card = timeline.card.clone();
    let (out, counted) = timeline.turns_out();
    card.bow.turns_out = counted.then_some(out);
    offers(&card)
}

/// The remedies that help this arrow, in working order. None for an arrow
/// that suits; past the stop load only what cures it without a test shot.
pub fn offers(card: &Card) -> Vec<Offer> {
    let found = of_card(card);
    if found.grade == SpineGrade::Matched {
        return Vec::new();
    }
    let build = Build {
        arrow: arrow_spec(card),
        bow: bow_spec(card),
        spine_bow: spine_bow(card),
    };
    let case = Case {
        card,
        build,
        limits: limits(card, &build),
        found,
    };
    let stopped = stops(card);
    let mut all = Vec::new();
    if !stopped
        && card.bow.release == Release::Fingers
        && card.adjuster(AdjusterKind::PlungerTension).is_some()
    {
        all.push(plunger(case.weak()));
    }
    let kinds: &[RemedyKind] = if stopped {
        &[RemedyKind::DrawWeight, RemedyKind::Shaft]
    } else {
        &[RemedyKind::Point, RemedyKind::DrawWeight, RemedyKind::Shaft]
    };
    let sizes: Vec<Sized> = kinds
        .iter()
        .filter_map(|kind| sized(*kind, &case, &case.build))
        .filter(|size| size.suits || !stopped)
        .collect();
    all.extend(sizes.iter().map(|size| describe(size, &case, None)));
    if !stopped {
        all.extend(cut(&case, &sizes));
    }
    all
}

/// Cutting, only a weak arrow and only where it cures it: alone, or with one
/// offered before that does not cure it by itself.
fn cut(case: &Case<'_>, before: &[Sized]) -> Option<Offer> {
    if !case.weak() {
        return None;
    }
    let alone = sized(RemedyKind::Cut, case, &case.build).filter(|size| size.suits);
    if let Some(size) = alone {
        return Some(describe(&size, case, None));
    }
    let partners = before.iter().filter(|s| {
        let eases = matches!(s.kind, RemedyKind::Point | RemedyKind::DrawWeight);
        eases && !s.suits
    });
    for partner in partners {
        let build = case.build.with(partner.kind, partner.to);
        // The arrow may be cut before the other is done: it bears that alone too.
        let bears = |size: &Sized| {
            let alone = case.build.with(RemedyKind::Cut, size.to);
            case.limits.room_kg(&alone.arrow, alone.bow.peak_force_n) >= -1e-9
        };
        let size = sized(RemedyKind::Cut, case, &build).filter(|size| size.suits && bears(size));
        if let Some(size) = size {
            return Some(describe(&size, case, Some(partner)));
        }
    }
    None
}

fn plunger(weak: bool) -> Offer {
    Offer {
        id: Answer::Plunger,
        kind: OfferKind::Plunger { firmer: weak },
        reaches: None,
        with: None,
        card: None,
    }
}

/// The offer of a size; with the other offer that it needs, where it does.
fn describe(size: &Sized, case: &Case<'_>, partner: Option<&Sized>) -> Offer {
    let offered = Offered {
        remedy: size.kind,
        from: size.from,
        to: size.to,
        with: partner.map(|p| (p.kind, p.to)),
        now: case.build.effects(),
        after: size.after,
        taken: taken(size, case.card),
    };
    Offer {
        id: id(size.kind),
        kind: OfferKind::Sized(Box::new(offered)),
        reaches: Some(size.suits),
        with: partner.map(|p| id(p.kind)),
        card: Some(on_card(size)),
    }
}

fn taken(size: &Sized, card: &Card) -> Taken {
    match size.kind {
        RemedyKind::Point => Taken::Point,
        RemedyKind::DrawWeight => {
            let up = size.to > size.from;
            let bow = &card.bow;
            let edge = if up {
                bow.maker_max_weight
            } else {
                bow.maker_min_weight
            };
            let change = Force::from_newtons((size.to - size.from).abs()).pounds();
            // In quarters, one at least.
            let turns = |lb: f64| (change / lb * 4.0).round().max(1.0) / 4.0;
            Taken::Bolts {
                up,
                turns: (turns(TURN_LB.1), turns(TURN_LB.0)),
                most_out: bow.maker_max_turns,
                edge: edge.map(Force::pounds),
            }
        }
        RemedyKind::Shaft => Taken::Shafts,
        RemedyKind::Cut => Taken::Cut {
            leaves: left_past_rest_in(card),
            why: match card.bow.kind {
                BowKind::Compound if card.archer.junior => Leaves::Junior,
                BowKind::Compound => Leaves::Wall,
                _ => Leaves::NoClicker,
            },
        },
    }
}

/// Its place on the card.
fn on_card(size: &Sized) -> (&'static str, String) {
    let to = size.to;
    match size.kind {
        RemedyKind::Point => {
            let grains = trim_number(Mass::from_kg(to).grains(), 0);
            ("arrow.trial_point", format!("{grains} gr"))
        }
        RemedyKind::DrawWeight => {
            let pounds = trim_number(Force::from_newtons(to).pounds(), 1);
            ("bow.peak_weight", format!("{pounds} lb"))
        }
        RemedyKind::Shaft => ("arrow.spine", format!("{to:.2}")),
        RemedyKind::Cut => {
            let inches = format_fraction(Length::from_m(to).inches(), 16);
            ("arrow.shaft_length", format!("{inches} in"))
        }
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

fn sized(kind: RemedyKind, case: &Case<'_>, build: &Build) -> Option<Sized> {
    let mut limits = case.limits;
    if kind == RemedyKind::Point {
        // Another trial point leaves the arrow's own point as it is.
        limits.lighter_kg = case.card.arrow.vane_mass.kg();
    }
    let found = build.remedy(kind, case.aim(), &limits)?;
    let room = |to: f64| {
        let next = build.with(kind, to);
        let long = limits.min_length_m.is_none_or(|least| to >= least - 1e-9);
        let inside = match kind {
            RemedyKind::DrawWeight => {
                to >= limits.peak_force_n.0 - 1e-6 && to <= limits.peak_force_n.1 + 1e-6
            }
            RemedyKind::Cut => long,
            RemedyKind::Point | RemedyKind::Shaft => true,
        };
        // What adds mass or takes weight off needs no room.
        let eases = match kind {
            RemedyKind::Point => to > found.from,
            RemedyKind::DrawWeight => to < found.from,
            RemedyKind::Shaft => true,
            RemedyKind::Cut => false,
        };
        inside && (eases || limits.room_kg(&next.arrow, next.bow.peak_force_n) >= -1e-9)
    };
    // Past the wanted size where the limits leave room, else short of it.
    let to = [found.reaches, false]
        .map(|past| rounded(kind, found.from, found.to, past))
        .into_iter()
        .find(|to| room(*to))?;
    // Rounding may have eaten the whole of it.
    if (to - found.from) * (found.to - found.from) <= 0.0 || (to - found.from).abs() < 1e-9 {
        return None;
    }
    let after = build.with(kind, to).effects();
    Some(Sized {
        kind,
        from: found.from,
        to,
        after,
        suits: case.suits(&after),
    })
}

/// To what can be bought or set: points in 5 gr, weight in half pounds,
/// spines in hundredths, length in eighths; past the size or short of it.
fn rounded(kind: RemedyKind, from: f64, to: f64, past: bool) -> f64 {
    let unit = match kind {
        RemedyKind::Point => 5.0 * KG_PER_GRAIN,
        RemedyKind::DrawWeight => Force::from_pounds(0.5).newtons(),
        RemedyKind::Shaft => 0.01,
        RemedyKind::Cut => MM_PER_INCH / 8000.0,
    };
    let steps = to / unit;
    let whole = if (to > from) == past {
        (steps - 1e-6).ceil()
    } else {
        (steps + 1e-6).floor()
    };
    whole * unit
}

#[cfg(test)]
#[path = "offers_limits.rs"]
mod limits_tests;
#[cfg(test)]
#[path = "offers_tests.rs"]
mod tests;
