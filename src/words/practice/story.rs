//! The story of the program's own advice on a practice bow, a line an event.

use super::super::{headline, tear_with_unit};
use super::bench::seen;
use super::ends::ended;
use crate::practice::{Asked, Told};
use crate::units::System;

/// One event of the story.
pub(crate) fn told(event: &Told, system: System) -> String {
    match event {
        Told::Shot(number, shot) => {
            let marks = [
                (shot.bare, ", bare"),
                (shot.ragged, ", ragged"),
                (shot.slit_extra, ", extra slit"),
            ];
            let marks = marks.into_iter().filter(|(is, _)| *is);
            let marks: String = marks.map(|(_, word)| word).collect();
            let tear = tear_with_unit(shot.tear(), system);
            format!("shot {number}: {tear}{marks}")
        }
        Told::Advised(asked, advice) => {
            let asked = match asked {
                Asked::Move => "move",
                Asked::Test => "test",
                Asked::Verdict => "advice",
            };
            format!("{asked}: {}", headline(advice, system))
        }
        Told::Answered(test, answer) => format!("{test}: {answer}"),
        Told::Bench(found) => seen(found),
        Told::Ends(end) => format!("ends: {}", ended(*end)),
    }
}
