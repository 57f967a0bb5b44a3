//! Legendre polynomials and Gauss points: the trial functions of the beam.

use std::sync::OnceLock;

/// How many Legendre polynomials describe a shape along the arrow.
///
/// With 14 the first free-free frequencies are exact to better than 1e-6 and
/// the critical loads to better than 1e-4 (see `tests/published`).
pub(crate) const BASIS: usize = 14;

const POINTS: usize = 16;

/// Gauss points and the dimensionless stiffness integrals of the basis.
#[derive(Debug)]
pub(crate) struct Tables {
    pub(crate) nodes: [f64; POINTS],
    pub(crate) weights: [f64; POINTS],
    /// Integral of `p_i'' p_j''` over -1..1 for the orthonormal basis.
    pub(crate) bending: [[f64; BASIS]; BASIS],
}

/// Values, first and second derivatives of the orthonormal basis at `xi`.
pub(crate) fn basis(xi: f64) -> [[f64; BASIS]; 3] {
    let mut p = [[0.0; BASIS]; 3];
    p[0][0] = 1.0;
    p[0][1] = xi;
    p[1][1] = 1.0;
    for k in 1..BASIS - 1 {
        let n = k as f64;
        p[0][k + 1] = ((2.0 * n + 1.0) * xi * p[0][k] - n * p[0][k - 1]) / (n + 1.0);
        p[1][k + 1] = p[1][k - 1] + (2.0 * n + 1.0) * p[0][k];
        p[2][k + 1] = p[2][k - 1] + (2.0 * n + 1.0) * p[1][k];
    }
    for row in &mut p {
        for (k, value) in row.iter_mut().enumerate() {
            *value *= (k as f64 + 0.5).sqrt();
        }
    }
    p
}

/// The tables, computed once.
pub(crate) fn tables() -> &'static Tables {
    static TABLES: OnceLock<Tables> = OnceLock::new();
    TABLES.get_or_init(|| {
        let (nodes, weights) = gauss();
        let mut bending = [[0.0; BASIS]; BASIS];
        for (xi, weight) in nodes.iter().zip(&weights) {
            let [_, _, second] = basis(*xi);
            for i in 0..BASIS {
                for j in 0..BASIS {
                    bending[i][j] += weight * second[i] * second[j];
                }
            }
        }
        Tables {
            nodes,
            weights,
            bending,
        }
    })
}

fn gauss() -> ([f64; POINTS], [f64; POINTS]) {
    let n = POINTS as f64;
    let mut nodes = [0.0; POINTS];
    let mut weights = [0.0; POINTS];
    for i in 0..POINTS {
        let mut x = (std::f64::consts::PI * (i as f64 + 0.75) / (n + 0.5)).cos();
        let mut slope = 1.0;
        for _ in 0..60 {
            let (mut before, mut here) = (1.0, x);
            for k in 1..POINTS {
                let k = k as f64;
                (before, here) = (here, ((2.0 * k + 1.0) * x * here - k * before) / (k + 1.0));
            }
            slope = n * (x * here - before) / (x * x - 1.0);
            let step = here / slope;
            x -= step;
            if step.abs() < 1e-16 {
                break;
            }
        }
        nodes[i] = x;
        weights[i] = 2.0 / ((1.0 - x * x) * slope * slope);
    }
    (nodes, weights)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn the_basis_is_orthonormal_and_the_points_integrate_it() {
        let tables = tables();
        for i in 0..BASIS {
            for j in 0..BASIS {
                let dot: f64 = tables
                    .nodes
                    .iter()
                    .zip(&tables.weights)
                    .map(|(xi, w)| {
                        let p = basis(*xi);
                        w * p[0][i] * p[0][j]
                    })
                    .sum();
                assert_relative_eq!(dot, f64::from(u8::from(i == j)), epsilon = 1e-12);
            }
        }
    }
}
