//! The probability that a tear lies within a circle about the aim.

use super::normal;

/// Half of the 16-point Gauss-Legendre nodes and weights on -1 to 1
/// (Abramowitz and Stegun, table 25.4).
const NODES: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_5),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_7),
    (0.755_404_408_355_003, 0.124_628_971_255_533_9),
    (0.865_631_202_387_831_7, 0.095_158_511_682_492_8),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_9),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_1),
];

/// Probability that (u, v) lies within `radius` of the origin, where u and v
/// are independent normals with these means and sds. Good to about 5e-5.
pub fn probability(radius: f64, mean: (f64, f64), sd: (f64, f64)) -> f64 {
    if radius <= 0.0 {
        return 0.0;
    }
    let (low, high) = (
        (-radius).max(mean.0 - 6.0 * sd.0),
        radius.min(mean.0 + 6.0 * sd.0),
    );
    if sd.0 <= 0.0 {
        let h = (radius * radius - mean.0 * mean.0).max(0.0).sqrt();
        return normal::within(h, mean.1, sd.1);
    }
    if low >= high {
        return 0.0;
    }
    let (mid, half) = (0.5 * (low + high), 0.5 * (high - low));
    let at = |u: f64| {
        let h = (radius * radius - u * u).max(0.0).sqrt();
        normal::density(u, mean.0, sd.0 * sd.0) * normal::within(h, mean.1, sd.1)
    };
    let sum: f64 = NODES
        .iter()
        .map(|&(x, w)| w * (at(mid - half * x) + at(mid + half * x)))
        .sum();
    (half * sum).clamp(0.0, 1.0)
}

/// One normal piece of a mixture on one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Piece {
    /// Weight; the weights of a mixture add up to 1.
    pub weight: f64,
    /// Mean.
    pub mean: f64,
    /// Standard deviation, >= 0.
    pub sd: f64,
}

const CELLS: usize = 12;

/// [`probability`] for two independent mixtures, in one pass over 12 bands.
///
/// The first axis is cut at radius sin(c pi/24), the second taken at the
/// cosine of the band's middle: 12 plus 12 interval sums whatever the number
/// of pieces. Good to about 1e-3.
pub(crate) fn mixture_probability(radius: f64, right: &[Piece], up: &[Piece]) -> f64 {
    if radius <= 0.0 {
        return 0.0;
    }
    let step = std::f64::consts::FRAC_PI_2 / CELLS as f64;
    let inside = |h: f64, pieces: &[Piece]| -> f64 {
        pieces
            .iter()
            .map(|p| p.weight * normal::within(h, p.mean, p.sd))
            .sum()
    };
    let (mut before, mut total) = (0.0, 0.0);
    for c in 0..CELLS {
        let upto = inside(radius * ((c + 1) as f64 * step).sin(), right);
        let band = upto - before;
        before = upto;
        if band > 1e-9 {
            total += band * inside(radius * ((c as f64 + 0.5) * step).cos(), up);
        }
    }
    total.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(mean: f64, sd: f64) -> [Piece; 1] {
        [Piece {
            weight: 1.0,
            mean,
            sd,
        }]
    }

    #[test]
    fn bands_and_nodes_agree() {
        for (m, s) in [
            ((0.0, 0.0), (3.0, 3.0)),
            ((3.0, 4.0), (2.0, 2.0)),
            ((2.0, -1.0), (3.0, 1.5)),
        ] {
            let exact = probability(6.0, m, s);
            let quick = mixture_probability(6.0, &one(m.0, s.0), &one(m.1, s.1));
            assert!((exact - quick).abs() < 1e-3, "{exact} {quick}");
        }
    }

    #[test]
    fn the_axes_can_be_swapped_and_mirrored() {
        let a = probability(6.0, (2.0, -1.0), (3.0, 1.5));
        assert!((a - probability(6.0, (-1.0, 2.0), (1.5, 3.0))).abs() < 1e-4);
        assert!((a - probability(6.0, (-2.0, -1.0), (3.0, 1.5))).abs() < 1e-12);
    }

    #[test]
    fn a_known_tear_is_either_inside_or_not() {
        assert_eq!(probability(6.0, (3.0, 4.0), (0.0, 0.0)), 1.0);
        assert_eq!(probability(6.0, (5.0, 4.0), (0.0, 0.0)), 0.0);
        assert_eq!(probability(0.0, (0.0, 0.0), (1.0, 1.0)), 0.0);
    }
}
