//! What typed lines stand for: a move, the place of a new file, and what a
//! line reads as while it is typed.

use std::path::PathBuf;

use etcetera::{BaseStrategy as _, choose_base_strategy};

use crate::gear::{Adjuster, MoveError, Step, parse_moves, read_bare_length};
use crate::session::Timeline;
use crate::tear::read_holes;
use crate::tui::model::Model;
use crate::tui::prompt::Echo;
use crate::tui::wording;
use crate::units::System;
use crate::words;

/// The reading that a bare length stands for at the bench, mm; `None` where it
/// is rather the size of the move.
fn bare_reading(
    text: &str,
    adjuster: &Adjuster,
    step: &Step,
    timeline: &Timeline,
    system: System,
) -> Option<f64> {
    let typed = read_bare_length(text, system)?;
    let to = timeline.now.get(step.adjuster) + step.amount;
    let expected = adjuster.reading_at(to, timeline.card.bow.hand)?;
    ((typed - expected).abs() < (typed - step.amount.abs()).abs()).then_some(typed)
}

/// A path with `~` at its front read as the user's own folder.
fn at_home(name: &str) -> PathBuf {
    match (name.strip_prefix('~'), choose_base_strategy()) {
        (Some(rest), Ok(home)) if rest.is_empty() || rest.starts_with('/') => {
            home.home_dir().join(rest.trim_start_matches('/'))
        }
        _ => PathBuf::from(name),
    }
}

impl Model {
    /// A move as it is typed. With one adjuster at the bench its name, and the
    /// way it was to go, may be left out: `1.5`, `in 1.5`, `at 19.3`. A bare
    /// length is a calipers reading where it is nearer to the reading that is
    /// expected than to the size of the move.
    pub(super) fn read_move(&self, text: &str) -> Result<Vec<Step>, MoveError> {
        let timeline = self.timeline();
        let read = |t: &str| parse_moves(t, &timeline.card, &timeline.now, self.system);
        let whole = read(text);
        let Some([step]) = timeline.pending.as_ref().map(|p| p.steps.as_slice()) else {
            return whole;
        };
        let noun = step.adjuster.noun();
        let (minus, plus) = step.adjuster.directions();
        let way = if step.amount < 0.0 { minus } else { plus };
        if let Some(adjuster) = timeline.card.adjuster(step.adjuster)
            && let Some(reading) = bare_reading(text, adjuster, step, timeline, self.system)
        {
            return read(&format!("{noun} at {reading} mm"));
        }
        whole.or_else(|error| {
            read(&format!("{noun} {text}"))
                .or_else(|_| read(&format!("{noun} {way} {text}")))
                .map_err(|_| error)
        })
    }

    /// Where a new session of this name goes.
    pub(super) fn new_path(&self, text: &str) -> PathBuf {
        let name = at_home(text.trim());
        let mut path = match self.look.folder.to_str() {
            Some(".") => name,
            _ => self.look.folder.join(name),
        };
        if path.extension().is_none() {
            path.set_extension("toml");
        }
        path
    }

    /// What a tear reads as so far.
    pub(super) fn tear_echo(&self, text: &str) -> Echo {
        if text.trim().is_empty() {
            let example = words::tear_example(self.system);
            let short = words::tear_short(self.system);
            return Echo::Hint(words::pages::typing::tear(example, short));
        }
        match read_holes(text, self.system) {
            Ok(holes) => {
                let shots = holes.iter().map(|h| self.shot(h, ""));
                let words = shots.map(|s| s.map(|s| wording::shot(&s, self.system)));
                match words.collect::<Result<Vec<String>, _>>() {
                    Ok(words) => Echo::Reads(words.join("; ")),
                    Err(two) => Echo::Wrong {
                        at: 0,
                        len: 0,
                        text: two.to_string(),
                    },
                }
            }
            Err(error) => Echo::Wrong {
                at: error.at,
                len: error.word.chars().count(),
                text: format!("'{}': {}", error.word, error.problem),
            },
        }
    }

    /// What a move reads as so far.
    pub(super) fn move_echo(&self, text: &str) -> Echo {
        if text.trim().is_empty() {
            return Echo::Hint(words::move_examples(self.system).into());
        }
        let timeline = self.timeline();
        match self.read_move(text) {
            Ok(steps) => Echo::Reads(wording::steps(&steps, &timeline.card, self.system)),
            Err(error) => {
                let lower = text.to_lowercase();
                let at = lower.find(&error.word.to_lowercase()).unwrap_or(0);
                Echo::Wrong {
                    at: lower[..at].chars().count(),
                    len: error.word.chars().count(),
                    text: format!("'{}': {}", error.word, error.problem),
                }
            }
        }
    }
}
