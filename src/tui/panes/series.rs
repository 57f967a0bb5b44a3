//! The shots of the convergence chart as series: mm from the wanted tear,
//! shot by shot, and where the next is expected.

use crate::advice::TrackPoint;
use crate::tui::model::{Model, Series};
use crate::units::System;
use crate::words;

/// One shot in the chart.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Column {
    pub number: usize,
    right: f64,
    up: f64,
    pub(crate) size: f64,
    pub bad: bool,
    track: Option<TrackPoint>,
    pub moved: bool,
}

impl Column {
    /// The shot in a series, mm from wanted.
    pub const fn shot(&self, series: Series) -> f64 {
        match series {
            Series::Distance => self.size,
            Series::Sideways => self.right,
            Series::UpDown => self.up,
        }
    }

    /// The likely tear after it, mm from wanted.
    pub(crate) fn likely(&self, series: Series, (right, up): (f64, f64)) -> Option<f64> {
        let track = self.track?;
        let (right, up) = (track.right - right, track.up - up);
        Some(match series {
            Series::Distance => right.hypot(up),
            Series::Sideways => right,
            Series::UpDown => up,
        })
    }
}

/// Every shot, in the order they were made.
pub(crate) fn columns(model: &Model) -> Vec<Column> {
    let timeline = model.timeline();
    let aim = timeline.card.paper.aim;
    let points = model.memo.points();
    let shots = timeline.shots.iter().enumerate();
    shots
        .map(|(i, s)| {
            let (right, up) = (s.shot.right - aim.0, s.shot.up - aim.1);
            Column {
                number: i + 1,
                right,
                up,
                size: right.hypot(up),
                bad: s.shot.called_bad || model.analysis.is_flier(i),
                track: points.get(i).copied().flatten(),
                moved: i > 0 && timeline.shots[i - 1].setting != s.setting,
            }
        })
        .collect()
}

/// What a series counts, for the head of its chart.
pub(crate) fn counts(series: Series, system: System) -> String {
    let unit = system.unit();
    match series {
        Series::Distance => format!("{unit} from wanted"),
        Series::Sideways => format!("right above left, {unit}"),
        Series::UpDown => format!("high above low, {unit}"),
    }
}

/// The next shot in a series and how far two of three stray from it, mm from wanted.
pub fn next_shot(model: &Model, series: Series) -> Option<(f64, f64)> {
    let next = model.analysis.next_shot?;
    let aim = model.timeline().card.paper.aim;
    let (right, up) = (next.right - aim.0, next.up - aim.1);
    let (at, sd) = match series {
        Series::Distance => (right.hypot(up), next.sd()),
        Series::Sideways => (right, next.sd_right),
        Series::UpDown => (up, next.sd_up),
    };
    (at.is_finite() && sd.is_finite()).then_some((at, sd * words::TWO_OF_THREE))
}
