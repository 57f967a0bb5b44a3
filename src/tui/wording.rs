//! What the panes and messages say, in the words of [`crate::words`].

use crate::session::Shooter;
use crate::tui::model::NextShots;
use crate::units::System;
pub use crate::words::steps;
pub(crate) use crate::words::{entry, gain, next_shot, shot, standing, standing_short};

/// What the next shots are recorded with, where it is not the usual; empty
/// when all is usual.
pub(crate) fn next_shots(next: &NextShots, system: System) -> String {
    let mut parts = Vec::new();
    if next.called_bad {
        parts.push("CALLED BAD".to_owned());
    }
    if next.by != Shooter::Owner {
        parts.push(format!("{} shoots", next.by.id()));
    }
    if let Some(arrow) = &next.arrow {
        parts.push(format!("arrow {}", crate::units::clean(arrow)));
    }
    if next.bare {
        parts.push("bare shaft".to_owned());
    }
    if let Some(distance) = &next.distance {
        let shown = crate::units::Length::parse(distance)
            .map_or_else(|_| crate::units::clean(distance), |d| system.distance(d));
        parts.push(format!("at {shown}"));
    }
    if next.mirrored {
        parts.push("sheet from the target side".to_owned());
    }
    parts.join(", ")
}
