//! A few independent standard normal numbers that carry all cells.
//!
//! Pivoted Cholesky of the cells' covariance (Harbrecht, Peters and
//! Schneider, Applied Numerical Mathematics 62, 2012): each step takes the
//! cell least explained so far, and it ends when nothing above a hundredth
//! of a millimetre is left or the size is bounded.

use super::cells::Cell;
use super::kernel::Kernel;
use super::obs::Place;

/// Most numbers carried, however many settings were visited.
const LARGEST: usize = 32;
/// Variance at which a cell counts as explained, mm^2.
const EXPLAINED: f64 = 1e-3;

/// The numbers and how each cell leans on them.
#[derive(Debug, Clone)]
pub struct Basis {
    /// How many numbers.
    pub(crate) size: usize,
    /// For each cell a row of `size` loadings, one after another.
    pub(crate) rows: Vec<f64>,
    /// Prior mean of each cell, mm.
    pub(crate) means: Vec<f64>,
    pivots: Vec<Cell>,
    /// Lower triangle of the pivots' Cholesky factor, row by row.
    factor: Vec<f64>,
}

impl Basis {
    /// Builds the numbers for these cells.
    pub fn build(kernel: &Kernel, cells: &[Cell]) -> Self {
        let n = cells.len();
        let bound = n.min(LARGEST);
        let mut rows = vec![0.0; n * bound];
        let mut left: Vec<f64> = cells.iter().map(|c| kernel.of_cells(c, c)).collect();
        let mut chosen: Vec<usize> = Vec::new();
        while chosen.len() < bound {
            let m = chosen.len();
            let best = (0..n).fold(0, |b, i| if left[i] > left[b] { i } else { b });
            if left[best] < EXPLAINED {
                break;
            }
            let root = left[best].sqrt();
            for i in 0..n {
                let shared: f64 = (0..m)
                    .map(|j| rows[i * bound + j] * rows[best * bound + j])
                    .sum();
                let v = if i == best {
                    root
                } else if left[i] <= 0.0 {
                    0.0
                } else {
                    (kernel.of_cells(&cells[i], &cells[best]) - shared) / root
                };
                rows[i * bound + m] = v;
                left[i] -= v * v;
            }
            left[best] = f64::NEG_INFINITY;
            chosen.push(best);
        }
        let size = chosen.len();
        let packed = (0..n)
            .flat_map(|i| rows[i * bound..i * bound + size].to_vec())
            .collect();
        let factor = chosen
            .iter()
            .flat_map(|&i| rows[i * bound..i * bound + size].to_vec())
            .collect();
        Basis {
            size,
            rows: packed,
            means: cells.iter().map(|c| kernel.mean(&c.place)).collect(),
            pivots: chosen.iter().map(|&i| cells[i].clone()).collect(),
            factor,
        }
    }

    /// The loadings of one cell.
    pub fn row(&self, cell: usize) -> &[f64] {
        &self.rows[cell * self.size..(cell + 1) * self.size]
    }

    /// The loadings of any place and the variance they leave unexplained.
    pub fn project(&self, kernel: &Kernel, at: &Place) -> (Vec<f64>, f64) {
        let m = self.size;
        let mut b = vec![0.0; m];
        for i in 0..m {
            let row = &self.factor[i * m..i * m + i];
            let known: f64 = row.iter().zip(&b).map(|(l, v)| l * v).sum();
            b[i] = (kernel.between(&self.pivots[i].place, at) - known) / self.factor[i * m + i];
        }
        let rest = kernel.between(at, at) - b.iter().map(|v| v * v).sum::<f64>();
        (b, rest.max(0.0))
    }
}
