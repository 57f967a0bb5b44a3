//! Free flight over the few metres to the paper: ringing arrow, yaw, drag.
//!
//! Positions are a straight sum of what each mode contributes, so the place
//! of any point of the arrow at any path length is one row of numbers times
//! the state at the rest.

use super::column::ArrowSpec;
use super::launch::{FlightModes, Modal, damped_turn};
use super::si::GRAVITY;

/// Density of air, kg/m^3 (sea level, 15 C).
pub(crate) const AIR_KG_M3: f64 = 1.225;
/// Drag coefficient on the shaft's cross-section, middling of the 1.56 and
/// 2.05 measured by Ortiz et al. 2020 for short and large vanes.
pub const DRAG_COEFFICIENT: f64 = 1.8;

/// Speed lost per metre as a share, 1/m: `v = v0 exp(-k x)`.
#[must_use]
pub fn drag_per_m(drag_coefficient: f64, diameter_m: f64, mass_kg: f64) -> f64 {
    let area = 0.25 * std::f64::consts::PI * diameter_m * diameter_m;
    0.5 * AIR_KG_M3 * drag_coefficient * area / mass_kg
}

/// Normal-force slope times area of three vanes, m^2 per rad: low-aspect
/// slope `pi AR / 2` with AR 0.52, times 1.5 for three fins, times 1.4 for
/// the body (textbook fin theory; an estimate, not a measurement).
#[must_use]
pub fn vane_force_m2(one_vane_m2: f64) -> f64 {
    0.5 * std::f64::consts::PI * 0.52 * 1.5 * 1.4 * one_vane_m2
}

/// Yaw of an arrow along its path, linear in small angles. With `a` the
/// angle of attack and `s` the path: `a'' + p a' + q a = 0`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yaw {
    damping: f64,
    stiffness: f64,
    /// Curving of the path per radian of attack, 1/m.
    lift: f64,
}

/// The arrow's axis and path after some way, per unit of one start value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YawState {
    /// Sideways place of the centre of mass, m.
    pub(crate) place_m: f64,
    /// Direction of the path, rad.
    pub path: f64,
    /// Angle of attack, rad: the axis less the path.
    pub attack: f64,
}

impl Yaw {
    /// Yaw of this arrow with vanes of the given area, or none when bare
    /// (the small stabilising force of the shaft itself is left out).
    #[must_use]
    pub fn new(arrow: &ArrowSpec, one_vane_m2: f64) -> Self {
        if arrow.bare {
            return Self {
                damping: 0.0,
                stiffness: 0.0,
                lift: 0.0,
            };
        }
        let force = 0.5 * AIR_KG_M3 * vane_force_m2(one_vane_m2);
        let arm = arrow.balance_m() - arrow.vane_position_m;
        let inertia = arrow.inertia_kg_m2();
        let lift = force / arrow.mass_kg();
        let turning = force * arm * arm / inertia;
        Self {
            damping: turning + lift,
            stiffness: force * arm / inertia + turning * lift,
            lift,
        }
    }

    /// A yaw of given wavelength and damping ratio without lift.
    #[must_use]
    pub fn of_wavelength(wavelength_m: f64, damping_ratio: f64) -> Self {
        let k = std::f64::consts::TAU / wavelength_m;
        Self {
            damping: 2.0 * damping_ratio * k,
            stiffness: k * k,
            lift: 0.0,
        }
    }

    /// Length of path for one swing of the tail, m; infinite for a bare shaft.
    #[must_use]
    pub fn wavelength_m(&self) -> f64 {
        let k2 = self.stiffness - 0.25 * self.damping * self.damping;
        if k2 > 0.0 {
            std::f64::consts::TAU / k2.sqrt()
        } else {
            f64::INFINITY
        }
    }

    /// Damping ratio of the swing.
    #[must_use]
    pub fn damping_ratio(&self) -> f64 {
        if self.stiffness > 0.0 {
            0.5 * self.damping / self.stiffness.sqrt()
        } else {
            0.0
        }
    }

    /// State after `s_m` of path from an axis direction, its change per
    /// metre, and a path direction, all in radians.
    #[must_use]
    pub fn after(&self, s_m: f64, axis: f64, axis_slope: f64, path: f64) -> YawState {
        let (attack0, s) = (axis - path, s_m);
        let slope0 = axis_slope - self.lift * attack0;
        let (p, q) = (self.damping, self.stiffness);
        if q < 1e-9 {
            return YawState {
                place_m: path * s,
                path,
                attack: attack0 + slope0 * s,
            };
        }
        let k2 = q - 0.25 * p * p;
        let k = k2.abs().sqrt().max(1e-9);
        let (sine, cosine) = if k2 >= 0.0 {
            (k * s).sin_cos()
        } else {
            ((k * s).sinh(), (k * s).cosh())
        };
        let decay = (-0.5 * p * s).exp();
        let mixed = (slope0 + 0.5 * p * attack0) / k;
        let attack = decay * (attack0 * cosine + mixed * sine);
        let turn = if k2 >= 0.0 { -1.0 } else { 1.0 };
        let slope = -0.5 * p * attack + decay * k * (turn * attack0 * sine + mixed * cosine);
        // Integrals of the attack from the equation itself.
        let once = -(slope - slope0 + p * (attack - attack0)) / q;
        let twice = -(attack - attack0 - slope0 * s + p * (once - attack0 * s)) / q;
        YawState {
            place_m: path * s + self.lift * twice,
            path: path + self.lift * once,
            attack,
        }
    }
}

/// The flight of one arrow from the moment its nock passes the rest.
#[derive(Debug, Clone)]
pub struct Flight<const N: usize> {
    modes: FlightModes<N>,
    yaw: Yaw,
    balance_m: f64,
    length_m: f64,
    speed_m_s: f64,
    drag: f64,
    rigid: [[f64; 2]; 2],
}

/// One row of numbers that turns a state into a place, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row<const N: usize> {
    q: [f64; N],
    p: [f64; N],
    /// Fall under gravity, m (upwards only).
    fall: f64,
}

impl<const N: usize> Row<N> {
    /// The place, m right and up, for a state.
    #[must_use]
    #[inline]
    pub fn place(&self, m: &Modal<N>) -> [f64; 2] {
        let mut sum = [0.0, self.fall];
        for i in 0..N {
            for plane in 0..2 {
                sum[plane] += self.q[i] * m.q[i][plane] + self.p[i] * m.p[i][plane];
            }
        }
        sum
    }
}

impl<const N: usize> Flight<N> {
    /// The flight of `arrow` at `speed_m_s` with vanes of the given area.
    #[must_use]
    pub fn new(
        arrow: &ArrowSpec,
        modes: &FlightModes<N>,
        speed_m_s: f64,
        one_vane_m2: f64,
    ) -> Self {
        let balance_m = arrow.balance_m();
        let (values, slopes) = (modes.modes.at(balance_m), modes.modes.slope_at(balance_m));
        Self {
            modes: modes.clone(),
            yaw: Yaw::new(arrow, one_vane_m2),
            balance_m,
            length_m: arrow.shaft_length_m,
            speed_m_s,
            drag: drag_per_m(DRAG_COEFFICIENT, arrow.diameter_m, arrow.mass_kg()),
            rigid: [[values[0], slopes[0]], [values[1], slopes[1]]],
        }
    }

    /// Yaw of this arrow.
    #[must_use]
    pub fn yaw(&self) -> &Yaw {
        &self.yaw
    }

    /// Length of the arrow, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Time to fly a path, s, with drag.
    #[must_use]
    pub fn time_s(&self, path_m: f64) -> f64 {
        ((self.drag * path_m).exp() - 1.0) / (self.drag * self.speed_m_s)
    }

    /// The row for the point `x_m` from the nock after `path_m` of flight.
    #[must_use]
    pub fn row(&self, x_m: f64, path_m: f64) -> Row<N> {
        let time = self.time_s(path_m);
        let values = self.modes.modes.at(x_m);
        let omega = self.modes.modes.omega();
        let mut row = Row {
            q: [0.0; N],
            p: [0.0; N],
            fall: -0.5 * GRAVITY * time * time,
        };
        let arm = x_m - self.balance_m;
        let place = |state: YawState| state.place_m + arm * (state.attack + state.path);
        for i in 0..2 {
            let [value, slope] = self.rigid[i];
            row.q[i] = value + place(self.yaw.after(path_m, slope, 0.0, 0.0));
            let v = self.speed_m_s;
            row.p[i] = place(self.yaw.after(path_m, 0.0, slope / v, value / v));
        }
        for i in 2..N {
            let [from_q, from_p, _, _] = damped_turn(omega[i], self.modes.damping, time);
            row.q[i] = values[i] * from_q;
            row.p[i] = values[i] * from_p;
        }
        row
    }
}

#[cfg(test)]
mod tests {
    use super::super::column::tests::common_arrow;
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn estimated_yaw_of_the_worked_vanes() {
        // Estimated by hand: 550 mm^2 vanes, about 15 m and 0.09.
        let yaw = Yaw::new(&common_arrow(), 550e-6);
        assert!(
            (13.0..18.0).contains(&yaw.wavelength_m()),
            "{}",
            yaw.wavelength_m()
        );
        assert!(
            (0.07..0.14).contains(&yaw.damping_ratio()),
            "{}",
            yaw.damping_ratio()
        );
        let bigger = Yaw::new(&common_arrow(), 800e-6);
        assert!(bigger.wavelength_m() < yaw.wavelength_m());
    }

    #[test]
    fn yaw_integrals_agree_with_small_steps() {
        let yaw = Yaw::new(&common_arrow(), 550e-6);
        let (mut place, mut path, mut axis, mut slope) = (0.0, 0.02, 0.05, 0.01);
        let n = 40_000;
        let h = 3.0 / f64::from(n);
        let turning = yaw.damping - yaw.lift;
        let spring = yaw.stiffness - turning * yaw.lift;
        let end = yaw.after(3.0, axis, slope, path);
        for _ in 0..n {
            let attack = axis - path;
            place += h * path;
            path += h * yaw.lift * attack;
            let bend = -spring * attack - turning * slope;
            axis += h * slope;
            slope += h * bend;
        }
        assert_relative_eq!(end.place_m, place, max_relative = 1e-3);
        assert_relative_eq!(end.path, path, max_relative = 1e-3);
        assert_relative_eq!(end.attack, axis - path, max_relative = 1e-3);
    }

    fn flight() -> Flight<7> {
        let modes = FlightModes {
            modes: super::super::modes::FreeModes::of(&common_arrow()),
            damping: 0.0,
        };
        Flight::new(&common_arrow(), &modes, 80.0, 550e-6)
    }

    #[test]
    fn what_flies_falls() {
        // 80 m from 80 m/s take 1.063 s with drag: 5.543 m of fall by hand;
        // nothing sideways.
        let still = Modal {
            q: [[0.0; 2]; 7],
            p: [[0.0; 2]; 7],
        };
        let [right, up] = flight().row(0.3, 80.0).place(&still);
        assert_eq!(right, 0.0);
        assert_relative_eq!(up, -5.543, epsilon = 5e-3);
        let near = flight().row(0.3, 8.0).place(&still)[1];
        assert_relative_eq!(near, -0.0493, epsilon = 5e-4);
    }

    #[test]
    fn an_arrow_that_points_right_has_its_nock_left_of_its_point_and_flies_right() {
        let arrow = common_arrow();
        let modes = super::super::modes::FreeModes::of(&arrow);
        let (a, b) = (
            modes.at(arrow.balance_m()),
            modes.slope_at(arrow.balance_m()),
        );
        let det = a[0] * b[1] - a[1] * b[0];
        // Balance point in the middle, axis 0.01 rad to the right, no speed.
        let mut turned = Modal {
            q: [[0.0; 2]; 7],
            p: [[0.0; 2]; 7],
        };
        turned.q[0][0] = -0.01 * a[1] / det;
        turned.q[1][0] = 0.01 * a[0] / det;
        let at = |x: f64, path: f64| flight().row(x, path).place(&turned)[0];
        let (nock, point) = (at(0.0, 0.0), at(arrow.shaft_length_m, 0.0));
        assert_relative_eq!(
            point - nock,
            0.01 * arrow.shaft_length_m,
            max_relative = 1e-6
        );
        assert!(nock < 0.0 && point > 0.0);
        // The air pushes it the way it points.
        assert!(at(arrow.balance_m(), 2.0) > 1e-4);
        // The same by speed: balance point at 0.8 m/s to the right.
        let mut moved = Modal {
            q: [[0.0; 2]; 7],
            p: [[0.0; 2]; 7],
        };
        moved.p[0][0] = 0.8 * b[1] / det;
        moved.p[1][0] = -0.8 * b[0] / det;
        let there = flight().row(arrow.balance_m(), 2.0).place(&moved)[0];
        assert!((0.0150..0.0201).contains(&there), "{there}");
        let tail = flight().row(0.0, 0.5).place(&moved)[0];
        let nose = flight().row(arrow.shaft_length_m, 0.5).place(&moved)[0];
        assert!(nose > tail, "it turns into its path: {nose} {tail}");
    }
}
