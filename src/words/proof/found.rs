//! What a stage found.

use super::super::step::since;
use super::super::{broadhead, caution, count, danger, one_time_in, percent};
use super::face::{aside, landed, length};
use super::{instructions, kind};
use crate::cautions::Caution;
use crate::gear::Card;
use crate::proof::sight::{PinMove, SightMove};
use crate::proof::{
    Acts, AimFound, AlongFound, Distances, FaceUnit, Found, LineFound, More, PairFound, Read,
    Stage, StageVerdict,
};
use crate::session::Impact;
use crate::step::State;
use crate::units::{Length, MM_PER_INCH, System, trim_number};

/// What is said of a stage that is not shot yet, where how it is shot stands
/// beside it.
pub(crate) const NOT_SHOT: &str = "Nothing is shot here yet.";

/// What a stage found, and why no move is suggested where it is off and there
/// is none. Of a stage not shot yet: how it is shot.
pub fn found(verdict: &StageVerdict, card: &Card, system: System) -> String {
    let text = match &verdict.found {
        Found::LeftOut => "Left out knowingly.".into(),
        Found::Levels(state) => levels(*state),
        Found::LevelsFirst => "Levels first. A canted bow or a crooked sight axis makes the same pattern. Answer levels ok.".into(),
        Found::NotShot => instructions(verdict.stage, card, system).how,
        Found::NotBare(found) => {
            format!("Do not shoot it. {} Or leave the stage out.", danger(found))
        }
        Found::Strikes(head) => {
            format!("Do not shoot it. {}", broadhead(*head).unwrap_or_default())
        }
        Found::RiserFrontUnknown => "Measure from the rest contact to the riser's front and put it on the card (riser front). A broadhead must stay ahead of hand and riser at full draw.".into(),
        Found::OneKind => both_wanted(verdict.stage),
        Found::Pair(found) => pair(verdict.stage, found, system),
        Found::Along(found) => along(verdict.stage, verdict.status, found, system),
        Found::FewDistances(shot) => distances(*shot),
        Found::Line(found) => line(found, system),
        Found::OneSetting { distance, sd } => format!(
            "Single arrows scatter about {} each way at {}. Shoot the same at another setting to compare.",
            length(*sd, FaceUnit::of(system)),
            system.shot_from(*distance)
        ),
        Found::TwoSettings { .. } => two_settings(verdict, system),
        Found::Aim(found) => aim(verdict.status, found, system),
    };
    match &verdict.correction {
        Some(Err(why)) => format!("{text} {}", super::no_move(*why)),
        _ => text,
    }
}

/// How many more arrows may tell: a forecast.
pub(crate) fn more(more: More) -> String {
    let each = if more.of_each { " of each" } else { "" };
    let n = more.arrows;
    if more.at_least {
        format!("It may take {n} more{each}, or more than that.")
    } else {
        format!("About {n} more{each} may tell.")
    }
}

fn levels(state: State) -> String {
    match state {
        State::Ok => "Level.".into(),
        State::Off => {
            "Level it first: a crooked sight fakes a wrong centre shot at distance.".into()
        }
        State::Skipped => "Left out knowingly.".into(),
        State::Again(why) => format!("Level it again: {}.", since(why)),
        _ => "Bow, arrow and sight axes, before anything is shot at distance.".into(),
    }
}

fn both_wanted(stage: Stage) -> String {
    match (stage, stage.whats()) {
        (Stage::Torque, _) => {
            "Both ways at one distance are wanted: 3 turned each way, same aim, sight untouched."
                .into()
        }
        (_, [first, second]) => format!(
            "Both kinds at one distance are wanted: 3 {} and 2 or 3 {}, same aim, sight untouched.",
            kind(*first),
            kind(*second)
        ),
        _ => NOT_SHOT.into(),
    }
}

/// How often chance alone parts groups so far.
fn by_chance(chance: f64) -> String {
    match chance {
        p if p < 0.2 => format!("By chance alone that happens about {}.", one_time_in(p)),
        _ => "That may well be chance.".into(),
    }
}

fn pair(stage: Stage, found: &PairFound, system: System) -> String {
    let unit = FaceUnit::of(system);
    let who = match stage {
        Stage::Broadhead => "Broadheads",
        _ => "Bare shafts",
    };
    let d = &found.difference;
    let at = Impact {
        right: d.right,
        up: d.up,
    };
    let distance = system.shot_from(found.distance);
    let mut parts = match landed(at, unit) {
        Some(away) => vec![
            format!("{who} land {away} of the others at {distance}."),
            by_chance(d.judged_chance()),
        ],
        None => vec![format!(
            "{who} land together with the others at {distance}."
        )],
    };
    parts.push(format!(
        "Chance that they truly land within {}: {}.",
        length(found.limit, unit),
        percent(found.odds)
    ));
    if found.powder_first {
        parts.push("Powder test first: contact fakes this.".into());
    }
    parts.extend(found.acts.map(|acts| {
        let side = match acts {
            Acts::Weak => "weak",
            Acts::Stiff => "stiff",
        };
        format!(
            "With fingers a bare shaft on that side says the arrow acts {side} (a traditional forum; false when it strikes the riser). Try plunger, point or draw weight before the rest."
        )
    }));
    parts.join(" ")
}

fn along(stage: Stage, status: State, found: &AlongFound, system: System) -> String {
    let (unit, one) = (FaceUnit::of(system), &found.along);
    let apart = length(one.mm.abs(), unit);
    let at = system.shot_from(found.distance);
    // Said so that it holds for either hand: which way the bow was turned says
    // nothing, whether the arrows went with it does.
    let landed = match (stage, one.mm < 0.0) {
        (Stage::Creep, true) => format!("Pulled hard they land {apart} low of the others at {at}."),
        (Stage::Creep, false) => {
            format!("Pulled hard they land {apart} high of the others at {at}.")
        }
        (_, true) => format!(
            "Turned both ways they land {apart} apart at {at}, each away from the side the bow was turned to."
        ),
        (_, false) => format!(
            "Turned both ways they land {apart} apart at {at}, each to the side the bow was turned to."
        ),
    };
    let chance = format!(
        "Chance that it is truly within {}: {}.",
        length(found.limit, unit),
        percent(found.odds)
    );
    let then = match (status, stage) {
        (State::Ok, Stage::Creep) => " How hard the wall is held does not matter.".into(),
        (State::Ok, _) => " The rest stands well fore and aft.".into(),
        (State::Off, Stage::Creep) => format!(" {}", twist(one.mm)),
        (State::Off, _) => {
            let far = match system {
                System::Mm => "3 mm",
                System::Inch => "1/8 in",
            };
            format!(
                " Move the rest fore or aft {far} (from memory), then shoot both again. Keep the way that brings them together, reverse it if not. Look at centre shot afterwards."
            )
        }
        _ => String::new(),
    };
    format!("{landed} {} {chance}{then}", by_chance(one.chance()))
}

/// The cable named first is the one for where they land.
fn twist(up: f64) -> String {
    let (one, other) = if up > 0.0 {
        ("high", "low")
    } else {
        ("low", "high")
    };
    format!(
        "{} Then put half a twist on one cable, and shoot both again. The cable for {one} is not the one for {other}. Which one it is depends on the kind of cam: see the maker's rule. What it changes is measured again.",
        caution(Caution::Press)
    )
}

fn distances(shot: Distances) -> String {
    format!(
        "{} of {} distances are shot. What the line means waits for all of them, two arrows or more at each and well apart.",
        shot.shot, shot.asked
    )
}

const SIDES: (&str, &str) = ("left", "right");

fn line(found: &LineFound, system: System) -> String {
    let (unit, drift) = (FaceUnit::of(system), &found.drift);
    let drifts = aside(drift.over_span(), SIDES, unit)
        .map_or_else(|| "do not drift,".into(), |far| format!("drift {far}"));
    let mut parts = vec![format!(
        "From {} to {} the arrows {drifts} ± {} (limit {}, by this archer's scatter there).",
        system.shot_from(Length::from_m(drift.span.0)),
        system.shot_from(Length::from_m(drift.span.1)),
        length(drift.over_span_se(), unit),
        length(found.limit, unit)
    )];
    match (drift.bend, found.bends_within) {
        (Some(bend), Some(straight)) => {
            let stands =
                aside(bend.mm, SIDES, unit).map_or_else(|| "on".into(), |far| format!("{far} of"));
            parts.push(format!("The middle stands {stands} the straight line."));
            parts.push(format!(
                "Chance of a slant over the limit: {}; of a curve over it: {}.",
                percent(1.0 - found.leans_within),
                percent(1.0 - straight)
            ));
        }
        _ => parts.push(format!(
            "Chance that it is straight within the limit: {}.",
            percent(found.leans_within)
        )),
    }
    parts.extend(found.read.map(|r| read(r).into()));
    parts.extend(found.waits.map(distances));
    parts.join(" ")
}

const fn read(read: Read) -> &'static str {
    match read {
        Read::Both => {
            "A slanting line and a curved one: with fingers the slant is read as centre shot, the curve as plunger tension (common practice, no source). Set centre shot first, then shoot the line again."
        }
        Read::CentreShot => {
            "A slanting line: with fingers that is read as centre shot (common practice, no source)."
        }
        Read::Curve => {
            "A curved line: with fingers that is read as plunger tension (common practice, no source). Wind bends a line as well: believe it in calm air only."
        }
        Read::Slant => {
            "With a release aid a slanting line is the rest, or a level that is off. Look at the levels once more before the rest is moved."
        }
    }
}

fn two_settings(verdict: &StageVerdict, system: System) -> String {
    let Found::TwoSettings {
        here,
        there,
        setting,
        odds: narrower,
        ..
    } = verdict.found
    else {
        return String::new();
    };
    let unit = FaceUnit::of(system);
    let then = match verdict.status {
        State::ShootMore => " Too near to call: shoot 6 more at each, or keep either.",
        _ => "",
    };
    format!(
        "Arrows scatter {} each way here, {} at setting {setting}. Chance that here is the narrower: {}.{then}",
        length(here, unit),
        length(there, unit),
        percent(narrower)
    )
}

fn aim(status: State, found: &AimFound, system: System) -> String {
    let unit = FaceUnit::of(system);
    let landed = landed(found.centre, unit).map_or_else(
        || "on the spot".into(),
        |away| format!("{away} of the spot"),
    );
    let mut parts = vec![format!(
        "The group's centre is {landed} at {}.",
        system.shot_from(found.distance)
    )];
    parts.extend(found.odds.map(|chance| {
        format!(
            "Chance that it truly lies within {}: {}.",
            length(found.limit, unit),
            percent(chance)
        )
    }));
    if status != State::Ok {
        parts.push(found.sight.map_or_else(
            || "Move the pin toward the miss. Measure eye to pin before paper, and its length and clicks are worked out.".into(),
            |sight| pin(&sight, system),
        ));
    }
    parts.join(" ")
}

/// How far the pin goes: `Move the pin 2.3 mm left (12 clicks), toward the miss.`
pub(super) fn pin(sight: &SightMove, system: System) -> String {
    let part = |axis: &PinMove, minus: &str, plus: &str| {
        let size = match system {
            System::Mm => format!("{} mm", trim_number(axis.mm.abs(), 1)),
            System::Inch => format!("{:.3} in", axis.mm.abs() / MM_PER_INCH),
        };
        let clicks = axis.clicks.map_or(String::new(), |n| {
            format!(" ({})", count(n.unsigned_abs() as usize, "click"))
        });
        let way = if axis.mm < 0.0 { minus } else { plus };
        let moves = axis.clicks.is_none_or(|n| n != 0) && axis.mm.abs() >= 0.05;
        moves.then(|| format!("{size} {way}{clicks}"))
    };
    let parts = [
        part(&sight.right, "left", "right"),
        part(&sight.up, "down", "up"),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        "The sight stays.".into()
    } else {
        format!("Move the pin {}, toward the miss.", parts.join(" and "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::sight::sight_move;

    #[test]
    fn the_pin_goes_toward_the_miss_in_its_own_words() {
        for (right, up, said) in [
            (
                -50.0,
                0.0,
                "Move the pin 2.3 mm left (12 clicks), toward the miss.",
            ),
            (
                50.0,
                0.0,
                "Move the pin 2.3 mm right (12 clicks), toward the miss.",
            ),
            (
                0.0,
                20.0,
                "Move the pin 0.9 mm up (5 clicks), toward the miss.",
            ),
            (
                0.0,
                -20.0,
                "Move the pin 0.9 mm down (5 clicks), toward the miss.",
            ),
            (0.0, 0.0, "The sight stays."),
        ] {
            let found = sight_move((right, up), 840.0, 18_000.0, Some(0.2)).unwrap();
            assert_eq!(pin(&found, System::Mm), said);
        }
    }

    #[test]
    fn the_cable_named_first_is_the_one_for_where_they_land() {
        assert!(twist(90.0).contains("The cable for high is not the one for low"));
        assert!(twist(-90.0).contains("The cable for low is not the one for high"));
    }
}
