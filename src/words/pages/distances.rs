//! The same arrow at other paper distances.

use super::super::tear_with_unit;
use crate::tear::Tear;
use crate::units::{Length, System};

/// Where the card describes no launch.
pub(crate) const NO_LAUNCH: &str = "The card describes no launch that can be worked out. Check draw length, brace height and arrow.";
/// The columns of the table.
pub(crate) const COLUMNS: [&str; 3] = ["paper at", "likely tear there", "2 of 3 bows within"];
/// Beside the distance that tells most.
pub(crate) const SECOND: &str = "half a flex on";

/// A paper distance to the nearest 5 cm: nobody sets a frame finer than that.
pub(crate) fn paper(m: f64, system: System) -> String {
    system.distance(Length::from_m((m * 20.0).round() / 20.0))
}

/// The likely tear where the paper hangs.
pub(crate) fn here(m: f64, tear: Tear, system: System) -> String {
    format!(
        "Likely tear here, at {}: {}.",
        paper(m, system),
        tear_with_unit(tear, system)
    )
}

/// Where no tear is known; what tells it, where a shot may be made.
pub(crate) fn nothing_known(m: f64, may_shoot: bool, system: System) -> String {
    let unknown = format!("Nothing is known of the tear at {} yet.", paper(m, system));
    match may_shoot {
        true => format!("{unknown} Shoot first."),
        false => unknown,
    }
}

/// Where a second sheet tells most, for an arrow that flexes once in `wave_m`,
/// and how it is read.
pub(crate) fn second_sheet(wave_m: f64, second_m: f64, system: System) -> String {
    format!(
        "This arrow flexes once in about {} of flight. A second sheet tells most half of that further on: hang it at {}. There the flex changes the tear the other way, and the swing of the tail still changes it the same way. Tears that agree are swing. Tears that differ are flex: look at the arrow.",
        paper(wave_m, system),
        paper(second_m, system)
    )
}

/// Where the tail swings widest.
pub(crate) fn widest_swing(system: System) -> String {
    format!(
        "The swing itself is largest at about {} to {}.",
        paper(4.0, system),
        paper(5.0, system)
    )
}
