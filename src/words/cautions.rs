//! The cautions, each said once.

use crate::cautions::Caution;

/// What a caution says.
pub const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::Helper => {
            "With a helper: helper behind the archer, bow at the backstop, arrow on the string, finger off the trigger. Nobody reaches for cams or string."
        }
        Caution::Cams => {
            "Look at cams on a draw board only, eye protection on; never put a hand near them while it is drawn."
        }
        Caution::Weighing => {
            "A hook that slips is a dry fire: see that the scale's hook holds, pull slowly, let down slowly, never release."
        }
        Caution::HardWall => {
            "Point at the backstop, arrow on the string, finger off the trigger until aimed. Pull straight back and smoothly; stop where an arm shakes, and let down slowly."
        }
        Caution::PutBack => "Take the arrow off the string first; turn nothing on a drawn bow.",
        Caution::Press => {
            "Press work is for trained hands: the right press, the maker's rules, eye protection, never a hand between string and limb."
        }
        Caution::Minors => {
            "A minor shoots only with an adult beside them, a bow and an arrow weight that suit them, and where age rules allow it."
        }
    }
}
