//! Scatter: whether repeat shots agree. It never blames the archer alone.

use super::safety::not_confirmed;
use super::{count, percent};
use crate::belief::Axis;
use crate::checks::consistency::{Basis, Repeats, Taken};
use crate::units::System;

/// The consistency check.
pub fn scatter(found: &Repeats, system: System) -> String {
    told(found, true, system)
}

/// The same while something forbids the next shot: none is asked for.
pub(super) fn scatter_under_a_stop(found: &Repeats, system: System) -> String {
    told(found, false, system)
}

fn told(found: &Repeats, may_shoot: bool, system: System) -> String {
    let again = match may_shoot {
        true => " Shoot again at this setting.",
        false => "",
    };
    match found {
        Repeats::None(0) => "No shot counts yet.".into(),
        Repeats::None(1) => format!("1 shot, not repeated yet.{again}"),
        Repeats::None(_) => format!("No setting was shot twice yet.{again}"),
        Repeats::NotConfirmed(open) => not_confirmed(open),
        Repeats::Pair {
            basis,
            apart,
            limit,
            agree,
        } => {
            let (how, then) = match agree {
                true => ("agree within", "Ok so far."),
                false => ("differ by", "A third shot will tell."),
            };
            let (apart, limit) = (system.tear(*apart), system.tear(*limit));
            format!("{} {how} {apart} (limit {limit}). {then}", rests_on(basis))
        }
        Repeats::Scatter {
            basis,
            found,
            taken,
        } => {
            if *taken == Taken::Bent {
                return bent(basis, may_shoot);
            }
            let side = match found.axis {
                Axis::Right => "sideways",
                Axis::Up => "up and down",
            };
            let (figure, limit) = (system.tear(found.figure), system.tear(found.limit));
            let then = match taken {
                Taken::Ok => String::new(),
                Taken::Normal {
                    tolerance,
                    shots,
                    twice,
                } => format!(
                    " Normal for this release. To prove {} takes about {shots} shots, {} about {twice}.",
                    system.tear(*tolerance),
                    system.tear(2.0 * tolerance)
                ),
                Taken::Near if !may_shoot => " Close to the limit.".into(),
                Taken::Near => " Close to the limit: go on with care.".into(),
                Taken::Open => format!(
                    " Chance that it is over: {}. More shots will tell.",
                    percent(found.probability_over)
                ),
                Taken::Bent => String::new(),
                Taken::Over => " A move cannot be judged. It may be the hold, a loose part, or something touching the arrow.".into(),
            };
            format!(
                "Scatter {figure} {side} (limit {limit}), by {}.{then}",
                rests_on(basis)
            )
        }
    }
}

/// Shots that agree at one setting, with settings that lie off one line.
fn bent(basis: &Basis, may_shoot: bool) -> String {
    let more = match may_shoot {
        true => " Shoot two more at one setting.",
        false => "",
    };
    format!(
        "{} agree, but the settings do not lie on one line. The response may be bent, or the shots scatter.{more}",
        rests_on(basis)
    )
}

/// What the check rests on: `2 shots at this setting`.
fn rests_on(basis: &Basis) -> String {
    let shots = count(basis.shots, "shot");
    match basis.settings {
        1 if basis.here => format!("{shots} at this setting"),
        1 => format!("{shots} at an earlier setting"),
        n => format!("{shots} repeated at {n} settings"),
    }
}
