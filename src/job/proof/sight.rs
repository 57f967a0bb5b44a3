//! The sight follows: how far to move the pin for a miss.
//!
//! Similar triangles from the eye: the pin moves toward the miss by
//! miss x (eye to pin) / (eye to target).

/// A pin movement on one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinMove {
    /// Toward the miss, right or up positive, mm.
    pub mm: f64,
    /// Whole clicks, where a click is known.
    pub clicks: Option<i64>,
}

/// Pin movement for both axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SightMove {
    /// Sideways.
    pub right: PinMove,
    /// Up and down.
    pub up: PinMove,
}

/// Pin movement for one axis: `miss_mm` (right or up positive) at
/// `distance_mm` from the eye, with the pin `eye_to_pin_mm` from the eye.
/// `None` unless the lengths are positive and the pin is nearer than the target.
pub fn pin_move(
    miss_mm: f64,
    eye_to_pin_mm: f64,
    distance_mm: f64,
    click_mm: Option<f64>,
) -> Option<PinMove> {
    let sound = miss_mm.is_finite() && eye_to_pin_mm > 0.0 && distance_mm > eye_to_pin_mm;
    sound.then(|| {
        let mm = miss_mm * eye_to_pin_mm / distance_mm;
        PinMove {
            mm,
            clicks: click_mm
                .filter(|c| *c > 0.0)
                .map(|c| (mm / c).round() as i64),
        }
    })
}

/// Both axes.
pub(crate) fn sight_move(
    miss_mm: (f64, f64),
    eye_to_pin_mm: f64,
    distance_mm: f64,
    click_mm: Option<f64>,
) -> Option<SightMove> {
    Some(SightMove {
        right: pin_move(miss_mm.0, eye_to_pin_mm, distance_mm, click_mm)?,
        up: pin_move(miss_mm.1, eye_to_pin_mm, distance_mm, click_mm)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pin_follows_the_miss_on_both_axes() {
        let found = sight_move((-50.0, 20.0), 840.0, 18_000.0, Some(0.2)).unwrap();
        assert_eq!((found.right.clicks, found.up.clicks), (Some(-12), Some(5)));
        assert!((found.right.mm + 2.333_333).abs() < 1e-6);
        assert!((found.up.mm - 0.933_333).abs() < 1e-6);
        let none = sight_move((0.0, 0.0), 840.0, 18_000.0, None).unwrap();
        assert_eq!((none.right.mm, none.up.mm), (0.0, 0.0));
    }

    #[test]
    fn a_pin_beyond_the_target_or_at_the_eye_is_nonsense() {
        assert!(pin_move(10.0, 0.0, 18_000.0, None).is_none());
        assert!(pin_move(10.0, 900.0, 800.0, None).is_none());
        assert!(pin_move(f64::NAN, 900.0, 18_000.0, None).is_none());
    }

    #[test]
    fn the_pin_moves_toward_the_miss_by_similar_triangles_and_no_further() {
        let right = pin_move(50.0, 840.0, 18_000.0, Some(0.2)).unwrap();
        assert!((right.mm - 2.333_333).abs() < 1e-6);
        assert_eq!(right.clicks, Some(12));
        let down = pin_move(-50.0, 840.0, 18_000.0, Some(0.2)).unwrap();
        assert!((down.mm + 2.333_333).abs() < 1e-6);
        assert_eq!(down.clicks, Some(-12));
        // A click of nothing is no click; the pin on the target or at the eye, no sight.
        assert_eq!(
            pin_move(50.0, 840.0, 18_000.0, Some(0.0)).unwrap().clicks,
            None
        );
        assert_eq!(
            pin_move(50.0, 840.0, 18_000.0, Some(-0.2)).unwrap().clicks,
            None
        );
        assert!(pin_move(50.0, 840.0, 840.0, None).is_none());
        assert!(pin_move(50.0, 0.0, 840.0, None).is_none());
        assert!(pin_move(50.0, -1.0, 840.0, None).is_none());
    }
}
