//! Remedies for an arrow too weak or too stiff, sized by the spine match's
//! own equations, cheap and reversible first.

use super::node::{Node, Path, Then};
use crate::cautions;
use crate::checks::spine::{arrow_spec, assess, bow_spec, spine_bow};
use crate::gear::{AdjusterKind, Card, Release};
use crate::physics::remedies::{Build, Effects, RemedyKind, RemedyLimits};
use crate::session::Timeline;
use crate::units::{Force, KG_PER_GRAIN, Length, MM_PER_INCH, Mass, format_fraction, trim_number};

/// Where a remedy aims: a tenth inside the band on the near side.
const AIM_WEAK: f64 = 1.10;
const AIM_STIFF: f64 = 0.90;

/// One remedy, sized, with its side effects.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// `plunger`, `point`, `weight`, `shafts`, `cut`.
    pub id: &'static str,
    /// In one line.
    pub title: String,
    /// What it does besides, and its limits.
    pub text: String,
    /// Whether it can be undone.
    pub reversible: bool,
    /// Whether it brings the arrow inside the band by itself; `None` where it is not computed.
    pub reaches: Option<bool>,
    /// The card change it amounts to, as key and value.
    pub card: Option<(&'static str, String)>,
    /// Load ratio afterwards, 1 as the bow wants it, where computed.
    pub load_ratio: Option<f64>,
}

fn build(card: &Card) -> Build {
    Build {
        arrow: arrow_spec(card),
        bow: bow_spec(card),
        spine_bow: spine_bow(card),
    }
}

/// Limits of this card: the floor holds for the bare shaft too, and the
/// front stays half an inch past the rest.
fn limits(card: &Card, build: &Build) -> RemedyLimits {
    let usual = RemedyLimits::usual(&build.bow);
    let maker = card.bow.maker_min_arrow.map_or(0.0, Mass::kg);
    let floor = usual.floor_kg(build.bow.peak_force_n).max(maker);
    let now = build.bow.peak_force_n;
    let least = card.bow.maker_min_weight.map(Force::newtons);
    RemedyLimits {
        maker_min_arrow_kg: floor + card.arrow.vane_mass.kg(),
        min_length_m: usual.min_length_m + card.rest.contact_ahead.m(),
        // A bow already under its maker's least weight is not let out further.
        peak_force_n: least.map_or(usual.peak_force_n, |least| (least.min(now), now)),
        ..usual
    }
}

/// What limits letting out the limb bolts, in words.
fn bolts(card: &Card) -> String {
    let limit = match card.bow.maker_min_weight {
        Some(least) => format!(
            "never under {} lb, the bow maker's limit on the card",
            trim_number(least.pounds(), 1)
        ),
        None => "no more than 15 % is offered, a guess (common practice, no source): the bow maker's limit rules, and is used once it is on the card, as maker min weight".into(),
    };
    format!(
        "limb bolts evenly, top and bottom the same, never past the bow maker's turns; {limit}; one turn is about 2 to 4 lb (from memory); weigh it again"
    )
}

/// The remedies that help this arrow, in working order: plunger (fingers),
/// trial point, draw weight, other shafts, cutting last and only a weak
/// arrow that stays long enough. None goes under the safety floor.
pub fn offers(card: &Card) -> Vec<Offer> {
    let build = build(card);
    let now = build.effects();
    let weak = now.load_ratio > 1.0;
    let limits = limits(card, &build);
    let mut all = Vec::new();
    if card.bow.release == Release::Fingers && card.adjuster(AdjusterKind::PlungerTension).is_some()
    {
        all.push(plunger(weak));
    }
    for kind in [
        RemedyKind::Point,
        RemedyKind::DrawWeight,
        RemedyKind::Shaft,
        RemedyKind::Cut,
    ] {
        all.extend(sized(kind, card, &build, &limits, weak));
    }
    all
}

fn plunger(weak: bool) -> Offer {
    let way = if weak { "firmer" } else { "softer" };
    Offer {
        id: "plunger",
        title: format!("Plunger {way} by 1/8 to 1/4 turn"),
        text: "Fine control only: it does not make up for a wrong shaft (size from memory, direction printed)".into(),
        reversible: true,
        reaches: None,
        card: None,
        load_ratio: None,
    }
}

fn sized(
    kind: RemedyKind,
    card: &Card,
    build: &Build,
    limits: &RemedyLimits,
    weak: bool,
) -> Option<Offer> {
    let now = &build.effects();
    let aim = if weak { AIM_WEAK } else { AIM_STIFF };
    let found = build.remedy(kind, aim, limits)?;
    let mut value = rounded(kind, found.from, found.to, found.reaches);
    if kind == RemedyKind::DrawWeight && value < limits.peak_force_n.0 {
        // Rounding never goes under the limit: short of the wanted size instead.
        value = rounded(kind, found.from, found.to, false);
    }
    // Rounding may have eaten the whole of it.
    if (value - found.from) * (found.to - found.from) <= 0.0 || (value - found.from).abs() < 1e-9 {
        return None;
    }
    let after = build.with(kind, value).effects();
    if after.mass_kg < limits.maker_min_arrow_kg - 1e-9 && after.mass_kg < now.mass_kg {
        return None;
    }
    let inside = if weak {
        after.load_ratio <= 1.15
    } else {
        after.load_ratio >= 0.85
    };
    let bolts = bolts(card);
    Some(describe(
        kind,
        found.from,
        value,
        &after,
        now,
        (inside, &bolts),
    ))
}

/// To what can be bought or set: points in 5 gr, weight in half pounds,
/// spines in hundredths, length in eighths; past the wanted size where the
/// limits leave room, short of it where they do not.
fn rounded(kind: RemedyKind, from: f64, to: f64, reaches: bool) -> f64 {
    let unit = match kind {
        RemedyKind::Point => 5.0 * KG_PER_GRAIN,
        RemedyKind::DrawWeight => Force::from_pounds(0.5).newtons(),
        RemedyKind::Shaft => 0.01,
        RemedyKind::Cut => MM_PER_INCH / 8000.0,
    };
    let steps = to / unit;
    // Away from where it is when the size is reached inside the limits, else toward it.
    let up = (to > from) == reaches;
    let whole = if up {
        (steps - 1e-6).ceil()
    } else {
        (steps + 1e-6).floor()
    };
    whole * unit
}

fn describe(
    kind: RemedyKind,
    from: f64,
    to: f64,
    after: &Effects,
    now: &Effects,
    (inside, bolts): (bool, &str),
) -> Offer {
    let grains = |kg: f64| trim_number(Mass::from_kg(kg).grains(), 0);
    let pounds = |n: f64| trim_number(Force::from_newtons(n).pounds(), 1);
    let inches = |m: f64| format_fraction(Length::from_m(m).inches(), 16);
    let (id, title, reversible, card, extra) = match kind {
        RemedyKind::Point => (
            "point",
            format!(
                "Trial point {} gr instead of {} gr",
                grains(to),
                grains(from)
            ),
            true,
            Some(("arrow.point_mass", format!("{} gr", grains(to)))),
            "a test kit of points tells before anything is bought",
        ),
        RemedyKind::DrawWeight => (
            "weight",
            format!(
                "Draw weight {} lb instead of {} lb",
                pounds(to),
                pounds(from)
            ),
            true,
            Some(("bow.peak_weight", format!("{} lb", pounds(to)))),
            bolts,
        ),
        RemedyKind::Shaft => (
            "shafts",
            format!(
                "Other shafts, static spine about {to:.2} in instead of {from:.3} in, same length and point"
            ),
            true,
            Some(("arrow.spine", format!("{to:.2}"))),
            "their own mass will differ: put it on the card; static spine as ASTM F2031",
        ),
        RemedyKind::Cut => (
            "cut",
            format!("Cut to {} in from {} in", inches(to), inches(from)),
            false,
            Some(("arrow.shaft_length", format!("{} in", inches(to)))),
            "cannot be undone: last, a little at a time, all arrows the same, and only with half an inch left past the rest",
        ),
    };
    let reach = if inside {
        "brings it inside the band"
    } else {
        "helps, but not enough alone"
    };
    let balance = match after.foc_percent {
        foc if foc < 7.0 && foc < now.foc_percent => ", low for steady flight (from memory)",
        foc if foc > 20.0 && foc > now.foc_percent => ", high (from memory)",
        _ => "",
    };
    let effects = format!(
        "{reach}; arrow {} gr ({:.1} gr/lb), front of centre {:.1} %{balance}, speed {:+.0} ft/s",
        grains(after.mass_kg),
        after.grains_per_pound,
        after.foc_percent,
        (after.speed_m_s - now.speed_m_s) / 0.3048
    );
    Offer {
        id,
        title,
        text: format!("{effects}. {}{}", extra[..1].to_uppercase(), &extra[1..]),
        reversible,
        reaches: Some(inside),
        card,
        load_ratio: Some(after.load_ratio),
    }
}

pub(super) fn path(timeline: &Timeline) -> Path {
    let card = &timeline.card;
    let weak = assess(timeline).weak();
    let mut weigh = Node::test(
        "weigh-bow",
        "Before believing this, weigh the bow on a scale at this archer's draw: labels can be out by 7 lb.",
    )
    .careful(cautions::WEIGHING)
    .next("as-card", "the card's weight is right; it goes on the card as weighed")
    .fix("different", "the match was worked out from a wrong weight", "put the scale's figure on the card: peak weight, and weighed. The match is then worked out anew");
    weigh.done = card.bow.weighed;
    let mut nodes = vec![weigh];
    nodes.push(
        Node::test(
            "arrow-as-card",
            "One arrow against the card: nock throat to shaft end, point with insert on a scale, the spine printed on the shaft (and whether its maker means 28 in and 1.94 lb).",
        )
        .next("same", "the card's arrow is right")
        .fix("different", "the match was worked out from a wrong arrow", "correct the arrow on the card"),
    );
    nodes.push(choose(card, weak));
    let words = if card.arrow.only_these {
        "with only these arrows: your own moves can be recorded; three good shots in a row inside tolerance by the owner lift this; or close as best with these arrows, not matched"
    } else {
        "other shafts. Until then no rest move is advised; your own can be recorded"
    };
    Path {
        nodes,
        end: Then::Fix(words.into()),
    }
}

fn choose(card: &Card, weak: bool) -> Node {
    let side = if weak { "stiffer" } else { "weaker" };
    let found = offers(card);
    let mut node = Node::question(
        "spine-remedy",
        format!("What makes the arrow act {side}, cheap and reversible first. Which was done?"),
    )
    .next("none", "none of these");
    for offer in &found {
        let how = match &offer.card {
            Some((key, value)) => format!(
                "{}; then put it on the card: {key} = \"{value}\" (the figure really made). The match is worked out anew",
                offer.title
            ),
            None => format!("{}, then shoot 3 and look at the match again", offer.title),
        };
        let reach = match offer.reaches {
            Some(true) => ": brings it inside",
            Some(false) => ": helps, not enough alone",
            None => "",
        };
        node = node.fix(offer.id, format!("{}{reach}", offer.title), how);
    }
    node.offers = found;
    node
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::safety;
    use crate::gear::CardText;
    use crate::setup::tests::{COMPOUND, RECURVE};

    fn card(base: &str, changes: &[(&str, &str)]) -> Card {
        let mut text = CardText::from_toml(base).unwrap();
        for (key, value) in changes {
            text.set(key, value).unwrap();
        }
        Card::read(&text).unwrap().0
    }

    fn with(card_base: &str, changes: &[(&str, &str)], offer: &Offer) -> Card {
        let (key, value) = offer.card.clone().unwrap();
        let mut all = changes.to_vec();
        all.push((key, &value));
        card(card_base, &all)
    }

    #[test]
    fn a_weak_arrow_is_offered_point_weight_shafts_and_cutting_last() {
        let changes = [("bow.peak_weight", "74 lb"), ("arrow.point_mass", "150 gr")];
        let weak = card(COMPOUND, &changes);
        let found = offers(&weak);
        let ids: Vec<&str> = found.iter().map(|o| o.id).collect();
        assert_eq!(ids.first(), Some(&"point"), "{ids:?}");
        let at = |id: &str| ids.iter().position(|i| *i == id).unwrap();
        assert!(at("point") < at("weight") && at("weight") < at("shafts"));
        if let Some(cut) = ids.iter().position(|i| *i == "cut") {
            assert_eq!(cut, ids.len() - 1);
            assert!(!found[cut].reversible);
        }
    }

    #[test]
    fn what_a_remedy_promises_is_what_the_match_then_says_and_it_is_safe() {
        for (base, changes) in [
            (
                COMPOUND,
                vec![
                    ("bow.peak_weight", "76 lb"),
                    ("arrow.shaft_mass", "9.5 gr/in"),
                ],
            ),
            (COMPOUND, vec![("arrow.spine", "0.5")]),
            (RECURVE, vec![("arrow.spine", "0.4")]),
            (RECURVE, vec![("arrow.spine", "1.0")]),
        ] {
            let before = card(base, &changes);
            for offer in offers(&before).iter().filter(|o| o.card.is_some()) {
                let after = with(base, &changes, offer);
                let ratio = crate::checks::spine::of_card(&after).load_ratio;
                let promised = offer.load_ratio.unwrap();
                assert!(
                    (ratio - promised).abs() < 0.01,
                    "{}: {ratio} {promised}",
                    offer.title
                );
                let worse =
                    safety::card_dangers(&after).len() > safety::card_dangers(&before).len();
                assert!(!worse, "{} brings a danger", offer.title);
                if offer.reaches == Some(true) {
                    assert!((0.85..=1.15).contains(&ratio), "{}: {ratio}", offer.title);
                }
            }
        }
    }

    #[test]
    fn a_stiff_arrow_with_fingers_starts_at_the_plunger_and_is_never_cut() {
        let stiff = card(RECURVE, &[("arrow.spine", "0.4")]);
        let ids: Vec<&str> = offers(&stiff).iter().map(|o| o.id).collect();
        assert_eq!(ids[0], "plunger");
        assert!(!ids.contains(&"cut"), "{ids:?}");
    }

    #[test]
    fn the_makers_least_weight_limits_the_bolts_and_without_it_the_guess_says_so() {
        let weak = [("bow.peak_weight", "74 lb"), ("arrow.point_mass", "150 gr")];
        let weight = |more: &[(&str, &str)]| {
            let changes: Vec<_> = weak.iter().chain(more).copied().collect();
            let found = offers(&card(COMPOUND, &changes));
            found.into_iter().find(|o| o.id == "weight")
        };
        let pounds = |o: &Offer| {
            let (_, value) = o.card.clone().unwrap();
            Force::parse(&value).unwrap().pounds()
        };
        let guess = weight(&[]).unwrap();
        assert!(guess.text.contains("a guess (common practice, no source)"));
        assert!(pounds(&guess) >= 0.85 * 74.0 - 1e-6);
        let known = weight(&[("bow.maker_min_weight", "70.3 lb")]).unwrap();
        assert_eq!(pounds(&known), 70.5);
        assert!(known.text.contains("never under 70.3 lb"), "{}", known.text);
        // Nothing left to let out: not offered.
        assert!(weight(&[("bow.maker_min_weight", "74 lb")]).is_none());
    }

    #[test]
    fn near_the_floor_no_lighter_point_is_offered() {
        // 60 lb asks for 300 gr: this arrow is 298 gr bare of vanes and its point cannot shrink.
        let light = card(
            COMPOUND,
            &[
                ("bow.peak_weight", "70 lb"),
                ("arrow.shaft_mass", "7.4 gr/in"),
                ("arrow.point_mass", "126 gr"),
            ],
        );
        for offer in offers(&light) {
            assert_ne!(offer.id, "point", "{}", offer.title);
            assert_ne!(offer.id, "cut", "{}", offer.title);
        }
    }
}
