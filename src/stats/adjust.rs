//! The harmonic adjustment rule: how far to follow the i-th reading.

/// Share of the i-th error (i from 1) to take off, when the start error has
/// prior variance `prior` and each reading variance `noise`:
/// 1 / (i + noise/prior). Grubbs, Industrial Quality Control 1954; with an
/// infinite prior it is the plain harmonic rule 1/i.
pub fn harmonic_gain(i: usize, prior: f64, noise: f64) -> f64 {
    let ratio = if prior.is_infinite() {
        0.0
    } else {
        noise / prior
    };
    1.0 / (i.max(1) as f64 + ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn with_nothing_known_before_it_is_one_over_i() {
        assert_eq!(harmonic_gain(4, f64::INFINITY, 9.0), 0.25);
    }
}
