//! What stands first on every page about shooting: a stop, and the range
//! safety list.

use crate::advice;
use crate::range::{self, Today};
use crate::session::Timeline;
use crate::words;

/// What forbids the next shot, line by line: the first thing on a page.
pub(super) fn stop(timeline: &Timeline) -> Vec<String> {
    let system = timeline.card.paper.system;
    let stop = advice::stopped(timeline);
    stop.map_or_else(Vec::new, |stop| words::stop_lines(&stop, system))
}

/// What comes before any shot: a stop, else the range safety list where it is due.
pub(super) fn before_a_shot(timeline: &Timeline, today: Today) -> Vec<String> {
    let stop = stop(timeline);
    if stop.is_empty() {
        return range_list(timeline, today).into_iter().collect();
    }
    stop
}

/// Whether anything does.
pub(super) fn is_stopped(timeline: &Timeline) -> bool {
    advice::stopped(timeline).is_some()
}

/// That the range safety list comes first, where it is due.
pub(super) fn range_list(timeline: &Timeline, today: Today) -> Option<String> {
    let due = range::due(timeline, today)?;
    Some(format!("{} (before FILE range)", words::range_due(due)))
}
