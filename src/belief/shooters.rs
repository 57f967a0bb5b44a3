//! The scatter of the shooters who are not being judged, from their own
//! repeats, so that their shots weigh what they are worth.

use super::bank::{SCATTERS, scatter_prior};
use super::cells::Cells;
use super::obs::Shooter;
use super::prior::Prior;
use std::collections::HashMap;

/// For each axis, the scatter of every shooter but `judged`, mm.
pub fn scatters(prior: &Prior, cells: &Cells, judged: Shooter) -> [HashMap<Shooter, f64>; 2] {
    let others: Vec<Shooter> = cells
        .shooters()
        .into_iter()
        .filter(|s| *s != judged)
        .collect();
    [0, 1].map(|axis| {
        others
            .iter()
            .map(|s| (*s, one(prior, cells, axis, *s)))
            .collect()
    })
}

/// Expected-precision scatter of one shooter on one axis: the readings of
/// each cell about their own mean, weighed over the supposed scatters.
fn one(prior: &Prior, cells: &Cells, axis: usize, shooter: Shooter) -> f64 {
    let n = cells.cells.len();
    let (mut count, mut sum, mut squares) = (vec![0.0; n], vec![0.0; n], vec![0.0; n]);
    for r in cells.readings[axis].iter().filter(|r| r.shooter == shooter) {
        count[r.cell] += r.count;
        sum[r.cell] += r.count * r.y;
        squares[r.cell] += r.count * r.y * r.y;
    }
    let (mut df, mut about) = (0.0, 0.0);
    for c in (0..n).filter(|c| count[*c] > 1.0) {
        df += count[c] - 1.0;
        about += squares[c] - sum[c] * sum[c] / count[c];
    }
    let logs: Vec<f64> = SCATTERS
        .iter()
        .zip(scatter_prior(prior, axis))
        .map(|(s, w)| w.ln() - df * s.ln() - 0.5 * about / (s * s))
        .collect();
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let (mut total, mut precision) = (0.0, 0.0);
    for (s, l) in SCATTERS.iter().zip(&logs) {
        let w = (l - top).exp();
        total += w;
        precision += w / (s * s);
    }
    (total / precision).sqrt()
}
