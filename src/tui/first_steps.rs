//! The first steps: a virtual bow, tuned from the first shot to what was wrong
//! with it. It is the demo: `s` really shoots it, the verdicts are the usual
//! ones, and the step that comes next is read off where the bow stands, so
//! that whoever goes their own way is not lost. The state folder keeps the
//! seed and the step only; the next start goes on there.

use std::path::PathBuf;

use crate::actions::Action;
use crate::practice::Practice;
use crate::session::Session;
use crate::words::guide;

/// The bow's session: its card, and two shots for those who know the steps.
pub(crate) const BOW: &str = include_str!("../../sample-sessions/first-steps.toml");
/// The virtual bow behind it.
pub(crate) const SEED: u64 = 129;
/// Its level: one thing to move, a steady archer.
pub(crate) const LEVEL: u8 = 1;
/// The last step.
pub(super) const LAST: u8 = 6;

/// One step; those with a number are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum FirstStep {
    /// Before the first shot of the day: is the range safe?
    Range,
    /// The first shot.
    Shoot,
    /// The second at the same setting.
    Repeat,
    /// A question that is answered in words.
    Ask,
    /// To the bench with the move.
    Take,
    /// It is made.
    Make,
    /// What did it do?
    Check,
    /// Within tolerance: what was wrong with it?
    Within,
}

impl FirstStep {
    pub(super) const fn number(self) -> Option<u8> {
        match self {
            Self::Range => None,
            Self::Shoot => Some(1),
            Self::Repeat => Some(2),
            Self::Ask | Self::Take => Some(3),
            Self::Make => Some(4),
            Self::Check => Some(5),
            Self::Within => Some(LAST),
        }
    }

    /// Which action it wants, and what it says; `{}` is the key.
    pub(super) const fn says(self) -> (Action, &'static str) {
        match self {
            Self::Range => (Action::Answer, guide::RANGE),
            Self::Shoot => (Action::Shot, guide::SHOOT),
            Self::Repeat => (Action::Shot, guide::REPEAT),
            Self::Ask => (Action::Answer, guide::ASK),
            Self::Take => (Action::TakeMove, guide::TAKE),
            Self::Make => (Action::AsShown, guide::MAKE),
            Self::Check => (Action::Shot, guide::CHECK),
            Self::Within => (Action::Practice, guide::WITHIN),
        }
    }
}

/// How far somebody came.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FirstSteps {
    /// Where it is kept, if anywhere.
    file: Option<PathBuf>,
    /// The step that came last; past the last one they are over.
    pub(super) reached: u8,
}

impl FirstSteps {
    /// Those kept in this file; from the start where there is none.
    pub fn at(file: PathBuf) -> Self {
        let text = crate::session::files::read_text(&file, 200).unwrap_or_default();
        let mut words = text.split_whitespace();
        // Steps on another bow are no steps on this one.
        let same = words.next() == Some("seed") && words.next() == Some(&SEED.to_string());
        let step = words.next() == Some("step");
        let reached = words.next().filter(|_| same && step);
        Self {
            file: Some(file),
            reached: reached
                .and_then(|n| n.parse().ok())
                .unwrap_or(0)
                .min(LAST + 1),
        }
    }

    pub(super) const fn over(&self) -> bool {
        self.reached > LAST
    }

    pub(super) fn keep(&mut self, reached: u8) {
        if reached == self.reached {
            return;
        }
        self.reached = reached;
        if let Some(file) = &self.file {
            let _ = crate::tui::recent::write(file, &format!("seed {SEED}\nstep {reached}\n"));
        }
    }
}

/// The session with its shots, or as it begins.
pub(super) fn session(with_shots: bool) -> Session {
    let text = if with_shots {
        BOW
    } else {
        // The second entry is the first shot.
        let first_shot = BOW.match_indices("[[entry]]").nth(1);
        &BOW[..first_shot.map_or(BOW.len(), |(at, _)| at)]
    };
    Session::from_text(text).unwrap_or_else(|_| Practice::new(SEED, LEVEL).session())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bundled_session_is_the_virtual_bow_and_its_first_two_shots() {
        let mut bow = Practice::new(SEED, LEVEL);
        let whole = session(true);
        assert_eq!(whole.timeline().card_text.to_toml(), bow.card().to_toml());
        let begun = session(false);
        assert_eq!(begun.timeline().shots.len(), 0);
        assert_eq!(begun.entries().len(), 1);
        for recorded in &whole.timeline().shots {
            let shot = bow.shoot(begun.timeline());
            assert_eq!(shot.tear(), recorded.shot.tear());
        }
        assert_eq!(whole.timeline().shots.len(), 2);
    }

    #[test]
    fn steps_are_kept_by_seed_and_number_and_anything_else_begins_anew() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("state").join("first-steps");
        let mut steps = FirstSteps::at(file.clone());
        assert_eq!((steps.reached, steps.over()), (0, false));
        steps.keep(4);
        assert_eq!(FirstSteps::at(file.clone()).reached, 4);
        steps.keep(LAST + 1);
        assert!(FirstSteps::at(file.clone()).over());
        for text in [
            "seed 5\nstep 4\n",
            "step 4\n",
            "seed 129\nstep many\n",
            "\u{fffd}",
        ] {
            std::fs::write(&file, text).unwrap();
            assert_eq!(FirstSteps::at(file.clone()).reached, 0, "{text}");
        }
    }
}
