//! How practice goes: counts for each level and whether a guess is asked
//! first, in a small file of the state folder. No names, no tears; it is safe
//! to delete, and one that cannot be read begins again.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::LEVELS;
use crate::session::files;

/// The file's name in the state folder.
pub(crate) const FILE: &str = "practice.toml";
/// A file longer than this is not ours, bytes.
const LARGEST: u64 = 8 * 1024;
/// No count is larger: whatever is was never counted.
const MOST: u32 = 10_000_000;

/// The rounds of one level.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default, deny_unknown_fields)]
pub struct Level {
    /// Bows that were ended with an answer.
    pub(crate) rounds: u32,
    /// Answers that were right.
    pub right: u32,
    /// Arrows shot.
    pub shots: u32,
    /// Arrows the program's own advice would have shot on the same bows.
    pub(crate) par: u32,
    /// Guesses made before the advice was shown.
    pub guesses: u32,
    /// Guesses that were true of the bow.
    pub(crate) guesses_right: u32,
}

/// How practice goes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default, deny_unknown_fields)]
pub struct Standing {
    /// Whether a guess is asked before the advice is shown.
    pub(crate) guess_first: bool,
    level_1: Level,
    level_2: Level,
    level_3: Level,
    level_4: Level,
    level_5: Level,
}

impl Default for Standing {
    fn default() -> Self {
        let none = Level::default();
        Self {
            guess_first: true,
            level_1: none,
            level_2: none,
            level_3: none,
            level_4: none,
            level_5: none,
        }
    }
}

impl Level {
    /// Whether these counts can be.
    const fn is_sound(&self) -> bool {
        self.right <= self.rounds
            && self.guesses_right <= self.guesses
            && self.rounds <= MOST
            && self.shots <= MOST
            && self.par <= MOST
            && self.guesses <= MOST
    }

    fn add(&mut self, round: &Self) {
        let sum = |a: u32, b: u32| a.saturating_add(b).min(MOST);
        self.rounds = sum(self.rounds, round.rounds);
        self.right = sum(self.right, round.right).min(self.rounds);
        self.shots = sum(self.shots, round.shots);
        self.par = sum(self.par, round.par);
        self.guesses = sum(self.guesses, round.guesses);
        self.guesses_right = sum(self.guesses_right, round.guesses_right).min(self.guesses);
    }
}

impl Standing {
    /// What the state folder keeps, and whether there was something that
    /// could not be read.
    #[must_use]
    pub fn read(folder: Option<&Path>) -> (Self, bool) {
        let Some(file) = folder.map(|f| f.join(FILE)).filter(|f| f.exists()) else {
            return (Self::default(), false);
        };
        let text = files::read_text(&file, LARGEST).ok();
        let read = text.and_then(|t| toml::from_str::<Self>(&t).ok());
        let sound = |s: &Self| {
            let mut levels = LEVELS;
            levels.all(|l| s.level(l).is_sound())
        };
        match read.filter(sound) {
            Some(standing) => (standing, false),
            None => (Self::default(), true),
        }
    }

    /// Keeps it; where that fails only the counts are lost.
    pub(crate) fn keep(&self, folder: Option<&Path>) {
        let (Some(folder), Ok(text)) = (folder, toml::to_string(self)) else {
            return;
        };
        let text = format!("# How practice goes: counts only. Safe to delete.\n{text}");
        if std::fs::create_dir_all(folder).is_ok() {
            let _ = files::replace(&folder.join(FILE), text.as_bytes());
        }
    }

    /// The counts of a level.
    #[must_use]
    pub const fn level(&self, level: u8) -> &Level {
        match level {
            0 | 1 => &self.level_1,
            2 => &self.level_2,
            3 => &self.level_3,
            4 => &self.level_4,
            _ => &self.level_5,
        }
    }

    /// Adds a round to the counts of its level.
    pub(crate) fn add(&mut self, level: u8, round: &Level) {
        let own = match level {
            0 | 1 => &mut self.level_1,
            2 => &mut self.level_2,
            3 => &mut self.level_3,
            4 => &mut self.level_4,
            _ => &mut self.level_5,
        };
        own.add(round);
    }

    /// The levels that were practised, with their counts.
    pub(crate) fn practised(&self) -> impl Iterator<Item = (u8, &Level)> {
        LEVELS
            .map(|level| (level, self.level(level)))
            .filter(|(_, counts)| counts.rounds > 0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROUND: Level = Level {
        rounds: 1,
        right: 1,
        shots: 7,
        par: 5,
        guesses: 3,
        guesses_right: 2,
    };

    #[test]
    fn rounds_add_up_by_level_and_are_read_again() {
        let folder = tempfile::tempdir().unwrap();
        let state = folder.path().join("state");
        assert_eq!(Standing::read(Some(&state)), (Standing::default(), false));
        let mut standing = Standing::default();
        standing.add(2, &ROUND);
        standing.add(2, &Level { right: 0, ..ROUND });
        standing.guess_first = false;
        standing.keep(Some(&state));
        let (again, damaged) = Standing::read(Some(&state));
        assert!(!damaged);
        assert_eq!(again, standing);
        let counts = Level {
            rounds: 2,
            right: 1,
            shots: 14,
            par: 10,
            guesses: 6,
            guesses_right: 4,
        };
        assert_eq!(again.practised().collect::<Vec<_>>(), [(2, &counts)]);
        assert_eq!(again.level(1), &Level::default());
        // Counts and a switch, and no word of anybody.
        let text = std::fs::read_to_string(state.join(FILE)).unwrap();
        let value = |l: &&str| !l.starts_with(['#', '[']) && !l.is_empty();
        for line in text.lines().filter(value) {
            let (_, value) = line.split_once(" = ").unwrap();
            assert!(value.parse::<u32>().is_ok() || value == "false", "{line}");
        }
    }

    #[test]
    fn a_damaged_file_begins_again_and_says_so() {
        let folder = tempfile::tempdir().unwrap();
        for text in [
            "rounds",
            "[level-1]\nrounds = -1\n",
            "[level-1]\nrounds = 1\nright = 2\n",
            "[level-1]\nrounds = 4000000000\n",
            "[level-9]\nrounds = 1\n",
            "[level-1]\nowner = \"x\"\n",
            "\u{0}",
        ] {
            std::fs::write(folder.path().join(FILE), text).unwrap();
            let read = Standing::read(Some(folder.path()));
            assert_eq!(read, (Standing::default(), true), "{text:?}");
        }
        std::fs::write(folder.path().join(FILE), [0xff, 0xfe]).unwrap();
        assert!(Standing::read(Some(folder.path())).1);
        // The next round is counted as the first.
        let mut standing = Standing::default();
        standing.add(1, &ROUND);
        standing.keep(Some(folder.path()));
        assert_eq!(Standing::read(Some(folder.path())), (standing, false));
        assert_eq!(Standing::read(None), (Standing::default(), false));
    }
}
