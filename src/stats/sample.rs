//! Mean, standard deviation and the small-sample factor c4.

use statrs::function::gamma::ln_gamma;

/// Arithmetic mean; `None` of an empty slice.
///
/// Two passes: the second adds the mean residual, which recovers the digits
/// lost when the numbers are large beside their spread.
pub fn mean(xs: &[f64]) -> Option<f64> {
    if xs.is_empty() {
        return None;
    }
    let n = xs.len() as f64;
    let first = xs.iter().sum::<f64>() / n;
    Some(first + xs.iter().map(|x| x - first).sum::<f64>() / n)
}

/// Standard deviation with divisor n - 1; `None` below two numbers.
///
/// Corrected two-pass formula (Chan, Golub and LeVeque 1983).
pub fn sd(xs: &[f64]) -> Option<f64> {
    if xs.len() < 2 {
        return None;
    }
    let n = xs.len() as f64;
    let m = mean(xs)?;
    let squares: f64 = xs.iter().map(|x| (x - m) * (x - m)).sum();
    let rest: f64 = xs.iter().map(|x| x - m).sum();
    Some(((squares - rest * rest / n) / (n - 1.0)).max(0.0).sqrt())
}

/// Lag-1 autocorrelation, as NIST StRD defines it; `None` when all are equal.
pub fn lag1(xs: &[f64]) -> Option<f64> {
    let m = mean(xs)?;
    let below: f64 = xs.iter().map(|x| (x - m) * (x - m)).sum();
    if below == 0.0 {
        return None;
    }
    let above: f64 = xs.windows(2).map(|w| (w[0] - m) * (w[1] - m)).sum();
    Some(above / below)
}

/// c4(n): the mean of the sample sd of n normal numbers is c4 times sigma.
///
/// c4 = sqrt(2/(n-1)) Gamma(n/2) / Gamma((n-1)/2); NaN for n < 2.
pub fn c4(n: usize) -> f64 {
    if n < 2 {
        return f64::NAN;
    }
    let n = n as f64;
    (2.0 / (n - 1.0)).sqrt() * (ln_gamma(n / 2.0) - ln_gamma((n - 1.0) / 2.0)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn too_few_numbers_have_no_answer() {
        assert_eq!(mean(&[]), None);
        assert_eq!(sd(&[1.0]), None);
        assert_eq!(lag1(&[2.0, 2.0]), None);
        assert!(c4(1).is_nan());
    }

    #[test]
    fn c4_of_two_is_the_square_root_of_two_over_pi() {
        assert!((c4(2) - (2.0 / std::f64::consts::PI).sqrt()).abs() < 1e-12);
    }
}
