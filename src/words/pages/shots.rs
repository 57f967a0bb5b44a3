//! What the page of the next shots says of its lines.

/// Under the arrow's mark.
pub(crate) const ARROW: &str = "number or mark; empty: not named";
/// Under the distance.
pub(crate) const DISTANCE: &str = "such as 2.5 m or 8 ft; empty: the card's";
/// Under the list.
pub(crate) const FOOT: &str =
    "Left and right change, Enter types. Only the owner's shots make a bow done.";
