//! What the page of troubleshooting says of its lines.

/// What is true of a virtual bow.
pub(crate) const BOW_ANSWERS: &str = "try it on this virtual bow, and record what comes of it";
/// The practice's own page.
pub(crate) const PRACTICE: &str = "this virtual bow: its tests and fixes, and your answer";
/// Under the figure of what was done.
pub(crate) const FIGURE: &str = "the figure as it was really made";

/// The line that puts on the card what was done: its field and value.
pub(crate) fn on_the_card(field: &str, value: &str) -> String {
    let name = field.rsplit_once('.').map_or(field, |(_, name)| name);
    let name = name.replace('_', " ");
    format!("it is done: put it on the card ({name} {value})")
}

/// What a figure leads to.
pub(crate) fn again(value: &str) -> String {
    format!("{value} on the card, the match is worked out again")
}

/// A damaged part is put right first.
pub(crate) fn once_it_is() -> String {
    format!(
        "{} Press Enter once it is.",
        super::super::trouble::part_damaged()
    )
}
