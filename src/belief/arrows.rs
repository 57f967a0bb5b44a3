//! Is one arrow of the set odd?

use super::bank::Bank;
use super::cells::Cells;
use super::kernel::Kernel;
use super::obs::Shooter;
use std::collections::HashMap;

/// Share of odd arrows believed beforehand.
const ODD_SHARE: f64 = 0.05;
/// An arrow is looked at only when its mean stands off by this many sds.
const LOOK: f64 = 1.8;

/// Offset variances of the arrows that look odd, each weighed by the chance
/// that it is; `None` when none is worth a look.
pub(crate) fn odd(
    kernel: &Kernel,
    cells: &Cells,
    plain: &Bank,
    judged: Shooter,
    others: &HashMap<Shooter, f64>,
) -> Option<HashMap<u32, f64>> {
    let suspect = worst(kernel, cells, plain)?;
    let mut changed = kernel.clone();
    changed
        .arrow_variance
        .insert(suspect, kernel.prior.odd_arrow_sd.powi(2));
    let alternative = Bank::fit(&changed, cells, judged, others);
    let odds = (ODD_SHARE / (1.0 - ODD_SHARE)).ln() + alternative.log_evidence - plain.log_evidence;
    let p = 1.0 / (1.0 + (-odds).exp());
    let sound = kernel.prior.arrow_sd.powi(2);
    let variance = (1.0 - p) * sound + p * kernel.prior.odd_arrow_sd.powi(2);
    Some(HashMap::from([(suspect, variance)]))
}

/// The numbered arrow whose readings stand off most from the others.
fn worst(kernel: &Kernel, cells: &Cells, bank: &Bank) -> Option<u32> {
    let mut by_arrow: HashMap<u32, (f64, f64, f64)> = HashMap::new();
    let expected: Vec<f64> = cells
        .cells
        .iter()
        .map(|c| super::bank::moments(&bank.pieces(kernel, &c.place.any_arrow())).0)
        .collect();
    let scatter: f64 = bank.members.iter().map(|m| m.weight * m.scatter).sum();
    for r in &cells.readings[kernel.axis] {
        if let Some(arrow) = cells.cells[r.cell].place.arrow {
            let e = by_arrow.entry(arrow).or_default();
            e.0 += r.count;
            e.1 += r.count * (r.y - expected[r.cell]);
        }
    }
    if by_arrow.len() < 2 {
        return None;
    }
    let mut all: Vec<(u32, f64)> = by_arrow
        .into_iter()
        .filter(|(_, (n, _, _))| *n >= 2.0)
        .map(|(a, (n, sum, _))| (a, (sum / n).abs() * n.sqrt() / scatter))
        .collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    all.first().filter(|(_, z)| *z > LOOK).map(|(a, _)| *a)
}
