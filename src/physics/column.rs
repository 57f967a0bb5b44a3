//! The arrow as a column: masses along it, balance, critical load.
//!
//! Positions are measured from the nock throat towards the point. The shaft
//! is a uniform tube; nock, vanes and point with insert are point masses.
//! The stiffening by the point's shank is left out.

use super::si::GRAIN_KG;

/// One build of arrow in SI units: what the mechanics needs to know.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArrowSpec {
    /// Nock throat to the end of the shaft, m.
    pub shaft_length_m: f64,
    /// Bending stiffness EI, N m^2; see [`super::spine::ei_from_spine`].
    pub ei: f64,
    /// Mass of bare shaft per metre, kg/m.
    pub shaft_mass_per_m: f64,
    /// Mass of the point alone, kg.
    pub point_mass_kg: f64,
    /// Mass of insert, outsert or collar, kg; it sits with the point.
    pub insert_mass_kg: f64,
    /// Mass of the nock with its bushing or pin, kg.
    pub nock_mass_kg: f64,
    /// Mass of all vanes and wraps together, kg.
    pub vane_mass_kg: f64,
    /// Middle of the vanes from the nock throat, m.
    pub vane_position_m: f64,
    /// Outside diameter of the shaft, m.
    pub diameter_m: f64,
    /// A bare shaft: the vanes are off and their mass with them.
    pub bare: bool,
}

/// Middle of the vanes from the nock throat when nobody measured it, m:
/// 2.5 in, common practice, no source.
pub const VANE_POSITION_M: f64 = 0.0635;

impl ArrowSpec {
    /// The vanes' mass as shot: none on a bare shaft, kg.
    #[must_use]
    pub fn vanes_kg(&self) -> f64 {
        if self.bare { 0.0 } else { self.vane_mass_kg }
    }

    /// Point and insert together, kg.
    #[must_use]
    pub fn front_kg(&self) -> f64 {
        self.point_mass_kg + self.insert_mass_kg
    }

    /// Total mass, kg.
    #[must_use]
    pub fn mass_kg(&self) -> f64 {
        self.shaft_mass_per_m * self.shaft_length_m
            + self.front_kg()
            + self.nock_mass_kg
            + self.vanes_kg()
    }

    /// Centre of mass from the nock throat, m.
    #[must_use]
    pub fn balance_m(&self) -> f64 {
        let length = self.shaft_length_m;
        let moment = 0.5 * self.shaft_mass_per_m * length * length
            + self.front_kg() * length
            + self.vanes_kg() * self.vane_position_m;
        moment / self.mass_kg()
    }

    /// Front of centre: how far the balance point lies ahead of mid-length,
    /// percent of the length.
    #[must_use]
    pub fn foc_percent(&self) -> f64 {
        100.0 * (self.balance_m() / self.shaft_length_m - 0.5)
    }

    /// Moment of inertia about the centre of mass, across the arrow, kg m^2.
    #[must_use]
    pub fn inertia_kg_m2(&self) -> f64 {
        let (length, balance) = (self.shaft_length_m, self.balance_m());
        let shaft = self.shaft_mass_per_m * length;
        shaft * (length * length / 12.0 + (0.5 * length - balance).powi(2))
            + self.front_kg() * (length - balance).powi(2)
            + self.nock_mass_kg * balance * balance
            + self.vanes_kg() * (self.vane_position_m - balance).powi(2)
    }

    /// Grains of arrow for each pound of peak draw force.
    #[must_use]
    pub fn grains_per_pound(&self, peak_force_n: f64) -> f64 {
        (self.mass_kg() / GRAIN_KG) / (peak_force_n / super::si::POUND_N)
    }

    /// Mass of everything ahead of `x_m`, kg: times the acceleration, the
    /// compression there.
    #[must_use]
    pub fn mass_ahead_kg(&self, x_m: f64) -> f64 {
        let vanes = if x_m < self.vane_position_m {
            self.vanes_kg()
        } else {
            0.0
        };
        self.front_kg() + vanes + self.shaft_mass_per_m * (self.shaft_length_m - x_m).max(0.0)
    }

    /// The load number `Pi = F L^2 / EI` for a peak force in newtons.
    #[must_use]
    pub fn load_number(&self, peak_force_n: f64) -> f64 {
        peak_force_n * self.shaft_length_m.powi(2) / self.ei
    }

    /// The critical value `c` of the load number for this mass distribution:
    /// the string force `F L^2 / EI` at which the arrow, pinned at both ends
    /// and pushed from the nock, would buckle statically.
    ///
    /// The compression at `x` is `F` times the share of the mass ahead of
    /// `x`. Solved by Galerkin's method on ten sine functions and power
    /// iteration: about 1 us, no allocation. Limits (Timoshenko & Gere):
    /// 18.57 for a plain rod, pi^2 with all the mass at the point.
    #[must_use]
    pub fn critical_number(&self) -> f64 {
        let (length, mass) = (self.shaft_length_m, self.mass_kg());
        let shares = Shares {
            front: self.front_kg() / mass,
            shaft: self.shaft_mass_per_m * length / mass,
            vanes: self.vanes_kg() / mass,
            vane_at: (self.vane_position_m / length).clamp(0.0, 1.0),
        };
        critical_of(&shares)
    }
}

/// Shares of the total mass and where the vanes sit (share of the length).
struct Shares {
    front: f64,
    shaft: f64,
    vanes: f64,
    vane_at: f64,
}

const SINES: usize = 10;

/// Integral of cos(k pi u) over 0..u for whole k, with the k = 0 limit.
fn cosine_integral(k: usize, upto: f64) -> f64 {
    if k == 0 {
        upto
    } else {
        let w = k as f64 * std::f64::consts::PI;
        (w * upto).sin() / w
    }
}

/// Integral of (1 - u) cos(k pi u) over 0..1.
fn falling_integral(k: usize) -> f64 {
    match k {
        0 => 0.5,
        k if k % 2 == 0 => 0.0,
        k => 2.0 / (k as f64 * std::f64::consts::PI).powi(2),
    }
}

fn critical_of(shares: &Shares) -> f64 {
    use std::f64::consts::PI;
    let mut b = [[0.0; SINES]; SINES];
    for n in 1..=SINES {
        for m in 1..=n {
            let (sum, gap) = (n + m, n - m);
            let even = if gap == 0 { 1.0 } else { 0.0 };
            let geometric = 0.5
                * (shares.front * even
                    + shares.shaft * (falling_integral(gap) + falling_integral(sum))
                    + shares.vanes
                        * (cosine_integral(gap, shares.vane_at)
                            + cosine_integral(sum, shares.vane_at)));
            // Divided by the bending terms (n pi)^4 / 2 on either side.
            let value = 2.0 * geometric / (PI * PI * (n * m) as f64);
            b[n - 1][m - 1] = value;
            b[m - 1][n - 1] = value;
        }
    }
    1.0 / largest_eigenvalue(&b)
}

/// Power iteration with a Rayleigh quotient; `b` is positive definite and
/// its largest eigenvalue is well apart from the next.
fn largest_eigenvalue(b: &[[f64; SINES]; SINES]) -> f64 {
    let mut v = [0.0; SINES];
    v[0] = 1.0;
    let mut lambda = 0.0;
    for _ in 0..60 {
        let w: [f64; SINES] =
            std::array::from_fn(|i| b[i].iter().zip(&v).map(|(x, y)| x * y).sum());
        let next: f64 = w.iter().zip(&v).map(|(x, y)| x * y).sum();
        let norm = w.iter().map(|x| x * x).sum::<f64>().sqrt();
        v = w.map(|x| x / norm);
        if (next - lambda).abs() <= 1e-13 * next {
            return next;
        }
        lambda = next;
    }
    lambda
}

#[cfg(test)]
pub(crate) mod tests {
    use super::super::si::INCH_M;
    use super::*;
    use approx::assert_relative_eq;

    /// .400, 28 in, 8 gr/in, 120 gr in front, 10 gr nock, 18 gr vanes.
    pub(crate) fn common_arrow() -> ArrowSpec {
        ArrowSpec {
            shaft_length_m: 28.0 * INCH_M,
            ei: super::super::spine::ei_from_spine(0.400),
            shaft_mass_per_m: 8.0 * GRAIN_KG / INCH_M,
            point_mass_kg: 100.0 * GRAIN_KG,
            insert_mass_kg: 20.0 * GRAIN_KG,
            nock_mass_kg: 10.0 * GRAIN_KG,
            vane_mass_kg: 18.0 * GRAIN_KG,
            vane_position_m: VANE_POSITION_M,
            diameter_m: 6.5e-3,
            bare: false,
        }
    }

    #[test]
    fn masses_balance_and_inertia_of_the_worked_arrow() {
        // Worked by hand: 372 gr, 12.8 %, 1.58e-3.
        let arrow = common_arrow();
        assert_relative_eq!(arrow.mass_kg() / GRAIN_KG, 372.0, max_relative = 1e-9);
        assert_relative_eq!(arrow.foc_percent(), 12.8, epsilon = 0.05);
        assert_relative_eq!(arrow.inertia_kg_m2(), 1.58e-3, epsilon = 0.005e-3);
    }

    #[test]
    fn a_bare_shaft_loses_its_vanes() {
        let bare = ArrowSpec {
            bare: true,
            ..common_arrow()
        };
        assert_relative_eq!(bare.mass_kg() / GRAIN_KG, 354.0, max_relative = 1e-9);
        assert!(bare.foc_percent() > common_arrow().foc_percent());
    }

    #[test]
    fn the_compression_falls_from_nock_to_point() {
        let arrow = common_arrow();
        let at = |x: f64| arrow.mass_ahead_kg(x * arrow.shaft_length_m) / GRAIN_KG;
        assert_relative_eq!(at(0.0), 362.0, max_relative = 1e-9);
        assert_relative_eq!(at(0.5), 232.0, max_relative = 1e-9);
        assert_relative_eq!(at(1.0), 120.0, max_relative = 1e-9);
    }

    #[test]
    fn a_heavier_point_lowers_the_critical_value() {
        let light = common_arrow();
        let heavy = ArrowSpec {
            point_mass_kg: 150.0 * GRAIN_KG,
            ..light
        };
        let drop = 1.0 - heavy.critical_number() / light.critical_number();
        assert!(drop > 0.03 && drop < 0.07, "{drop}");
    }
}
