//! Entries, the journal on disk, and the timeline they add up to.
