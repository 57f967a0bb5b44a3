//! Is the farthest reading one of the family? Grubbs and Dixon.
//!
//! For a report's remark only: at three shots neither test has any power, so
//! no shot is ever dropped because of them.

use super::{quantile, sample};

/// Grubbs' G: largest distance from the mean, in sample sds.
/// `None` below three readings or when all are equal.
pub fn grubbs(xs: &[f64]) -> Option<f64> {
    let (m, s) = (sample::mean(xs)?, sample::sd(xs)?);
    if xs.len() < 3 || s == 0.0 {
        return None;
    }
    Some(xs.iter().map(|x| (x - m).abs()).fold(0.0, f64::max) / s)
}

/// Critical G: (n-1)/sqrt(n) sqrt(t^2/(n-2+t^2)), t the upper alpha/(2n)
/// (two-sided) or alpha/n (one-sided) Student quantile with n - 2 degrees.
pub fn grubbs_critical(n: usize, alpha: f64, two_sided: bool) -> f64 {
    if n < 3 {
        return f64::NAN;
    }
    let k = n as f64;
    let tail = if two_sided {
        alpha / (2.0 * k)
    } else {
        alpha / k
    };
    let t2 = quantile::student_t(1.0 - tail, k - 2.0).powi(2);
    (k - 1.0) / k.sqrt() * (t2 / (k - 2.0 + t2)).sqrt()
}

/// Dixon's r10: the gap beside an extreme over the range, larger of both ends.
/// `None` below three readings or when all are equal.
pub fn dixon_r10(xs: &[f64]) -> Option<f64> {
    let mut v = xs.to_vec();
    v.sort_by(f64::total_cmp);
    let n = v.len();
    if n < 3 || v[n - 1] == v[0] {
        return None;
    }
    Some((v[1] - v[0]).max(v[n - 1] - v[n - 2]) / (v[n - 1] - v[0]))
}

/// Two-sided critical r10 at 10, 5 and 1 %, n = 3 to 6: Rorabacher,
/// Analytical Chemistry 63 (1991), as printed in LibreTexts, Appendix 06.
const DIXON: [[f64; 3]; 4] = [
    [0.941, 0.970, 0.994],
    [0.765, 0.829, 0.926],
    [0.642, 0.710, 0.821],
    [0.560, 0.625, 0.740],
];

/// Tabulated two-sided critical r10 for n = 3 to 6 and alpha 0.10, 0.05 or
/// 0.01; `None` where the table does not reach.
pub fn dixon_critical(n: usize, alpha: f64) -> Option<f64> {
    let column = [0.10, 0.05, 0.01]
        .iter()
        .position(|a| (a - alpha).abs() < 1e-9)?;
    DIXON.get(n.checked_sub(3)?).map(|row| row[column])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_readings_can_never_look_odd_to_grubbs() {
        let g = grubbs(&[0.0, 0.0, 1000.0]).unwrap();
        assert!((g - 2.0 / 3.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn dixon_does_not_care_for_order_or_side() {
        assert_eq!(dixon_r10(&[10.0, 0.0, 1.0]), Some(0.9));
        assert_eq!(dixon_r10(&[0.0, 9.0, 10.0]), Some(0.9));
        assert_eq!(dixon_r10(&[1.0, 1.0, 1.0]), None);
        assert_eq!(dixon_critical(7, 0.05), None);
        assert_eq!(dixon_critical(2, 0.05), None);
    }
}
