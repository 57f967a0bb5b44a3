//! A virtual bow to ask questions of: the same bow shot as it is, from
//! another distance, without fletching, with another arrow.

use super::mechanics;
use super::rng::Rng;
use super::world::{self, Kind, TOLERANCE};
use std::cell::Cell;
use tearbench::physics::launch::{Modal, SHAPES};
use tearbench::physics::modes::flex_wavelength_m;
use tearbench::physics::paper::{Paper, second_distance_m};
use tearbench::physics::{
    ArrowSpec, BowSpec, Disturbance, Settings, Setup, Steadiness, Unknowns, VirtualBow,
};

/// Paper as it stands, m.
const HERE_M: f64 = 2.0;
/// The other usual distance, m.
const FAR_M: f64 = 4.5;

/// What is done differently for the shots that are to tell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Probe {
    /// Paper half a flex wavelength further.
    Half,
    /// Paper at 4.5 m.
    Far,
    /// A bare shaft.
    Bare,
    /// Two other arrows of the set in turn.
    Other,
    /// The rest 3 mm to the right.
    Sideways,
    /// The rest 3 mm up.
    Upward,
}

/// How far the rest moves for [`Probe::Sideways`] and [`Probe::Upward`], mm.
const MOVE_MM: f64 = 3.0;

/// What makes one arrow tear off the others.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Arrow {
    /// Its stiffness, as a share of the set's.
    stiffness: f64,
    /// A constant push on its nock (bent or cocked), N s.
    nock_ns: [f64; 2],
}

/// One arrow of one bow, with its papers.
#[derive(Debug)]
struct Shooting {
    bow: VirtualBow,
    nock_ns: [f64; 2],
    here: Paper<SHAPES>,
    half: Paper<SHAPES>,
    far: Paper<SHAPES>,
}

impl Shooting {
    fn new(arrow: &ArrowSpec, case: (&BowSpec, &Setup, &Unknowns), nock_ns: [f64; 2]) -> Self {
        let bow = VirtualBow::new(arrow, case.0, case.1, case.2);
        let wave = flex_wavelength_m(arrow, bow.launch().speed_m_s());
        Self {
            here: bow.paper(HERE_M),
            half: bow.paper(second_distance_m(HERE_M, wave)),
            far: bow.paper(FAR_M),
            bow,
            nock_ns,
        }
    }
}

/// The bow.
#[derive(Debug)]
pub struct Subject {
    pub kind: Kind,
    /// Plus for a right-handed bow.
    pub hand: f64,
    fletched: Shooting,
    bare: Shooting,
    others: [Shooting; 2],
    /// Which of the other arrows is on the string.
    turn: Cell<usize>,
    base: Settings,
    steady: Steadiness,
    /// Mean knock on the vanes, N s, where something touches them.
    touch: Option<[f64; 2]>,
}

/// What is hidden in the bow.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Fault {
    None,
    /// The vanes strike something on most shots.
    Contact,
    /// The arrow shot so far is odd, the next one sound.
    OddArrow,
}

impl Subject {
    /// Draws a bow whose tear is out of tolerance and still fits the paper.
    pub fn draw(rng: &mut Rng, kind: Kind, ratio: [f64; 2], fault: Fault) -> Self {
        loop {
            let subject = Self::try_draw(rng, kind, ratio, fault);
            let size = length(subject.mean([0.0; 2], None));
            let odd = fault != Fault::OddArrow || subject.odd_by() > TOLERANCE;
            if size > TOLERANCE && size < 50.0 && odd {
                return subject;
            }
        }
    }

    fn try_draw(rng: &mut Rng, kind: Kind, ratio: [f64; 2], fault: Fault) -> Self {
        let setup = mechanics::setup(kind, rng);
        let ratio = rng.uniform(ratio[0], ratio[1]);
        let (arrow, spec) = mechanics::build(&setup, ratio, rng);
        let mut inner = tearbench::physics::rng::Rng::new(rng.uniform(0.0, 1e15) as u64);
        let unknowns = Unknowns::draw(&setup, &mut inner);
        let average = Steadiness::average(setup.release);
        let first = if fault == Fault::OddArrow {
            odd(rng, &average)
        } else {
            sound(rng, &average)
        };
        let shooting = |one: Arrow, bare: bool| {
            let spec_of = ArrowSpec {
                ei: arrow.ei * one.stiffness,
                bare,
                ..arrow
            };
            Shooting::new(&spec_of, (&spec, &setup, &unknowns), one.nock_ns)
        };
        let mut subject = Self {
            kind,
            hand: -setup.riser_side().signum(),
            fletched: shooting(first, false),
            bare: shooting(sound(rng, &average), true),
            others: [(); 2].map(|()| shooting(sound(rng, &average), false)),
            turn: Cell::new(0),
            base: Settings {
                rest_side_mm: rng.uniform(-2.5, 2.5),
                rest_up_mm: rng.uniform(-2.5, 2.5),
                ..Settings::default()
            },
            steady: average,
            touch: None,
        };
        subject.steady = average.scaled(subject.unsteadiness(rng));
        if fault == Fault::Contact {
            subject.touch = Some(subject.knock(rng));
        }
        subject
    }

    /// How unsteady the archer is for the scatter of an average one.
    fn unsteadiness(&self, rng: &mut Rng) -> f64 {
        let wanted = world::scatter(rng, self.kind, 1);
        let mut own = Rng::new(99);
        let mean = self.mean([0.0; 2], None);
        let mut square = 0.0;
        for _ in 0..40 {
            let shot = self.disturbance(&mut own);
            let y = self.tear([0.0; 2], None, &shot);
            square += (y[0] - mean[0]).powi(2) / 40.0;
        }
        wanted[0] / square.sqrt().max(0.1)
    }

    /// A knock that throws the tail by a half to two and a half tolerances.
    fn knock(&self, rng: &mut Rng) -> [f64; 2] {
        let angle = rng.uniform(0.0, std::f64::consts::TAU);
        let way = [angle.cos(), angle.sin()];
        let struck = Disturbance {
            vane_knock_ns: way.map(|w| 1e-3 * w),
            ..Disturbance::default()
        };
        let (a, b) = (
            self.mean([0.0; 2], None),
            self.tear([0.0; 2], None, &struck),
        );
        let each = (b[0] - a[0]).hypot(b[1] - a[1]).max(0.05);
        let wanted = rng.uniform(0.5, 2.5) * TOLERANCE;
        way.map(|w| 1e-3 * w * wanted / each)
    }

    /// How far the first arrow's mean tear stands off the other's, mm.
    fn odd_by(&self) -> f64 {
        let (a, b) = (
            self.mean([0.0; 2], None),
            self.mean([0.0; 2], Some(Probe::Other)),
        );
        (a[0] - b[0]).hypot(a[1] - b[1])
    }

    fn disturbance(&self, rng: &mut Rng) -> Disturbance {
        let mut shot = Disturbance {
            release_ns: self.steady.release_ns.map(|sd| sd * rng.normal()),
            drift_m: self.steady.drift_m.map(|sd| sd * rng.normal()),
            vane_knock_ns: [0.0; 2],
        };
        let (strikes, size) = (rng.chance(0.85), 1.0 + 0.5 * rng.normal());
        if let Some(touch) = self.touch.filter(|_| strikes) {
            shot.vane_knock_ns = touch.map(|k| k * size);
        }
        shot
    }

    fn state(&self, x: [f64; 2], probe: Option<Probe>, shot: &Disturbance) -> Modal<SHAPES> {
        let with = self.shooting(probe);
        let by = match probe {
            Some(Probe::Sideways) => [MOVE_MM, 0.0],
            Some(Probe::Upward) => [0.0, MOVE_MM],
            _ => [0.0; 2],
        };
        let settings = Settings {
            rest_side_mm: self.base.rest_side_mm + x[0] + by[0],
            rest_up_mm: self.base.rest_up_mm + x[1] + by[1],
            ..self.base
        };
        let mut shot = *shot;
        if probe == Some(Probe::Bare) {
            // No vanes, nothing to strike.
            shot.vane_knock_ns = [0.0; 2];
        }
        (0..2).for_each(|a| shot.release_ns[a] += with.nock_ns[a]);
        with.bow.state(&settings, &shot)
    }

    fn shooting(&self, probe: Option<Probe>) -> &Shooting {
        match probe {
            Some(Probe::Bare) => &self.bare,
            Some(Probe::Other) => &self.others[self.turn.get() % 2],
            _ => &self.fletched,
        }
    }

    fn paper(&self, probe: Option<Probe>) -> &Paper<SHAPES> {
        let with = self.shooting(probe);
        match probe {
            Some(Probe::Half) => &with.half,
            Some(Probe::Far) => &with.far,
            _ => &with.here,
        }
    }

    fn tear(&self, x: [f64; 2], probe: Option<Probe>, shot: &Disturbance) -> [f64; 2] {
        self.paper(probe).tear_mm(&self.state(x, probe, shot))
    }

    /// Undisturbed tear; with contact, its usual knock.
    pub fn mean(&self, x: [f64; 2], probe: Option<Probe>) -> [f64; 2] {
        let shot = Disturbance {
            vane_knock_ns: self.touch.map_or([0.0; 2], |t| t.map(|k| 0.85 * k)),
            ..Disturbance::default()
        };
        self.tear(x, probe, &shot)
    }

    /// Size of the undisturbed tear's two parts, mm: the arrow's angle, and
    /// its bending as it passes the paper.
    pub fn angle_and_flex(&self, x: [f64; 2]) -> (f64, f64) {
        let whole = self.state(x, None, &Disturbance::default());
        let mut rigid = whole;
        for i in 2..SHAPES {
            rigid.q[i] = [0.0; 2];
            rigid.p[i] = [0.0; 2];
        }
        let (all, angle) = (
            self.fletched.here.tear_mm(&whole),
            self.fletched.here.tear_mm(&rigid),
        );
        (length(angle), (all[0] - angle[0]).hypot(all[1] - angle[1]))
    }

    /// A setting whose tear, one to two and a half tolerances long, is made
    /// made of flex by a quarter or more, or by less; `None` where there is none.
    pub fn made_of(&self, flex: bool, rng: &mut Rng) -> Option<[f64; 2]> {
        let mut places = Vec::new();
        for i in -8..=8 {
            for k in -8..=8 {
                let at = [f64::from(i), f64::from(k)];
                let size = length(self.mean(at, None));
                if size > TOLERANCE && size < 2.5 * TOLERANCE {
                    let (angle, bend) = self.angle_and_flex(at);
                    if (3.0 * bend > angle) == flex {
                        places.push(at);
                    }
                }
            }
        }
        let n = places.len() as f64;
        places.get(rng.uniform(0.0, n) as usize).copied()
    }

    /// One shot read to the millimetre with an sd of 1 mm.
    pub fn shoot(&self, x: [f64; 2], probe: Option<Probe>, rng: &mut Rng) -> [f64; 2] {
        let shot = self.disturbance(rng);
        self.turn.set(self.turn.get() + 1);
        self.tear(x, probe, &shot)
            .map(|t| (t + rng.normal()).round())
    }
}

/// Length of a tear, mm.
pub fn length(t: [f64; 2]) -> f64 {
    t[0].hypot(t[1])
}

/// An arrow as good as its set: 2 % of stiffness, a nock a fifth of a
/// release's own spread out of true.
fn sound(rng: &mut Rng, average: &Steadiness) -> Arrow {
    Arrow {
        stiffness: 1.0 + 0.02 * rng.normal(),
        nock_ns: average.release_ns.map(|sd| 0.2 * sd * rng.normal()),
    }
}

/// A soft or stiff shaft, or a nock out of true.
fn odd(rng: &mut Rng, average: &Steadiness) -> Arrow {
    let plain = sound(rng, average);
    if rng.chance(0.5) {
        let off = rng.sign() * rng.uniform(0.15, 0.4);
        return Arrow {
            stiffness: f64::exp(off),
            ..plain
        };
    }
    let angle = rng.uniform(0.0, std::f64::consts::TAU);
    let size = rng.uniform(2.0, 6.0) * average.release_ns[0];
    Arrow {
        nock_ns: [size * angle.cos(), size * angle.sin()],
        ..plain
    }
}
