//! What can be asked.

use std::fmt;

use super::said::{Word, word_table};
use super::{Answer, Contact, InspectPart, Refusal, Said, SetupItem, Stage};
use crate::gear::Release;

word_table! {
    /// A test or a question that is answered in one word.
    pub enum Test {
        /// The powder test: what touches shaft or vanes.
        Contact = "contact",
        /// Whether the bow hand was open and relaxed.
        Hand = "hand",
        /// Two other arrows of the set against the one that was shot.
        Arrow = "arrow",
        /// Whether bow, arrow and sight are level.
        Levels = "levels",
        /// Everything back to the start position.
        PutBack = "put-back",
        /// Whether the rest follows its screw and stays.
        RestMoves = "rest-moves",
        /// Shots with extra care for the bow hand.
        Torque = "torque",
        /// Whether both cams reach their stops together.
        Timing = "timing",
        /// Held at the wall against pulled hard into it.
        WallHold = "wall-hold",
        /// Whether the cam leans.
        Lean = "lean",
        /// Shots with another arrow known to suit the bow.
        OtherArrow = "other-arrow",
        /// Whether limbs and string stand straight.
        LimbsTrue = "limbs-true",
        /// Whether a drop-away rises and falls in time.
        RestTiming = "rest-timing",
        /// Whether any part is loose.
        Loose = "loose",
        /// Whether each setting was approached from one side.
        OneSide = "one-side",
        /// Shots with one marked arrow.
        OneArrow = "one-arrow",
        /// Whether the arrow on the card was shot.
        RightArrow = "right-arrow",
        /// Draw length against the card.
        DrawLength = "draw-length",
        /// Draw weight against the card.
        DrawWeight = "draw-weight",
        /// Nocking point and nock fit.
        NockingPoint = "nocking-point",
        /// Whether the card names all that can be moved.
        CardComplete = "card-complete",
        /// Shots with a lighter or heavier point.
        OtherPoint = "other-point",
        /// Draw weight and arrow weight against the card.
        WeightsRight = "weights-right",
        /// The bow on a scale.
        WeighBow = "weigh-bow",
        /// The maker's figures against the card.
        LimitRight = "limit-right",
        /// Lengths against the card.
        LengthsRight = "lengths-right",
        /// Whether bad shots are among those recorded.
        BadShots = "bad-shots",
        /// Whether the archer is tired.
        Tired = "tired",
        /// Shots by a second shooter.
        SecondShooter = "second-shooter",
        /// One arrow measured against the card.
        ArrowAsCard = "arrow-as-card",
        /// The arrow maker's chart looked up.
        MakerChart = "maker-chart",
        /// Which of the offers for a weak or stiff arrow was done.
        SpineRemedy = "spine-remedy",
    }
}

word_table! {
    /// Work on the bow that is no move of an adjuster.
    pub enum Work {
        /// Work at the press.
        PressWork = "press-work",
        /// A new string.
        NewString = "new-string",
        /// New cables.
        NewCables = "new-cables",
        /// The rest moved fore or aft.
        RestForeAft = "rest-fore-aft",
    }
}

impl Work {
    /// Whether it is done in a press, so that what press work changes is due
    /// again.
    pub(crate) const fn in_a_press(self) -> bool {
        !matches!(self, Self::RestForeAft)
    }
}

/// What was put right at the end of a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fixed {
    /// What this test found.
    Test(Test),
    /// A damaged part.
    Part(InspectPart),
    /// What the end of a path asked for.
    End(Refusal),
}

/// Whatever an answer is recorded under.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// A test or a question.
    Test(Test),
    /// A part looked at after an incident.
    Part(InspectPart),
    /// All parts at once: damage in general, or an older program's one word.
    Inspection,
    /// What a kept practice session says of itself: its bow is virtual.
    Practice,
    /// Work on the bow.
    Work(Work),
    /// A stage of proof left out knowingly.
    Stage(Stage),
    /// The path after a refusal: begun again, or at its end.
    Path(Refusal),
    /// Something was put right.
    Fixed(Fixed),
}

/// The whole inspection.
const INSPECTION: &str = "inspection";
/// A kept practice session.
const PRACTICE: &str = "practice";
/// What stands before the name of a stage that is left out.
const STAGE: &str = "proof-";
/// What stands before the code of the refusal a path belongs to.
const PATH: &str = "remedy-";
/// What stands after the name of what was put right.
const FIXED: &str = "-fixed";

impl Question {
    /// The question that this word stands for.
    pub fn parse(word: &str) -> Option<Self> {
        if word == INSPECTION {
            return Some(Self::Inspection);
        }
        if word == PRACTICE {
            return Some(Self::Practice);
        }
        let plain = Test::parse(word).map(Self::Test);
        let plain = plain.or_else(|| InspectPart::parse(word).map(Self::Part));
        let plain = plain.or_else(|| Work::parse(word).map(Self::Work));
        plain
            .or_else(|| Stage::parse(word.strip_prefix(STAGE)?).map(Self::Stage))
            .or_else(|| Refusal::parse(word.strip_prefix(PATH)?).map(Self::Path))
            .or_else(|| Fixed::parse(word.strip_suffix(FIXED)?).map(Self::Fixed))
    }

    /// The item of the list before paper that is the same fact.
    pub const fn item(self) -> Option<SetupItem> {
        match self {
            Self::Test(Test::Levels) | Self::Stage(Stage::Levels) => Some(SetupItem::Levels),
            Self::Test(Test::Contact) => Some(SetupItem::Clearance),
            _ => None,
        }
    }
}

impl Fixed {
    /// What this word, without its ending, stands for. The powder test comes
    /// before the refusal of the same word, whose path ends with it.
    fn parse(word: &str) -> Option<Self> {
        let test = Test::parse(word).map(Self::Test);
        let test = test.or_else(|| InspectPart::parse(word).map(Self::Part));
        test.or_else(|| Refusal::parse(word).map(Self::End))
    }
}

impl Test {
    /// The answers that are taken from whoever types them, the harmless one
    /// first, for the tests that are asked with any verdict; empty for the
    /// steps after a refusal, whose answers stand in their path.
    pub fn answers(self, release: Release) -> Vec<Answer> {
        match (self, release) {
            (Self::Contact, Release::Fingers) => Contact::ALL.map(Contact::answer).to_vec(),
            (Self::Contact, Release::Aid) => BEFORE_BOTH_ANSWERS.to_vec(),
            (Self::Hand, _) => HAND_ANSWERS.to_vec(),
            (Self::Arrow, _) => ARROW_ANSWERS.to_vec(),
            _ => Vec::new(),
        }
    }
}

/// Answers of the powder test as it is put before the first sideways move of
/// a bow shot with fingers.
pub(crate) const BUTTON_ANSWERS: [Answer; 5] = [
    Answer::None,
    Answer::Button,
    Answer::Rest,
    Answer::Other,
    Answer::NotLooked,
];

/// Answers of the powder test after ragged holes.
pub(crate) const RAGGED_ANSWERS: [Answer; 4] =
    [Answer::None, Answer::Rest, Answer::Cable, Answer::Other];

/// Answers of the powder test before both axes are moved on the word of
/// earlier bows.
pub(crate) const BEFORE_BOTH_ANSWERS: [Answer; 5] = [
    Answer::None,
    Answer::Rest,
    Answer::Cable,
    Answer::Other,
    Answer::NotLooked,
];

/// Answers to the question about the hand.
pub(crate) const HAND_ANSWERS: [Answer; 3] = [Answer::Relaxed, Answer::Not, Answer::NotLooked];

/// Answers of the test with other arrows.
pub(crate) const ARROW_ANSWERS: [Answer; 2] = [Answer::Same, Answer::Odd];

impl fmt::Display for Fixed {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Test(it) => write!(out, "{it}{FIXED}"),
            Self::Part(it) => write!(out, "{it}{FIXED}"),
            Self::End(it) => write!(out, "{it}{FIXED}"),
        }
    }
}

impl fmt::Display for Question {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Test(it) => it.fmt(out),
            Self::Part(it) => it.fmt(out),
            Self::Work(it) => it.fmt(out),
            Self::Inspection => out.pad(INSPECTION),
            Self::Practice => out.pad(PRACTICE),
            Self::Stage(it) => write!(out, "{STAGE}{it}"),
            Self::Path(it) => write!(out, "{PATH}{it}"),
            Self::Fixed(it) => it.fmt(out),
        }
    }
}

impl Word for Question {
    fn read(word: &str) -> Option<Self> {
        Self::parse(word)
    }
}

impl PartialEq<Test> for Said<Question> {
    fn eq(&self, other: &Test) -> bool {
        *self == Question::Test(*other)
    }
}

impl From<Test> for Question {
    fn from(test: Test) -> Self {
        Self::Test(test)
    }
}

impl From<InspectPart> for Question {
    fn from(part: InspectPart) -> Self {
        Self::Part(part)
    }
}

impl From<Work> for Question {
    fn from(work: Work) -> Self {
        Self::Work(work)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every() -> Vec<Question> {
        let mut all = vec![Question::Inspection, Question::Practice];
        all.extend(Test::ALL.map(Question::Test));
        all.extend(InspectPart::ALL.map(Question::Part));
        all.extend(Work::ALL.map(Question::Work));
        all.extend(Stage::ALL.map(Question::Stage));
        all.extend(Refusal::ALL.map(Question::Path));
        all.extend(Test::ALL.map(|t| Question::Fixed(Fixed::Test(t))));
        all.extend(InspectPart::ALL.map(|p| Question::Fixed(Fixed::Part(p))));
        // The path of contact ends with its powder test.
        let ends = Refusal::ALL.into_iter().filter(|r| *r != Refusal::Contact);
        all.extend(ends.map(|r| Question::Fixed(Fixed::End(r))));
        all
    }

    #[test]
    fn every_question_has_a_word_of_its_own_and_is_read_back_from_it() {
        let all = every();
        for (i, question) in all.iter().enumerate() {
            let word = question.to_string();
            assert_eq!(Question::parse(&word), Some(*question), "{word}");
            assert!(all[i + 1..].iter().all(|o| o.to_string() != word), "{word}");
        }
    }

    #[test]
    fn the_words_of_the_file_stay_as_they_are() {
        for (question, word) in [
            (Question::Test(Test::Contact), "contact"),
            (Question::Part(InspectPart::Limbs), "inspect-limbs"),
            (Question::Inspection, "inspection"),
            (Question::Work(Work::PressWork), "press-work"),
            (Question::Stage(Stage::BareShaft), "proof-bare-shaft"),
            (Question::Path(Refusal::NoResponse), "remedy-no-response"),
            (Question::Fixed(Fixed::Test(Test::Loose)), "loose-fixed"),
            (
                Question::Fixed(Fixed::Part(InspectPart::Limbs)),
                "inspect-limbs-fixed",
            ),
            (
                Question::Fixed(Fixed::End(Refusal::TravelLimit)),
                "travel-fixed",
            ),
        ] {
            assert_eq!(question.to_string(), word);
        }
    }

    #[test]
    fn the_harmless_answer_stands_first_and_a_slap_alone_never_refuses() {
        let words = |answers: &[Answer]| answers.iter().map(|a| a.id()).collect::<Vec<_>>();
        assert_eq!(
            words(&BUTTON_ANSWERS),
            ["none", "button", "rest", "other", "not-looked"]
        );
        assert_eq!(
            words(&BEFORE_BOTH_ANSWERS),
            ["none", "rest", "cable", "other", "not-looked"]
        );
        assert_eq!(words(&RAGGED_ANSWERS), ["none", "rest", "cable", "other"]);
        assert_eq!(words(&HAND_ANSWERS), ["relaxed", "not", "not-looked"]);
        let cured = Contact::ALL.into_iter().filter(|a| a.must_be_cured());
        let cured: Vec<Answer> = cured.map(Contact::answer).collect();
        assert_eq!(words(&cured), ["rest", "cable", "other"]);
    }
}
