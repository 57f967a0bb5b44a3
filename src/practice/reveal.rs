//! What was wrong, and whether the player found it.

use super::play::{Played, play};
use super::{Fault, Practice, Struck};
use crate::question::Refusal;
use crate::session::Timeline;

/// What the player says of the bow at the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Conclusion {
    /// Inside tolerance: hand it over.
    Tuned,
    /// The arrow does not suit this bow.
    Arrow,
    /// Shots do not repeat well enough to tell.
    Archer,
    /// Something touches the arrow.
    Contact,
    /// No answer: show it.
    GaveUp,
}

impl Conclusion {
    /// Every conclusion.
    pub const ALL: [Self; 5] = [
        Self::Tuned,
        Self::Arrow,
        Self::Archer,
        Self::Contact,
        Self::GaveUp,
    ];

    /// As a technician would say it.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Tuned => "it is tuned: hand it over",
            Self::Arrow => "the arrow does not suit this bow",
            Self::Archer => "the shots do not repeat: the archer first",
            Self::Contact => "something touches the arrow",
            Self::GaveUp => "I give up: show me",
        }
    }

    /// The conclusion a refusal's reason stands for, if it stands for one.
    #[must_use]
    pub(crate) fn of_refusal(refusal: Refusal) -> Option<Self> {
        match refusal {
            Refusal::SpineWeak | Refusal::SpineStiff => Some(Self::Arrow),
            Refusal::Scatter => Some(Self::Archer),
            Refusal::Contact => Some(Self::Contact),
            _ => None,
        }
    }
}

/// The end of a practice bow.
#[derive(Debug, Clone, PartialEq)]
pub struct Reveal {
    /// What the player said.
    pub said: Conclusion,
    /// Whether that was right.
    pub right: bool,
    /// Why, in one line.
    pub verdict: String,
    /// What was wrong with the bow, one line a fault.
    pub faults: Vec<String>,
    /// How each of them shows itself, in the same order.
    pub tell_tales: Vec<&'static str>,
    /// Guesses made before the advice was shown, and those that were true.
    pub guesses: (usize, usize),
    /// The true mean tear where the bow stands now, mm right and up.
    pub tear_mm: [f64; 2],
    /// Whether that is inside tolerance.
    pub inside: bool,
    /// Arrows shot and moves made.
    pub shots: u32,
    /// Moves made.
    pub moves: usize,
    /// The program's own advice on the same bow from the start.
    pub program: Played,
}

impl Practice {
    /// What a technician who knew everything would say now.
    #[must_use]
    pub fn right_conclusion(&self, timeline: &Timeline) -> Conclusion {
        if self.arrow_is_wrong(&timeline.card) {
            Conclusion::Arrow
        } else if self.touches().is_some() {
            Conclusion::Contact
        } else if self.plan.has(Fault::PoorArcher) {
            Conclusion::Archer
        } else {
            Conclusion::Tuned
        }
    }

    /// Whether a conclusion is right where the bow stands.
    #[must_use]
    pub(crate) fn is_right(&self, said: Conclusion, timeline: &Timeline) -> bool {
        let right = said == self.right_conclusion(timeline);
        right && (said != Conclusion::Tuned || self.is_inside(timeline))
    }

    /// What was wrong, in plain words.
    #[must_use]
    pub(crate) fn fault_words(&self, timeline: &Timeline) -> Vec<String> {
        let [side, up] = self.hidden.way_mm;
        let way = |mm: f64, minus, plus| if mm < 0.0 { minus } else { plus };
        let vertical = timeline.card.vertical().map_or("rest", |a| a.kind.noun());
        let words = |fault: &Fault| match fault {
            Fault::OffCentre => format!(
                "the rest stood {:.1} mm too far {}",
                side.abs(),
                way(side, "right", "left")
            ),
            Fault::Height => format!(
                "the {vertical} stood {:.1} mm too {}",
                up.abs(),
                way(up, "high", "low")
            ),
            Fault::Backwards => {
                "the tail follows the rest on this bow, against what most guides say".into()
            }
            Fault::Weak => "the arrows were too weak for this bow".into(),
            Fault::Stiff => "the arrows were too stiff for this bow and a finger release".into(),
            Fault::PoorArcher => {
                "the archer's shots spread too widely for any tear to mean much".into()
            }
            Fault::Contact => format!(
                "the vanes struck {} on most shots",
                match self.hidden.touch.map(|t| t.what) {
                    Some(Struck::Cable) => "a cable",
                    Some(Struck::Other) => "the riser",
                    _ => "the rest",
                }
            ),
            Fault::Label => {
                "the weight on the label was about 7 lb too high; the arrow was right all along"
                    .into()
            }
        };
        self.faults().iter().map(words).collect()
    }

    /// Ends it: what was wrong, whether that was found, and what the program
    /// itself would have needed on the same bow.
    #[must_use]
    pub fn reveal(&self, said: Conclusion, timeline: &Timeline) -> Reveal {
        let mut again = Self::new(self.seed, self.level);
        let mut session = again.session();
        let program = play(&mut again, &mut session);
        let right = self.is_right(said, timeline);
        Reveal {
            said,
            right,
            verdict: self.verdict(said, right, timeline),
            faults: self.fault_words(timeline),
            tell_tales: self
                .faults()
                .iter()
                .map(|f| crate::words::practice::tell_tale(*f))
                .collect(),
            guesses: (
                self.guesses().len(),
                self.guesses().iter().filter(|g| g.right).count(),
            ),
            tear_mm: self.mean_tear(timeline),
            inside: self.is_inside(timeline),
            shots: self.fired,
            moves: timeline.moves.len(),
            program,
        }
    }

    fn verdict(&self, said: Conclusion, right: bool, timeline: &Timeline) -> String {
        let truth = self.right_conclusion(timeline);
        match (said, truth) {
            (Conclusion::GaveUp, Conclusion::Tuned) if self.is_inside(timeline) => {
                "it is tuned: you could have handed it over".into()
            }
            (Conclusion::GaveUp, Conclusion::Tuned) => {
                "moves would have brought it within tolerance".into()
            }
            (Conclusion::GaveUp, truth) => format!("the answer was: {}", truth.words()),
            _ if right => format!("right: {}", said.words()),
            (Conclusion::Tuned, Conclusion::Tuned) => {
                "not yet: the true tear is still out of tolerance".into()
            }
            (_, Conclusion::Tuned) => "no: this bow can be tuned as it is".into(),
            (_, truth) => format!("no, the answer was: {}", truth.words()),
        }
    }
}
