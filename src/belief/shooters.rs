//! The scatter of the shooters who are not being judged, from their own
//! repeats, so that their shots weigh what they are worth.

use super::bank::{SCATTERS, scatter_prior};
use super::cells::Cells;
use super::obs::{Place, Shooter, same_distance};
use super::prior::Prior;
use std::collections::HashMap;

/// For each axis, the scatter of every shooter but `judged`, mm.
pub(crate) fn scatters(
    prior: &Prior,
    cells: &Cells,
    judged: Shooter,
) -> [HashMap<Shooter, f64>; 2] {
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
    let groups: Vec<usize> = (0..cells.cells.len()).collect();
    let supposed = weighed(prior, cells, axis, shooter, &groups);
    let precision: f64 = supposed.iter().map(|(s, w)| w / (s * s)).sum();
    (1.0 / precision).sqrt()
}

/// The scatter of one shooter on one axis from shots at one setting alone:
/// whatever the response is, it plays no part in it. The arrow's number does
/// not part a setting here.
pub fn repeats(prior: &Prior, cells: &Cells, axis: usize, shooter: Shooter) -> Vec<(f64, f64)> {
    let mut settings: Vec<&Place> = Vec::new();
    let alike = |a: &Place, b: &Place| {
        let near = same_distance(a.distance_m, b.distance_m);
        a.same_setting(b) && a.bare == b.bare && near
    };
    let mut groups = Vec::new();
    for cell in &cells.cells {
        let known = settings.iter().position(|s| alike(s, &cell.place));
        groups.push(known.unwrap_or_else(|| {
            settings.push(&cell.place);
            settings.len() - 1
        }));
    }
    weighed(prior, cells, axis, shooter, &groups)
}

/// What one shooter's repeats say of the scatter on one axis: how many of the
/// readings stand beyond the first of their cell, and the sum of squares about
/// the cells' own means, mm^2. Bad shots are left out: `keep` tells which.
pub(crate) fn squares(
    cells: &Cells,
    axis: usize,
    shooter: Shooter,
    keep: impl Fn(usize) -> bool,
) -> (f64, f64) {
    let n = cells.cells.len();
    let (mut count, mut sum, mut squares) = (vec![0.0; n], vec![0.0; n], vec![0.0; n]);
    let own = cells.readings[axis].iter().enumerate();
    for (_, r) in own.filter(|(i, r)| r.shooter == shooter && keep(*i)) {
        count[r.cell] += r.count;
        sum[r.cell] += r.count * r.y;
        squares[r.cell] += r.count * r.y * r.y;
    }
    let (mut df, mut about) = (0.0, 0.0);
    for c in (0..n).filter(|c| count[*c] > 1.0) {
        df += count[c] - 1.0;
        about += squares[c] - sum[c] * sum[c] / count[c];
    }
    (df, about)
}

/// Probability of each supposed scatter, the readings of each group about
/// their own mean; `groups` names the group of each cell.
fn weighed(
    prior: &Prior,
    cells: &Cells,
    axis: usize,
    shooter: Shooter,
    groups: &[usize],
) -> Vec<(f64, f64)> {
    let n = groups.iter().max().map_or(0, |g| g + 1);
    let (mut count, mut sum, mut squares) = (vec![0.0; n], vec![0.0; n], vec![0.0; n]);
    for r in cells.readings[axis].iter().filter(|r| r.shooter == shooter) {
        let g = groups[r.cell];
        count[g] += r.count;
        sum[g] += r.count * r.y;
        squares[g] += r.count * r.y * r.y;
    }
    let (mut df, mut about) = (0.0, 0.0);
    for g in (0..n).filter(|g| count[*g] > 1.0) {
        df += count[g] - 1.0;
        about += squares[g] - sum[g] * sum[g] / count[g];
    }
    let logs: Vec<f64> = SCATTERS
        .iter()
        .zip(scatter_prior(prior, axis))
        .map(|(s, w)| w.ln() - df * s.ln() - 0.5 * about / (s * s))
        .collect();
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = logs.iter().map(|l| (l - top).exp()).sum();
    let weights = logs.iter().map(|l| (l - top).exp() / total);
    SCATTERS.into_iter().zip(weights).collect()
}
