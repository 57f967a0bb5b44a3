//! A virtual bow given by its response alone: no physics.

use super::mechanics::Engine;
use super::rng::Rng;
use std::cell::OnceCell;
use std::rc::Rc;

/// How the mean tear answers one adjuster on its own axis, mm.
#[derive(Clone, Debug)]
pub enum Shape {
    /// A straight line: slope, mm per unit.
    Line(f64),
    /// A line that bends evenly: slope at the start, change for each unit.
    Bend(f64, f64),
    /// Two lines that meet at `at`: slopes below and above.
    Kink { at: f64, below: f64, above: f64 },
    /// A line with fletching contact beyond `at` (outward): kicked by `kick`.
    Contact { slope: f64, at: f64, kick: f64 },
}

impl Shape {
    fn value(&self, x: f64) -> f64 {
        match *self {
            Shape::Line(s) => s * x,
            Shape::Bend(s, c) => s * x + 0.5 * c * x * x,
            Shape::Kink { at, below, above } => {
                if x < at {
                    below * (x - at)
                } else {
                    above * (x - at)
                }
            }
            Shape::Contact { slope, at, kick } => {
                let past = (x - at) * at.signum();
                slope * x
                    + if past > 0.0 {
                        kick * (past / 0.5).min(1.0)
                    } else {
                        0.0
                    }
            }
        }
    }

    /// Tear relative to the start.
    pub fn rise(&self, x: f64) -> f64 {
        self.value(x) - self.value(0.0)
    }
}

/// What powder on shaft and button would show.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Powder {
    /// Nothing but the rest's own track.
    Clean,
    /// A late mark: the rear of the shaft slaps the button.
    Slap,
}

/// Share of powder tests that are misread.
const MISREAD: f64 = 0.1;

/// The bow, its shooter and its faults.
#[derive(Clone, Debug)]
pub struct Bow {
    /// Own response of the sideways and the vertical adjuster.
    pub shape: [Shape; 2],
    /// Tear right for a unit of vertical move, and up for a unit sideways.
    pub cross: [f64; 2],
    /// Mean tear at the start, mm.
    pub start: [f64; 2],
    /// Shot-to-shot sd, mm, reading apart.
    pub sd: [f64; 2],
    /// Share of bad shots (departure times three).
    pub bad: f64,
    /// Student degrees of freedom of the scatter, if heavy-tailed.
    pub tails: Option<u32>,
    /// Change of the mean for each shot, mm.
    pub drift: [f64; 2],
    /// Sd of the jump of the mean at each move, mm.
    pub loose: f64,
    /// Sd of a random knock on the vanes on every shot, mm, till it is cleared.
    pub knock: f64,
    /// Whether anybody looks at powder; otherwise it is answered "none".
    pub looks: bool,
    /// Travel each way, and step, of each adjuster, in its unit.
    pub travel: [f64; 2],
    pub step: [f64; 2],
    /// Shooter's class, for the report: 0 good, 1 average, 2 poor.
    pub class: usize,
    /// What powder shows; with the launch model, what happens is asked.
    pub powder: Powder,
    /// The launch model, in the worlds that have one.
    pub engine: Option<Rc<Engine>>,
}

/// A bow being shot.
pub struct Bench<'a> {
    pub bow: &'a Bow,
    pub x: [f64; 2],
    pub shots: usize,
    pub moves: usize,
    /// What knocks on the vanes was found and cleared.
    pub cleared: bool,
    rng: Rng,
    eyes: Rng,
    jump: [f64; 2],
    grid: OnceCell<Vec<([f64; 2], [f64; 2])>>,
}

impl<'a> Bench<'a> {
    pub fn new(bow: &'a Bow, seed: u64) -> Self {
        Bench {
            bow,
            x: [0.0; 2],
            shots: 0,
            moves: 0,
            cleared: false,
            rng: Rng::new(seed ^ 0xA5A5),
            eyes: Rng::new(seed ^ 0x00E7_E500),
            jump: [0.0; 2],
            grid: OnceCell::new(),
        }
    }

    /// Noise-free tear at a setting, as the bow stands now.
    pub fn mean_at(&self, x: [f64; 2]) -> [f64; 2] {
        let b = self.bow;
        let age = self.shots as f64;
        if let Some(engine) = &b.engine {
            return engine.mean(x);
        }
        [0, 1].map(|a| {
            b.start[a]
                + b.shape[a].rise(x[a])
                + b.cross[a] * x[1 - a]
                + b.drift[a] * age
                + self.jump[a]
        })
    }

    pub fn truth(&self) -> [f64; 2] {
        self.mean_at(self.x)
    }

    /// What somebody who looks says of the powder: true nine times in ten.
    pub fn powder(&mut self) -> Powder {
        let engine = self.bow.engine.as_ref();
        let true_one = engine.map_or(self.bow.powder, |e| e.powder(self.x));
        match (self.eyes.chance(MISREAD), true_one) {
            (false, seen) => seen,
            (true, Powder::Clean) => Powder::Slap,
            (true, Powder::Slap) => Powder::Clean,
        }
    }

    /// One shot, read to the millimetre with an sd of 1 mm.
    pub fn shoot(&mut self) -> [f64; 2] {
        let mean = self.truth();
        let bad = if self.rng.chance(self.bow.bad) {
            3.0
        } else {
            1.0
        };
        self.shots += 1;
        if let Some(engine) = &self.bow.engine {
            let tear = engine.shoot(self.x, bad, &mut self.rng);
            return tear.map(|t| (t + self.rng.normal()).round());
        }
        let mut tail = || match self.bow.tails {
            Some(df) => {
                let chi: f64 = (0..df).map(|_| self.rng.normal().powi(2)).sum();
                let wide = (f64::from(df) / chi).sqrt();
                // Scaled so that the sd stays what the class says.
                self.rng.normal() * wide * ((f64::from(df) - 2.0) / f64::from(df)).sqrt()
            }
            None => self.rng.normal(),
        };
        let departure = [tail(), tail()];
        let knock = if self.cleared { 0.0 } else { self.bow.knock };
        let knocks = [0, 1].map(|_| {
            if knock > 0.0 {
                knock * self.rng.normal()
            } else {
                0.0
            }
        });
        [0, 1].map(|a| {
            (mean[a] + knocks[a] + bad * self.bow.sd[a] * departure[a] + self.rng.normal()).round()
        })
    }

    /// Moves to a setting, on whole steps inside the travel.
    pub fn go(&mut self, to: [f64; 2]) {
        let mut next = self.x;
        for a in 0..2 {
            let (t, s) = (self.bow.travel[a], self.bow.step[a]);
            next[a] = ((to[a].clamp(-t, t)) / s).round() * s;
        }
        if (0..2).any(|a| (next[a] - self.x[a]).abs() > 1e-9) {
            self.moves += 1;
            self.x = next;
            if self.bow.loose > 0.0 {
                self.jump = [0, 1].map(|_| self.bow.loose * self.rng.normal());
            }
        }
    }

    /// Settings on a grid over the travel and their mean tears as the bow
    /// was before the first shot: all whole steps, or coarser in the
    /// worlds of the launch model.
    pub fn grid(&self) -> &[([f64; 2], [f64; 2])] {
        self.grid.get_or_init(|| {
            let stride = if self.bow.engine.is_some() { 4 } else { 1 };
            let places = |a: usize| {
                let n = (self.bow.travel[a] / self.bow.step[a]).round() as i32;
                (-n..=n)
                    .step_by(stride)
                    .map(move |k| f64::from(k) * self.bow.step[a])
            };
            places(0)
                .flat_map(|x| places(1).map(move |y| [x, y]))
                .map(|x| (x, self.mean_at(x)))
                .collect()
        })
    }

    /// Share of that grid whose tear is within `tolerance`.
    pub fn share_inside(&self, tolerance: f64) -> f64 {
        let grid = self.grid();
        let inside = grid.iter().filter(|(_, m)| m[0].hypot(m[1]) <= tolerance);
        inside.count() as f64 / grid.len() as f64
    }

    /// Shot-to-shot sd at the start, reading apart.
    pub fn spread(&self) -> [f64; 2] {
        let own = self.bow.sd.map(|sd| sd.hypot(self.bow.knock));
        self.bow.engine.as_ref().map_or(own, |e| e.spread())
    }
}
