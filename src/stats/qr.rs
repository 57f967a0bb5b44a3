//! QR by Householder reflections (Golub and Van Loan, Matrix Computations,
//! 4th edition, algorithm 5.2.1), for least squares on a few columns.

/// The factors of a tall matrix: reflectors below, R on and above the diagonal.
pub(super) struct Qr {
    /// Column `k` holds R above row `k` and the reflector from row `k` on.
    columns: Vec<Vec<f64>>,
    /// The diagonal of R.
    diagonal: Vec<f64>,
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Reflects `y` in the plane square to `v`; `scale` is [`scale_of`] it.
fn reflect(v: &[f64], scale: f64, y: &mut [f64]) {
    let along = dot(v, y) * scale;
    for (y, v) in y.iter_mut().zip(v) {
        *y -= along * v;
    }
}

impl Qr {
    /// Factors columns of one length, at least as long as there are columns.
    pub(super) fn of(mut columns: Vec<Vec<f64>>) -> Self {
        let mut diagonal = Vec::with_capacity(columns.len());
        for k in 0..columns.len() {
            let (head, rest) = columns.split_at_mut(k + 1);
            let v = &mut head[k][k..];
            let length = dot(v, v).sqrt();
            let r = if v[0] > 0.0 { -length } else { length };
            diagonal.push(r);
            v[0] -= r;
            let scale = scale_of(v);
            for column in rest {
                reflect(v, scale, &mut column[k..]);
            }
        }
        Self { columns, diagonal }
    }

    /// The diagonal of R: a number next to nothing says that a column is made
    /// of those before it.
    pub(super) fn diagonal(&self) -> &[f64] {
        &self.diagonal
    }

    /// The coefficients that bring the columns nearest to `y`.
    pub(super) fn solve(&self, y: &[f64]) -> Vec<f64> {
        let mut turned = y.to_vec();
        for (k, column) in self.columns.iter().enumerate() {
            let v = &column[k..];
            reflect(v, scale_of(v), &mut turned[k..]);
        }
        turned.truncate(self.columns.len());
        self.back_substitute(turned)
    }

    /// Squared lengths of the rows of R's inverse: the diagonal of (X'X)^-1.
    pub(super) fn inverse_row_squares(&self) -> Vec<f64> {
        let p = self.columns.len();
        let mut squares = vec![0.0; p];
        for k in 0..p {
            let unit = (0..p).map(|i| if i == k { 1.0 } else { 0.0 }).collect();
            for (sum, v) in squares.iter_mut().zip(self.back_substitute(unit)) {
                *sum += v * v;
            }
        }
        squares
    }

    /// Solves R v = b.
    fn back_substitute(&self, mut b: Vec<f64>) -> Vec<f64> {
        for i in (0..b.len()).rev() {
            let known: f64 = (i + 1..b.len()).map(|j| self.columns[j][i] * b[j]).sum();
            b[i] = (b[i] - known) / self.diagonal[i];
        }
        b
    }
}

/// Two over the reflector's squared length; nothing for an empty reflector.
fn scale_of(v: &[f64]) -> f64 {
    let square = dot(v, v);
    if square > 0.0 { 2.0 / square } else { 0.0 }
}
