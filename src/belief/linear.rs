//! Small dense Cholesky factors, row by row in one vector.

/// Factors the symmetric positive matrix `a` (size x size) in place; the
/// lower triangle becomes L with L L' = a.
pub fn factor(a: &mut [f64], size: usize) {
    for i in 0..size {
        for j in 0..=i {
            let (ri, rj) = (&a[i * size..i * size + j], &a[j * size..j * size + j]);
            let known: f64 = ri.iter().zip(rj).map(|(x, y)| x * y).sum();
            let v = a[i * size + j] - known;
            a[i * size + j] = if i == j {
                v.max(1e-12).sqrt()
            } else {
                v / a[j * size + j]
            };
        }
    }
}

/// Solves L v = b in place.
pub fn forward(l: &[f64], size: usize, b: &mut [f64]) {
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
pub fn backward(l: &[f64], size: usize, b: &mut [f64]) {
    for i in (0..size).rev() {
        let known: f64 = (i + 1..size).map(|k| l[k * size + i] * b[k]).sum();
        b[i] = (b[i] - known) / l[i * size + i];
    }
}

/// Sum of the logarithms of L's diagonal.
pub fn log_diagonal(l: &[f64], size: usize) -> f64 {
    (0..size).map(|i| l[i * size + i].ln()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_and_both_solves_undo_a_product() {
        let mut a = vec![4.0, 0.0, 2.0, 3.0];
        a[1] = 2.0;
        factor(&mut a, 2);
        let mut b = vec![10.0, 8.0];
        forward(&a, 2, &mut b);
        backward(&a, 2, &mut b);
        assert!((b[0] - 1.75).abs() < 1e-12 && (b[1] - 1.5).abs() < 1e-12);
    }
}
