//! What drives the launch from outside, as functions of time: compression,
//! hold of the string, its path, the release, where the rest touches.

use super::bow::{BowSpec, Losses, PowerStroke};
use super::column::ArrowSpec;
use super::kinds::{RestKind, Setup};
use super::unknowns::Unknowns;

/// Everything acting on the arrow from outside between release and exit.
#[derive(Debug, Clone)]
pub struct Drive {
    stroke: PowerStroke,
    arrow_kg: f64,
    rest_m: f64,
    stroke_m: f64,
    hold: [f64; 2],
    path_m: [f64; 2],
    release_s: f64,
    drop_m: f64,
    gone_s: f64,
}

/// The drive at one moment. Pairs are sideways and upwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DriveState {
    /// Acceleration along the arrow, m/s^2.
    pub acceleration: f64,
    /// How stiffly the string holds the nock, N/m.
    pub hold: [f64; 2],
    /// Where the string's own path is, m off its plane.
    pub path_m: [f64; 2],
    /// Release force for an impulse of one, 1/s.
    pub pulse: f64,
    /// Where the rest touches, m from the nock.
    pub rest_at_m: f64,
    /// Whether the rest is still there.
    pub rest_up: bool,
    /// Share of the launch gone by, squared: how a push of the hand grows.
    pub drift: f64,
    /// Speed of that, 1/s.
    pub drift_rate: f64,
    /// Speed along the arrow, m/s.
    pub speed_m_s: f64,
}

impl Drive {
    /// The drive for one arrow, bow and set of unknowns.
    #[must_use]
    pub fn new(arrow: &ArrowSpec, bow: &BowSpec, setup: &Setup, unknowns: &Unknowns) -> Self {
        let arrow_kg = arrow.mass_kg();
        let mut losses = Losses::middling(bow.kind, arrow_kg);
        losses.virtual_mass_kg *= unknowns.virtual_mass;
        losses.hysteresis = unknowns.hysteresis;
        let riser = setup.riser_side();
        let stroke_m = bow.stroke_m();
        let stroke = PowerStroke::new(bow, arrow_kg, &losses);
        let drop_m = if setup.rest == RestKind::DropAway {
            unknowns.drop_share * stroke_m
        } else {
            f64::INFINITY
        };
        Self {
            gone_s: time_at(&stroke, drop_m),
            stroke,
            arrow_kg,
            rest_m: bow.rest_m(),
            stroke_m,
            hold: [unknowns.string_hold_side, unknowns.string_hold_up],
            path_m: [riser * unknowns.path_side_m, unknowns.path_up_m],
            release_s: unknowns.release_s,
            drop_m,
        }
    }

    /// Release to string exit, s.
    #[must_use]
    pub fn duration_s(&self) -> f64 {
        self.stroke.duration_s()
    }

    /// Speed at the exit, m/s.
    #[must_use]
    pub fn speed_m_s(&self) -> f64 {
        self.stroke.exit_speed_m_s()
    }

    /// Nock to rest at full draw, m.
    #[must_use]
    pub fn rest_at_draw_m(&self) -> f64 {
        self.rest_m
    }

    /// Nock to rest at the exit, m.
    #[must_use]
    pub fn rest_at_exit_m(&self) -> f64 {
        self.rest_m - self.stroke_m
    }

    /// Whether the rest is still touching after the string has let go.
    #[must_use]
    pub fn rest_stays(&self) -> bool {
        self.drop_m >= self.stroke_m
    }

    /// Share of a step, beginning at `from_s`, in which the rest is up.
    #[must_use]
    pub fn touch_share(&self, from_s: f64, step_s: f64) -> f64 {
        ((self.gone_s - from_s) / step_s).clamp(0.0, 1.0)
    }

    /// The drive at `time_s` after release, up to the exit.
    #[must_use]
    pub fn at(&self, time_s: f64) -> DriveState {
        let axial = self.stroke.at(time_s);
        let share = axial.travel_m / self.stroke_m;
        let left = (self.stroke_m - axial.travel_m).max(1e-4);
        let hold = self.arrow_kg * axial.acceleration / left;
        let bump = 4.0 * share * (1.0 - share);
        let pulse = if time_s < self.release_s {
            let w = std::f64::consts::PI / self.release_s;
            0.5 * w * (w * time_s).sin()
        } else {
            0.0
        };
        DriveState {
            acceleration: axial.acceleration,
            hold: self.hold.map(|multiple| multiple * hold),
            path_m: self.path_m.map(|size| size * bump),
            pulse,
            rest_at_m: self.rest_m - axial.travel_m,
            rest_up: axial.travel_m < self.drop_m,
            drift: (time_s / self.stroke.duration_s()).powi(2),
            drift_rate: 2.0 * time_s / self.stroke.duration_s().powi(2),
            speed_m_s: axial.speed_m_s,
        }
    }
}

/// Time at which the arrow has travelled `travel_m`; infinite if it never
/// does on the string.
fn time_at(stroke: &PowerStroke, travel_m: f64) -> f64 {
    let (mut low, mut high) = (0.0, stroke.duration_s());
    if stroke.at(high).travel_m < travel_m {
        return f64::INFINITY;
    }
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if stroke.at(middle).travel_m < travel_m {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::super::bow::tests::compound;
    use super::super::column::tests::common_arrow;
    use super::super::kinds::{BowKind, Hand, Release};
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn the_release_pulse_adds_up_to_one() {
        let setup = Setup {
            kind: BowKind::Compound,
            release: Release::Aid,
            rest: RestKind::DropAway,
            hand: Hand::Right,
        };
        let drive = Drive::new(
            &common_arrow(),
            &compound(60.0, 19.25),
            &setup,
            &Unknowns::middling(&setup),
        );
        let step = drive.duration_s() / 20_000.0;
        let sum: f64 = (0..20_000)
            .map(|i| drive.at((f64::from(i) + 0.5) * step).pulse * step)
            .sum();
        assert_relative_eq!(sum, 1.0, max_relative = 1e-3);
        assert!(drive.at(0.0).rest_up && !drive.at(drive.duration_s()).rest_up);
        assert!(!drive.rest_stays());
    }
}
