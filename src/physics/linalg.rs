//! Small dense linear algebra on fixed-size arrays: no allocation, so that a
//! build can be prepared in well under a millisecond. The results are held
//! against a general-purpose library in `tests/published`.

use crate::stats::cholesky;

/// A square matrix of fixed size, row by row.
pub(crate) type Square<const N: usize> = [[f64; N]; N];

/// Lower Cholesky factor of a symmetric positive definite matrix, zero above
/// the diagonal; `None` when the matrix is not positive definite.
#[must_use]
fn lower<const N: usize>(a: &Square<N>) -> Option<Square<N>> {
    let mut l = *a;
    if !cholesky::factor(l.as_flattened_mut(), N) {
        return None;
    }
    for (i, row) in l.iter_mut().enumerate() {
        row[i + 1..].fill(0.0);
    }
    Some(l)
}

/// Eigenvalues (ascending) and eigenvectors of a symmetric matrix by cyclic
/// Jacobi rotations. Row `k` of the second result is the `k`th eigenvector.
#[must_use]
pub fn symmetric_eigen<const N: usize>(a: &Square<N>) -> ([f64; N], Square<N>) {
    let mut a = *a;
    let mut v = [[0.0; N]; N];
    for (i, row) in v.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    let scale: f64 = a.iter().flatten().map(|x| x * x).sum();
    for _sweep in 0..40 {
        let off: f64 = (0..N)
            .flat_map(|i| (0..i).map(move |j| (i, j)))
            .map(|(i, j)| a[i][j] * a[i][j])
            .sum();
        if off <= 1e-30 * scale {
            break;
        }
        for p in 0..N {
            for q in p + 1..N {
                rotate(&mut a, &mut v, p, q);
            }
        }
    }
    let mut order: [usize; N] = std::array::from_fn(|i| i);
    order.sort_by(|&i, &j| a[i][i].total_cmp(&a[j][j]));
    (order.map(|i| a[i][i]), order.map(|i| v[i]))
}

fn rotate<const N: usize>(a: &mut Square<N>, v: &mut Square<N>, p: usize, q: usize) {
    let apq = a[p][q];
    if apq == 0.0 {
        return;
    }
    let theta = (a[q][q] - a[p][p]) / (2.0 * apq);
    let t = if theta >= 0.0 {
        1.0 / (theta + (theta * theta + 1.0).sqrt())
    } else {
        -1.0 / (-theta + (theta * theta + 1.0).sqrt())
    };
    let c = 1.0 / (t * t + 1.0).sqrt();
    let s = t * c;
    for row in a.iter_mut() {
        let (x, y) = (row[p], row[q]);
        row[p] = c * x - s * y;
        row[q] = s * x + c * y;
    }
    rotate_rows(a, p, q, c, s);
    rotate_rows(v, p, q, c, s);
    a[p][q] = 0.0;
    a[q][p] = 0.0;
}

fn rotate_rows<const N: usize>(m: &mut Square<N>, p: usize, q: usize, c: f64, s: f64) {
    let (head, tail) = m.split_at_mut(q);
    for (x, y) in head[p].iter_mut().zip(tail[0].iter_mut()) {
        let (a, b) = (*x, *y);
        *x = c * a - s * b;
        *y = s * a + c * b;
    }
}

/// Solves `k v = lambda m v` for symmetric `k` and positive definite `m`.
///
/// Eigenvalues ascend; row `i` of the vectors is scaled so that
/// `v_i m v_i = 1`. Returns `None` when `m` is not positive definite.
#[must_use]
pub fn generalised_eigen<const N: usize>(
    k: &Square<N>,
    m: &Square<N>,
) -> Option<([f64; N], Square<N>)> {
    let l = lower(m)?;
    // a = l^-1 k l^-T, by solving for rows and then for columns.
    let mut a = *k;
    for col in 0..N {
        for i in 0..N {
            let dot: f64 = (0..i).map(|j| l[i][j] * a[j][col]).sum();
            a[i][col] = (a[i][col] - dot) / l[i][i];
        }
    }
    for row in &mut a {
        for i in 0..N {
            let dot: f64 = (0..i).map(|j| l[i][j] * row[j]).sum();
            row[i] = (row[i] - dot) / l[i][i];
        }
    }
    for i in 0..N {
        for j in 0..i {
            let mean = 0.5 * (a[i][j] + a[j][i]);
            a[i][j] = mean;
            a[j][i] = mean;
        }
    }
    let (values, mut vectors) = symmetric_eigen(&a);
    for v in &mut vectors {
        for i in (0..N).rev() {
            let dot: f64 = (i + 1..N).map(|j| l[j][i] * v[j]).sum();
            v[i] = (v[i] - dot) / l[i][i];
        }
    }
    Some((values, vectors))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn eigenvalues_of_a_known_matrix() {
        // The 3x3 second-difference matrix: 2 - 2 cos(k pi / 4).
        let a = [[2.0, -1.0, 0.0], [-1.0, 2.0, -1.0], [0.0, -1.0, 2.0]];
        let (values, vectors) = symmetric_eigen(&a);
        for (k, value) in values.iter().enumerate() {
            let angle = (k as f64 + 1.0) * std::f64::consts::PI / 4.0;
            assert_relative_eq!(*value, 2.0 - 2.0 * angle.cos(), max_relative = 1e-12);
            let norm: f64 = vectors[k].iter().map(|x| x * x).sum();
            assert_relative_eq!(norm, 1.0, max_relative = 1e-12);
        }
    }

    #[test]
    fn generalised_vectors_satisfy_the_equation() {
        let k = [[4.0, 1.0, 0.0], [1.0, 3.0, 0.5], [0.0, 0.5, 2.0]];
        let m = [[2.0, 0.3, 0.0], [0.3, 1.0, 0.1], [0.0, 0.1, 0.5]];
        let (values, vectors) = generalised_eigen(&k, &m).expect("positive definite");
        for (lambda, v) in values.iter().zip(&vectors) {
            for i in 0..3 {
                let left: f64 = (0..3).map(|j| k[i][j] * v[j]).sum();
                let right: f64 = (0..3).map(|j| m[i][j] * v[j]).sum();
                assert_relative_eq!(left, lambda * right, epsilon = 1e-12);
            }
        }
    }

    #[test]
    fn an_indefinite_mass_is_refused() {
        assert!(lower(&[[1.0, 2.0], [2.0, 1.0]]).is_none());
    }
}
