//! Least squares by QR, with the columns scaled to unit length first.

use super::qr::Qr;

/// A fitted linear model.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// Coefficients, in the order of the columns.
    pub coefficients: Vec<f64>,
    /// Standard deviations of the coefficients; NaN with no spare readings.
    pub sds: Vec<f64>,
    /// Residual sum of squares.
    pub rss: f64,
    /// Residual standard deviation; NaN with no spare readings.
    pub residual_sd: f64,
    /// Share of the variation explained: about the mean with a constant
    /// column, about zero without (the NIST StRD convention).
    pub r_squared: f64,
    /// Readings less coefficients.
    pub df: usize,
}

/// Fits `y` to the given columns. `None` when lengths differ, when there are
/// fewer readings than columns, or when the columns do not stand apart.
pub fn least_squares(columns: &[Vec<f64>], y: &[f64]) -> Option<Fit> {
    let (n, p) = (y.len(), columns.len());
    if p == 0 || n < p || columns.iter().any(|c| c.len() != n) {
        return None;
    }
    let scale: Vec<f64> = columns
        .iter()
        .map(|c| c.iter().map(|v| v * v).sum::<f64>().sqrt())
        .collect();
    if scale.iter().any(|s| !s.is_finite() || *s == 0.0) {
        return None;
    }
    let scaled: Vec<Vec<f64>> = columns
        .iter()
        .zip(&scale)
        .map(|(column, s)| column.iter().map(|v| v / s).collect())
        .collect();
    let qr = Qr::of(scaled.clone());
    if qr.diagonal().iter().any(|r| r.abs() < 1e-13) {
        return None;
    }
    let mut beta = qr.solve(y);
    // One round of refinement takes back the digits lost in a stiff design.
    let more = qr.solve(&residuals(&scaled, &beta, y));
    beta.iter_mut().zip(more).for_each(|(b, m)| *b += m);
    let rss: f64 = residuals(&scaled, &beta, y).iter().map(|r| r * r).sum();
    let df = n - p;
    let variance = if df > 0 { rss / df as f64 } else { f64::NAN };
    let squares = qr.inverse_row_squares();
    let sds = (0..p).map(|j| (variance * squares[j]).sqrt() / scale[j]);
    Some(Fit {
        coefficients: (0..p).map(|j| beta[j] / scale[j]).collect(),
        sds: sds.collect(),
        rss,
        residual_sd: variance.sqrt(),
        r_squared: 1.0 - rss / total_squares(columns, y),
        df,
    })
}

/// What the fit leaves of each reading.
fn residuals(columns: &[Vec<f64>], beta: &[f64], y: &[f64]) -> Vec<f64> {
    let fitted = |i: usize| -> f64 { columns.iter().zip(beta).map(|(c, b)| c[i] * b).sum() };
    y.iter().enumerate().map(|(i, y)| y - fitted(i)).collect()
}

fn total_squares(columns: &[Vec<f64>], y: &[f64]) -> f64 {
    let constant = columns.iter().any(|c| c.iter().all(|v| *v == c[0]));
    let about = if constant {
        super::sample::mean(y).unwrap_or(0.0)
    } else {
        0.0
    };
    y.iter().map(|v| (v - about) * (v - about)).sum()
}

/// Straight line with a constant: coefficients are intercept and slope.
pub fn line(x: &[f64], y: &[f64]) -> Option<Fit> {
    least_squares(&[vec![1.0; x.len()], x.to_vec()], y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_that_repeat_each_other_have_no_fit() {
        let c = vec![1.0, 2.0, 3.0];
        assert_eq!(least_squares(&[c.clone(), c], &[1.0, 2.0, 4.0]), None);
        assert_eq!(line(&[1.0], &[1.0]), None);
    }

    #[test]
    fn an_exact_line_leaves_nothing_over() {
        let f = line(&[0.0, 1.0, 2.0], &[5.0, 3.0, 1.0]).unwrap();
        assert!((f.coefficients[0] - 5.0).abs() < 1e-12);
        assert!((f.coefficients[1] + 2.0).abs() < 1e-12);
        assert!(f.rss < 1e-24 && f.df == 1);
    }
}
