//! Everything that may stand in the way of a rest move.

use crate::checks::response::{Chance, Instead, Obstacle, OutOfReach};
use crate::gear::{AdjusterKind, Axis};
use crate::question::Answer;

pub(super) fn obstacles() -> Vec<Obstacle> {
    let instead = |axis, has: &[AdjusterKind], strings| {
        Obstacle::NoAdjuster(Instead {
            axis,
            has: has.to_vec(),
            strings,
        })
    };
    let out_of_reach = |kind: AdjusterKind, has: &[AdjusterKind], strings| OutOfReach {
        kind,
        off: 22.0,
        longest: 9.0,
        instead: Instead {
            axis: kind.axis(),
            has: has.to_vec(),
            strings,
        },
    };
    vec![
        Obstacle::HugeTear(62.0, 40.0),
        Obstacle::Weak(out_of_reach(AdjusterKind::RestSideways, &[], false)),
        Obstacle::Weak(out_of_reach(AdjusterKind::NockingPoint, &[], true)),
        Obstacle::Weak(OutOfReach {
            off: 7.0,
            ..out_of_reach(AdjusterKind::RestSideways, &[], false)
        }),
        Obstacle::Short(out_of_reach(AdjusterKind::RestSideways, &[], true)),
        Obstacle::Short(out_of_reach(AdjusterKind::RestHeight, &[], false)),
        Obstacle::Short(out_of_reach(
            AdjusterKind::NockingPoint,
            &[AdjusterKind::NockingPoint, AdjusterKind::RestHeight],
            false,
        )),
        Obstacle::NoResponse(
            AdjusterKind::RestSideways,
            Chance {
                is: 0.95,
                wanted: 0.85,
            },
        ),
        Obstacle::Silent(AdjusterKind::RestHeight, 2, 0.85),
        Obstacle::Jumps(0.93),
        Obstacle::Travel(0.31),
        instead(Axis::Vertical, &[], false),
        instead(Axis::Sideways, &[AdjusterKind::BraceHeight], true),
        Obstacle::Contact(Answer::Cable.into()),
    ]
}
