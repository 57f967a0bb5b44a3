//! The transverse launch: from release to the nock passing the rest, in both
//! planes, in terms of the arrow's own bending modes.
//!
//! ```text
//! mu w_tt + (EI w_xx)_xx + (N w_x)_x = q,   N(x, t) = a(t) m_ahead(x)
//! ```
//!
//! The string holds the nock with `k(t) = multiple * F(t) / (distance to go)`
//! towards its own path; the rest is a [`Contact`] fixed in space, so that it
//! slides along the shaft; the release is a short push on the nock. What is
//! left out: friction at the rest, coupling of the planes through it, recoil
//! of the bow, the last inch or two of string after brace height, stiffening
//! by the point's shank, and (as in all small-deflection theory) shortening.
//!
//! Shape is carried by `N` free-free modes (two of them rigid) of the arrow
//! with the string's mass on its nock; modes turn exactly between kicks half
//! a step either way (Strang splitting), and everything not depending on the
//! shot is tabulated beforehand. What that costs against a fine finite
//! element solution is measured in `tests/published/physics_fine.rs`.

use super::bow::BowSpec;
use super::column::ArrowSpec;
use super::contact::Contact;
use super::drive::Drive;
use super::kinds::Setup;
use super::legendre::BASIS;
use super::modes::FreeModes;
use super::si::GRAVITY;
use super::unknowns::Unknowns;

/// Number of shapes used in everyday work: two rigid and five bending.
pub const SHAPES: usize = 7;
/// Longest time step in everyday work, s.
pub const STEP_S: f64 = 1.0e-4;

/// What differs from shot to shot and setting to setting. Pairs are sideways
/// (right +) and up and down (up +).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ShotInput {
    /// Where the rest is, off the string's plane and off level, m.
    pub rest_m: [f64; 2],
    /// Where the string holds the nock, m.
    pub nock_m: [f64; 2],
    /// Impulse of the release on the nock, N s.
    pub release_ns: [f64; 2],
    /// How far the hand moves the rest in the time of the launch, m.
    pub drift_m: [f64; 2],
    /// Added preload of a button, N.
    pub preload_n: f64,
}

/// Modal displacements and speeds in both planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Modal<const N: usize> {
    /// Displacements, m kg^1/2.
    pub q: [[f64; 2]; N],
    /// Speeds, m/s kg^1/2.
    pub p: [[f64; 2]; N],
}

/// Free modes of the arrow as it flies, shared with [`super::flight`].
#[derive(Debug, Clone)]
pub struct FlightModes<const N: usize> {
    /// The modes.
    pub modes: FreeModes,
    /// Damping ratio of each bending mode.
    pub damping: f64,
}

#[derive(Debug, Clone, Copy)]
struct Step<const N: usize> {
    acceleration: f64,
    hold: [f64; 2],
    pull: [f64; 2],
    pulse: f64,
    drift: f64,
    drift_rate: f64,
    touch: f64,
    contact: [f64; N],
    /// Rate of the contact's shape as the rest slides along, 1/s.
    slide: [f64; N],
    /// Speed at the contact gained by half a step of 1 N, m/s per N.
    yields: f64,
}

/// Exact turn of every mode over a time.
#[derive(Debug, Clone, Copy)]
struct Turn<const N: usize> {
    qq: [f64; N],
    qp: [f64; N],
    pq: [f64; N],
    pp: [f64; N],
}

impl<const N: usize> Turn<N> {
    fn new(omega: &[f64; BASIS], damping: f64, time: f64) -> Self {
        let mut turn = Self {
            qq: [1.0; N],
            qp: [time; N],
            pq: [0.0; N],
            pp: [1.0; N],
        };
        for i in 2..N {
            let (w, z) = (omega[i], damping);
            let wd = w * (1.0 - z * z).sqrt();
            let decay = (-z * w * time).exp();
            let (s, c) = (wd * time).sin_cos();
            turn.qq[i] = decay * (c + z * w / wd * s);
            turn.qp[i] = decay * s / wd;
            turn.pq[i] = -decay * w * w / wd * s;
            turn.pp[i] = decay * (c - z * w / wd * s);
        }
        turn
    }

    #[inline(always)]
    fn apply(&self, m: &mut Modal<N>) {
        for i in 0..N {
            for plane in 0..2 {
                let (q, p) = (m.q[i][plane], m.p[i][plane]);
                m.q[i][plane] = self.qq[i] * q + self.qp[i] * p;
                m.p[i][plane] = self.pq[i] * q + self.pp[i] * p;
            }
        }
    }
}

/// A launch made ready for one arrow, bow and set of unknowns.
#[derive(Debug, Clone)]
pub struct Launch<const N: usize = SHAPES> {
    contacts: [Contact; 2],
    step_s: f64,
    nock: [f64; N],
    gravity: [f64; N],
    compression: [[f64; N]; N],
    on_string: Vec<Step<N>>,
    half: Turn<N>,
    full: Turn<N>,
    /// Modes with the string to modes without, at the exit.
    letting_go: [[f64; N]; N],
    after: After<N>,
    start: Start,
    flight: FlightModes<N>,
    speed_m_s: f64,
    duration_s: f64,
}

/// From the exit to the nock passing the rest.
#[derive(Debug, Clone)]
struct After<const N: usize> {
    step_s: f64,
    steps: Vec<Step<N>>,
    half: Turn<N>,
    full: Turn<N>,
    gravity: [f64; N],
}

/// Modal displacements of a straight arrow, for a unit at nock and at rest.
#[derive(Debug, Clone)]
struct Start {
    nock: [f64; 2],
    rest: [f64; 2],
    sag_m: f64,
}

fn first<const N: usize>(all: &[f64; BASIS]) -> [f64; N] {
    std::array::from_fn(|i| all[i])
}

impl<const N: usize> Launch<N> {
    /// Makes a launch ready with steps no longer than `longest_step_s`.
    ///
    /// # Panics
    /// If `N` is more than the Legendre basis holds or under 3.
    #[must_use]
    pub fn new(
        arrow: &ArrowSpec,
        bow: &BowSpec,
        setup: &Setup,
        unknowns: &Unknowns,
        longest_step_s: f64,
    ) -> Self {
        assert!((3..=BASIS).contains(&N), "3 to {BASIS} shapes");
        let drive = Drive::new(arrow, bow, setup, unknowns);
        let contacts = Contact::pair(setup, unknowns);
        let held = FreeModes::with_string(arrow, unknowns.string_kg);
        let free = FreeModes::of(arrow);
        let steps = (drive.duration_s() / longest_step_s).ceil().max(1.0);
        let step_s = drive.duration_s() / steps;
        let all = held.compression(arrow);
        let weight = |modes: &FreeModes| modes.weight(arrow);
        let mut string_weight = first::<N>(&weight(&held));
        let nock = first::<N>(&held.at(0.0));
        for (w, n) in string_weight.iter_mut().zip(&nock) {
            *w += unknowns.string_kg * n;
        }
        Self {
            contacts,
            step_s,
            nock,
            gravity: string_weight.map(|w| -GRAVITY * w),
            compression: std::array::from_fn(|i| first(&all[i])),
            on_string: on_string(arrow, &drive, &held, steps as usize),
            half: Turn::new(held.omega(), unknowns.damping, 0.5 * step_s),
            full: Turn::new(held.omega(), unknowns.damping, step_s),
            letting_go: letting_go(arrow, &held, &free),
            after: After::new(arrow, &drive, &free, unknowns, longest_step_s),
            start: Start::new(arrow, &drive, &held, &contacts),
            flight: FlightModes {
                modes: free,
                damping: unknowns.damping,
            },
            speed_m_s: drive.speed_m_s(),
            duration_s: drive.duration_s(),
        }
    }

    /// Speed along the arrow at the exit, m/s.
    #[must_use]
    pub fn speed_m_s(&self) -> f64 {
        self.speed_m_s
    }

    /// Release to string exit, s.
    #[must_use]
    pub fn duration_s(&self) -> f64 {
        self.duration_s
    }

    /// The free modes the result is given in.
    #[must_use]
    pub fn flight_modes(&self) -> &FlightModes<N> {
        &self.flight
    }

    /// Simulates one launch. The result is in the free modes of the arrow,
    /// at the moment the nock passes the rest.
    #[must_use]
    pub fn shoot(&self, input: &ShotInput) -> Modal<N> {
        self.shoot_watched(input, |_, _, _| {})
    }

    /// As [`Launch::shoot`], telling the watcher at every kick: time, modal
    /// state with the string, and the two rest forces, N.
    #[must_use]
    #[inline]
    pub fn shoot_watched(
        &self,
        input: &ShotInput,
        mut watch: impl FnMut(f64, &Modal<N>, [f64; 2]),
    ) -> Modal<N> {
        let contacts = self.contacts_for(input);
        let mut m = self.start.modal(input);
        self.half.apply(&mut m);
        for (k, step) in self.on_string.iter().enumerate() {
            if k > 0 {
                self.full.apply(&mut m);
            }
            let mut force = [[0.0; 2]; N];
            for i in 0..N {
                for j in 0..N {
                    force[i][0] += self.compression[i][j] * m.q[j][0];
                    force[i][1] += self.compression[i][j] * m.q[j][1];
                }
            }
            let at_nock = dot(&self.nock, &m.q);
            let pull: [f64; 2] = std::array::from_fn(|plane| {
                step.hold[plane] * (step.pull[plane] + input.nock_m[plane] - at_nock[plane])
                    + step.pulse * input.release_ns[plane]
            });
            let half_s = 0.5 * self.step_s;
            for i in 0..N {
                for plane in 0..2 {
                    force[i][plane] =
                        half_s * (step.acceleration * force[i][plane] + self.nock[i] * pull[plane]);
                }
                force[i][1] += half_s * self.gravity[i];
                m.p[i][0] += force[i][0];
                m.p[i][1] += force[i][1];
            }
            let push = rest_force(&contacts, step, &m, input);
            for i in 0..N {
                for plane in 0..2 {
                    m.p[i][plane] += force[i][plane] + self.step_s * step.contact[i] * push[plane];
                }
            }
            watch((k as f64 + 0.5) * self.step_s, &m, push);
        }
        self.half.apply(&mut m);
        let mut m = self.let_go(&m);
        self.after.run(&contacts, input, &mut m);
        m
    }

    fn contacts_for(&self, input: &ShotInput) -> [Contact; 2] {
        let mut contacts = self.contacts;
        contacts[0].preload = (contacts[0].preload + input.preload_n).max(0.0);
        contacts
    }

    fn let_go(&self, m: &Modal<N>) -> Modal<N> {
        let mut out = Modal {
            q: [[0.0; 2]; N],
            p: [[0.0; 2]; N],
        };
        for i in 0..N {
            for j in 0..N {
                for plane in 0..2 {
                    out.q[i][plane] += self.letting_go[i][j] * m.q[j][plane];
                    out.p[i][plane] += self.letting_go[i][j] * m.p[j][plane];
                }
            }
        }
        out
    }
}

#[inline(always)]
fn dot<const N: usize>(row: &[f64; N], q: &[[f64; 2]; N]) -> [f64; 2] {
    let mut sum = [0.0; 2];
    for i in 0..N {
        sum[0] += row[i] * q[i][0];
        sum[1] += row[i] * q[i][1];
    }
    sum
}

#[inline(always)]
fn rest_force<const N: usize>(
    contacts: &[Contact; 2],
    step: &Step<N>,
    m: &Modal<N>,
    input: &ShotInput,
) -> [f64; 2] {
    let place = dot(&step.contact, &m.q);
    let speed = dot(&step.contact, &m.p);
    let slide = dot(&step.slide, &m.q);
    std::array::from_fn(|plane| {
        let past = place[plane] - input.rest_m[plane] - step.drift * input.drift_m[plane];
        let rate = speed[plane] + slide[plane] - step.drift_rate * input.drift_m[plane];
        step.touch * contacts[plane].force(past, rate, step.yields)
    })
}

/// The contact's shape, its rate as the rest slides along, and its yield.
fn contact_at<const N: usize>(
    arrow: &ArrowSpec,
    modes: &FreeModes,
    rest_at_m: f64,
    speed_m_s: f64,
    step_s: f64,
) -> ([f64; N], [f64; N], f64) {
    let x = rest_at_m.clamp(0.0, arrow.shaft_length_m);
    let contact = first::<N>(&modes.at(x));
    let slide = first::<N>(&modes.slope_at(x)).map(|slope| -speed_m_s * slope);
    let yields = 0.5 * step_s * contact.iter().map(|c| c * c).sum::<f64>();
    (contact, slide, yields)
}

/// Tables for the time on the string, one entry a step, at its middle.
fn on_string<const N: usize>(
    arrow: &ArrowSpec,
    drive: &Drive,
    held: &FreeModes,
    steps: usize,
) -> Vec<Step<N>> {
    let step_s = drive.duration_s() / steps as f64;
    (0..steps)
        .map(|k| {
            let state = drive.at((k as f64 + 0.5) * step_s);
            let (contact, slide, yields) =
                contact_at(arrow, held, state.rest_at_m, state.speed_m_s, step_s);
            Step {
                acceleration: state.acceleration,
                hold: state.hold,
                pull: state.path_m,
                pulse: state.pulse,
                drift: state.drift,
                touch: drive.touch_share(k as f64 * step_s, step_s),
                drift_rate: state.drift_rate,
                contact,
                slide,
                yields,
            }
        })
        .collect()
}

/// `f_free' M f_held`: what each mode with the string becomes without it.
fn letting_go<const N: usize>(
    arrow: &ArrowSpec,
    held: &FreeModes,
    free: &FreeModes,
) -> [[f64; N]; N] {
    let all = free.overlap(held, arrow);
    std::array::from_fn(|i| first(&all[i]))
}

impl<const N: usize> After<N> {
    fn new(
        arrow: &ArrowSpec,
        drive: &Drive,
        free: &FreeModes,
        unknowns: &Unknowns,
        longest: f64,
    ) -> Self {
        let reach = drive.rest_at_exit_m();
        let time = reach / drive.speed_m_s();
        let stays = drive.rest_stays();
        let count = if stays {
            (time / longest).ceil().max(1.0)
        } else {
            1.0
        };
        let step_s = time / count;
        let steps = (0..count as usize).map(|k| {
            let rest_at = reach - (k as f64 + 0.5) * step_s * drive.speed_m_s();
            let (contact, slide, yields) =
                contact_at(arrow, free, rest_at, drive.speed_m_s(), step_s);
            Step {
                acceleration: 0.0,
                hold: [0.0; 2],
                pull: [0.0; 2],
                pulse: 0.0,
                drift: 1.0,
                touch: f64::from(u8::from(stays)),
                drift_rate: 0.0,
                contact,
                slide,
                yields,
            }
        });
        Self {
            step_s,
            steps: steps.collect(),
            half: Turn::new(free.omega(), unknowns.damping, 0.5 * step_s),
            full: Turn::new(free.omega(), unknowns.damping, step_s),
            gravity: first::<N>(&free.weight(arrow)).map(|w| -GRAVITY * w),
        }
    }

    #[inline]
    fn run(&self, contacts: &[Contact; 2], input: &ShotInput, m: &mut Modal<N>) {
        self.half.apply(m);
        for (k, step) in self.steps.iter().enumerate() {
            if k > 0 {
                self.full.apply(m);
            }
            let push = rest_force(contacts, step, m, input);
            for i in 0..N {
                for plane in 0..2 {
                    m.p[i][plane] += self.step_s * step.contact[i] * push[plane];
                }
                m.p[i][1] += self.step_s * self.gravity[i];
            }
        }
        self.half.apply(m);
    }
}

impl Start {
    fn new(arrow: &ArrowSpec, drive: &Drive, held: &FreeModes, contacts: &[Contact; 2]) -> Self {
        let rest_m = drive.rest_at_draw_m().clamp(0.1, arrow.shaft_length_m);
        let (nock, rest) = (held.at(0.0), held.at(rest_m));
        let det = nock[0] * rest[1] - nock[1] * rest[0];
        let load = arrow.mass_kg() * GRAVITY * arrow.balance_m() / rest_m;
        Self {
            nock: [rest[1] / det, -rest[0] / det],
            rest: [-nock[1] / det, nock[0] / det],
            sag_m: load / contacts[1].stiffness,
        }
    }

    fn modal<const N: usize>(&self, input: &ShotInput) -> Modal<N> {
        let mut m = Modal {
            q: [[0.0; 2]; N],
            p: [[0.0; 2]; N],
        };
        let rest = [input.rest_m[0], input.rest_m[1] - self.sag_m];
        for i in 0..2 {
            for plane in 0..2 {
                m.q[i][plane] = self.nock[i] * input.nock_m[plane] + self.rest[i] * rest[plane];
            }
        }
        m
    }
}
