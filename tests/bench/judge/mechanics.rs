//! Virtual bows out of the launch model: arrow, bow and everything unknown
//! drawn at random, the arrow chosen for its load ratio.

use super::bow::{Bow, Powder, Shape};
use super::rng::Rng;
use super::world::{Kind, TOLERANCE};
use std::rc::Rc;
use tearbench::gear::AdjusterKind;
use tearbench::physics::column::VANE_POSITION_M;
use tearbench::physics::launch::SHAPES;
use tearbench::physics::paper::Paper;
use tearbench::physics::prior::{Case, DRAWS, response_prior_of};
use tearbench::physics::si::{GRAIN_KG, INCH_M, POUND_N};
use tearbench::physics::{
    ArrowSpec, BowKind, BowSpec, Disturbance, Hand, Release, RestKind, Settings, Setup, SpineBow,
    Steadiness, Unknowns, VirtualBow, spine_match,
};

/// A bow of the launch model, its paper and its archer.
#[derive(Debug)]
pub struct Engine {
    /// What a card says of it, a little out.
    card: Case,
    bow: VirtualBow,
    paper: Paper<SHAPES>,
    base: Settings,
    steady: Steadiness,
}

/// How the string holds the nock sideways.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Hold {
    /// From geometry to six times as stiff, which nothing supports and which
    /// makes most bows answer against the rest.
    Wide,
    /// 0.6 to 1.2 of what geometry gives, with 1 to 5.5 g of string at the
    /// nock: an actual string on tips that give.
    Actual,
}

impl Engine {
    fn settings(&self, x: [f64; 2]) -> Settings {
        Settings {
            rest_side_mm: self.base.rest_side_mm + x[0],
            rest_up_mm: self.base.rest_up_mm + x[1],
            ..self.base
        }
    }

    fn tear(&self, x: [f64; 2], shot: &Disturbance) -> [f64; 2] {
        self.bow.tear_mm(&self.settings(x), shot, &self.paper)
    }

    /// Chance, by the card, that the tear goes against the rest.
    pub fn expected(&self) -> Option<f64> {
        let found = response_prior_of(&self.card, &[AdjusterKind::RestSideways], 1, DRAWS)?;
        Some(found.gains.first()?.probability_negative)
    }

    /// What powder shows of an undisturbed shot at a setting.
    pub fn powder(&self, x: [f64; 2]) -> Powder {
        let input = self.bow.input(&self.settings(x), &Disturbance::default());
        if self.bow.launch().touches(&input).late() {
            Powder::Slap
        } else {
            Powder::Clean
        }
    }

    /// Noise-free tear at a setting.
    pub fn mean(&self, x: [f64; 2]) -> [f64; 2] {
        self.tear(x, &Disturbance::default())
    }

    /// Shot-to-shot sd at the start, reading apart.
    pub fn spread(&self) -> [f64; 2] {
        let mut rng = Rng::new(99);
        let mean = self.mean([0.0; 2]);
        let mut squares = [0.0; 2];
        for _ in 0..40 {
            let y = self.shoot([0.0; 2], 1.0, &mut rng);
            (0..2).for_each(|a| squares[a] += (y[a] - mean[a]).powi(2) / 40.0);
        }
        squares.map(f64::sqrt)
    }

    /// Whether some setting within travel is inside tolerance, on a 1 mm grid.
    fn reachable(&self) -> bool {
        (-8..=8).any(|i| {
            (-8..=8).any(|k| {
                let m = self.mean([f64::from(i), f64::from(k)]);
                m[0].hypot(m[1]) <= TOLERANCE
            })
        })
    }

    /// One shot, `wide` times as unsteady as usual.
    pub fn shoot(&self, x: [f64; 2], wide: f64, rng: &mut Rng) -> [f64; 2] {
        let s = self.steady.scaled(wide);
        let shot = Disturbance {
            release_ns: s.release_ns.map(|sd| sd * rng.normal()),
            drift_m: s.drift_m.map(|sd| sd * rng.normal()),
            vane_knock_ns: [0.0; 2],
        };
        self.tear(x, &shot)
    }
}

pub fn setup(kind: Kind, rng: &mut Rng) -> Setup {
    let aid = kind == Kind::Aid;
    let rests = [RestKind::DropAway, RestKind::Blade, RestKind::Capture];
    Setup {
        kind: if aid {
            BowKind::Compound
        } else {
            BowKind::Recurve
        },
        release: if aid { Release::Aid } else { Release::Fingers },
        rest: if aid {
            rests[rng.uniform(0.0, 3.0) as usize % 3]
        } else {
            RestKind::Plunger
        },
        hand: if rng.chance(0.1) {
            Hand::Left
        } else {
            Hand::Right
        },
    }
}

/// Arrow and bow with the given load ratio.
pub fn build(setup: &Setup, ratio: f64, rng: &mut Rng) -> (ArrowSpec, BowSpec) {
    let aid = setup.release == Release::Aid;
    let pounds = if aid {
        rng.uniform(45.0, 70.0)
    } else {
        rng.uniform(28.0, 46.0)
    };
    let length = rng.uniform(27.0, 30.0);
    let mut arrow = ArrowSpec {
        shaft_length_m: length * INCH_M,
        ei: 3.0,
        shaft_mass_per_m: rng.uniform(6.5, 10.0) * GRAIN_KG / INCH_M,
        point_mass_kg: rng.uniform(100.0, 150.0) * GRAIN_KG,
        insert_mass_kg: rng.uniform(0.0, 30.0) * GRAIN_KG,
        nock_mass_kg: rng.uniform(7.0, 12.0) * GRAIN_KG,
        vane_mass_kg: rng.uniform(9.0, 24.0) * GRAIN_KG,
        vane_position_m: VANE_POSITION_M,
        diameter_m: 6.0e-3,
        bare: false,
    };
    let brace = if aid {
        rng.uniform(6.0, 7.5)
    } else {
        rng.uniform(8.0, 9.0)
    };
    let bow = BowSpec {
        kind: setup.kind,
        peak_force_n: pounds * POUND_N,
        draw_length_m: (length + rng.uniform(-0.5, 0.5)) * INCH_M,
        brace_height_m: brace * INCH_M,
        let_off: 0.8,
        chronograph_m_s: None,
        rest_ahead_m: 0.0,
    };
    let spine = SpineBow {
        kind: setup.kind,
        release: setup.release,
        rest: setup.rest,
        peak_force_n: bow.peak_force_n,
    };
    // The load ratio goes with 1/EI.
    arrow.ei *= spine_match(&arrow, &spine).load_ratio / ratio;
    (arrow, bow)
}

/// How unsteady the archer is for the scatter on paper, the worse axis, to be
/// that of the class.
fn unsteadiness(engine: &Engine, kind: Kind, class: usize, rng: &mut Rng) -> f64 {
    let wanted = super::world::scatter(rng, kind, class);
    let found = engine.spread();
    (wanted[0] / found[0].max(0.1)).min(1.5 * wanted[1] / found[1].max(0.1))
}

/// Errors of a card: weight, length, spine (sds, shares).
const ERRORS: [f64; 3] = [0.03, 0.01, 0.03];

/// The card of a bow, a little out.
fn card(arrow: &ArrowSpec, bow: &BowSpec, setup: &Setup, rng: &mut Rng) -> Case {
    let off = ERRORS.map(|sd| 1.0 + sd * rng.normal());
    let mut case = Case {
        arrow: *arrow,
        bow: *bow,
        setup: *setup,
        paper_m: 2.0,
        weighed: false,
    };
    case.bow.peak_force_n *= off[0];
    case.arrow.ei *= off[2] / off[1].powi(2);
    case
}

/// Everything unknown about a bow, the string held as wanted.
fn unknowns(setup: &Setup, hold: Hold, rng: &mut Rng) -> Unknowns {
    let mut inner = tearbench::physics::rng::Rng::new(rng.uniform(0.0, 1e15) as u64);
    let (low, high) = if hold == Hold::Wide {
        (0.6, 6.0)
    } else {
        (0.6, 1.2)
    };
    let most_kg = if hold == Hold::Wide { 4e-3 } else { 5.5e-3 };
    Unknowns {
        string_hold_side: rng.log_uniform(low, high),
        string_kg: rng.uniform(1e-3, most_kg),
        ..Unknowns::draw(setup, &mut inner)
    }
}

/// A bow whose start is out of tolerance and can be shown on paper.
pub fn draw(
    rng: &mut Rng,
    kind: Kind,
    ratio: [f64; 2],
    class: usize,
    reachable: bool,
    hold: Hold,
) -> Bow {
    loop {
        let setup = setup(kind, rng);
        let ratio = rng.uniform(ratio[0], ratio[1]);
        let (arrow, spec) = build(&setup, ratio, rng);
        let unknowns = unknowns(&setup, hold, rng);
        let bow = VirtualBow::new(&arrow, &spec, &setup, &unknowns);
        let paper = bow.paper(2.0);
        let base = Settings {
            rest_side_mm: rng.uniform(-2.5, 2.5),
            rest_up_mm: rng.uniform(-2.5, 2.5),
            ..Settings::default()
        };
        let steady = Steadiness::average(setup.release);
        let mut engine = Engine {
            card: card(&arrow, &spec, &setup, rng),
            bow,
            paper,
            base,
            steady,
        };
        engine.steady = steady.scaled(unsteadiness(&engine, kind, class, rng));
        let start = engine.mean([0.0; 2]);
        let size = start[0].hypot(start[1]);
        if size > TOLERANCE && size < 50.0 && (!reachable || engine.reachable()) {
            return Bow {
                shape: [Shape::Line(0.0), Shape::Line(0.0)],
                cross: [0.0; 2],
                start,
                sd: [0.0; 2],
                bad: 0.03,
                tails: None,
                drift: [0.0; 2],
                loose: 0.0,
                knock: 0.0,
                looks: true,
                travel: [8.0; 2],
                step: [0.25; 2],
                class,
                powder: Powder::Clean,
                engine: Some(Rc::new(engine)),
            };
        }
    }
}
