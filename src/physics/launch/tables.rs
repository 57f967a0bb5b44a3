//! What a launch needs that does not depend on the shot, step by step.

use super::super::column::ArrowSpec;
use super::super::contact::Contact;
use super::super::drive::Drive;
use super::super::modes::FreeModes;
use super::super::si::GRAVITY;
use super::super::unknowns::Unknowns;
use super::ShotInput;
use super::modal::{Modal, Turn, dot, first};

/// One step on the string or past it, at its middle.
#[derive(Debug, Clone, Copy)]
pub(super) struct TimeStep<const N: usize> {
    pub(super) acceleration: f64,
    pub(super) hold: [f64; 2],
    pub(super) pull: [f64; 2],
    pub(super) pulse: f64,
    pub(super) drift: f64,
    pub(super) drift_rate: f64,
    pub(super) touch: f64,
    pub(super) contact: [f64; N],
    /// Rate of the contact's shape as the rest slides along, 1/s.
    pub(super) slide: [f64; N],
    /// Speed at the contact gained by half a step of 1 N, m/s per N.
    pub(super) yields: f64,
    /// How far the nock has come from full draw, m.
    pub(super) travel_m: f64,
}

#[inline(always)]
pub(super) fn rest_force<const N: usize>(
    contacts: &[Contact; 2],
    step: &TimeStep<N>,
    m: &Modal<N>,
    input: &ShotInput,
) -> [f64; 2] {
    if step.touch == 0.0 {
        return [0.0; 2];
    }
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
    let [contact, slope] = modes.first_at::<N>(x);
    let slide = slope.map(|slope| -speed_m_s * slope);
    let yields = 0.5 * step_s * contact.iter().map(|c| c * c).sum::<f64>();
    (contact, slide, yields)
}

/// Tables for the time on the string, one entry a step, at its middle.
pub(super) fn on_string<const N: usize>(
    arrow: &ArrowSpec,
    drive: &Drive,
    held: &FreeModes,
    steps: usize,
) -> Vec<TimeStep<N>> {
    let step_s = drive.duration_s() / steps as f64;
    (0..steps)
        .map(|k| {
            let state = drive.at((k as f64 + 0.5) * step_s);
            let (contact, slide, yields) =
                contact_at(arrow, held, state.rest_at_m, state.speed_m_s, step_s);
            TimeStep {
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
                travel_m: drive.rest_at_draw_m() - state.rest_at_m,
            }
        })
        .collect()
}

/// `f_free' M f_held`: what each mode with the string becomes without it.
pub(super) fn letting_go<const N: usize>(
    arrow: &ArrowSpec,
    held: &FreeModes,
    free: &FreeModes,
) -> [[f64; N]; N] {
    let all = free.overlap(held, arrow);
    std::array::from_fn(|i| first(&all[i]))
}

/// From the exit to the nock passing the rest.
#[derive(Debug, Clone)]
pub(super) struct After<const N: usize> {
    step_s: f64,
    steps: Vec<TimeStep<N>>,
    half: Turn<N>,
    full: Turn<N>,
    gravity: [f64; N],
}

/// Modal displacements of a straight arrow, for a unit at nock and at rest.
#[derive(Debug, Clone)]
pub(super) struct Start {
    nock: [f64; 2],
    rest: [f64; 2],
    sag_m: f64,
}

impl<const N: usize> After<N> {
    pub(super) fn new(
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
            TimeStep {
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
                travel_m: drive.rest_at_draw_m() - rest_at,
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
    pub(super) fn run(
        &self,
        contacts: &[Contact; 2],
        input: &ShotInput,
        m: &mut Modal<N>,
        mut watch: impl FnMut(f64, [f64; 2]),
    ) {
        self.half.apply(m);
        for (k, step) in self.steps.iter().enumerate() {
            if k > 0 {
                self.full.apply(m);
            }
            let push = rest_force(contacts, step, m, input);
            watch(step.travel_m, push);
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
    pub(super) fn new(
        arrow: &ArrowSpec,
        drive: &Drive,
        held: &FreeModes,
        contacts: &[Contact; 2],
    ) -> Self {
        let rest_m = drive.rest_at_draw_m().min(arrow.shaft_length_m).max(0.05);
        let (nock, rest) = (held.at(0.0), held.at(rest_m));
        let det = nock[0] * rest[1] - nock[1] * rest[0];
        let load = arrow.mass_kg() * GRAVITY * arrow.balance_m() / rest_m;
        Self {
            nock: [rest[1] / det, -rest[0] / det],
            rest: [-nock[1] / det, nock[0] / det],
            sag_m: load / contacts[1].stiffness,
        }
    }

    pub(super) fn modal<const N: usize>(&self, input: &ShotInput) -> Modal<N> {
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
