//! Repeat shots do not agree: archer, loose part or contact.

use crate::stats::quantile;

/// Fresh shots it takes to show, with 90 % odds, that the scatter is under
/// its limit, when it is really this share of the limit (0 to 1).
///
/// Pooled over both axes: 2 (n - 1) s^2 / sigma^2 is chi-squared with
/// 2 (n - 1) degrees of freedom. 99 when the share is too near 1.
pub fn shots_to_convince(share_of_limit: f64) -> u32 {
    (2..99)
        .find(|n| {
            let df = 2.0 * f64::from(n - 1);
            let upper = (df / quantile::chi_squared(0.1, df)).sqrt();
            upper * share_of_limit <= 1.0
        })
        .unwrap_or(99)
}

/// What is left when nothing explains the scatter.
pub(super) fn end() -> String {
    format!(
        "nothing cheap explains it. Another day, or a borderline arrow (it looks like the archer): weigh the bow, try another spine. To convince this program afterwards: about {} shots if they scatter well under the limit (six tenths), {} if a little under (eight tenths)",
        shots_to_convince(0.6),
        shots_to_convince(0.8)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearer_the_limit_the_more_shots_it_takes() {
        // Six degrees of freedom: 6 / 2.204 = 2.72, root 1.65, times 0.6 is 0.99.
        assert_eq!(shots_to_convince(0.6), 4);
        assert!(shots_to_convince(0.8) > 10);
        assert_eq!(shots_to_convince(1.0), 99);
    }
}
