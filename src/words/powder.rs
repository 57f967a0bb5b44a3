//! The powder test, described once: the advice, the list before paper and
//! troubleshooting put their own questions to it.

/// How the powder goes on; `on` is what gets it besides shaft and vanes.
pub(super) fn powder(on: &str) -> String {
    format!(
        "Put foot powder on shaft and vanes, from the nock to 2 cm short of where the undrawn shaft lies on the rest (drawing wipes what is ahead of it), and on {on}."
    )
}
