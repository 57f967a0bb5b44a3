//! What is to be fixed first: after an answer, and at the end of a path.

use super::super::{caution, cure};
use super::ends::end;
use super::offers::done;
use crate::cautions::Caution;
use crate::gear::CHART_EXAMPLE;
use crate::question::{Answer, Contact, Test};
use crate::trouble::Fix;

/// What is fixed, without the full stop.
pub(super) fn fix(what: &Fix) -> String {
    match what {
        Fix::Answered(Test::Contact, answer) => {
            let found = Contact::of(&(*answer).into());
            format!("{}; then the powder test again", cure(found))
        }
        Fix::Answered(test, answer) => after(*test, *answer),
        Fix::Offered(offer) => done(offer),
        Fix::Part => damaged().trim_end_matches('.').into(),
        Fix::End(left) => end(*left),
    }
}

/// What follows from a damaged part.
pub(super) const fn damaged() -> &'static str {
    "do not draw or shoot the bow. A cracked limb, bent cam or doubtful part goes to the maker or a trained person. Once it is replaced, look at this part again."
}

/// Press work, its caution before it.
fn press(how: &str) -> String {
    format!("{} {how}", caution(Caution::Press))
}

fn after(test: Test, answer: Answer) -> String {
    match (test, answer) {
        (Test::RestMoves, _) => {
            "tighten its mount and lock screw, put it back on its marks, note it".into()
        }
        (Test::Timing, _) => {
            press("Then set the timing, and measure again what press work changes")
        }
        (Test::WallHold, _) => press(&format!(
            "{} Then bring both cams to their stops together on a draw board, and measure again what press work changes. The creep stage after paper shows it at distance",
            caution(Caution::Cams)
        )),
        (Test::Lean, _) => press(
            "Then the yoke: add twists to one leg and take out the same on the other; or shims. On many newer bows this moves a tear that the rest cannot",
        ),
        (Test::OtherArrow, _) => {
            "weigh the bow, look at the arrow's spine; put the other arrow on the card".into()
        }
        (Test::LimbsTrue, _) => {
            "align the limb pockets, or back to the maker for a twisted limb".into()
        }
        (Test::RestTiming, _) => "move the cord, then the powder test".into(),
        (Test::Loose, _) => "tighten it, put the rest back on its marks, note it".into(),
        (Test::OneArrow, _) => {
            "sort them: weigh, spin, flex, nock fit, turn the nocks; set the odd one aside and tune with arrows that agree".into()
        }
        (Test::RightArrow, _) => {
            "shoot the arrow on the card, or put the one shot on the card".into()
        }
        (Test::DrawLength, _) => "set it, or put the true figure on the card".into(),
        (Test::DrawWeight, _) => {
            "put the scale's figure on the card: peak weight, and that it was weighed".into()
        }
        (Test::WeighBow, Answer::Weighed) => {
            "put its weight on the card: peak weight, and that it was read off a scale".into()
        }
        (Test::WeighBow, _) => {
            "put the scale's figure on the card: peak weight, and weighed. The spine check is then worked out again".into()
        }
        (Test::NockingPoint, _) => {
            "set it in its starting band, fit other nocks, then shoot again".into()
        }
        (Test::CardComplete, _) => {
            "put it on the card, at its end under the adjusters, then go on".into()
        }
        (Test::WeightsRight, _) => "put the scales' figures on the card".into(),
        (Test::LengthsRight, _) => {
            "correct shaft length, draw length or rest contact ahead on the card".into()
        }
        (Test::LimitRight, _) => {
            "correct it: the maker's figures on the card, the turns on the list before paper".into()
        }
        (Test::ArrowAsCard, _) => "correct the arrow on the card".into(),
        (Test::MakerChart, _) => format!(
            "put the weakest spine it gives on the card, with what it was read for: arrow.maker_chart = \"{CHART_EXAMPLE}\""
        ),
        _ => String::new(),
    }
}
