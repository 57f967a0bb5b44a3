use super::*;
use crate::checks::safety;
use crate::gear::CardText;
use crate::question::Answer;
use crate::setup::tests::{COMPOUND, RECURVE};
use proptest::prelude::*;

pub(super) fn try_card(base: &str, changes: &[(&str, &str)]) -> Option<Card> {
    let mut text = CardText::from_toml(base).unwrap();
    for (key, value) in changes {
        text.set(key, value).unwrap();
    }
    Some(Card::read(&text).ok()?.0)
}

pub(super) fn card(base: &str, changes: &[(&str, &str)]) -> Card {
    try_card(base, changes).expect("a card that reads")
}

/// The card as it stands once an offer was taken, with the one it goes with.
pub(super) fn taken(base: &str, changes: &[(&str, &str)], offer: &Offer, all: &[Offer]) -> Card {
    let partner = offer.with.and_then(|id| all.iter().find(|o| o.id == id));
    let mut entered = changes.to_vec();
    for done in partner.into_iter().chain([offer]) {
        if let Some((key, value)) = &done.card {
            entered.push((key, value));
        }
    }
    card(base, &entered)
}

/// How an offer of a size is done.
fn how(offer: &Offer) -> Taken {
    match &offer.kind {
        OfferKind::Sized(size) => size.taken,
        OfferKind::Plunger { .. } => panic!("{offer:?}"),
    }
}

fn ids(offers: &[Offer]) -> Vec<&'static str> {
    offers.iter().map(|o| o.id.id()).collect()
}

pub(super) fn find(card: &Card, id: &str) -> Option<Offer> {
    offers(card).into_iter().find(|o| o.id.id() == id)
}

/// What lets limb bolts be turned: the maker's figures.
const BOLTS: [(&str, &str); 3] = [
    ("bow.maker_min_weight", "50 lb"),
    ("bow.maker_max_weight", "90 lb"),
    ("bow.maker_max_turns", "6 turns"),
];

#[test]
fn a_weak_arrow_is_offered_point_weight_shafts_and_cutting_last() {
    let changes = [
        &[
            ("bow.peak_weight", "62 lb"),
            ("arrow.shaft_length", "31 in"),
            ("rest.full_draw_mark", "27 1/4 in"),
        ][..],
        &BOLTS[..],
    ]
    .concat();
    let found = offers(&card(COMPOUND, &changes));
    assert_eq!(ids(&found), ["point", "weight", "shafts", "cut"]);
    assert!(found[..3].iter().all(Offer::reversible) && !found[3].reversible());
}

#[test]
fn what_a_remedy_promises_is_what_the_match_then_says() {
    let mark = ("rest.full_draw_mark", "27 1/4 in");
    for (base, changes) in [
        (
            COMPOUND,
            vec![
                ("bow.peak_weight", "76 lb"),
                ("arrow.shaft_mass", "9.5 gr/in"),
            ],
        ),
        (COMPOUND, vec![("arrow.spine", "0.5")]),
        (
            COMPOUND,
            [
                &[
                    ("arrow.spine", "0.48"),
                    ("arrow.shaft_length", "31 in"),
                    mark,
                ][..],
                &BOLTS,
            ]
            .concat(),
        ),
        (
            COMPOUND,
            vec![("arrow.spine", "0.5"), ("arrow.trial_point", "150 gr")],
        ),
        (RECURVE, vec![("arrow.spine", "0.4")]),
        (RECURVE, vec![("arrow.spine", "1.0")]),
    ] {
        let before = card(base, &changes);
        let all = offers(&before);
        for offer in all.iter().filter(|o| o.card.is_some()) {
            let ratio = of_card(&taken(base, &changes, offer, &all)).load_ratio;
            let promised = offer.load_ratio().unwrap();
            assert!(
                (ratio - promised).abs() < 0.01,
                "{}: {ratio} {promised}",
                offer.id
            );
            if offer.reaches == Some(true) {
                let (low, high) = of_card(&before).reference.bands.matched;
                assert!((low..=high).contains(&ratio), "{}: {ratio}", offer.id);
            }
        }
    }
}

#[test]
fn an_arrow_that_suits_is_offered_nothing() {
    assert!(offers(&card(COMPOUND, &[])).is_empty());
}

/// Firmer acts stiffer and softer weaker, on either hand.
#[test]
fn the_plunger_comes_first_firmer_for_a_weak_arrow_and_softer_for_a_stiff_one() {
    for hand in ["right", "left"] {
        let first = |spine: &str| {
            offers(&card(
                RECURVE,
                &[("bow.hand", hand), ("arrow.spine", spine)],
            ))
            .swap_remove(0)
            .kind
        };
        assert_eq!(first("1.0"), OfferKind::Plunger { firmer: true });
        assert_eq!(first("0.4"), OfferKind::Plunger { firmer: false });
    }
    // A release aid: no plunger.
    let aid = [("bow.release", "aid"), ("arrow.spine", "1.0")];
    assert!(find(&card(RECURVE, &aid), "plunger").is_none());
}

#[test]
fn a_stiff_arrow_is_never_cut() {
    let changes = [("arrow.spine", "0.4"), ("rest.full_draw_mark", "26 1/4 in")];
    assert!(find(&card(RECURVE, &changes), "cut").is_none());
}

#[test]
fn no_bolt_is_turned_without_the_makers_figures() {
    let weak = [("bow.peak_weight", "74 lb"), ("arrow.spine", "0.38")];
    let weight =
        |more: &[(&str, &str)]| find(&card(COMPOUND, &[&weak[..], more].concat()), "weight");
    let pounds = |o: &Offer| Force::parse(&o.card.clone().unwrap().1).unwrap().pounds();
    let turns = ("bow.maker_max_turns", "6 turns");
    let least = ("bow.maker_min_weight", "70.3 lb");
    assert!(weight(&[]).is_none());
    // Neither the turns alone, the bolts not counted, nor the weight alone.
    assert!(weight(&[turns]).is_none());
    assert!(weight(&[least]).is_none());
    let known = weight(&[turns, least]).unwrap();
    assert_eq!(pounds(&known), 70.5);
    // The maker's least itself is allowed.
    let very = weight(&[turns, ("bow.maker_min_weight", "70.5 lb")]).unwrap();
    assert_eq!(pounds(&very), 70.5);
    // 3.5 lb at 4 and at 2 lb a turn, in quarters.
    let bolts = Taken::Bolts {
        up: false,
        turns: (1.0, 1.75),
        most_out: Some(6.0),
        edge: Some(70.3),
    };
    assert_eq!(how(&known), bolts);
    // Four turns are left at 2 lb: no lower than 66 lb; one is left: 72 lb.
    let counted = |out: &'static str| weight(&[turns, ("bow.turns_out", out)]);
    assert_eq!(pounds(&counted("2 turns").unwrap()), 66.0);
    assert_eq!(pounds(&counted("5 turns").unwrap()), 72.0);
    assert!(counted("6 turns").is_none());
    let both = [turns, ("bow.turns_out", "2 turns"), least];
    assert_eq!(pounds(&weight(&both).unwrap()), 70.5);
    // Nothing left to let out: not offered.
    assert!(weight(&[turns, ("bow.maker_min_weight", "74 lb")]).is_none());
    // A longbow has no bolts.
    let longbow = [
        ("bow.kind", "longbow"),
        ("bow.release", "fingers"),
        ("bow.let_off", ""),
        ("rest.kind", "shelf"),
        ("arrow.spine", "0.55"),
        turns,
        least,
    ];
    assert!(
        find(
            &card(COMPOUND, &[&weak[..1], &longbow[..]].concat()),
            "weight"
        )
        .is_none()
    );
}

/// More draw weight: only inside the maker's greatest, weighed, drawn without
/// strain, never under the floor, and never for a junior.
#[test]
fn a_stiff_arrow_is_offered_more_draw_weight_where_the_maker_allows_it() {
    let stiff = [("arrow.spine", "0.4"), ("bow.maker_max_turns", "6 turns")];
    let weight =
        |more: &[(&str, &str)]| find(&card(RECURVE, &[&stiff[..], more].concat()), "weight");
    let pounds = |o: &Offer| Force::parse(&o.card.clone().unwrap().1).unwrap().pounds();
    assert!(weight(&[]).is_none());
    let most = ("bow.maker_max_weight", "42.3 lb");
    let up = weight(&[most]).unwrap();
    assert_eq!(pounds(&up), 42.0);
    let very = weight(&[("bow.maker_max_weight", "42 lb")]).unwrap();
    assert_eq!(pounds(&very), 42.0);
    let Taken::Bolts { up: true, edge, .. } = how(&up) else {
        panic!("{up:?}")
    };
    assert_eq!(edge.map(|lb| (lb * 10.0).round()), Some(423.0));
    // One turn out is left to turn in: 2 lb.
    assert_eq!(
        pounds(&weight(&[most, ("bow.turns_out", "1 turn")]).unwrap()),
        40.0
    );
    assert!(weight(&[most, ("archer.junior", "true")]).is_none());
    assert!(weight(&[("bow.maker_max_weight", "38 lb")]).is_none());
    assert!(weight(&[("bow.maker_max_turns", ""), most]).is_none());
}

/// 29 in draw, rest contact 1 in behind the pivot: it lies at 26 1/4 in, and
/// a wall keeps the shaft from 27 1/4 in up. 62 lb, 29 in of shaft, 0.500.
#[test]
fn cutting_counts_the_rest_contact_once() {
    let base = [
        ("bow.peak_weight", "62 lb"),
        ("arrow.spine", "0.5"),
        ("rest.contact_ahead", "-1 in"),
    ];
    assert!(find(&card(COMPOUND, &base), "cut").is_none());
    let marked = [&base[..], &[("rest.full_draw_mark", "26 1/4 in")]].concat();
    let before = card(COMPOUND, &marked);
    let limits = |card: &Card| {
        let build = Build {
            arrow: arrow_spec(card),
            bow: bow_spec(card),
            spine_bow: spine_bow(card),
        };
        limits(card, &build).min_length_m.map(|m| m / INCH_M)
    };
    let near = |found: Option<f64>, wanted: f64| {
        assert!((found.unwrap() - wanted).abs() < 1e-9, "{found:?}");
    };
    near(limits(&before), 27.25);
    if let Some(cut) = find(&before, "cut") {
        let all = offers(&before);
        let after = taken(COMPOUND, &marked, &cut, &all);
        assert!(after.arrow.shaft_length.inches() >= 27.25 - 1e-9);
        assert!(safety::card_dangers(&after).is_empty());
    }
    let with = |more: &[(&str, &str)]| limits(&card(COMPOUND, &[&marked[..], more].concat()));
    // A junior, and no wall: 2 in.
    near(with(&[("archer.junior", "true")]), 28.25);
    near(with(&[("bow.kind", "recurve"), ("bow.let_off", "")]), 28.25);
    // The further of mark and card.
    near(with(&[("rest.full_draw_mark", "26 1/2 in")]), 27.5);
    near(with(&[("rest.full_draw_mark", "26 in")]), 27.25);
    // Half an inch apart one of them is wrong: nothing is cut.
    near(with(&[("rest.full_draw_mark", "26 3/4 in")]), 27.75);
    assert_eq!(with(&[("rest.full_draw_mark", "26.8 in")]), None);
    assert_eq!(with(&[("rest.full_draw_mark", "")]), None);
}

/// 31 in of shaft at 60 lb, 0.400: 1.19 as it is, matched by cutting alone.
#[test]
fn cutting_is_offered_where_it_cures_with_its_cautions() {
    let long = [
        ("arrow.shaft_length", "31 in"),
        ("rest.full_draw_mark", "27 1/4 in"),
    ];
    let before = card(COMPOUND, &long);
    let all = offers(&before);
    assert_eq!(ids(&all).last(), Some(&"cut"));
    let cut = all.last().unwrap();
    assert_eq!(cut.card.clone().unwrap().1, "29 1/2 in");
    assert_eq!(
        (cut.reaches, cut.with, cut.reversible()),
        (Some(true), None, false)
    );
    let leaves = Taken::Cut {
        leaves: 1.0,
        why: Leaves::Wall,
    };
    assert_eq!(how(cut), leaves);
    // A label or a default is no measurement.
    assert!(find(&card(COMPOUND, &long[..1]), "cut").is_none());
    assert!(cut_wants_a_mark(&card(COMPOUND, &long[..1])));
    assert!(!cut_wants_a_mark(&before));
}

/// Neither the lighter point nor the cut brings this one inside; both do.
#[test]
fn cutting_that_cures_only_with_another_offer_names_it() {
    let changes = [
        ("arrow.spine", "0.48"),
        ("arrow.shaft_length", "31 in"),
        ("bow.draw_length", "29.5 in"),
        ("rest.full_draw_mark", "28 in"),
    ];
    let before = card(COMPOUND, &changes);
    let all = offers(&before);
    let cut = all
        .iter()
        .find(|o| o.id == Answer::Cut)
        .expect("both together cure it");
    let point = all.iter().find(|o| o.id == Answer::Point).unwrap();
    assert_eq!(
        (cut.with, cut.reaches, point.reaches),
        (Some(Answer::Point), Some(true), Some(false))
    );
    assert_eq!(cut.card.clone().unwrap().1, "29 in");
    assert_eq!(point.card.clone().unwrap().1, "50 gr");
    let after = taken(COMPOUND, &changes, cut, &all);
    assert!(of_card(&after).load_ratio <= 1.15);
    assert!(safety::card_dangers(&after).is_empty());
}

#[test]
fn past_the_stop_load_only_what_cures_it_without_a_test_shot() {
    let far = [
        &[
            ("arrow.spine", "0.8"),
            ("arrow.shaft_length", "31 in"),
            ("rest.full_draw_mark", "27 1/4 in"),
        ][..],
        &BOLTS[..],
    ]
    .concat();
    let before = card(COMPOUND, &far);
    assert!(stops(&before));
    assert_eq!(ids(&offers(&before)), ["shafts"]);
    assert!(!cut_wants_a_mark(&before));
    let fingers = card(RECURVE, &[("arrow.spine", "1.9")]);
    assert!(stops(&fingers));
    assert_eq!(ids(&offers(&fingers)), ["shafts"]);
}

#[test]
fn near_the_floor_no_lighter_point_is_offered() {
    // 74 lb asks for 370 gr. The bare shaft weighs 371 gr.
    let light = card(
        COMPOUND,
        &[
            ("bow.peak_weight", "74 lb"),
            ("arrow.shaft_mass", "8.1 gr/in"),
            ("arrow.point_mass", "126.1 gr"),
            ("arrow.shaft_length", "29 in"),
            ("rest.full_draw_mark", "27 1/4 in"),
        ],
    );
    let found = offers(&light);
    assert!(!found.is_empty());
    for offer in found {
        assert_ne!(offer.id, Answer::Point, "{}", offer.id);
        assert_ne!(offer.id, Answer::Cut, "{}", offer.id);
    }
}

/// A random card of any kind, as changes to the compound's.
fn any_card() -> impl Strategy<Value = Vec<(&'static str, String)>> {
    let bow = (
        0..4usize,
        any::<bool>(),
        25.0..85.0f64,
        24.0..32.0f64,
        -2.0..2.0f64,
    );
    let arrow = (
        23.0..34.0f64,
        0.2..1.4f64,
        5.0..14.0f64,
        50.0..300.0f64,
        0.0..45.0f64,
    );
    let extras = (
        proptest::option::of(-0.7..0.7f64),
        proptest::option::of(50.0..250.0f64),
        proptest::option::of(0.7..1.0f64),
        proptest::option::of(4.0..7.5f64),
        any::<bool>(),
        proptest::option::of(1.0..1.4f64),
        proptest::option::of(0.0..6.0f64),
    );
    (bow, arrow, extras).prop_map(|(bow, arrow, extras)| {
        let (kind, left, pounds, draw, ahead) = bow;
        let (length, spine, mass, point, vanes) = arrow;
        let (mark, trial, least, maker, junior, most, out) = extras;
        let (kind, release, rest, let_off) = [
            ("compound", "aid", "drop-away", "75 %"),
            ("compound", "fingers", "plunger", "65 %"),
            ("recurve", "fingers", "plunger", ""),
            ("longbow", "fingers", "shelf", ""),
        ][kind];
        let word = |w: &str| w.to_owned();
        let contact = draw - 1.75 + ahead;
        vec![
            ("bow.kind", word(kind)),
            ("bow.release", word(release)),
            ("rest.kind", word(rest)),
            ("bow.let_off", word(let_off)),
            ("bow.hand", word(if left { "left" } else { "right" })),
            ("bow.peak_weight", format!("{pounds:.1} lb")),
            ("bow.draw_length", format!("{draw:.2} in")),
            ("rest.contact_ahead", format!("{ahead:.2} in")),
            ("arrow.shaft_length", format!("{length:.2} in")),
            ("arrow.spine", format!("{spine:.3}")),
            ("arrow.shaft_mass", format!("{mass:.1} gr/in")),
            ("arrow.point_mass", format!("{point:.0} gr")),
            ("arrow.vane_mass", format!("{vanes:.0} gr")),
            ("archer.junior", junior.to_string()),
            (
                "rest.full_draw_mark",
                mark.map_or(word(""), |m| format!("{:.2} in", contact + m)),
            ),
            (
                "arrow.trial_point",
                trial.map_or(word(""), |t| format!("{t:.0} gr")),
            ),
            (
                "bow.maker_min_weight",
                least.map_or(word(""), |l| format!("{:.1} lb", l * pounds)),
            ),
            (
                "bow.maker_max_weight",
                most.map_or(word(""), |m| format!("{:.1} lb", m * pounds)),
            ),
            (
                "bow.turns_out",
                out.map_or(word(""), |o| format!("{o:.1} turns")),
            ),
            ("bow.maker_max_turns", word("6 turns")),
            (
                "bow.maker_min_arrow",
                maker.map_or(word(""), |m| format!("{m:.1} gr/lb")),
            ),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    /// No remedy leads to a card that safety stops, alone or with the one it
    /// goes with, nor to one that asks more of the bow than its maker allows.
    #[test]
    fn no_remedy_leads_to_a_card_that_safety_stops(drawn in any_card()) {
        let changes: Vec<(&str, &str)> = drawn.iter().map(|(k, v)| (*k, v.as_str())).collect();
        let Some(before) = try_card(COMPOUND, &changes) else { return Ok(()) };
        let dangers = |c: &Card| -> Vec<&str> {
            safety::card_dangers(c).iter().map(|d| d.refusal().code()).collect()
        };
        let all = offers(&before);
        let already = dangers(&before);
        for offer in all.iter().filter(|o| o.card.is_some()) {
            let after = taken(COMPOUND, &changes, offer, &all);
            let alone = taken(COMPOUND, &changes, offer, &[]);
            for code in dangers(&after).into_iter().chain(dangers(&alone)) {
                prop_assert!(already.contains(&code), "{} brings {code}", offer.id);
            }
            let contact = before.bow.draw_length.inches() - 1.75 + before.rest.contact_ahead.inches();
            let left = after.arrow.shaft_length.inches() - contact;
            if offer.id == Answer::Cut {
                prop_assert!(already.is_empty() && before.rest.full_draw_mark.is_some());
                prop_assert!(left > 0.99, "{} leaves {left}", offer.id);
                prop_assert!(!offer.reversible());
                prop_assert_eq!(offer.reaches, Some(true));
            }
            if let (Some(least), true) = (before.bow.maker_min_weight, offer.id == Answer::Weight) {
                let weight = after.bow.peak_weight.pounds();
                prop_assert!(weight >= least.pounds() - 1e-6 || weight >= before.bow.peak_weight.pounds());
            }
        }
        // Cheap and reversible first, whatever is offered.
        let order = crate::checks::next_steps::REMEDIES;
        let places: Vec<usize> =
            all.iter().map(|o| order.iter().position(|id| *id == o.id).unwrap()).collect();
        prop_assert!(places.is_sorted(), "{:?}", ids(&all));
    }
}
