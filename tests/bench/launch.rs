//! Shots simulated a second on one core: launch with full contact in both
//! planes, flight, and the tear at 2 m. Run with `cargo bench --bench launch`.

use divan::Bencher;
use divan::counter::ItemsCount;
use tearbench::gear::AdjusterKind;
use tearbench::physics::prior::{Case, DRAWS, response_prior_of};
use tearbench::physics::rng::Rng;
use tearbench::physics::si::{GRAIN_KG, INCH_M, POUND_N};
use tearbench::physics::spine::ei_from_spine;
use tearbench::physics::unknowns::Unknowns;
use tearbench::physics::virtual_bow::{Settings, Steadiness, VirtualBow};
use tearbench::physics::{ArrowSpec, BowKind, BowSpec, Hand, Release, RestKind, Setup};

const SHOTS: usize = 1000;
const RESTS: [RestKind; 4] = [
    RestKind::DropAway,
    RestKind::Blade,
    RestKind::Capture,
    RestKind::Plunger,
];

fn main() {
    divan::main();
}

/// A 60 lb compound and a 0.400 shaft; on a plunger a 40 lb recurve, 0.600.
fn case(rest: RestKind) -> Case {
    let recurve = rest == RestKind::Plunger;
    Case {
        weighed: false,
        arrow: ArrowSpec {
            shaft_length_m: 29.0 * INCH_M,
            ei: ei_from_spine(if recurve { 0.600 } else { 0.400 }),
            shaft_mass_per_m: if recurve { 6.5 } else { 8.5 } * GRAIN_KG / INCH_M,
            point_mass_kg: 120.0 * GRAIN_KG,
            insert_mass_kg: 0.0,
            nock_mass_kg: 10.0 * GRAIN_KG,
            vane_mass_kg: 21.0 * GRAIN_KG,
            vane_position_m: 2.5 * INCH_M,
            diameter_m: 6.5e-3,
            bare: false,
        },
        bow: BowSpec {
            kind: if recurve {
                BowKind::Recurve
            } else {
                BowKind::Compound
            },
            peak_force_n: if recurve { 40.0 } else { 60.0 } * POUND_N,
            draw_length_m: 28.5 * INCH_M,
            brace_height_m: if recurve { 8.5 } else { 7.0 } * INCH_M,
            let_off: 0.8,
            chronograph_m_s: None,
            rest_ahead_m: 0.0,
        },
        setup: Setup {
            kind: if recurve {
                BowKind::Recurve
            } else {
                BowKind::Compound
            },
            release: if recurve {
                Release::Fingers
            } else {
                Release::Aid
            },
            rest,
            hand: Hand::Right,
        },
        paper_m: 2.0,
    }
}

/// A thousand shots, each with its own setting and disturbance.
#[divan::bench(args = RESTS)]
fn shots(bencher: Bencher, rest: RestKind) {
    let case = case(rest);
    let bow = VirtualBow::new(
        &case.arrow,
        &case.bow,
        &case.setup,
        &Unknowns::middling(&case.setup),
    );
    let paper = bow.paper(case.paper_m);
    let steady = Steadiness::average(case.setup.release);
    bencher.counter(ItemsCount::new(SHOTS)).bench_local(|| {
        let mut rng = Rng::new(1);
        let mut sum = [0.0; 2];
        for _ in 0..SHOTS {
            let settings = Settings {
                rest_side_mm: rng.between(-2.0, 2.0),
                ..Settings::default()
            };
            let tear = bow.tear_mm(&settings, &steady.draw(&mut rng), &paper);
            sum[0] += tear[0];
            sum[1] += tear[1];
        }
        sum
    });
}

/// Making one bow ready: modes, tables, paper.
#[divan::bench(args = RESTS)]
fn build(bencher: Bencher, rest: RestKind) {
    let case = case(rest);
    let unknowns = Unknowns::middling(&case.setup);
    bencher.bench_local(|| {
        VirtualBow::new(&case.arrow, &case.bow, &case.setup, &unknowns).paper(case.paper_m)
    });
}

/// The response prior of one card.
#[divan::bench(args = RESTS)]
fn prior(bencher: Bencher, rest: RestKind) {
    let case = case(rest);
    let adjusters = [
        AdjusterKind::RestSideways,
        AdjusterKind::NockingPoint,
        AdjusterKind::PlungerTension,
    ];
    bencher.bench_local(|| response_prior_of(&case, &adjusters, 1, DRAWS));
}

/// The spine check's critical value.
#[divan::bench]
fn critical(bencher: Bencher) {
    let arrow = case(RestKind::Blade).arrow;
    bencher.bench_local(|| arrow.critical_number());
}
