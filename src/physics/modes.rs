//! Free-free bending of the arrow: frequencies, shapes and nodes.
//!
//! Ritz's method on Legendre polynomials with the point masses of the build.
//! The first two shapes are the rigid ones (frequency zero).

use super::column::ArrowSpec;
use super::legendre::{BASIS, basis, tables};
use super::linalg::{Square, generalised_eigen};

/// The free-free modes of one build, scaled to unit modal mass.
#[derive(Debug, Clone)]
pub struct FreeModes {
    length_m: f64,
    omega: [f64; BASIS],
    /// Row `i`: Legendre coefficients of mode `i`.
    shapes: Square<BASIS>,
}

impl FreeModes {
    /// Modes of the arrow alone, in free flight.
    #[must_use]
    pub fn of(arrow: &ArrowSpec) -> Self {
        Self::with_string(arrow, 0.0)
    }

    /// Modes of the arrow with `string_kg` of string moving with its nock.
    ///
    /// # Panics
    /// If a mass or the length of the arrow is not positive.
    #[must_use]
    pub fn with_string(arrow: &ArrowSpec, string_kg: f64) -> Self {
        let length = arrow.shaft_length_m;
        let scale = (2.0 / length).sqrt();
        let mut mass = [[0.0; BASIS]; BASIS];
        for (i, row) in mass.iter_mut().enumerate() {
            row[i] = arrow.shaft_mass_per_m;
        }
        let mut points = point_masses(arrow);
        points[0].0 += string_kg;
        for (kg, x) in points {
            let [p, _, _] = basis(2.0 * x / length - 1.0);
            for i in 0..BASIS {
                for j in 0..BASIS {
                    mass[i][j] += kg * scale * scale * p[i] * p[j];
                }
            }
        }
        let bending = tables().bending;
        let factor = arrow.ei * (2.0 / length).powi(4);
        let stiffness = bending.map(|row| row.map(|value| factor * value));
        let (squares, mut shapes) =
            generalised_eigen(&stiffness, &mass).expect("an arrow has positive mass and length");
        for row in &mut shapes {
            for c in row.iter_mut() {
                *c *= scale;
            }
        }
        let mut omega = squares.map(|square| square.max(0.0).sqrt());
        omega[0] = 0.0;
        omega[1] = 0.0;
        Self {
            length_m: length,
            omega,
            shapes,
        }
    }

    /// Frequency of bending mode `n`, counted from 1, in Hz.
    ///
    /// # Panics
    /// If `n` is zero or more than ten: higher ones are not accurate.
    #[must_use]
    pub fn frequency_hz(&self, n: usize) -> f64 {
        assert!((1..=10).contains(&n), "bending modes 1 to 10");
        self.omega[n + 1] / std::f64::consts::TAU
    }

    /// Angular frequencies, rad/s, the two rigid shapes (zero) first.
    #[must_use]
    pub fn omega(&self) -> &[f64; BASIS] {
        &self.omega
    }

    /// Values of all shapes at `x_m`, scaled to unit modal mass, kg^-1/2.
    #[must_use]
    pub fn at(&self, x_m: f64) -> [f64; BASIS] {
        let [p, _, _] = basis(2.0 * x_m / self.length_m - 1.0);
        self.combine(&p)
    }

    /// Slopes of all shapes at `x_m`, kg^-1/2 / m.
    #[must_use]
    pub fn slope_at(&self, x_m: f64) -> [f64; BASIS] {
        let [_, d, _] = basis(2.0 * x_m / self.length_m - 1.0);
        self.combine(&d).map(|s| s * 2.0 / self.length_m)
    }

    /// Values and slopes at `x_m` of the first `N` shapes only.
    #[must_use]
    pub fn first_at<const N: usize>(&self, x_m: f64) -> [[f64; N]; 2] {
        let [p, d, _] = basis(2.0 * x_m / self.length_m - 1.0);
        let sum = |i: usize, p: &[f64; BASIS]| -> f64 {
            self.shapes[i].iter().zip(p).map(|(c, v)| c * v).sum()
        };
        [
            std::array::from_fn(|i| sum(i, &p)),
            std::array::from_fn(|i| sum(i, &d) * 2.0 / self.length_m),
        ]
    }

    fn combine(&self, p: &[f64; BASIS]) -> [f64; BASIS] {
        std::array::from_fn(|i| self.shapes[i].iter().zip(p).map(|(c, v)| c * v).sum())
    }

    /// Integral of each shape over the arrow's mass, kg^1/2: times gravity,
    /// its weight in that shape. Only the rigid shapes have any without the
    /// string.
    #[must_use]
    pub fn weight(&self, arrow: &ArrowSpec) -> [f64; BASIS] {
        // The constant is sqrt(2) times the first Legendre function.
        let uniform = arrow.shaft_mass_per_m * 0.5 * self.length_m * std::f64::consts::SQRT_2;
        let mut sum: [f64; BASIS] = std::array::from_fn(|i| uniform * self.shapes[i][0]);
        for (kg, x) in point_masses(arrow) {
            for (total, value) in sum.iter_mut().zip(self.at(x)) {
                *total += kg * value;
            }
        }
        sum
    }

    /// Mass overlap of these shapes (rows) with another set (columns) over
    /// the arrow alone: turns displacements in one set into the other.
    #[must_use]
    pub fn overlap(&self, other: &Self, arrow: &ArrowSpec) -> Square<BASIS> {
        let uniform = arrow.shaft_mass_per_m * 0.5 * self.length_m;
        let mut sum: Square<BASIS> = std::array::from_fn(|i| {
            std::array::from_fn(|j| {
                uniform
                    * self.shapes[i]
                        .iter()
                        .zip(&other.shapes[j])
                        .map(|(a, b)| a * b)
                        .sum::<f64>()
            })
        });
        for (kg, x) in point_masses(arrow) {
            let (mine, theirs) = (self.at(x), other.at(x));
            for i in 0..BASIS {
                for j in 0..BASIS {
                    sum[i][j] += kg * mine[i] * theirs[j];
                }
            }
        }
        sum
    }

    /// Where bending mode `n` (from 1) crosses zero, m from the nock.
    #[must_use]
    pub fn nodes_m(&self, n: usize) -> Vec<f64> {
        let value = |x: f64| self.at(x)[n + 1];
        let cells = 200;
        let step = self.length_m / f64::from(cells);
        let mut found = Vec::new();
        for cell in 0..cells {
            let (mut low, mut high) = (f64::from(cell) * step, f64::from(cell + 1) * step);
            if (value(low) > 0.0) == (value(high) > 0.0) {
                continue;
            }
            for _ in 0..50 {
                let middle = 0.5 * (low + high);
                if (value(low) > 0.0) == (value(middle) > 0.0) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            found.push(0.5 * (low + high));
        }
        found
    }

    /// Integrals of `m(x) f_i' f_j'` for all shapes, `m` the mass ahead of
    /// `x`: times the acceleration, the softening by axial compression.
    #[must_use]
    pub fn compression(&self, arrow: &ArrowSpec) -> Square<BASIS> {
        let mut sum = [[0.0; BASIS]; BASIS];
        let vane = arrow.vane_position_m.clamp(0.0, self.length_m);
        for (from, to) in [(0.0, vane), (vane, self.length_m)] {
            let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
            for (xi, weight) in tables().nodes.iter().zip(&tables().weights) {
                let x = middle + half * xi;
                let slope = self.slope_at(x);
                let factor = weight * half * arrow.mass_ahead_kg(x);
                for i in 0..BASIS {
                    for j in 0..=i {
                        sum[i][j] += factor * slope[i] * slope[j];
                    }
                }
            }
        }
        for i in 0..BASIS {
            for j in 0..i {
                sum[j][i] = sum[i][j];
            }
        }
        sum
    }
}

/// Nock, vanes and point: mass in kg and place in m from the nock.
fn point_masses(arrow: &ArrowSpec) -> [(f64, f64); 3] {
    [
        (arrow.nock_mass_kg, 0.0),
        (arrow.vanes_kg(), arrow.vane_position_m),
        (arrow.front_kg(), arrow.shaft_length_m),
    ]
}

/// Length of free flight in which the first bending mode swings once, m, for
/// a speed in m/s: about 1 m for a compound (Park, *Arrows: dynamic
/// behaviour*).
#[must_use]
pub fn flex_wavelength_m(arrow: &ArrowSpec, speed_m_s: f64) -> f64 {
    speed_m_s / FreeModes::of(arrow).frequency_hz(1)
}

#[cfg(test)]
mod tests {
    use super::super::column::tests::common_arrow;
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn first_mode_of_the_worked_arrow() {
        let modes = FreeModes::of(&common_arrow());
        assert_relative_eq!(modes.frequency_hz(1), 85.1, epsilon = 0.3);
        let nodes = modes.nodes_m(1);
        assert_eq!(nodes.len(), 2);
        assert_eq!(modes.nodes_m(2).len(), 3);
    }

    #[test]
    fn string_on_the_nock_slows_the_modes() {
        let arrow = common_arrow();
        let free = FreeModes::of(&arrow).frequency_hz(1);
        assert!(FreeModes::with_string(&arrow, 3e-3).frequency_hz(1) < free);
    }
}
