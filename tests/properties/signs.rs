//! Signs written out: which side is which, for whoever reads the sheet.

use tearbench::tear::{Tear, read_hole};
use tearbench::units::System;

#[test]
fn each_side_has_its_sign_and_only_left_and_right_change_from_the_target_side() {
    for (text, wanted, from_the_target) in [
        ("3 left", (-3.0, 0.0), (3.0, 0.0)),
        ("3 right", (3.0, 0.0), (-3.0, 0.0)),
        ("3 low", (0.0, -3.0), (0.0, -3.0)),
        ("3 high", (0.0, 3.0), (0.0, 3.0)),
        ("0 left 5 low", (0.0, -5.0), (0.0, -5.0)),
        ("0 down 5 l", (-5.0, 0.0), (5.0, 0.0)),
    ] {
        let tear = read_hole(text, System::Mm).unwrap().tear;
        assert_eq!((tear.right, tear.up), wanted, "{text}");
        let seen = Tear::new(wanted.0, wanted.1).mirrored();
        assert_eq!((seen.right, seen.up), from_the_target, "{text}");
    }
    assert!(read_hole("-1 low", System::Mm).is_err());
}
