//! Consistency: whether repeat shots agree well enough to tell anything.
//!
//! Three shots cannot tell a fair archer from a poor one, so the answer has
//! three values and accumulates. It never blames the archer alone: scatter
//! can be a loose part or something touching the arrow.

use super::{Figure, Status, Unit};
use crate::belief::Drift;
use crate::gear::Unconfirmed;
use crate::session::Timeline;
use crate::tuner::Track;
use crate::tuner::gates::{Consistency, Gate};

/// Shots in one sitting after which the archer should rest (common practice,
/// no source); juniors half of it.
pub(crate) const SITTING: usize = 30;
/// The same for juniors.
pub(crate) const JUNIOR_SITTING: usize = 15;
/// A pause this long starts a new sitting, minutes.
const PAUSE_MINUTES: i64 = 60;

/// Shots since the last long pause.
pub fn sitting(timeline: &Timeline) -> usize {
    let mut count = 0;
    let mut later = None;
    for shot in timeline.shots.iter().rev() {
        if later.is_some_and(|t: chrono::DateTime<_>| (t - shot.at).num_minutes() > PAUSE_MINUTES) {
            break;
        }
        later = Some(shot.at);
        count += 1;
    }
    count
}

/// Shots to be within `half` mm of the true mean with 90 % odds when single
/// shots scatter by `sd` on each axis: n = 4.605 sd^2 / half^2, the 90 % point
/// of chi squared with two degrees (-2 ln 0.1).
pub fn shots_to_prove(sd: f64, half: f64) -> u32 {
    (4.605_17 * sd * sd / (half * half))
        .ceil()
        .clamp(1.0, 999.0) as u32
}

/// Whether a drift is worth mentioning: no accident, and more than a
/// millimetre over five shots.
pub(crate) fn drifts(drift: Option<Drift>) -> bool {
    drift.is_some_and(|d| d.probability >= 0.98 && d.per_shot.abs() >= 0.2)
}

/// What the check rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// Shots that repeat another at its setting.
    pub shots: usize,
    /// At so many settings.
    pub(crate) settings: usize,
    /// Whether the first of them is where the bow stands now.
    pub here: bool,
}

/// What the consistency check found.
#[derive(Debug, Clone, PartialEq)]
pub enum Repeats {
    /// Nothing was shot twice at one setting: shots at different settings show
    /// what the moves did, not whether they repeat. So many shots in all.
    None(usize),
    /// Two shots, so far apart, mm: they agree, or a third has to tell.
    Pair {
        /// What it rests on.
        basis: Basis,
        /// How far apart they are, mm.
        apart: f64,
        /// The limit, mm.
        limit: f64,
        /// Whether they agree well enough to go on.
        agree: bool,
    },
    /// More: how far they scatter.
    Scatter {
        /// What it rests on.
        basis: Basis,
        /// The scatter against its limit.
        found: Consistency,
        /// How it is taken.
        taken: Taken,
    },
    /// Good enough, but values behind it were never confirmed.
    NotConfirmed(Vec<Unconfirmed>),
}

/// How a scatter is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken {
    /// Under the limit.
    Ok,
    /// Normal for this release, and wide for the tolerance asked for, mm:
    /// shots to prove that, and twice that.
    Normal {
        /// The tolerance, mm.
        tolerance: f64,
        /// Shots to prove it.
        shots: u32,
        /// Shots to prove twice that.
        twice: u32,
    },
    /// Close to the limit: moves may go on.
    Near,
    /// More shots are needed to tell.
    Open,
    /// The shots at one setting agree and the settings lie off one line: a
    /// bent response, or scatter.
    Bent,
    /// Over the limit: a move cannot be judged.
    Over,
}

impl Repeats {
    /// How the check stands.
    pub const fn status(&self) -> Status {
        match self {
            Self::None(_) | Self::NotConfirmed(_) => Status::Pending,
            Self::Pair { agree, .. } => match agree {
                true => Status::Borderline,
                false => Status::Pending,
            },
            Self::Scatter { taken, .. } => match taken {
                Taken::Ok => Status::Pass,
                Taken::Normal { .. } | Taken::Near => Status::Borderline,
                Taken::Open | Taken::Bent => Status::Pending,
                Taken::Over => Status::Fail,
            },
        }
    }

    /// Its figure, where it has one.
    pub const fn figure(&self) -> Option<Figure> {
        match self {
            Self::None(_) | Self::NotConfirmed(_) => None,
            Self::Pair { apart, limit, .. } => Some(Figure::new(*apart, *limit, Unit::Mm)),
            Self::Scatter { found, .. } => Some(Figure::new(found.figure, found.limit, Unit::Mm)),
        }
    }

    /// Not known yet where it would be good enough and rests on these values.
    pub(crate) fn held(self, open: Vec<Unconfirmed>) -> Self {
        match self.status() {
            Status::Pass | Status::Borderline if !open.is_empty() => Self::NotConfirmed(open),
            _ => self,
        }
    }
}

/// The consistency check.
pub(crate) fn check(found: &Consistency, track: &Track, tolerance: f64) -> Repeats {
    let Some(first) = track.repeated else {
        return Repeats::None(track.shots);
    };
    let basis = Basis {
        shots: track.shots_repeated,
        settings: track.settings_repeated,
        here: first.here,
    };
    let pair = track.repeats == 1;
    match found.gate {
        Gate::SoFar | Gate::Wait
            if pair && (found.gate == Gate::SoFar || first.apart > found.limit) =>
        {
            Repeats::Pair {
                basis,
                apart: first.apart,
                limit: found.limit,
                agree: found.gate == Gate::SoFar,
            }
        }
        gate => Repeats::Scatter {
            basis,
            found: *found,
            taken: taken(gate, found.figure, tolerance),
        },
    }
}

fn taken(gate: Gate, figure: f64, tolerance: f64) -> Taken {
    match gate {
        Gate::Pass if figure > 1.2 * tolerance => Taken::Normal {
            tolerance,
            shots: shots_to_prove(figure, tolerance),
            twice: shots_to_prove(figure, 2.0 * tolerance),
        },
        Gate::Pass => Taken::Ok,
        Gate::SoFar => Taken::Near,
        Gate::Wait => Taken::Open,
        Gate::Bent => Taken::Bent,
        Gate::Refuse => Taken::Over,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked rows of shots for a 90 % mean-error radius, known scatter:
    /// h = 6: 2, 4, 11; h = 4: 3, 8, 24; h = 3: 5, 13, 42 for sd 3, 5, 9.
    #[test]
    fn shots_to_prove_a_tolerance_follow_chi_squared() {
        let row = |h: f64| [3.0, 5.0, 9.0].map(|sd| shots_to_prove(sd, h));
        assert_eq!(row(6.0), [2, 4, 11]);
        assert_eq!(row(4.0), [3, 8, 24]);
        assert_eq!(row(3.0), [5, 13, 42]);
    }
}
