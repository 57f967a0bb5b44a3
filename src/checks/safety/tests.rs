use super::*;
use crate::checks::{Figure, Status, Unit};
use crate::fixtures::PLAIN_COMPOUND;
use crate::gear::{AdjusterKind, CardText, Step, Unconfirmed};
use crate::session::{Event, told};

fn text(changes: &[(&str, &str)]) -> CardText {
    let mut text = CardText::from_toml(PLAIN_COMPOUND).unwrap();
    text.set("arrow.nock_mass", "10 gr").unwrap();
    text.set("arrow.vane_mass", "21 gr").unwrap();
    for (key, value) in changes {
        text.set(key, value).unwrap();
    }
    text
}

pub(super) fn timeline_of(changes: &[(&str, &str)], events: Vec<Event>) -> Timeline {
    told::timeline_of(&text(changes), events)
}

pub(super) fn timeline(changes: &[(&str, &str)]) -> Timeline {
    timeline_of(changes, vec![])
}

fn codes(changes: &[(&str, &str)]) -> Vec<&'static str> {
    let found = dangers(&timeline(changes));
    found.iter().map(|d| d.refusal().code()).collect()
}

pub(super) fn bolts(turns: f64) -> Event {
    Event::Move {
        steps: vec![Step {
            adjuster: AdjusterKind::LimbBolts,
            amount: turns,
        }],
        said: None,
        confirms: None,
    }
}

pub(super) fn set(pairs: &[(&str, &str)]) -> Event {
    let pairs = pairs.iter().map(|(k, v)| ((*k).into(), (*v).into()));
    Event::card(pairs.collect())
}

/// Worked rows of makers' warranty terms: 60 lb asks for 300 gr and 80 lb for
/// 400 gr. The shaft is 29 in of 8.5 gr/in, 246.5 gr, the nock 10, the vanes 21.
#[test]
fn five_grains_a_pound_is_the_floor_on_either_side() {
    // 246.5 + 10 + 21 + 22.5 = 300 gr.
    assert_eq!(codes(&[("arrow.point_mass", "22.5 gr")]), [] as [&str; 0]);
    let light = timeline(&[("arrow.point_mass", "22.4 gr")]);
    let danger = &dangers(&light)[0];
    assert_eq!(danger.refusal().code(), "arrow-too-light");
    let figure = danger.figure().unwrap();
    assert!((figure.value - 299.9).abs() < 1e-6 && (figure.limit - 300.0).abs() < 1e-6);
    assert_eq!(figure.unit, Unit::Gr);
    assert_eq!(check(&light).status(), Status::Fail);
    // 122.5 gr of point make 400 gr.
    let heavy = ("bow.peak_weight", "80 lb");
    assert_eq!(
        codes(&[heavy, ("arrow.point_mass", "122.5 gr")]),
        [] as [&str; 0]
    );
    assert_eq!(
        codes(&[heavy, ("arrow.point_mass", "122.4 gr")]),
        ["arrow-too-light"]
    );
}

/// A legal arrow of 363 gr on 70 lb (limit 350) whose bare shaft weighs 342.
const LEGAL: [(&str, &str); 2] = [
    ("bow.peak_weight", "70 lb"),
    ("arrow.point_mass", "85.5 gr"),
];

#[test]
fn a_bare_shaft_counts_only_when_the_next_shots_are_set_to_it() {
    let mut t = timeline(&LEGAL);
    assert!((t.card.arrow.total_mass().grains() - 363.0).abs() < 1e-6);
    assert!(dangers(&t).is_empty());
    let said = check(&t);
    assert_eq!(said.status(), Status::Pass);
    let Safety::Ok {
        bare:
            Some(Danger::TooLight {
                grains: bare,
                least,
                ..
            }),
        ..
    } = said
    else {
        panic!("{said:?}")
    };
    assert!((bare - 342.0).abs() < 1e-6 && (least - 350.0).abs() < 1e-6);
    t.next_bare = true;
    let danger = &dangers(&t)[0];
    assert_eq!(danger.refusal().code(), "arrow-too-light");
    assert!(matches!(danger, Danger::TooLight { bare: true, .. }));
    t.next_bare = false;
    assert!(dangers(&t).is_empty());
}

#[test]
fn a_bare_shaft_counts_while_its_stage_is_under_way() {
    let group = |proof: &str| Event::Group {
        proof: proof.into(),
        what: "fletched".into(),
        distance: "18 m".into(),
        impacts: vec![],
    };
    let skip = Event::Answer {
        test: "proof-bare-shaft".into(),
        result: "skipped".into(),
        detail: None,
    };
    let paper = Event::Shot(crate::session::Shot::default());
    let stops = |events: Vec<Event>| !dangers(&timeline_of(&LEGAL, events)).is_empty();
    assert!(stops(vec![group("bare-shaft")]));
    assert!(!stops(vec![group("bare-shaft"), skip.clone()]));
    assert!(stops(vec![skip, group("bare-shaft")]));
    assert!(!stops(vec![group("bare-shaft"), group("walk-back")]));
    assert!(!stops(vec![group("bare-shaft"), paper.clone()]));
    assert!(stops(vec![paper, group("bare-shaft")]));
    // Other arrows on the card: it is not their stage.
    let other = set(&[("arrow.point_mass", "90 gr")]);
    assert!(!stops(vec![group("bare-shaft"), other]));
}

#[test]
fn a_trial_point_on_the_card_is_the_point_of_the_next_shots() {
    // 246.5 + 10 + 21 with a point of 22.5 gr is 300 gr.
    assert_eq!(codes(&[("arrow.trial_point", "22.5 gr")]), [] as [&str; 0]);
    let light = timeline(&[("arrow.trial_point", "22.4 gr")]);
    assert_eq!(dangers(&light)[0].refusal().code(), "arrow-too-light");
    let danger = &dangers(&light)[0];
    assert!(matches!(danger, Danger::TooLight { trial: true, .. }));
    // The arrow as it was is not shot while a heavier point is on trial.
    let heavier = [
        ("arrow.point_mass", "20 gr"),
        ("arrow.trial_point", "100 gr"),
    ];
    assert_eq!(codes(&heavier), [] as [&str; 0]);
}

#[test]
fn the_makers_minimum_overrides_upward_only() {
    let least = |changes: &[(&str, &str)]| {
        let found = dangers(&timeline(changes));
        found.first().map(|d| d.figure().unwrap().limit.round())
    };
    assert_eq!(least(&[("bow.maker_min_arrow", "420 gr")]), Some(420.0));
    assert_eq!(least(&[("bow.maker_min_arrow", "250 gr")]), None);
    assert_eq!(
        least(&[
            ("bow.maker_min_arrow", "250 gr"),
            ("arrow.point_mass", "20 gr")
        ]),
        Some(300.0)
    );
}

/// ASTM F1880: 29 in of draw is 27 1/4 in from the nock to the pivot.
#[test]
fn half_an_inch_past_the_rest_contact_is_the_least_reach_on_either_side() {
    let short = |length: &str, ahead: &str| {
        codes(&[
            ("arrow.shaft_length", length),
            ("rest.contact_ahead", ahead),
        ])
    };
    assert_eq!(short("27.75 in", "0 in"), [] as [&str; 0]);
    assert_eq!(short("27.74 in", "0 in"), ["arrow-too-short"]);
    // A rest ahead of the pivot wants a longer shaft, one behind it a shorter.
    assert_eq!(short("28.75 in", "1 in"), [] as [&str; 0]);
    assert_eq!(short("28.74 in", "1 in"), ["arrow-too-short"]);
    assert_eq!(short("26.75 in", "-1 in"), [] as [&str; 0]);
    assert_eq!(short("26.74 in", "-1 in"), ["arrow-too-short"]);
    let card = timeline(&[("rest.contact_ahead", "-1 in")]).card;
    assert!((reach_inches(&card) - 2.75).abs() < 1e-9);
    assert!((shaft_end_inches(&card) - 1.75).abs() < 1e-9);
}

#[test]
fn a_shaft_end_behind_the_grip_pivot_is_cautioned() {
    let overdrawn = |length: &str| {
        timeline(&[
            ("arrow.shaft_length", length),
            ("rest.contact_ahead", "-2 in"),
        ])
    };
    let at_the_pivot = overdrawn("27.25 in");
    assert_eq!(overdraw(&at_the_pivot.card), None);
    assert_eq!(check(&at_the_pivot).status(), Status::Pass);
    let behind = check(&overdrawn("27 in"));
    assert_eq!(behind.status(), Status::Borderline);
    assert!((behind.figure().unwrap().value + 0.25).abs() < 1e-9);
    assert!(matches!(behind, Safety::Overdraw(by) if (by - 0.25).abs() < 1e-9));
}

#[test]
fn a_broadhead_stays_ahead_of_hand_and_riser_at_full_draw() {
    let carried = |length: &str, ahead: &str, front: &str| {
        broadhead(
            &timeline(&[
                ("arrow.shaft_length", length),
                ("rest.contact_ahead", ahead),
                ("rest.riser_front", front),
            ])
            .card,
        )
    };
    assert_eq!(carried("29 in", "0 in", ""), Carried::NotMeasured);
    // The shaft reaches 1.75 in past the rest contact.
    assert_eq!(carried("29 in", "0 in", "1.7 in"), Carried::Clear);
    for front in ["1.75 in", "1.8 in"] {
        let found = carried("29 in", "0 in", front);
        assert!(matches!(found, Carried::BehindRiser(_)), "{front}");
    }
    // A rest further back leaves more shaft past it, and less past the hand.
    assert_eq!(carried("29 in", "-1 in", "2.7 in"), Carried::Clear);
    assert_eq!(carried("27.26 in", "-1 in", "0.9 in"), Carried::Clear);
    for length in ["27.25 in", "27.24 in"] {
        let found = carried(length, "-1 in", "0.9 in");
        assert!(matches!(found, Carried::OverHand(_)), "{length}");
    }
}

#[test]
fn a_target_recurve_is_no_traditional_bow() {
    let recurve = |rest| {
        timeline(&[
            ("bow.kind", "recurve"),
            ("bow.release", "fingers"),
            ("rest.kind", rest),
            ("bow.let_off", ""),
        ])
    };
    assert_eq!(check(&recurve("plunger")).status(), Status::Pass);
    assert_eq!(check(&recurve("shelf")).status(), Status::Borderline);
}

#[test]
fn under_eight_grains_a_pound_on_a_traditional_bow_is_a_question_for_the_bowyer() {
    // 246.5 + 10 + 21 + 82.5 = 360 gr, 8 gr/lb of 45 lb.
    let longbow = |point: &str| {
        let t = timeline(&[
            ("bow.kind", "longbow"),
            ("bow.release", "fingers"),
            ("rest.kind", "shelf"),
            ("bow.let_off", ""),
            ("bow.peak_weight", "45 lb"),
            ("arrow.point_mass", point),
        ]);
        check(&t).status()
    };
    assert_eq!(longbow("82.6 gr"), Status::Pass);
    assert_eq!(longbow("82.4 gr"), Status::Borderline);
}

/// 402.5 gr on 60 lb: 5 gr/lb up to 80.5 lb, 5.1 turns at 4 lb a turn.
#[test]
fn a_turn_in_counts_four_pounds_until_the_bow_is_weighed() {
    let after = |turns: f64| timeline_of(&[], vec![bolts(turns)]);
    let ok = check(&after(5.0));
    assert_eq!(ok.status(), Status::Pending);
    let at_most = |safety: &Safety| match safety {
        Safety::Waits(all) => match all[..] {
            [Waiting::Unweighed(Weighing::AtMost(pounds, gpp))] => Some((pounds, gpp)),
            _ => None,
        },
        _ => None,
    };
    let (pounds, gpp) = at_most(&ok).expect("a worst case");
    assert!((pounds - 80.0).abs() < 1e-6 && (gpp - 402.5 / 80.0).abs() < 1e-6);
    let stopped = &dangers(&after(5.25))[0];
    assert_eq!(stopped.refusal().code(), "weigh-first");
    let Danger::WeighFirst {
        worst: Worst::Draws(pounds, _),
        ..
    } = stopped
    else {
        panic!("{stopped:?}")
    };
    assert!((pounds - 81.0).abs() < 1e-6);
    assert!((stopped.figure().unwrap().limit - 405.0).abs() < 1e-6);
    // Turns out are no drop, and several moves add up.
    assert_eq!(check(&after(-2.0)).status(), Status::Pending);
    let several = |turns: &[f64]| {
        let moves = turns.iter().map(|t| bolts(*t)).collect();
        dangers(&timeline_of(&[], moves)).len()
    };
    assert_eq!(several(&[3.0, 2.0]), 0);
    assert_eq!(several(&[3.0, 2.25]), 1);
    assert_eq!(several(&[3.0, 2.25, -0.25]), 0);
    // Light on the known weight already: a turn out does not lift the stop.
    let light = timeline_of(&[("arrow.point_mass", "22.4 gr")], vec![bolts(-4.0)]);
    assert_eq!(dangers(&light)[0].refusal().code(), "arrow-too-light");
}

#[test]
fn five_point_one_grains_a_pound_is_stopped_by_two_turns_in_and_freed_by_a_weighing() {
    // 246.5 + 10 + 21 + 28.5 = 306 gr.
    let light = [("arrow.point_mass", "28.5 gr")];
    assert_eq!(check(&timeline(&light)).status(), Status::Pass);
    let turned = timeline_of(&light, vec![bolts(2.0)]);
    assert_eq!(check(&turned).status(), Status::Fail);
    let weighed = |weight: &str| {
        let scale = set(&[("bow.peak_weight", weight), ("bow.weighed", "true")]);
        check(&timeline_of(&light, vec![bolts(2.0), scale])).status()
    };
    assert_eq!(weighed("61 lb"), Status::Pass);
    assert_eq!(weighed("61.3 lb"), Status::Fail);
    // A lower weight that nobody weighed frees nothing.
    let said = set(&[("bow.peak_weight", "50 lb")]);
    assert_eq!(
        check(&timeline_of(&light, vec![bolts(2.0), said])).status(),
        Status::Fail
    );
}

#[test]
fn a_makers_minimum_in_grains_a_pound_grows_with_the_worst_case() {
    // 402.5 gr at 6 gr/lb is 67.08 lb: 1 3/4 turns pass, 2 do not.
    let maker = [("bow.maker_min_arrow", "6 gr/lb")];
    assert!(dangers(&timeline_of(&maker, vec![bolts(1.75)])).is_empty());
    let stopped = dangers(&timeline_of(&maker, vec![bolts(2.0)]));
    assert_eq!(stopped[0].refusal().code(), "weigh-first");
    assert!((stopped[0].figure().unwrap().limit - 408.0).abs() < 0.01);
}

#[test]
fn a_recurve_has_no_figure_a_turn_and_is_weighed() {
    let recurve = |weight: &str, turns: f64| {
        timeline_of(
            &[
                ("bow.kind", "recurve"),
                ("bow.release", "fingers"),
                ("rest.kind", "plunger"),
                ("bow.let_off", ""),
                ("bow.peak_weight", weight),
            ],
            vec![bolts(turns)],
        )
    };
    // 402.5 gr on 50 lb is 8.05 gr/lb, on 51 lb 7.89.
    let heavy = check(&recurve("50 lb", 3.0));
    assert_eq!(heavy.status(), Status::Pending);
    let open = Safety::Waits(vec![Waiting::Unweighed(Weighing::Open)]);
    assert_eq!(heavy, open);
    assert_eq!(
        dangers(&recurve("51 lb", 0.5))[0].refusal().code(),
        "weigh-first"
    );
    assert!(dangers(&recurve("51 lb", -0.5)).is_empty());
    // Exactly eight grains a pound is not under it: 402.5 gr on 50.3125 lb.
    assert!(dangers(&recurve("50.3125 lb", 0.5)).is_empty());
    assert!(!dangers(&recurve("50.32 lb", 0.5)).is_empty());
}

#[test]
fn past_the_makers_turns_nothing_is_drawn_until_they_are_back() {
    let maker = [
        ("bow.maker_max_turns", "6 turns"),
        ("bow.turns_out", "4 turns"),
    ];
    let after = |turns: &[f64]| {
        let moves = turns.iter().map(|t| bolts(*t)).collect();
        dangers(&timeline_of(&maker, moves))
    };
    assert!(after(&[-2.0]).is_empty());
    let past = &after(&[-2.25])[0];
    assert_eq!(past.refusal().code(), "past-maker-limit");
    assert_eq!(past.figure(), Some(Figure::new(6.25, 6.0, Unit::Turn)));
    assert!(after(&[-2.25, 0.25]).is_empty());
    // Nobody counted: at least what was turned here.
    let uncounted = [("bow.maker_max_turns", "6 turns")];
    assert_eq!(
        dangers(&timeline_of(&uncounted, vec![bolts(-6.25)])).len(),
        1
    );
    let waits = waiting(&timeline_of(&uncounted, vec![bolts(-1.0)]));
    let uncounted = Waiting::TurnsNotCounted(6.0);
    assert!(waits.contains(&uncounted));
    assert!(!waiting(&timeline_of(&maker, vec![bolts(-1.0)])).contains(&uncounted));
}

/// One digit less on the card makes every arrow heavy enough: a weight under
/// what is usual is not rested on before a scale has shown it.
#[test]
fn a_draw_weight_under_what_is_usual_waits_for_a_scale() {
    let waits = |lb: &str, weighed: &str| {
        let card = [("bow.peak_weight", lb), ("bow.weighed", weighed)];
        waiting(&timeline_of(&card, vec![]))
    };
    let unusual = Waiting::UnusualWeight(6.0, (15.0, 80.0));
    assert_eq!(waits("6 lb", "false"), [unusual]);
    assert_eq!(waits("14.9 lb", "false").len(), 1);
    assert_eq!(waits("15 lb", "false"), []);
    assert_eq!(waits("6 lb", "true"), []);
    // Over it the arrow must be heavier: the safe side.
    assert_eq!(waits("85 lb", "false"), []);
    let t = timeline_of(&[("bow.peak_weight", "6 lb")], vec![]);
    assert_eq!(check(&t).status(), Status::Pending);
}

#[test]
fn over_the_makers_weight_nothing_is_drawn() {
    let weight = |lb: &str| codes(&[("bow.maker_max_weight", "62 lb"), ("bow.peak_weight", lb)]);
    assert_eq!(weight("62 lb"), [] as [&str; 0]);
    assert_eq!(weight("62.1 lb"), ["past-maker-limit"]);
    // Half a turn in may make it 62 lb, three quarters 63.
    let turned = |turns: f64| {
        dangers(&timeline_of(
            &[("bow.maker_max_weight", "62 lb")],
            vec![bolts(turns)],
        ))
    };
    assert!(turned(0.5).is_empty());
    assert_eq!(turned(0.75)[0].refusal().code(), "weigh-first");
}

#[test]
fn no_default_makes_it_ok_and_each_value_that_counts_is_named() {
    let filled = |keys: &[&str]| {
        let mut card = text(&[]);
        for key in keys {
            let value = card.get(key).unwrap().to_owned();
            card.fill(key, &value).unwrap();
        }
        Timeline::new(&card, &[]).unwrap()
    };
    for (key, value) in [
        ("bow.kind", Unconfirmed::BowKind),
        ("bow.peak_weight", Unconfirmed::DrawWeight),
        ("bow.draw_length", Unconfirmed::DrawLength),
        ("rest.kind", Unconfirmed::Rest),
        ("arrow.shaft_length", Unconfirmed::Arrow),
        ("arrow.shaft_mass", Unconfirmed::Arrow),
        ("arrow.point_mass", Unconfirmed::Arrow),
        ("arrow.nock_mass", Unconfirmed::Arrow),
        ("arrow.vane_mass", Unconfirmed::Arrow),
    ] {
        let said = check(&filled(&[key]));
        assert_eq!(said.status(), Status::Pending, "{key}");
        let waits = vec![Waiting::Unconfirmed(vec![value])];
        assert_eq!(said, Safety::Waits(waits));
    }
    let both = check(&filled(&["bow.peak_weight", "arrow.shaft_mass"]));
    let named = vec![Unconfirmed::DrawWeight, Unconfirmed::Arrow];
    assert_eq!(both, Safety::Waits(vec![Waiting::Unconfirmed(named)]));
    assert_eq!(check(&filled(&["bow.brace_height"])).status(), Status::Pass);
    // What fails on a default fails: a stop is never softened by it.
    let mut light = text(&[("arrow.point_mass", "22 gr")]);
    light.fill("bow.peak_weight", "60 lb").unwrap();
    assert_eq!(
        check(&Timeline::new(&light, &[]).unwrap()).status(),
        Status::Fail
    );
}

#[test]
fn a_nock_that_nobody_weighed_does_not_carry_the_arrow_over_the_floor() {
    // 246.5 + 21 + point, the nock unknown: 32.5 gr of point make 300 gr without it.
    let said = |point: &str, off: &str| check(&timeline(&[("arrow.point_mass", point), (off, "")]));
    assert_eq!(said("32.5 gr", "arrow.nock_mass").status(), Status::Pass);
    let waits = said("32.4 gr", "arrow.nock_mass");
    assert_eq!(waits.status(), Status::Pending);
    let nock = Waiting::PartNotGiven(ArrowPart::Nock);
    assert_eq!(waits, Safety::Waits(vec![nock]));
    assert_eq!(said("43.5 gr", "arrow.vane_mass").status(), Status::Pass);
    assert_eq!(said("43.4 gr", "arrow.vane_mass").status(), Status::Pending);
}

#[test]
fn a_mark_read_at_full_draw_counts_where_it_lies_further_out() {
    // 28.5 in of shaft, contact at 27.25 in by the card: 1.25 in past it.
    let reach = |mark: &str| {
        let changes = [
            ("arrow.shaft_length", "28.5 in"),
            ("rest.full_draw_mark", mark),
        ];
        let card = timeline(&changes).card;
        (reach_inches(&card), card_dangers(&card).len())
    };
    let near = |(found, dangers): (f64, usize), wanted: f64, stopped: usize| {
        assert!((found - wanted).abs() < 1e-9, "{found}");
        assert_eq!(dangers, stopped);
    };
    near(reach(""), 1.25, 0);
    near(reach("27 in"), 1.25, 0);
    near(reach("27 3/4 in"), 0.75, 0);
    near(reach("28 1/8 in"), 0.375, 1);
}
