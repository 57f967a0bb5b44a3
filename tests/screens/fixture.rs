//! Advice made by hand, so that the pinned screens change when the screen
//! does and not with every finer estimate.

use std::collections::BTreeMap;

use tearbench::advice::{
    Advice, Analysis, Estimate, GainEstimate, Memo, MoveAdvice, MovePurpose, NextShot, Reason,
    SCHEMA, StepAdvice, TearEstimate, TrackPoint, Verdict,
};
use tearbench::checks::{Check, Checks, Status};
use tearbench::gear::AdjusterKind;
use tearbench::range::Today;
use tearbench::session::Timeline;
use tearbench::units::System;

fn checks() -> Checks {
    Checks {
        safety: Check::measured(
            Status::Pass,
            "6.3 gr/lb at the lightest build, shaft 1.3 in past the rest",
            6.3,
            5.0,
            "gr/lb",
        ),
        spine_match: Check::measured(
            Status::Borderline,
            "the arrow is 18 % weak for this bow: go on, with care",
            1.18,
            1.15,
            "x",
        ),
        consistency: Check::plain(Status::Pending, "three shots more will tell"),
        response: Check::plain(Status::Fail, "the tear does not follow the rest"),
    }
}

fn estimate() -> Estimate {
    let known = GainEstimate {
        mean: -3.1,
        sd: 0.6,
        probability_negative: 0.99,
    };
    let guessed = GainEstimate {
        mean: -1.5,
        sd: 1.2,
        probability_negative: 0.93,
    };
    Estimate {
        tear_mm: Some(TearEstimate {
            right: -18.0,
            up: 3.0,
            sd: 1.4,
        }),
        probability_within_tolerance: Some(0.12),
        gain: BTreeMap::from([("rest-sideways", known), ("rest-height", guessed)]),
    }
}

fn advice() -> Advice {
    let step = StepAdvice {
        adjuster: AdjusterKind::RestSideways,
        amount: -5.75,
        unit: "mm",
        clicks: Some(-23),
        text: "Rest OUT from the riser 5.75 mm (23 clicks, clockwise)".into(),
        say: "rest left 5.75 mm".into(),
    };
    Advice {
        schema: SCHEMA,
        verdict: Verdict::Move,
        refusal: None,
        headline: "Rest OUT 5.75 mm (23 clicks), LEFT".into(),
        reasons: vec![
            Reason::measured(
                "far-out",
                "the mean tear is far outside the ring: a large move tells most",
                18.2,
                6.0,
                "mm",
            ),
            Reason::plain(
                "one-axis",
                "one axis at a time: the vertical is inside already",
            ),
        ],
        movement: Some(MoveAdvice {
            purpose: MovePurpose::Correction,
            steps: vec![step],
            expected_tear_mm: TearEstimate {
                right: -1.0,
                up: 3.0,
                sd: 3.4,
            },
        }),
        probe: None,
        shots_wanted: 0,
        checks: checks(),
        estimate: estimate(),
        shots_here: 2,
    }
}

/// The same advice whatever the shots were; the track follows them.
pub fn analysis(timeline: &Timeline, _system: System, _today: Today, _memo: &mut Memo) -> Analysis {
    let track = timeline.shots.iter().enumerate();
    let track = track
        .map(|(i, s)| {
            let size = s.shot.tear().length();
            let wide = 8.0 / (i + 1) as f64;
            Some(TrackPoint {
                right: s.shot.right + 1.0,
                up: s.shot.up - 1.0,
                band: ((size - wide).max(0.0), size + wide),
                within: 0.1,
            })
        })
        .collect();
    let bad = (0..timeline.shots.len()).map(|i| if i == 1 { 0.7 } else { 0.02 });
    Analysis {
        advice: advice(),
        reckoning: vec![
            "True tear here: 18 mm left, 3 mm high".into(),
            "Best place within reach: 61 %".into(),
        ],
        track,
        bad: bad.collect(),
        scatter: Some((2.5, 1.5)),
        next_shot: Some(NextShot {
            right: -1.0,
            up: 3.0,
            sd_right: 3.5,
            sd_up: 2.5,
        }),
        judged_by_technician: false,
        range_due: None,
    }
}
