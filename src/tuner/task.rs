//! What the tuner may do, and what it has done so far.

use crate::belief::{Axis, Obs, Place, Shooter};

/// One adjuster as the tuner sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// The axis it is there for.
    pub axis: Axis,
    /// One click, turn or twist, in its own unit.
    pub step: f64,
    /// Lowest position from the start (<= 0), in its own unit.
    pub low: f64,
    /// Highest position from the start (>= 0).
    pub high: f64,
    /// Whether it may be moved at all now.
    pub usable: bool,
}

/// The aim and the limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// One entry for each adjuster, in the order of the positions.
    pub adjusters: Vec<Range>,
    /// Largest length of tear less aim that counts as inside, mm.
    pub tolerance: f64,
    /// The tear wanted, right and up, mm.
    pub aim: [f64; 2],
    /// Probability of being inside at which it is done.
    pub level: f64,
    /// Fewest shots at the last setting.
    pub least_shots: usize,
    /// Whether both axes may be moved at once when both responses are known.
    pub both_at_once: bool,
    /// Whether the sideways adjuster waits until the vertical is likely inside.
    pub vertical_first: bool,
}

impl Task {
    /// Defaults: centre, 95 %, two shots at the last setting.
    pub fn new(adjusters: Vec<Range>, tolerance: f64) -> Self {
        Task {
            adjusters,
            tolerance,
            aim: [0.0; 2],
            level: 0.95,
            least_shots: 2,
            both_at_once: true,
            vertical_first: true,
        }
    }

    /// The usable adjuster of an axis, the first named.
    pub fn adjuster(&self, axis: Axis) -> Option<usize> {
        self.adjusters
            .iter()
            .position(|a| a.usable && a.axis == axis)
    }
}

/// What has been shot, counted once.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    /// Where the adjusters are now.
    pub here: Place,
    /// Shots at the present setting that count (the judged shooter's, not
    /// called bad, fletched, at the paper's distance).
    pub shots_here: usize,
    /// Shots in all that count.
    pub shots: usize,
    /// Shots that count beyond the first at their setting.
    pub repeats: usize,
    /// Changes of setting.
    pub moves: usize,
    /// Lowest and highest position shot, for each adjuster.
    pub reached: Vec<(f64, f64)>,
}

impl Track {
    /// Counts the shots of `judged` with the adjusters now at `here`.
    pub fn count(shots: &[Obs], here: &Place, judged: Shooter) -> Self {
        let mut track = Track {
            here: Place {
                shooter: judged,
                arrow: None,
                bare: false,
                ..here.clone()
            },
            shots_here: 0,
            shots: 0,
            repeats: 0,
            moves: 0,
            reached: vec![(0.0, 0.0); here.positions.len()],
        };
        let mut last: Option<&Place> = None;
        let mut counted: Option<&Place> = None;
        for shot in shots {
            if last.is_some_and(|l| !l.same_setting(&shot.place)) {
                track.moves += 1;
            }
            last = Some(&shot.place);
            for (r, p) in track.reached.iter_mut().zip(&shot.place.positions) {
                *r = (r.0.min(*p), r.1.max(*p));
            }
            let near = (shot.place.distance_m / here.distance_m).ln().abs() < 0.05;
            if shot.called_bad || shot.place.bare || shot.place.shooter != judged || !near {
                continue;
            }
            track.shots += 1;
            if counted.is_some_and(|c| c.same_setting(&shot.place)) {
                track.repeats += 1;
            }
            counted = Some(&shot.place);
            if shot.place.same_setting(here) {
                track.shots_here += 1;
            }
        }
        if last.is_some_and(|l| !l.same_setting(here)) {
            track.moves += 1;
        }
        track
    }
}
