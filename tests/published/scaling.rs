//! The law of models: a launch, its flight and its cut have no length, time or
//! mass of their own beyond gravity and the air's density, so a bow and arrow
//! twice as long in every part must cut exactly twice the tear, at the times
//! and with the masses that the units of gravity and air prescribe.

use tearbench::physics::launch::STEP_S;
use tearbench::physics::rng::Rng;
use tearbench::physics::virtual_bow::Disturbance;
use tearbench::physics::{
    ArrowSpec, BowKind, BowSpec, Hand, Release, RestKind, Settings, Setup, Steadiness, Unknowns,
    VirtualBow,
};

use crate::physics_support::{arrow, compound, recurve};

/// With lengths `scale` times as long, gravity and air as they are: masses go
/// with its cube, times with its root, the rest follows.
struct Model {
    scale: f64,
}

impl Model {
    fn length(&self, m: f64) -> f64 {
        m * self.scale
    }
    fn mass(&self, kg: f64) -> f64 {
        kg * self.scale.powi(3)
    }
    fn time(&self, s: f64) -> f64 {
        s * self.scale.sqrt()
    }
    fn force(&self, n: f64) -> f64 {
        n * self.scale.powi(3)
    }
    fn impulse(&self, ns: f64) -> f64 {
        self.time(self.force(ns))
    }
    fn per_metre(&self, value: f64) -> f64 {
        value / self.scale
    }

    fn arrow(&self, a: &ArrowSpec) -> ArrowSpec {
        ArrowSpec {
            shaft_length_m: self.length(a.shaft_length_m),
            ei: self.length(self.length(self.force(a.ei))),
            shaft_mass_per_m: self.per_metre(self.mass(a.shaft_mass_per_m)),
            point_mass_kg: self.mass(a.point_mass_kg),
            insert_mass_kg: self.mass(a.insert_mass_kg),
            nock_mass_kg: self.mass(a.nock_mass_kg),
            vane_mass_kg: self.mass(a.vane_mass_kg),
            vane_position_m: self.length(a.vane_position_m),
            diameter_m: self.length(a.diameter_m),
            bare: a.bare,
        }
    }

    /// The trade's inch and three quarters beyond the pivot is no length of
    /// the bow's and is not scaled.
    fn bow(&self, b: &BowSpec) -> BowSpec {
        const BEYOND_M: f64 = 0.044_45;
        BowSpec {
            peak_force_n: self.force(b.peak_force_n),
            draw_length_m: self.length(b.draw_length_m - BEYOND_M) + BEYOND_M,
            brace_height_m: self.length(b.brace_height_m),
            rest_ahead_m: self.length(b.rest_ahead_m),
            ..*b
        }
    }

    /// The virtual mass is a multiple of a middling one with a mass of its
    /// own (75 gr, or 5.77 g and a share of the arrow): made up for here.
    fn unknowns(&self, u: &Unknowns, kind: BowKind, arrow_kg: f64) -> Unknowns {
        let middling = |kg: f64| match kind {
            BowKind::Compound => 75.0 * 6.479_891e-5,
            _ => 5.77e-3 + 0.0583 * kg,
        };
        let made_up = self.mass(middling(arrow_kg)) / middling(self.mass(arrow_kg));
        Unknowns {
            string_kg: self.mass(u.string_kg),
            virtual_mass: made_up * u.virtual_mass,
            rest_side: self.per_metre(self.force(u.rest_side)),
            rest_up: self.per_metre(self.force(u.rest_up)),
            rest_damping: self.per_metre(self.impulse(u.rest_damping)),
            preload_n: self.force(u.preload_n),
            button_travel_m: self.length(u.button_travel_m),
            turn_m: self.length(u.turn_m),
            release_side: self.impulse(u.release_side),
            release_up: self.impulse(u.release_up),
            release_s: self.time(u.release_s),
            path_side_m: self.length(u.path_side_m),
            path_up_m: self.length(u.path_up_m),
            start_side_m: self.length(u.start_side_m),
            start_up_m: self.length(u.start_up_m),
            vane_m2: self.length(self.length(u.vane_m2)),
            ..*u
        }
    }
}

/// Source: E. Buckingham, *On physically similar systems*, Physical Review 4,
/// 1914 (from memory); worked for this launch by hand.
#[test]
fn a_bow_and_arrow_twice_the_size_cut_twice_the_tear() {
    let cases = [
        (
            BowKind::Compound,
            Release::Aid,
            RestKind::DropAway,
            Hand::Right,
        ),
        (BowKind::Compound, Release::Aid, RestKind::Blade, Hand::Left),
        (
            BowKind::Recurve,
            Release::Fingers,
            RestKind::Fixed,
            Hand::Right,
        ),
        (
            BowKind::Longbow,
            Release::Fingers,
            RestKind::Shelf,
            Hand::Left,
        ),
        (
            BowKind::Compound,
            Release::Fingers,
            RestKind::Capture,
            Hand::Right,
        ),
    ];
    for (kind, release, rest, hand) in cases {
        let setup = Setup {
            kind,
            release,
            rest,
            hand,
        };
        let bow = match kind {
            BowKind::Compound => compound(55.0, 19.5),
            _ => BowSpec {
                kind,
                ..recurve(42.0)
            },
        };
        for seed in 0..4 {
            let mut rng = Rng::new(seed);
            let unknowns = Unknowns::draw(&setup, &mut rng);
            let small = ArrowSpec {
                bare: seed == 3,
                ..arrow(0.420, 28.5, 8.2, 115.0)
            };
            let shot = Steadiness::average(release).draw(&mut rng);
            let settings = Settings {
                rest_side_mm: rng.between(-2.0, 2.0),
                rest_up_mm: rng.between(-2.0, 2.0),
                nock_up_mm: rng.between(-2.0, 2.0),
                plunger_turns: 0.0,
            };
            let tear = |scale: f64, metres: f64| {
                let model = Model { scale };
                let bow: VirtualBow = VirtualBow::with_step(
                    &model.arrow(&small),
                    &model.bow(&bow),
                    &setup,
                    &model.unknowns(&unknowns, kind, small.mass_kg()),
                    model.time(STEP_S),
                );
                let settings = Settings {
                    rest_side_mm: model.length(settings.rest_side_mm),
                    rest_up_mm: model.length(settings.rest_up_mm),
                    nock_up_mm: model.length(settings.nock_up_mm),
                    plunger_turns: 0.0,
                };
                let shot = Disturbance {
                    release_ns: shot.release_ns.map(|x| model.impulse(x)),
                    drift_m: shot.drift_m.map(|x| model.length(x)),
                    vane_knock_ns: [model.impulse(2e-3), model.impulse(-1e-3)],
                };
                let paper = bow.paper(model.length(metres));
                bow.tear_mm(&settings, &shot, &paper)
            };
            for metres in [2.0, 6.0] {
                let (one, twice) = (tear(1.0, metres), tear(2.0, metres));
                for axis in 0..2 {
                    let near =
                        (twice[axis] - 2.0 * one[axis]).abs() < 1e-6 * (1.0 + one[axis].abs());
                    assert!(near, "{setup:?} {seed} {metres} m: {one:?} {twice:?}");
                }
            }
        }
    }
}
