//! What was wrong, and whether the player found it.

use super::play::{Played, play};
use super::{Fault, Practice, Struck};
use crate::gear::{AdjusterKind, Card};
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

/// What the player's conclusion is worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judged {
    /// It is right.
    Right(Conclusion),
    /// Given up on a bow that is tuned.
    WasTuned,
    /// Given up on a bow that moves would have tuned.
    MovesWouldHave,
    /// Given up: it was this.
    WasThis(Conclusion),
    /// Called tuned, and the true tear is still out of tolerance.
    NotYet,
    /// Something else was blamed, and the bow can be tuned as it is.
    CanBeTuned,
    /// Something else was said, and it was this.
    WasOther(Conclusion),
}

/// Something that was wrong with the bow, with its figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WasWrong {
    /// How far the rest had to go sideways, mm, right positive.
    OffCentre(f64),
    /// The vertical adjuster, and how far it had to go, mm, up positive.
    Height(AdjusterKind, f64),
    /// The tail goes the same way as the rest.
    Backwards,
    /// The arrow was too weak.
    Weak,
    /// The arrow was too stiff.
    Stiff,
    /// The archer's scatter was too wide.
    PoorArcher,
    /// What the vanes struck.
    Contact(Struck),
    /// How much too high the label was, lb.
    Label(f64),
}

impl WasWrong {
    /// The fault that it is.
    #[must_use]
    pub const fn fault(&self) -> Fault {
        match self {
            Self::OffCentre(_) => Fault::OffCentre,
            Self::Height(..) => Fault::Height,
            Self::Backwards => Fault::Backwards,
            Self::Weak => Fault::Weak,
            Self::Stiff => Fault::Stiff,
            Self::PoorArcher => Fault::PoorArcher,
            Self::Contact(_) => Fault::Contact,
            Self::Label(_) => Fault::Label,
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
    /// What it is worth.
    pub judged: Judged,
    /// What was wrong with the bow.
    pub faults: Vec<WasWrong>,
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

    /// What was wrong, with its figures.
    #[must_use]
    pub(crate) fn was_wrong(&self, timeline: &Timeline) -> Vec<WasWrong> {
        let [side, up] = self.hidden.way_mm;
        let vertical = timeline.card.vertical();
        let vertical = vertical.map_or(AdjusterKind::RestHeight, |a| a.kind);
        let of = |fault: &Fault| match fault {
            Fault::OffCentre => WasWrong::OffCentre(side),
            Fault::Height => WasWrong::Height(vertical, up),
            Fault::Backwards => WasWrong::Backwards,
            Fault::Weak => WasWrong::Weak,
            Fault::Stiff => WasWrong::Stiff,
            Fault::PoorArcher => WasWrong::PoorArcher,
            Fault::Contact => {
                let struck = self.hidden.touch.map(|touch| touch.what);
                WasWrong::Contact(struck.unwrap_or(Struck::Rest))
            }
            Fault::Label => WasWrong::Label(self.label_over_lb()),
        };
        self.faults().iter().map(of).collect()
    }

    /// How much the card that was handed over said too much, lb.
    fn label_over_lb(&self) -> f64 {
        let label = Card::read(&self.card).map_or(0.0, |(card, _)| card.bow.peak_weight.pounds());
        label * (1.0 - self.hidden.weight_share)
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
            judged: self.judged(said, right, timeline),
            faults: self.was_wrong(timeline),
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

    fn judged(&self, said: Conclusion, right: bool, timeline: &Timeline) -> Judged {
        let truth = self.right_conclusion(timeline);
        match (said, truth) {
            (Conclusion::GaveUp, Conclusion::Tuned) if self.is_inside(timeline) => Judged::WasTuned,
            (Conclusion::GaveUp, Conclusion::Tuned) => Judged::MovesWouldHave,
            (Conclusion::GaveUp, truth) => Judged::WasThis(truth),
            _ if right => Judged::Right(said),
            (Conclusion::Tuned, Conclusion::Tuned) => Judged::NotYet,
            (_, Conclusion::Tuned) => Judged::CanBeTuned,
            (_, truth) => Judged::WasOther(truth),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::bow_with;

    /// The label of a bow is out by seven parts of sixty-seven (seven pounds
    /// in sixty of the true weight), whatever the scale has put on the card.
    #[test]
    fn a_label_is_out_by_what_it_said_too_much() {
        let mut practice = bow_with(Fault::Label, 5);
        let mut session = practice.session();
        let label = session.timeline().card.bow.peak_weight.pounds();
        let over = |p: &Practice, s: &crate::session::Session| {
            p.was_wrong(s.timeline())
                .into_iter()
                .find_map(|w| match w {
                    WasWrong::Label(pounds) => Some(pounds),
                    _ => None,
                })
                .expect("its label is out")
        };
        assert!((over(&practice, &session) - label * 7.0 / 67.0).abs() < 1e-9);
        for event in practice
            .work(crate::practice::Job::Weigh, session.timeline())
            .events
        {
            session.record(event).unwrap();
        }
        assert!(session.timeline().card.bow.weighed);
        assert!((over(&practice, &session) - label * 7.0 / 67.0).abs() < 1e-9);
    }

    #[test]
    fn each_fault_is_told_as_itself_and_in_order() {
        for level in crate::practice::LEVELS {
            for seed in 0..12 {
                let practice = Practice::new(seed, level);
                let session = practice.session();
                let told = practice.was_wrong(session.timeline());
                let faults: Vec<Fault> = told.iter().map(WasWrong::fault).collect();
                assert_eq!(faults, practice.faults());
            }
        }
    }
}
