//! Cholesky factors of small dense matrices, row by row in one slice: no
//! allocation, whoever calls.

/// Pivot that a floored factor puts in place of one that rounding has eaten.
const FLOOR: f64 = 1e-12;

/// Factors the symmetric positive matrix `a` (size x size) in place: the lower
/// triangle becomes L with L L' = a; what stands above it is left as it was.
/// Returns whether `a` was positive definite; where not, `a` is half done.
#[must_use]
pub(crate) fn factor(a: &mut [f64], size: usize) -> bool {
    factor_by(a, size, |pivot| (pivot > 0.0).then(|| pivot.sqrt()))
}

/// Factors like [`factor`], with a floor under the pivots, for a matrix that
/// is positive definite but for rounding.
pub(crate) fn factor_floored(a: &mut [f64], size: usize) {
    let done = factor_by(a, size, |pivot| Some(pivot.max(FLOOR).sqrt()));
    debug_assert!(done, "a floored pivot always has a root");
}

#[inline]
fn factor_by(a: &mut [f64], size: usize, root: impl Fn(f64) -> Option<f64>) -> bool {
    for i in 0..size {
        for j in 0..=i {
            let (ri, rj) = (&a[i * size..i * size + j], &a[j * size..j * size + j]);
            let known: f64 = ri.iter().zip(rj).map(|(x, y)| x * y).sum();
            let left = a[i * size + j] - known;
            a[i * size + j] = if i == j {
                match root(left) {
                    Some(root) => root,
                    None => return false,
                }
            } else {
                left / a[j * size + j]
            };
        }
    }
    true
}

/// Solves L v = b in place.
pub(crate) fn forward(l: &[f64], size: usize, b: &mut [f64]) {
    for i in 0..size {
        let known: f64 = l[i * size..i * size + i]
            .iter()
            .zip(b.iter())
            .map(|(x, y)| x * y)
            .sum();
        b[i] = (b[i] - known) / l[i * size + i];
    }
}

/// Solves L' v = b in place.
pub(crate) fn backward(l: &[f64], size: usize, b: &mut [f64]) {
    for i in (0..size).rev() {
        let known: f64 = (i + 1..size).map(|k| l[k * size + i] * b[k]).sum();
        b[i] = (b[i] - known) / l[i * size + i];
    }
}

/// Sum of the logarithms of L's diagonal.
pub(crate) fn log_diagonal(l: &[f64], size: usize) -> f64 {
    (0..size).map(|i| l[i * size + i].ln()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_and_both_solves_undo_a_product() {
        let mut a = vec![4.0, 2.0, 2.0, 3.0];
        assert!(factor(&mut a, 2));
        let mut b = vec![10.0, 8.0];
        forward(&a, 2, &mut b);
        backward(&a, 2, &mut b);
        assert!((b[0] - 1.75).abs() < 1e-12 && (b[1] - 1.5).abs() < 1e-12);
        // det of 4 2 / 2 3 is 8; L's diagonal multiplies to its root.
        assert!((log_diagonal(&a, 2) - 8f64.sqrt().ln()).abs() < 1e-12);
    }

    #[test]
    fn a_matrix_that_is_not_positive_is_refused_or_floored() {
        assert!(!factor(&mut [1.0, 2.0, 2.0, 1.0], 2));
        assert!(!factor(&mut [0.0], 1));
        assert!(!factor(&mut [f64::NAN], 1));
        let mut flat = [1.0, 1.0, 1.0, 1.0];
        factor_floored(&mut flat, 2);
        assert_eq!(flat[3], 1e-6);
    }
}
