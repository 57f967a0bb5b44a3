//! What each answer means.

use super::offers::reach;
use crate::question::{Answer, InspectPart, Question, Refusal, Test};
use crate::trouble::{PathStep, Says};

/// What one of a step's answers means.
pub fn means(step: &PathStep, answer: Answer) -> String {
    match (&step.says, step.id) {
        (Says::Resume(_), _) => "go on with paper; the likely tear is forgotten".into(),
        (Says::Fix { by_card: true, .. }, _) => "look through it once more".into(),
        (Says::Fix { .. }, _) if step.reason == Refusal::Incident => {
            "it is fixed: this part is looked at again".into()
        }
        (Says::Fix { .. }, _) => "it is fixed: go on with paper, 3 shots before anything is moved; the likely tear is forgotten".into(),
        (Says::Asks(_), Question::Part(part)) => of_part(part, answer).into(),
        (Says::Asks(_), Question::Test(test)) => {
            let offer = step.offers.iter().find(|o| o.id == answer);
            offer.map_or_else(|| asked(test, answer, step.reason).into(), reach)
        }
        (Says::Asks(_), _) => String::new(),
    }
}

const fn of_part(part: InspectPart, answer: Answer) -> &'static str {
    match (part, answer) {
        (InspectPart::Draw, Answer::Sound) => {
            "no creak, no shift. First shots close in, with an arrow that was not part of it"
        }
        (_, Answer::Sound) => "nothing found, go on",
        _ => "do not draw the bow",
    }
}

/// What an answer means, where that depends on why it is asked.
const fn asked(test: Test, answer: Answer, reason: Refusal) -> &'static str {
    match (test, answer, reason) {
        (Test::OneArrow, Answer::Same, Refusal::Jumps) => "one arrow jumps as well",
        _ => of_test(test, answer),
    }
}

/// What an answer to a test means.
pub(super) const fn of_test(test: Test, answer: Answer) -> &'static str {
    match (test, answer) {
        (Test::PutBack, _) => "back at the start, recorded as a move",
        (Test::Contact, Answer::None) => "nothing but the rest's own track",
        (Test::Contact, Answer::Rest) => "the vanes or shaft hit the rest",
        (Test::Contact, Answer::Cable) => "the vanes hit a cable or its guard",
        (Test::Contact, _) => "it hits the riser, shelf or clothing",
        (Test::RestMoves, Answer::Yes) => "it goes as far as it was turned, and stays",
        (Test::RestMoves, _) => "it is loose, slips, or does not follow the screw",
        (Test::Torque, Answer::Same) => "the hand is not it",
        (Test::Torque, _) => {
            "the hand moves the tear: settle the grip first, the rest was not to blame"
        }
        (Test::Timing, Answer::Together) => "timing is not it",
        (Test::Timing, _) => "a badly timed bow cannot be papered out",
        (Test::WallHold, Answer::Same) => "how hard the wall is held is not it",
        (Test::WallHold, _) => "the tear comes and goes with the hold: cam timing or a draw stop",
        (Test::Lean, Answer::Upright) => "lean is not it",
        (Test::Lean, _) => "the string's plane is off the arrow's",
        (Test::OtherArrow, Answer::Same) => "the arrow is not it",
        (Test::OtherArrow, _) => "the arrow is the cause",
        (Test::LimbsTrue, Answer::True) => "the bow stands straight",
        (Test::LimbsTrue, _) => "a limb or its seat is out of line",
        (Test::RestTiming, Answer::Right) => "the rest works as it should",
        (Test::RestTiming, _) => "late or early, it touches the vanes or lets the arrow sag",
        (Test::Loose, Answer::Tight) => "nothing moves",
        (Test::Loose, _) => "a part moves from shot to shot",
        (Test::OneSide, Answer::Yes) => "backlash is not it",
        (Test::OneSide, _) => {
            "set it again from one side and lock it; enter a calipers reading as the move: rest at, then the reading"
        }
        (Test::OneArrow, Answer::Same) => "one arrow scatters as much",
        (Test::OneArrow, _) => "the arrows differ among themselves",
        (Test::BadShots, Answer::None) => "all as usual",
        (Test::BadShots, _) => "undo those entries and record them as called bad; then shoot on",
        (Test::Tired, Answer::Same) => "the scatter stays",
        (Test::Tired, _) => {
            "it was the archer's day: go on, with a rest after 30 shots at most (juniors 15)"
        }
        (Test::SecondShooter, Answer::Same) => "the bow scatters whoever shoots: equipment",
        (Test::SecondShooter, _) => {
            "the bow is in order; the owner's grip or face pressure moves the tear. Relaxed open hand, then more shots; or a tolerance this archer can show"
        }
        (Test::RightArrow, Answer::Yes) => "the right arrow",
        (Test::RightArrow, _) => "another arrow was shot",
        (Test::DrawLength, Answer::Right) => "draw length is not it",
        (Test::DrawLength, _) => "draw length is off",
        (Test::DrawWeight, Answer::Right) => "draw weight is not it",
        (Test::DrawWeight, _) => "the arrow's spine was worked out from a wrong weight",
        (Test::WeighBow, Answer::NoScale) => "there is no scale here",
        (Test::WeighBow, Answer::Weighed) => "it was weighed",
        (Test::WeighBow, Answer::AsCard) => {
            "the card's weight is right; it goes on the card as weighed"
        }
        (Test::WeighBow, _) => "the spine check was worked out from a wrong weight",
        (Test::NockingPoint, Answer::Right) => "where it should be, nock lets go at a tap",
        (Test::NockingPoint, _) => "the nocking point or nock is off",
        (Test::CardComplete, Answer::Nothing) => "the card is complete",
        (Test::CardComplete, _) => "there is",
        (Test::OtherPoint, Answer::Better) => "put that point on the card and go on",
        (Test::OtherPoint, _) => "the point is not it",
        (Test::WeightsRight | Test::LengthsRight, Answer::Right) => "the card is right",
        (Test::WeightsRight | Test::LengthsRight, _) => "the card is wrong",
        (Test::LimitRight, Answer::Right) => "they are right",
        (Test::LimitRight, _) => "a figure is wrong",
        (Test::ArrowAsCard, Answer::Same) => "the card's arrow is right",
        (Test::ArrowAsCard, _) => "the spine check was worked out from a wrong arrow",
        (Test::MakerChart, Answer::No) => "the arrow is not shot",
        (Test::MakerChart, _) => "it does",
        (Test::SpineRemedy, _) => "none of these",
        (Test::Hand | Test::Arrow | Test::Levels, _) => "",
    }
}
