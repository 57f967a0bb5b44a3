//! The powder test, described once: the advice, the list before paper and
//! troubleshooting put their own questions to it.

use crate::units::System;

/// How the powder goes on; `on` is what gets it besides shaft and vanes.
pub(super) fn powder(on: &str, system: System) -> String {
    let short = match system {
        System::Mm => "2 cm",
        System::Inch => "3/4 in",
    };
    format!(
        "Put foot powder on shaft and vanes, from the nock to {short} short of where the undrawn shaft lies on the rest (drawing wipes what is ahead of it), and on {on}."
    )
}
