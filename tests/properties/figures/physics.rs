//! The mechanics.

use tearbench::gear::AdjusterKind;
use tearbench::physics::bending::Bending;
use tearbench::physics::bow::PowerStroke;
use tearbench::physics::contact::Contact;
use tearbench::physics::distances::{AtDistance, Distances, at_distances};
use tearbench::physics::drive::Drive;
use tearbench::physics::flight::{Yaw, drag_per_m, vane_force_m2};
use tearbench::physics::linalg::{generalised_eigen, symmetric_eigen};
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::paper::second_distance_m;
use tearbench::physics::prior::{Case, response_prior_of};
use tearbench::physics::references::{reference, reference_arrow};
use tearbench::physics::remedies::{Build, RemedyKind, RemedyLimits};
use tearbench::physics::rng::Rng;
use tearbench::physics::spine::{
    ei_from_spine, spine_26_from_28, spine_28_from_26, spine_from_ei, wooden_pounds,
};
use tearbench::physics::unknowns::{Unknowns, ranges};
use tearbench::physics::{
    ArrowSpec, BowKind, BowSpec, Disturbance, FreeModes, Hand, Losses, Release, RestKind, Settings,
    Setup, SpineBow, Steadiness, VirtualBow, spine_match,
};

use super::Table;
use crate::support::{arrow, compound, recurve};

const RESTS: [RestKind; 6] = [
    RestKind::DropAway,
    RestKind::Blade,
    RestKind::Capture,
    RestKind::Plunger,
    RestKind::Fixed,
    RestKind::Shelf,
];
const KINDS: [BowKind; 3] = [BowKind::Compound, BowKind::Recurve, BowKind::Longbow];
const RELEASES: [Release; 2] = [Release::Aid, Release::Fingers];

fn arrows() -> [ArrowSpec; 4] {
    let usual = arrow(0.400, 28.0, 8.0, 120.0);
    [
        usual,
        ArrowSpec {
            bare: true,
            ..usual
        },
        arrow(0.600, 29.5, 6.2, 90.0),
        ArrowSpec {
            vane_position_m: 0.09,
            nock_mass_kg: 2e-3,
            ..arrow(0.300, 26.5, 11.0, 250.0)
        },
    ]
}

fn bow(kind: BowKind) -> BowSpec {
    match kind {
        BowKind::Compound => BowSpec {
            rest_ahead_m: 0.02,
            ..compound(60.0, 19.25)
        },
        _ => BowSpec {
            kind,
            rest_ahead_m: 0.01,
            ..recurve(42.0)
        },
    }
}

/// Six set-ups, both hands, every kind of rest.
fn setups() -> Vec<Setup> {
    let hands = [Hand::Right, Hand::Left];
    RESTS
        .iter()
        .enumerate()
        .map(|(i, rest)| Setup {
            kind: KINDS[i % 3],
            release: RELEASES[(i / 2) % 2],
            rest: *rest,
            hand: hands[i % 2],
        })
        .collect()
}

#[test]
fn of_the_column_and_the_spine_match() {
    let mut table = Table::default();
    for (i, arrow) in arrows().iter().enumerate() {
        let at = [0.0, 0.05, 0.07, 0.3, 0.6, 0.9].map(|x| arrow.mass_ahead_kg(x));
        table.row(
            format!("masses {i}"),
            (
                arrow.mass_kg(),
                arrow.front_kg(),
                arrow.balance_m(),
                arrow.foc_percent(),
                at,
            ),
        );
        table.row(
            format!("loads {i}"),
            (
                arrow.inertia_kg_m2(),
                arrow.load_number(266.0),
                arrow.critical_number(),
                arrow.grains_per_pound(266.0),
                flex_wavelength_m(arrow, 85.0),
            ),
        );
        for kind in KINDS {
            for release in RELEASES {
                for rest in [RestKind::DropAway, RestKind::Plunger, RestKind::Shelf] {
                    let bow = SpineBow {
                        kind,
                        release,
                        rest,
                        peak_force_n: 200.0,
                    };
                    let found = spine_match(arrow, &bow);
                    let figures = (found.load_ratio, found.grade, found.reference.load_number);
                    table.row(format!("match {i} {kind:?} {release:?} {rest:?}"), figures);
                }
            }
        }
    }
    for spine in [0.2, 0.34, 0.5, 0.9] {
        let ei = ei_from_spine(spine);
        let other = (spine_26_from_28(spine), spine_28_from_26(spine));
        table.row(spine, (ei, spine_from_ei(ei), other, wooden_pounds(spine)));
    }
    table.row("reference arrow", reference_arrow());
    let bands = reference(BowKind::Compound, Release::Fingers, RestKind::Fixed).bands;
    table.row("bands", bands);
    table.pinned("column");
}

#[test]
fn of_the_bow_along_the_arrow() {
    let mut table = Table::default();
    for kind in KINDS {
        let bow = bow(kind);
        let drawn = [
            -0.1, 0.0, 0.05, 0.2, 0.21, 0.5, 0.79, 0.8, 0.81, 0.95, 1.0, 1.1,
        ];
        table.row(format!("{kind:?} force"), drawn.map(|d| bow.force_n(d)));
        table.row(format!("{kind:?} energy"), drawn.map(|d| bow.energy_j(d)));
        let lengths = (bow.stroke_m(), bow.pivot_m(), bow.rest_m());
        table.row(format!("{kind:?} lengths"), lengths);
        for kg in [0.018, 0.030] {
            let losses = Losses::middling(kind, kg);
            for chronograph_m_s in [None, Some(40.0), Some(65.0), Some(95.0)] {
                let bow = BowSpec {
                    chronograph_m_s,
                    ..bow
                };
                let run = PowerStroke::new(&bow, kg, &losses);
                let all = run.duration_s();
                let shares = [-0.1, 0.0, 0.004, 0.05, 0.3, 0.55, 0.8, 0.97, 1.0, 1.3];
                table.row(
                    format!("{kind:?} {kg} {chronograph_m_s:?}"),
                    (bow.fitted(kg, &losses), bow.speed_m_s(kg, &losses), all),
                );
                table.row("  motion", shares.map(|s| run.at(s * all)));
            }
        }
    }
    table.pinned("bow");
}

#[test]
fn of_what_acts_on_the_arrow() {
    let mut table = Table::default();
    for setup in setups() {
        let bow = bow(setup.kind);
        let arrow = arrows()[0];
        let mut rng = Rng::new(11);
        let unknowns = Unknowns::draw(&setup, &mut rng);
        let drive = Drive::new(&arrow, &bow, &setup, &unknowns);
        let all = drive.duration_s();
        table.row(
            format!("{setup:?}"),
            (
                all,
                drive.speed_m_s(),
                drive.rest_at_draw_m(),
                drive.rest_at_exit_m(),
                drive.rest_stays(),
            ),
        );
        for share in [0.0, 0.02, 0.1, 0.4, 0.9, 1.0] {
            table.row(format!("  {share}"), drive.at(share * all));
        }
        let touch = |k: usize| drive.touch_share(k as f64 * all / 20.0, all / 20.0);
        table.row("  touch", (0..20).map(touch).collect::<Vec<_>>());
        let contacts = Contact::pair(&setup, &unknowns);
        table.row("  contacts", contacts);
        for contact in contacts {
            let forces: Vec<f64> = [-4e-3, -3e-4, -2e-5, 0.0, 2e-5, 3e-4, 5e-3]
                .iter()
                .flat_map(|past| [-0.5, 0.0, 0.7].map(|rate| contact.force(*past, rate, 0.02)))
                .collect();
            table.row("  forces", forces);
        }
    }
    table.pinned("drive");
}

#[test]
fn of_modes_and_eigenvalues() {
    let mut table = Table::default();
    let four = |row: &[f64]| row[..4].to_vec();
    for (i, arrow) in arrows().iter().enumerate() {
        let modes = FreeModes::of(arrow);
        let held = FreeModes::with_string(arrow, 2.5e-3);
        table.row(
            format!("{i} omega"),
            (&modes.omega()[..7], &held.omega()[..7]),
        );
        table.row(
            "  hertz",
            (1..=4).map(|n| modes.frequency_hz(n)).collect::<Vec<_>>(),
        );
        table.row(
            "  nodes",
            (1..=3).map(|n| modes.nodes_m(n)).collect::<Vec<_>>(),
        );
        // The sign of a mode is either; its square is not.
        let square = |row: [f64; 14]| row[2..7].iter().map(|v| v * v).collect::<Vec<_>>();
        for x in [0.0, 0.2, 0.55] {
            let [values, slopes] = modes.first_at::<5>(x);
            table.row(
                format!("  at {x}"),
                (
                    square(pad(&modes.at(x))),
                    square(pad(&modes.slope_at(x))),
                    values[2] * slopes[2],
                ),
            );
        }
        let weight = held.weight(arrow);
        table.row(
            "  weight",
            weight.iter().map(|w| w * w).take(5).collect::<Vec<_>>(),
        );
        let diagonal = |m: Vec<Vec<f64>>| (0..4).map(|k| m[k][k].abs()).collect::<Vec<_>>();
        let overlap = modes.overlap(&held, arrow);
        let compression = held.compression(arrow);
        table.row(
            "  overlap",
            diagonal(overlap.iter().map(|r| four(r)).collect()),
        );
        table.row(
            "  compression",
            diagonal(compression.iter().map(|r| four(r)).collect()),
        );
    }
    for kind in KINDS {
        let bending = Bending::of(&arrows()[0], &bow(kind));
        table.row(
            format!("{kind:?} bending"),
            (
                &bending.nodes_m,
                bending.swings_hz,
                bending.speed_m_s,
                bending.wave_m(),
                bending.shape(9),
            ),
        );
    }
    let a = [[4.0, 1.0, 0.5], [1.0, 3.0, -0.7], [0.5, -0.7, 2.0]];
    let b = [[2.0, 0.3, 0.1], [0.3, 1.5, 0.2], [0.1, 0.2, 1.0]];
    let (values, vectors) = symmetric_eigen(&a);
    table.row("symmetric", (values, vectors.map(|v| v.map(f64::abs))));
    let found = generalised_eigen(&a, &b).map(|(l, v)| (l, v.map(|v| v.map(f64::abs))));
    table.row("generalised", found);
    table.pinned("modes");
}

fn pad(row: &[f64]) -> [f64; 14] {
    std::array::from_fn(|i| row.get(i).copied().unwrap_or_default())
}

#[test]
fn of_launch_flight_and_paper() {
    let mut table = Table::default();
    for (i, setup) in setups().into_iter().enumerate() {
        for draw in 0..2 {
            let arrow = arrows()[(i + draw) % 4];
            let mut rng = Rng::new(100 + draw as u64);
            let unknowns = Unknowns::draw(&setup, &mut rng);
            let virtual_bow = VirtualBow::new(&arrow, &bow(setup.kind), &setup, &unknowns);
            let settings = Settings {
                rest_side_mm: 1.3,
                rest_up_mm: -0.8,
                nock_up_mm: 2.1,
                plunger_turns: 0.5,
            };
            let mut shot = Steadiness::average(setup.release)
                .scaled(1.5)
                .draw(&mut rng);
            shot.vane_knock_ns = [1e-3, -0.5e-3];
            let input = virtual_bow.input(&settings, &shot);
            table.row(format!("{setup:?} {draw}"), input);
            let launch = virtual_bow.launch();
            let (mut step, mut seen) = (0, Vec::new());
            let mut watch = |time: f64, push: [f64; 2]| {
                step += 1;
                if step % 40 == 7 {
                    seen.push((time, push));
                }
            };
            let _ = launch.shoot_watched(&input, |time, _, push| watch(time, push));
            table.row("  pushes", &seen);
            table.row(
                "  touches",
                (
                    launch.touches(&input),
                    launch.speed_m_s(),
                    launch.duration_s(),
                ),
            );
            let flight = virtual_bow.flight();
            table.row(
                "  flight",
                (
                    flight.yaw().wavelength_m(),
                    flight.yaw().damping_ratio(),
                    flight.length_m(),
                    flight.time_s(30.0),
                ),
            );
            for metres in [1.0, 2.0, 5.0, 18.0] {
                let cut = virtual_bow.shoot(&settings, &shot, metres);
                let slit = cut.slit_mm();
                table.row(
                    format!("  {metres} m"),
                    (
                        cut.tear_mm(),
                        cut.point_m,
                        cut.vanes_m,
                        [slit[5], slit[16], slit[30]],
                        cut.vane_cuts_mm(11.0, 0.4),
                    ),
                );
            }
            let plain = Disturbance::default();
            let tear = virtual_bow.tear_mm(&Settings::default(), &plain, &virtual_bow.paper(2.0));
            table.row("  untouched", tear);
        }
    }
    for yaw in [
        Yaw::new(&arrows()[0], 550e-6),
        Yaw::new(&arrows()[1], 550e-6),
        Yaw::of_wavelength(12.0, 0.1),
        Yaw::of_wavelength(2.0, 1.4),
    ] {
        let states = [0.3, 2.0, 9.0].map(|s| yaw.after(s, 0.02, -0.01, 0.015));
        table.row("yaw", (yaw, states));
    }
    table.row(
        "drag",
        (drag_per_m(1.56, 5.2e-3, 19.5e-3), vane_force_m2(500e-6)),
    );
    table.row("second", second_distance_m(2.0, 1.1));
    table.pinned("launch");
}

#[test]
fn of_what_a_bow_may_be_expected_to_do() {
    let mut table = Table::default();
    for setup in setups() {
        let listed = ranges(&setup).list();
        let at = |share: f64| listed.iter().map(|(_, r)| r.at(share)).collect::<Vec<_>>();
        table.row(format!("{setup:?} low"), at(0.0));
        table.row("  third", at(0.3));
        table.row("  high", at(1.0));
    }
    for (i, setup) in setups().into_iter().enumerate() {
        let case = Case {
            arrow: arrows()[[0, 2][i % 2]],
            bow: bow(setup.kind),
            setup,
            paper_m: 2.0,
            weighed: i % 2 == 0,
        };
        let kinds = [
            AdjusterKind::RestSideways,
            AdjusterKind::RestHeight,
            AdjusterKind::NockingPoint,
            AdjusterKind::PlungerTension,
            AdjusterKind::YokeTwist,
        ];
        let prior = response_prior_of(&case, &kinds, 77, 24);
        table.row(
            format!("{setup:?} {:?}", (case.one_sided(), case.load_ratio())),
            case.describes_a_launch(),
        );
        let Some(prior) = prior else { continue };
        for gain in &prior.gains {
            table.row("  gain", gain);
        }
        table.row(
            "  start",
            (
                prior.draws,
                prior.late,
                prior.start_mean_mm,
                prior.start_sd_mm,
                prior.scatter_mm,
            ),
        );
        if i < 2 {
            table.row("  distances", at_distances(&case, &[1.5, 2.5, 4.0], 5, 16));
            table.row("  second sheet", Distances::of(&case));
        }
    }
    let mut rng = Rng::new(3);
    table.row(
        "random",
        (
            rng.bits(),
            rng.share(),
            rng.between(-2.0, 5.0),
            [rng.below(7), rng.below(7), rng.below(7)],
            [rng.normal(), rng.normal(), rng.normal()],
        ),
    );
    table.pinned("prior");
}

/// Worked by hand: 2 x 5 and -0.5 x 6; the roots of 3^2 + (2 x 2)^2 and of
/// 4^2 + (0.5 x 2)^2 are 5 and 4.123, and root mean square of those is the
/// root of 21.
#[test]
fn a_tear_here_says_what_to_expect_there_and_how_surely() {
    let at = AtDistance {
        distance_m: 3.0,
        slope: [2.0, -0.5],
        sd_mm: [3.0, 4.0],
    };
    let (likely, sd) = at.there([5.0, 6.0], 2.0);
    assert_eq!(likely, [10.0, -3.0]);
    assert!((sd - 4.582_576).abs() < 1e-6, "{sd}");
}

#[test]
fn of_sizes_of_remedies() {
    let mut table = Table::default();
    for kind in KINDS {
        for (spine, chronograph_m_s) in [(0.3, None), (0.55, None), (0.55, Some(70.0))] {
            let bow = BowSpec {
                chronograph_m_s,
                ..bow(kind)
            };
            let build = Build {
                arrow: arrow(spine, 29.0, 8.2, 130.0),
                bow,
                spine_bow: SpineBow {
                    kind,
                    release: Release::Fingers,
                    rest: RestKind::Fixed,
                    peak_force_n: 1.0,
                },
            };
            table.row(
                format!("{kind:?} {spine} {chronograph_m_s:?}"),
                build.effects(),
            );
            let usual = RemedyLimits::usual(&bow);
            let wide = RemedyLimits {
                min_length_m: Some(0.68),
                peak_force_n: (0.8 * bow.peak_force_n, 1.3 * bow.peak_force_n),
                lighter_kg: 2e-3,
                ..usual
            };
            let heavy = RemedyLimits {
                maker_min_arrow_kg: 0.0245,
                ..wide
            };
            for limits in [usual, wide, heavy] {
                let figures = (
                    limits.floor_kg(bow.peak_force_n),
                    limits.room_kg(&build.arrow, bow.peak_force_n),
                );
                table.row("  limits", figures);
                for remedy in [
                    RemedyKind::Point,
                    RemedyKind::DrawWeight,
                    RemedyKind::Shaft,
                    RemedyKind::Cut,
                ] {
                    for target in [0.9, 1.0, 1.1] {
                        table.row(
                            format!("  {remedy:?} {target}"),
                            build.remedy(remedy, target, &limits),
                        );
                    }
                }
            }
        }
    }
    table.pinned("sizes");
}
