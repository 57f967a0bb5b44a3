//! What panes and screens draw with: text made safe and wrapped, lists,
//! planes in mm, letters in blocks.

pub(crate) mod axes;
pub(crate) mod blocks;
pub(crate) mod list;
pub(crate) mod paint;
pub(crate) mod plot;
pub(crate) mod steps;
