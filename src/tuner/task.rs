//! What the tuner may do, and what it has done so far.

use std::collections::{HashMap, HashSet};

use crate::belief::{Axis, Obs, Place, Shooter, same_distance};

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

/// How far an adjuster goes while this bow has not answered, and what counts
/// as an answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Caution {
    /// Lowest and highest position, from the start, until it has answered.
    pub window: (f64, f64),
    /// Largest first move either way, in its unit.
    pub first: f64,
    /// Smallest change of the tear for one unit that counts as an answer, mm.
    pub(crate) answer: f64,
}

/// Change of the tear for a millimetre of rest that counts as an answer, mm
/// (this project's own figure, settled on the judging bench).
pub(crate) const ANSWER_MM: f64 = 0.3;

impl Caution {
    /// Half the travel each way, for an adjuster of which nothing is known
    /// but that.
    pub fn of(range: &Range) -> Self {
        let half = 0.5 * range.high.max(-range.low);
        Self {
            window: (range.low.max(-half), range.high.min(half)),
            first: half,
            answer: ANSWER_MM,
        }
    }
}

/// The aim and the limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// One entry for each adjuster, in the order of the positions.
    pub adjusters: Vec<Range>,
    /// How careful with each of them, in the same order.
    pub caution: Vec<Caution>,
    /// Largest length of tear less aim that counts as inside, mm.
    pub(crate) tolerance: f64,
    /// The tear wanted, right and up, mm.
    pub aim: [f64; 2],
    /// Probability of being inside at which it is done.
    pub level: f64,
    /// Fewest shots at the last setting.
    pub least_shots: usize,
    /// Whether both axes may be moved at once when both responses are known.
    pub(crate) both_at_once: bool,
    /// Whether what earlier bows taught is believed of this one before it was
    /// moved.
    pub earlier: bool,
    /// Whether both axes may be moved at once on the word of earlier bows.
    pub earlier_both: bool,
    /// Whether the sideways adjuster waits until the vertical is likely inside.
    pub vertical_first: bool,
}

impl Task {
    /// Defaults: centre, 95 %, one shot at the last setting.
    pub fn new(adjusters: Vec<Range>, tolerance: f64) -> Self {
        Task {
            caution: adjusters.iter().map(Caution::of).collect(),
            adjusters,
            tolerance,
            aim: [0.0; 2],
            level: 0.95,
            least_shots: 1,
            both_at_once: true,
            earlier: false,
            earlier_both: false,
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

/// Shots that count at one setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Repeated {
    /// How many.
    pub shots: usize,
    /// How far apart they lie at most, on the worse axis, mm.
    pub(crate) apart: f64,
    /// Whether the adjusters stand there now.
    pub here: bool,
}

/// Shots of one setting, under way.
struct Visited {
    shots: usize,
    low: [f64; 2],
    high: [f64; 2],
    first: usize,
    here: bool,
}

impl Visited {
    fn take(&mut self, tear: [f64; 2]) {
        self.shots += 1;
        for (a, t) in tear.into_iter().enumerate() {
            self.low[a] = self.low[a].min(t);
            self.high[a] = self.high[a].max(t);
        }
    }

    fn repeated(&self) -> Repeated {
        let wide = [0, 1].map(|a| self.high[a] - self.low[a]);
        Repeated {
            shots: self.shots,
            apart: wide[0].max(wide[1]),
            here: self.here,
        }
    }
}

/// What tells one setting from another, nothing redone between.
type SettingKey = (u32, u32, Vec<i64>);

fn key(place: &Place) -> SettingKey {
    let micrometres = |p: &f64| (p * 1e4).round() as i64;
    let positions = place.positions.iter().map(micrometres).collect();
    (place.epoch, place.response_epoch, positions)
}

/// What has been shot, counted once.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    /// Where the adjusters are now.
    pub here: Place,
    /// Shots at the present setting that count (the judged shooter's, not
    /// called bad, fletched, at the paper's distance).
    pub shots_here: usize,
    /// Those of them since the adjusters were last moved: nought until a
    /// move is followed by a shot, at a setting shot before as well.
    pub fresh: usize,
    /// Mean of the tears shot here that count, mm.
    pub mean_here: Option<[f64; 2]>,
    /// Shots in all that count.
    pub shots: usize,
    /// Shots that count beyond the first at their setting.
    pub repeats: usize,
    /// The first setting that was shot more than once.
    pub repeated: Option<Repeated>,
    /// Settings shot more than once, and the shots that count there.
    pub settings_repeated: usize,
    /// See [`Self::settings_repeated`].
    pub shots_repeated: usize,
    /// Changes of setting.
    pub moves: usize,
    /// Lowest and highest position shot, for each adjuster.
    pub reached: Vec<(f64, f64)>,
    /// Different positions shot, for each adjuster.
    pub places: Vec<usize>,
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
            fresh: 0,
            mean_here: None,
            shots: 0,
            repeats: 0,
            repeated: None,
            settings_repeated: 0,
            shots_repeated: 0,
            moves: 0,
            reached: vec![(0.0, 0.0); here.positions.len()],
            places: vec![0; here.positions.len()],
        };
        let mut last: Option<&Place> = None;
        let mut visited: HashMap<SettingKey, Visited> = HashMap::new();
        for shot in shots {
            if last.is_some_and(|l| !l.same_setting(&shot.place)) {
                track.moves += 1;
                track.fresh = 0;
            }
            last = Some(&shot.place);
            for (r, p) in track.reached.iter_mut().zip(&shot.place.positions) {
                *r = (r.0.min(*p), r.1.max(*p));
            }
            let near = same_distance(shot.place.distance_m, here.distance_m);
            if shot.called_bad || shot.place.bare || shot.place.shooter != judged || !near {
                continue;
            }
            let is_here = shot.place.same_setting(here);
            let at = visited.entry(key(&shot.place)).or_insert_with(|| Visited {
                shots: 0,
                low: shot.tear,
                high: shot.tear,
                first: track.shots,
                here: is_here,
            });
            at.take(shot.tear);
            track.shots += 1;
            if is_here {
                track.shots_here += 1;
                let n = track.shots_here as f64;
                let so_far = track.mean_here.unwrap_or_default();
                let mean = [0, 1].map(|a| so_far[a] + (shot.tear[a] - so_far[a]) / n);
                track.mean_here = Some(mean);
                track.fresh += 1;
            }
        }
        if last.is_some_and(|l| !l.same_setting(here)) {
            track.moves += 1;
            track.fresh = 0;
        }
        track.count_repeats(&visited);
        track
    }

    fn count_repeats(&mut self, visited: &HashMap<SettingKey, Visited>) {
        let again = || visited.values().filter(|v| v.shots > 1);
        self.settings_repeated = again().count();
        self.shots_repeated = again().map(|v| v.shots).sum();
        self.repeats = self.shots_repeated - self.settings_repeated;
        for (k, places) in self.places.iter_mut().enumerate() {
            let different: HashSet<i64> = visited.keys().map(|key| key.2[k]).collect();
            *places = different.len();
        }
        self.repeated = again().min_by_key(|v| v.first).map(Visited::repeated);
    }
}
