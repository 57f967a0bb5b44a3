//! Quantiles of the chi-squared, Student and F distributions.
//!
//! Thin names over `statrs`, so that callers cannot mix up upper and lower
//! tails: `p` is always the probability BELOW the value returned.

use statrs::distribution::{ChiSquared, ContinuousCDF, FisherSnedecor, Normal, StudentsT};

fn inverse<D: ContinuousCDF<f64, f64>, E>(made: Result<D, E>, p: f64) -> f64 {
    match made {
        Ok(d) if p > 0.0 && p < 1.0 => d.inverse_cdf(p),
        _ => f64::NAN,
    }
}

/// Standard normal quantile; NaN unless 0 < p < 1.
pub fn normal(p: f64) -> f64 {
    inverse(Normal::new(0.0, 1.0), p)
}

/// Chi-squared quantile with `df` > 0 degrees of freedom; NaN outside 0 < p < 1.
pub fn chi_squared(p: f64, df: f64) -> f64 {
    inverse(ChiSquared::new(df), p)
}

/// Student t quantile with `df` > 0; NaN outside 0 < p < 1.
pub(crate) fn student_t(p: f64, df: f64) -> f64 {
    inverse(StudentsT::new(0.0, 1.0, df), p)
}

/// Probability that a Student t number with `df` > 0 is below `t`.
pub(crate) fn student_t_below(t: f64, df: f64) -> f64 {
    StudentsT::new(0.0, 1.0, df).map_or(f64::NAN, |d| d.cdf(t))
}

/// Probability that an F number with `df1`, `df2` > 0 is below `f`.
pub fn f_ratio_below(f: f64, df1: f64, df2: f64) -> f64 {
    FisherSnedecor::new(df1, df2).map_or(f64::NAN, |d| d.cdf(f))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chi_squared_with_two_degrees_has_its_closed_form() {
        assert!((chi_squared(0.9, 2.0) + 2.0 * 0.1_f64.ln()).abs() < 1e-7);
    }

    #[test]
    fn nonsense_gives_nan_and_never_panics() {
        assert!(chi_squared(1.0, 2.0).is_nan());
        assert!(student_t(0.5, -1.0).is_nan());
    }
}
