//! What is said of words typed where keys are pressed.

use crate::tear::may_begin;

/// That a word, or a tear, was typed on a page of keys, and where it belongs.
pub(crate) fn no_keys(text: &str) -> String {
    let what = match text.starts_with(|c: char| c.is_ascii_digit()) && may_begin(text) {
        true => "A tear is typed on the three panes: Esc leads there",
        false => "Press one key at a time",
    };
    format!("'{text}': nothing was recorded. {what}")
}

/// That the latest entry is none of this page's.
pub(crate) const NOT_UNDONE_HERE: &str =
    "nothing of this page is left to undo; what came before is undone on the three panes";

/// That no action is called so; where it reads as a tear, where that is typed.
pub(crate) const fn not_found(tear: bool) -> &'static str {
    match tear {
        true => "no action of that name; a tear is typed on the three panes, Esc leads there",
        false => "no action of that name; Esc leaves",
    }
}
