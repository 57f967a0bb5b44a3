//! What a finding says: one sentence or a few, the same on screen, command
//! line, sheet and in JSON.

use super::first::{first_move, pad};
use super::response::{known_sentence, reversal};
use super::safety::unconfirmed;
use super::{
    capital, caution, count, danger, earlier_bows, in_order, obstacle, overdraw, percent,
    range_due, scatter, spine, tear_with_unit, waiting,
};
use crate::advice::{
    Backwards, Behind, Chance, Finding, Missing, OUTSIDE, OddArrow, ResponseKnown, RestsOn,
};
use crate::cautions::Caution;
use crate::checks::response::LONG;
use crate::tear::Tear;
use crate::units::{System, clean};

/// What a finding says.
pub(crate) fn say(finding: &Finding, system: System) -> String {
    match finding {
        Finding::RangeListOpen(due) => range_due(*due),
        Finding::Danger(found) => danger(found),
        Finding::Spine(report) => spine(report),
        Finding::WeighBow => format!(
            "A label can be out by 7 lb. {} Weigh the bow on a scale at this archer's draw. Then put it on the card: peak weight, and weighed.",
            caution(Caution::Weighing)
        ),
        Finding::OnlyThese => "With only these arrows your own moves can be recorded. Three good shots in a row within tolerance by the owner lift this, as long as later shots agree. Or close the job as best with these arrows, not matched.".into(),
        Finding::Scatter(found) | Finding::RepeatFirst(found) | Finding::BentOrScatter(found) => {
            scatter(found, system)
        }
        Finding::Obstacle(found) => obstacle(found, system),
        Finding::NextSteps(next) => in_order(next),
        Finding::ArrowSame => "Other arrows of the set tear alike: it is not the one arrow.".into(),
        Finding::OwnerMustShoot => {
            "Another hand, another tear. Only the owner's own shots make it done.".into()
        }
        Finding::Within(chance) => within(chance, system),
        Finding::RestsOn(found) => rests_on(found),
        Finding::ProofMoved(outside) => format!(
            "Chance of being out of tolerance: {} (limit {}). Under the limit, what proof has set stands.",
            percent(*outside),
            percent(OUTSIDE)
        ),
        Finding::ContactFirst(behind) => contact_first(*behind).into(),
        Finding::LongTear(_) => format!(
            "The tear is over {}. Check arrow, draw length, draw weight and nocking point as well (published advice). Its size alone stops nothing.",
            system.tear(LONG)
        ),
        Finding::NotSureYet(chance, Missing::Repeat) => format!(
            "Chance within {}: {}. Two shots may agree by luck. One more that agrees settles it.",
            system.tear(chance.tolerance),
            percent(chance.now)
        ),
        Finding::NothingShot => "Nothing is known of the tear yet.".into(),
        Finding::NotSureYet(chance, Missing::Chance) => within(chance, system),
        Finding::NotSureYet(chance, Missing::Shots(least)) => format!(
            "Chance within {}: {}. At least {} at a setting are wanted to call it done.",
            system.tear(chance.tolerance),
            percent(chance.now),
            count(*least, "shot")
        ),
        Finding::TestMove(first) => first_move(first),
        Finding::Learn => "A test move to see the response near here.".into(),
        Finding::Correct(known) => format!("{}.", known_sentence(known, system)),
        Finding::EarlierBows(bows, known) => {
            earlier_bows(*bows, &known_sentence(known, system))
        }
        Finding::PowderBeforeBoth => "Earlier bows of the folder know both responses well, so both axes can go in one move. That holds only where nothing touches the arrow.".into(),
        Finding::TestTells(telling) => format!(
            "A usual response would change the tear by about {}. {} there will show it (chance {}).",
            system.tear(telling.change),
            capital(&count(telling.shots as usize, "shot")),
            percent(telling.power)
        ),
        Finding::PowderFirst(what) => format!(
            "With fingers a slap of the {} turns the response round. Powder shows it before any move; paper does not. This bow has shown nothing yet.",
            pad(*what)
        ),
        Finding::Slap(what) => format!(
            "The rear of the shaft slaps the {}. A slap is contact: one round of clearing is worth it. It alone stops nothing.",
            pad(*what)
        ),
        Finding::HandFirst => "With a release aid a sideways tear is the hand's before it is the rest's. A steady twist repeats, so the shots cannot show it (common practice).".into(),
        Finding::HandNotRelaxed => "The shots so far were not shot with a relaxed hand. Nothing is moved on account of them.".into(),
        Finding::HandChanged(from, to) => {
            let sideways = |mm: f64| tear_with_unit(Tear::new(mm.round(), 0.0), system);
            format!(
                "With an open hand the tear went from {} to {}. That was not the rest. Earlier shots no longer count.",
                sideways(*from),
                sideways(*to)
            )
        }
        Finding::NotConfirmed(open) => format!(
            "Not confirmed: {}. These are usual values. Confirm or change them on the card.",
            unconfirmed(open)
        ),
        Finding::Waits(found) => waiting(found),
        Finding::Overdraw(behind) => overdraw(*behind),
        Finding::Backwards(found) => backwards(found, system),
        Finding::OddArrowOut(mark) => format!(
            "Arrow {} is odd: two others of the set agree against it. Its shots do not count. Inspect and flex it, look at its nock, then set it aside.",
            clean(mark)
        ),
        Finding::OddArrow(odd) => odd_arrow(odd, system),
        Finding::Fliers(entries) => fliers(entries),
        Finding::RestTheArcher(shots, _) => format!(
            "{} in this session without a rest. Rest the archer before the next group (common practice, no source).",
            count(*shots, "shot")
        ),
        Finding::Drift => "The tear creeps from shot to shot at one setting. Rest the archer, and look for a part that works loose.".into(),
        Finding::PendingMove => {
            "A move is pending. Say whether it was made.".into()
        }
        Finding::OneArrow(mark, found) => format!(
            "Every shot so far came from arrow {}. {}",
            clean(mark),
            obstacle(found, system)
        ),
        Finding::Ragged => "Ragged or smeared holes: something may touch the arrow. Then no rest position means anything.".into(),
        Finding::Reversed(kind, step, _) => reversal(*kind, *step),
        Finding::CardDamaged(lines) => format!(
            "{} of the card cannot be read. tearbench check says which, tearbench card FILE key=value gives it again.",
            count(*lines, "line")
        ),
        Finding::FileHasHoles(n) => format!(
            "This rests on what is left of the file. {} cannot be read or are not there: tearbench check says which.",
            capital(&entries(*n))
        ),
        Finding::FileChanged(n) => format!(
            "{} changed since being recorded: tearbench check says which.",
            capital(&entries(*n))
        ),
    }
}

/// What "within tolerance" rests on, and what one more shot would change.
fn rests_on(found: &RestsOn) -> String {
    let on_the_way = match found.on_the_way {
        0 => String::new(),
        n => format!(" and {n} on the way"),
    };
    let response = match found.response {
        ResponseKnown::NothingMoved => "Nothing was moved",
        ResponseKnown::Known => "The response is known",
        ResponseKnown::Unsure => "The response is not sure yet",
    };
    format!(
        "This rests on {} here{on_the_way}. {response}. One more shot here that agrees makes the chance {}.",
        count(found.here, "shot"),
        percent(found.one_more)
    )
}

const fn contact_first(behind: Behind) -> &'static str {
    match behind {
        Behind::Scatter => {
            "Repeat shots do not agree, and nobody has looked for contact. What knocks on the vanes scatters too."
        }
        Behind::Jumps => {
            "The tear jumps whenever something is moved, and nobody has looked for contact."
        }
        Behind::Reversed => {
            "The tear goes the other way than expected of this bow, and nobody has looked for contact."
        }
    }
}

/// The chance of being within tolerance, against what is asked for.
fn within(chance: &Chance, system: System) -> String {
    format!(
        "Chance within {}: {} (asked for {}).",
        system.tear(chance.tolerance),
        percent(chance.now),
        percent(chance.level)
    )
}

fn backwards(found: &Backwards, system: System) -> String {
    let how = match found.open {
        true => "On this bow the tail goes with the rest, not against it",
        false => "This bow responds the other way round",
    };
    format!(
        "{how}. {}. The moves allow for it.",
        capital(&known_sentence(&found.known, system))
    )
}

fn odd_arrow(odd: &OddArrow, system: System) -> String {
    format!(
        "Arrow {} tears about {} of the others, and its shots count for little. Inspect and flex it, look at its nock and turn it, then set it aside.",
        clean(&odd.mark),
        tear_with_unit(odd.off, system)
    )
}

fn fliers(all: &[u32]) -> String {
    let numbers: Vec<String> = all.iter().map(u32::to_string).collect();
    let (which, counts) = match numbers.len() {
        1 => (
            "Entry",
            "It is taken for a flier or a slip of the finger and does not count. Undo it if it was mistyped.",
        ),
        _ => (
            "Entries",
            "They are taken for fliers or slips of the finger and do not count. Undo what was mistyped.",
        ),
    };
    let lie = if numbers.len() == 1 { "lies" } else { "lie" };
    format!(
        "{which} {} {lie} far from the other shots. {counts}",
        numbers.join(", ")
    )
}

fn entries(n: usize) -> String {
    match n {
        1 => "1 entry".into(),
        n => format!("{n} entries"),
    }
}
