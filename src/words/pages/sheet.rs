//! What the sheet's page says of its lines, and of a job that is closed.

/// The line that writes a page.
pub(crate) const HTML: &str = "write it as a page to print (HTML, one file)";
/// The line that writes data.
pub(crate) const JSON: &str = "write it as JSON, for other programs";
/// The owner's contact is on the sheet.
pub(crate) const CONTACT: &str = "owner's contact: printed (Enter leaves it out)";
/// The owner's contact is not on the sheet.
pub(crate) const NO_CONTACT: &str = "owner's contact: left out (Enter prints it)";
/// A move waits at the bench, in what the sheet holds so far.
pub(crate) const PENDING: &str = "At the bench  a move that is not confirmed";
/// The job is closed so already.
pub(crate) const CLOSED_ALREADY: &str = "closed already; shooting or moving on opens it again";

/// The job is closed.
pub(crate) fn closed(how: &str, entry: u32, files: &str) -> String {
    format!(
        "closed ({how}), entry {entry}; {files} opens the next bow, shooting on this one opens it again"
    )
}
