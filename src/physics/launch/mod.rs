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
//! element solution is measured in `tests/properties/launch_fine.rs`.

mod modal;
mod tables;

pub(crate) use modal::damped_turn;
pub use modal::{FlightModes, Modal};

use modal::{Turn, dot, first};
use tables::{After, Start, TimeStep, letting_go, on_string, rest_force};

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

/// What the rest did to the shaft sideways in one launch.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Touches {
    /// Nock travel from full draw at the last push of the rest, m; zero where
    /// it never pushed.
    pub last_m: f64,
    /// Greatest push, N, whichever way.
    pub greatest_n: f64,
    /// Where the nock is sideways as the string lets go, m.
    pub nock_at_exit_m: f64,
}

/// Nock travel past which a touch of the button is a late one: the rear of
/// the shaft slaps it. In a second computation of the launch (exudyn 1.13.6)
/// the last touch lay either before 0.3 m or at 0.5 m and more.
pub(crate) const LATE_M: f64 = 0.3;

impl Touches {
    /// Whether the rear of the shaft touched the rest late.
    #[must_use]
    pub fn late(&self) -> bool {
        self.last_m > LATE_M
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
    on_string: Vec<TimeStep<N>>,
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
        Self::with_modes(
            arrow,
            bow,
            setup,
            unknowns,
            longest_step_s,
            &FreeModes::of(arrow),
        )
    }

    /// As [`Launch::new`] with the arrow's free modes already worked out.
    ///
    /// # Panics
    /// If `N` is more than the Legendre basis holds or under 3.
    #[must_use]
    pub(crate) fn with_modes(
        arrow: &ArrowSpec,
        bow: &BowSpec,
        setup: &Setup,
        unknowns: &Unknowns,
        longest_step_s: f64,
        free: &FreeModes,
    ) -> Self {
        assert!((3..=BASIS).contains(&N), "3 to {BASIS} shapes");
        let drive = Drive::new(arrow, bow, setup, unknowns);
        let contacts = Contact::pair(setup, unknowns);
        let held = FreeModes::with_string(arrow, unknowns.string_kg);
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
            letting_go: letting_go(arrow, &held, free),
            after: After::new(arrow, &drive, free, unknowns, longest_step_s),
            start: Start::new(arrow, &drive, &held, &contacts),
            flight: FlightModes {
                modes: free.clone(),
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
        watch: impl FnMut(f64, &Modal<N>, [f64; 2]),
    ) -> Modal<N> {
        self.run(input, watch, |_, _| {})
    }

    /// What the rest did to the shaft sideways in one launch, up to the nock
    /// passing it.
    #[must_use]
    pub fn touches(&self, input: &ShotInput) -> Touches {
        let on_string = std::cell::Cell::new(Touches::default());
        let note = |travel_m: f64, push: f64| {
            let mut seen = on_string.get();
            if push != 0.0 {
                seen.last_m = travel_m;
                seen.greatest_n = seen.greatest_n.max(push.abs());
            }
            on_string.set(seen);
        };
        let mut steps = self.on_string.iter();
        let mut nock_at_exit_m = 0.0;
        let _ = self.run(
            input,
            |_, m, push| {
                nock_at_exit_m = dot(&self.nock, &m.q)[0];
                note(steps.next().map_or(0.0, |s| s.travel_m), push[0]);
            },
            |travel_m, push| note(travel_m, push[0]),
        );
        Touches {
            nock_at_exit_m,
            ..on_string.get()
        }
    }

    #[inline]
    fn run(
        &self,
        input: &ShotInput,
        mut watch: impl FnMut(f64, &Modal<N>, [f64; 2]),
        after: impl FnMut(f64, [f64; 2]),
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
        self.after.run(&contacts, input, &mut m, after);
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
