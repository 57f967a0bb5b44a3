//! What the player would do, said before the advice is shown, and how that
//! compares with the advice and with what is true of the bow.

use super::{Conclusion, Practice};
use crate::advice::{Advice, Verdict};
use crate::gear::{AdjusterKind, AdjusterUnit, Card, Step};
use crate::session::Timeline;

/// The size of move a guess is tried with on the hidden bow: a millimetre, or
/// a quarter of a turn.
const TRIED: (f64, f64) = (1.0, 0.25);

/// A guess: the way of a move, or the cause that the rest is left alone for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Guess {
    /// This adjuster, to its positive way or its negative one.
    Move(AdjusterKind, bool),
    /// No move: this is the cause.
    Cause(Conclusion),
}

/// A guess as it was judged when it was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Guessed {
    /// The guess.
    pub guess: Guess,
    /// Whether the advice says the same.
    pub as_advised: bool,
    /// Whether it is true of this bow: the move brings the tear nearer, or the
    /// cause is the cause.
    pub right: bool,
}

impl Guess {
    /// What can be guessed of this bow: both ways of each adjuster that advice
    /// uses on it, then the causes.
    #[must_use]
    pub fn all(card: &Card) -> Vec<Self> {
        let sideways = card.sideways().map(|a| a.kind);
        let vertical = card.vertical().map(|a| a.kind);
        let spring = card.adjuster(AdjusterKind::PlungerTension).map(|a| a.kind);
        let spring = spring.filter(|s| Some(*s) != sideways);
        let kinds = [sideways, vertical, spring].into_iter().flatten();
        let mut all: Vec<Self> = kinds
            .flat_map(|kind| [Self::Move(kind, false), Self::Move(kind, true)])
            .collect();
        let causes = [Conclusion::Arrow, Conclusion::Archer, Conclusion::Contact];
        all.extend(causes.map(Self::Cause));
        all
    }

    /// Whether there is something to guess about this advice.
    #[must_use]
    pub(crate) const fn is_asked_of(advice: &Advice) -> bool {
        matches!(advice.verdict, Verdict::Move | Verdict::Refuse)
    }

    /// Whether the advice says the same.
    #[must_use]
    pub fn is_advised(self, advice: &Advice) -> bool {
        match self {
            Self::Move(kind, plus) => advice.movement.as_ref().is_some_and(|advised| {
                let same = |s: &Step| s.adjuster == kind && (s.amount > 0.0) == plus;
                advised.moves().iter().any(same)
            }),
            Self::Cause(cause) => advice.refusal.and_then(Conclusion::of_refusal) == Some(cause),
        }
    }
}

impl Practice {
    /// Whether a guess is true of the bow where it stands.
    #[must_use]
    pub(crate) fn is_true(&self, guess: Guess, timeline: &Timeline) -> bool {
        let truth = self.right_conclusion(timeline);
        let (kind, plus) = match guess {
            Guess::Cause(cause) => return cause == truth,
            Guess::Move(kind, plus) => (kind, plus),
        };
        if truth != Conclusion::Tuned {
            return false;
        }
        let (mm, turn) = TRIED;
        let size = if kind.unit() == AdjusterUnit::Mm {
            mm
        } else {
            turn
        };
        let amount = if plus { size } else { -size };
        let step = Step {
            adjuster: kind,
            amount,
        };
        let there = timeline.now.after(&[step]);
        let (right, up) = timeline.card.paper.aim;
        let off = |tear: [f64; 2]| (tear[0] - right).hypot(tear[1] - up);
        let now = self.tear_at(timeline, &timeline.now);
        off(self.tear_at(timeline, &there)) < off(now)
    }

    /// Takes the player's guess: judged now, counted at the end.
    pub fn guess(&mut self, guess: Guess, timeline: &Timeline, advice: &Advice) -> Guessed {
        let guessed = Guessed {
            guess,
            as_advised: guess.is_advised(advice),
            right: self.is_true(guess, timeline),
        };
        self.guesses.push(guessed);
        guessed
    }

    /// The guesses so far, in order.
    #[must_use]
    pub fn guesses(&self) -> &[Guessed] {
        &self.guesses
    }

    /// Whether the player is to be asked at this place; once at each.
    pub(crate) fn may_ask(&mut self, timeline: &Timeline) -> bool {
        let here = (timeline.shots.len(), timeline.moves.len());
        self.asked_at.replace(here) != Some(here)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Fault, bow_with};
    use super::*;
    use crate::range::Today;
    use crate::session::{Event, Session};

    fn after_two_shots(practice: &mut Practice) -> Session {
        let mut session = practice.session();
        for _ in 0..2 {
            let shot = practice.shoot(session.timeline());
            session.record(Event::Shot(shot)).unwrap();
        }
        session
    }

    /// The two ways of one adjuster cannot both be right, and the one that
    /// leads to where the rest belongs is.
    #[test]
    fn the_way_the_bow_needs_is_right_and_the_other_is_not() {
        for (fault, axis) in [(Fault::OffCentre, 0), (Fault::Height, 1)] {
            for seed in 0..12 {
                let mut practice = Practice::new(seed, 1);
                if practice.faults() != [fault] {
                    continue;
                }
                let session = after_two_shots(&mut practice);
                let timeline = session.timeline();
                let card = &timeline.card;
                let adjusters = [card.sideways(), card.vertical()];
                let kind = adjusters[axis].unwrap().kind;
                let plus = practice.hidden.way_mm[axis] > 0.0;
                assert!(
                    practice.is_true(Guess::Move(kind, plus), timeline),
                    "{seed}"
                );
                assert!(
                    !practice.is_true(Guess::Move(kind, !plus), timeline),
                    "{seed}"
                );
                for cause in [Conclusion::Arrow, Conclusion::Archer, Conclusion::Contact] {
                    assert!(!practice.is_true(Guess::Cause(cause), timeline));
                }
            }
        }
    }

    #[test]
    fn where_the_rest_is_to_be_left_alone_only_the_cause_is_right() {
        for (fault, level, cause) in [
            (Fault::Contact, 3, Conclusion::Contact),
            (Fault::PoorArcher, 3, Conclusion::Archer),
            (Fault::Weak, 4, Conclusion::Arrow),
        ] {
            let practice = bow_with(fault, level);
            let session = practice.session();
            let timeline = session.timeline();
            for guess in Guess::all(&timeline.card) {
                let right = practice.is_true(guess, timeline);
                assert_eq!(right, guess == Guess::Cause(cause), "{guess:?}");
            }
        }
    }

    #[test]
    fn every_advised_move_and_refusal_can_be_guessed() {
        for (seed, level) in [(7, 1), (3, 2), (4, 3), (8, 4), (2, 5)] {
            let mut practice = Practice::new(seed, level);
            let session = after_two_shots(&mut practice);
            let advice = crate::advice::advise(session.timeline(), Today::now());
            let known = advice.refusal.and_then(Conclusion::of_refusal).is_some();
            if advice.verdict == Verdict::Move || known {
                let all = Guess::all(&session.timeline().card);
                assert!(all.iter().any(|g| g.is_advised(&advice)), "{advice:?}");
                // Digits choose: none may be out of their reach, and two lines
                // stand beside them.
                assert!(all.len() <= 9);
            }
        }
    }

    #[test]
    fn it_is_asked_once_at_each_place_and_kept_as_it_was_judged() {
        let mut practice = Practice::new(7, 1);
        let session = after_two_shots(&mut practice);
        assert!(practice.may_ask(session.timeline()));
        assert!(!practice.may_ask(session.timeline()));
        let advice = crate::advice::advise(session.timeline(), Today::now());
        let guess = Guess::Cause(Conclusion::Contact);
        let guessed = practice.guess(guess, session.timeline(), &advice);
        assert!(!guessed.right && !guessed.as_advised);
        assert_eq!(practice.guesses(), [guessed]);
    }
}
