//! The everyday launch against a fine finite-element solution of the same
//! equations: Hermite elements, implicit average-acceleration steps of 5 us,
//! on nalgebra. Only the drive and the law of the rest are shared.

use nalgebra::{DMatrix, DVector};
use tearbench::physics::contact::Contact;
use tearbench::physics::drive::{Drive, DriveState};
use tearbench::physics::flight::Flight;
use tearbench::physics::launch::{FlightModes, Modal, ShotInput};
use tearbench::physics::paper::Paper;
use tearbench::physics::rng::Rng;
use tearbench::physics::si::GRAVITY;
use tearbench::physics::unknowns::Unknowns;
use tearbench::physics::virtual_bow::{Disturbance, Settings, VirtualBow};
use tearbench::physics::{ArrowSpec, BowSpec, FreeModes, RestKind, Setup};

use crate::support::{Beam, aid, arrow, compound, fingers, recurve};

const SHAPES: usize = 11;

struct Fine<'a> {
    beam: &'a Beam,
    contacts: [Contact; 2],
    input: ShotInput,
    drive: Drive,
    gravity: DVector<f64>,
}

impl Fine<'_> {
    /// All forces but inertia and bending, both planes as columns.
    fn forces(
        &self,
        state: &DriveState,
        touch: f64,
        w: &DMatrix<f64>,
        v: &DMatrix<f64>,
        on_string: bool,
    ) -> DMatrix<f64> {
        let mut f = if on_string {
            &self.beam.compression * w * state.acceleration
        } else {
            w * 0.0
        };
        for plane in 0..2 {
            if on_string {
                let gap = state.path_m[plane] + self.input.nock_m[plane] - w[(0, plane)];
                f[(0, plane)] +=
                    state.hold[plane] * gap + state.pulse * self.input.release_ns[plane];
            }
            if touch > 0.0 {
                let x = state.rest_at_m.clamp(0.0, self.beam.length_m);
                let (first, shape, slope) = (
                    self.beam.first_at(x),
                    self.beam.shape_at(x),
                    self.beam.slope_at(x),
                );
                let (mut past, mut rate) = (-self.input.rest_m[plane], 0.0);
                past -= state.drift * self.input.drift_m[plane];
                rate -= state.drift_rate * self.input.drift_m[plane];
                for i in 0..4 {
                    past += shape[i] * w[(first + i, plane)];
                    rate += shape[i] * v[(first + i, plane)]
                        - state.speed_m_s * slope[i] * w[(first + i, plane)];
                }
                let push = touch * self.contacts[plane].force(past, rate, 0.0);
                for i in 0..4 {
                    f[(first + i, plane)] += push * shape[i];
                }
            }
        }
        for i in 0..f.nrows() {
            f[(i, 1)] += self.gravity[i];
        }
        f
    }

    /// Average-acceleration steps from one time to another.
    #[allow(clippy::too_many_arguments)]
    fn run(
        &self,
        mass: &DMatrix<f64>,
        w: &mut DMatrix<f64>,
        v: &mut DMatrix<f64>,
        state: impl Fn(f64) -> DriveState,
        time: f64,
        steps: usize,
        on_string: bool,
    ) {
        let h = time / steps as f64;
        // A drop-away leaves within a step: by its share of the time around it.
        let touch = |time: f64| {
            if on_string {
                self.drive.touch_share(time - 0.5 * h, h)
            } else {
                f64::from(u8::from(self.drive.rest_stays()))
            }
        };
        let solve = (mass + &self.beam.bending * (0.25 * h * h))
            .try_inverse()
            .expect("regular");
        let mass_inverse = mass.clone().try_inverse().expect("regular");
        let mut a = &mass_inverse
            * (self.forces(&state(0.0), touch(0.0), w, v, on_string) - &self.beam.bending * &*w);
        for k in 0..steps {
            let next = state((k + 1) as f64 * h);
            let touching = touch((k + 1) as f64 * h);
            let ahead = &*w + &*v * h + &a * (0.25 * h * h);
            let quicker = &*v + &a * (0.5 * h);
            let mut a1 = a.clone();
            for _ in 0..4 {
                let (w1, v1) = (&ahead + &a1 * (0.25 * h * h), &quicker + &a1 * (0.5 * h));
                a1 = &solve
                    * (self.forces(&next, touching, &w1, &v1, on_string)
                        - &self.beam.bending * &ahead);
            }
            *w = ahead + &a1 * (0.25 * h * h);
            *v = quicker + &a1 * (0.5 * h);
            a = a1;
        }
    }
}

/// The fine tear at 2 m, and the everyday one, mm.
fn both(
    arrow: &ArrowSpec,
    bow: &BowSpec,
    setup: &Setup,
    unknowns: &Unknowns,
    elements: usize,
    step_s: f64,
) -> ([f64; 2], [f64; 2]) {
    let everyday = VirtualBow::new(arrow, bow, setup, unknowns);
    let settings = Settings {
        rest_side_mm: 0.7,
        ..Settings::default()
    };
    let shot = Disturbance {
        drift_m: [0.3e-3, 0.2e-3],
        ..Disturbance::default()
    };
    let input = everyday.input(&settings, &shot);
    let quick = everyday.tear_mm(&settings, &shot, &everyday.paper(2.0));

    let mut with_string = Beam::new(arrow, elements);
    let beam = Beam::new(arrow, elements);
    with_string.add_mass(0.0, unknowns.string_kg);
    let ones = DVector::from_fn(beam.mass.nrows(), |i, _| f64::from(u8::from(i % 2 == 0)));
    let drive = Drive::new(arrow, bow, setup, unknowns);
    let rest_at = drive.rest_at_draw_m().min(arrow.shaft_length_m);
    let contacts = Contact::pair(setup, unknowns);
    let sag = arrow.mass_kg() * GRAVITY * arrow.balance_m() / rest_at / contacts[1].stiffness;
    let h = arrow.shaft_length_m / elements as f64;
    let line = |plane: usize| {
        let rest = input.rest_m[plane] - if plane == 1 { sag } else { 0.0 };
        (input.nock_m[plane], (rest - input.nock_m[plane]) / rest_at)
    };
    let mut w = DMatrix::from_fn(beam.mass.nrows(), 2, |i, plane| {
        let (start, slope) = line(plane);
        if i % 2 == 0 {
            start + slope * (i / 2) as f64 * h
        } else {
            slope
        }
    });
    let mut v = &w * 0.0;
    let gravity = &with_string.mass * &ones * -GRAVITY;
    let mut fine = Fine {
        beam: &beam,
        contacts,
        input,
        drive: drive.clone(),
        gravity,
    };
    let time = drive.duration_s();
    fine.run(
        &with_string.mass,
        &mut w,
        &mut v,
        |t| fine.drive.at(t),
        time,
        (time / step_s) as usize,
        true,
    );
    fine.gravity = &beam.mass * &ones * -GRAVITY;
    let (reach, speed) = (drive.rest_at_exit_m(), drive.speed_m_s());
    let exit = drive.at(time);
    let after = |t: f64| DriveState {
        rest_at_m: reach - speed * t,
        rest_up: drive.rest_stays(),
        drift: 1.0,
        drift_rate: 0.0,
        speed_m_s: speed,
        ..exit
    };
    let passing = reach / speed;
    fine.run(
        &beam.mass,
        &mut w,
        &mut v,
        after,
        passing,
        (passing / step_s) as usize,
        false,
    );

    // Into the free modes, by the mass matrix, and on to the paper.
    let modes = FreeModes::of(arrow);
    let shape = |i: usize| {
        DVector::from_fn(beam.mass.nrows(), |row, _| {
            let x = (row / 2) as f64 * h;
            if row % 2 == 0 {
                modes.at(x)[i]
            } else {
                modes.slope_at(x)[i]
            }
        })
    };
    let mut m = Modal {
        q: [[0.0; 2]; SHAPES],
        p: [[0.0; 2]; SHAPES],
    };
    for i in 0..SHAPES {
        let row = (&beam.mass * shape(i)).transpose();
        for plane in 0..2 {
            m.q[i][plane] = (&row * w.column(plane))[0];
            m.p[i][plane] = (&row * v.column(plane))[0];
        }
    }
    let flight = Flight::<SHAPES>::new(
        arrow,
        &FlightModes {
            modes,
            damping: unknowns.damping,
        },
        speed,
        unknowns.vane_m2,
    );
    (Paper::new(&flight, 2.0).tear_mm(&m), quick)
}

fn cases() -> Vec<(Setup, ArrowSpec, BowSpec)> {
    vec![
        (
            aid(RestKind::DropAway),
            arrow(0.400, 29.0, 8.5, 120.0),
            compound(60.0, 19.25),
        ),
        (
            aid(RestKind::Blade),
            arrow(0.340, 29.0, 9.0, 120.0),
            compound(70.0, 19.25),
        ),
        (
            aid(RestKind::Capture),
            arrow(0.500, 29.0, 7.3, 120.0),
            compound(50.0, 19.25),
        ),
        (fingers(), arrow(0.600, 29.0, 6.5, 120.0), recurve(40.0)),
    ]
}

/// What was traded for speed: seven shapes and steps of 0.1 ms. Cost against
/// the fine solution, over drawn bows: see the printed figures.
#[test]
fn the_everyday_launch_is_close_to_the_fine_one() {
    for (setup, arrow, bow) in cases() {
        let mut rng = Rng::new(5);
        let (mut size, mut off, mut worst) = (0.0, 0.0, 0.0_f64);
        for _ in 0..4 {
            let unknowns = Unknowns {
                damping: 0.0,
                ..Unknowns::draw(&setup, &mut rng)
            };
            let (fine, quick) = both(&arrow, &bow, &setup, &unknowns, 40, 1e-5);
            for axis in 0..2 {
                size += fine[axis].powi(2);
                off += (fine[axis] - quick[axis]).powi(2);
                worst = worst.max((fine[axis] - quick[axis]).abs());
            }
        }
        let share = (off / size).sqrt();
        println!(
            "{:?}: {:.2} % of the tears, worst {worst:.3} mm",
            setup.rest,
            100.0 * share
        );
        assert!(share < 0.02, "{setup:?}: {share}, worst {worst} mm");
    }
}

/// The reference itself has converged: half the elements and twice the step
/// change its tears by less than 1 %.
#[test]
fn the_fine_solution_has_converged() {
    for (setup, arrow, bow) in cases() {
        let mut rng = Rng::new(5);
        let (mut size, mut change) = (0.0, 0.0);
        for _ in 0..2 {
            let unknowns = Unknowns {
                damping: 0.0,
                ..Unknowns::draw(&setup, &mut rng)
            };
            let (fine, _) = both(&arrow, &bow, &setup, &unknowns, 40, 1e-5);
            let (half, _) = both(&arrow, &bow, &setup, &unknowns, 20, 2e-5);
            size += fine[0].powi(2) + fine[1].powi(2);
            change += (fine[0] - half[0]).powi(2) + (fine[1] - half[1]).powi(2);
        }
        let share = (change / size).sqrt();
        println!("{:?}: {:.2} %", setup.rest, 100.0 * share);
        assert!(share < 0.01, "{setup:?}: {share}");
    }
}
