//! The verdict as a filled band: its words, the colour that goes with them,
//! and the key that acts on it.
//!
//! ```text
//! |## MOVE          m  take it ##|   one row, or three where there is room
//! ```

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::actions::Action;
use crate::advice::Verdict;
use crate::look::{Role, Tone};
use crate::tui::draw::paint::Paint;
use crate::tui::model::Model;
use crate::words;

/// A band this much higher has a row of its colour above and below.
const HIGH: u16 = 28;

/// What the band says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Band {
    /// Its colour.
    pub(crate) tone: Tone,
    /// The verdict's words.
    pub(crate) title: String,
    /// What follows them, smaller: `now prove it`.
    pub(crate) then: String,
    /// The key that acts on it, with what it does; empty where none does.
    pub(crate) key: String,
}

/// The colour of a verdict.
pub(crate) const fn tone(verdict: Verdict) -> Tone {
    match verdict {
        Verdict::Move | Verdict::Probe => Tone::Act,
        Verdict::Shoot => Tone::Shoot,
        Verdict::Done => Tone::Done,
        Verdict::Refuse | Verdict::Stop => Tone::Refuse,
    }
}

impl Band {
    /// What must be met first now: the range safety list, a move that waits at
    /// the bench, or the verdict.
    pub fn of(model: &Model) -> Self {
        let advice = &model.analysis.advice;
        let pending = model.timeline().pending.is_some() && advice.verdict != Verdict::Stop;
        let (tone, title, action) = if model.analysis.list_first().is_some() {
            let title = format!("{} FIRST", words::RANGE_TITLE.to_uppercase());
            (Tone::Act, title, Some((Action::Answer, "read it")))
        } else if pending {
            let title = "PENDING MOVE".to_owned();
            (Tone::Act, title, Some((Action::AsShown, "it is made")))
        } else {
            let title = words::title(advice).to_owned();
            (tone(advice.verdict), title, acts(model))
        };
        let (title, then) = title.split_once(": ").map_or_else(
            || (title.clone(), String::new()),
            |(title, then)| (title.to_owned(), then.to_lowercase()),
        );
        let now = model.situation();
        let key = action
            .filter(|(action, _)| action.spec().when.holds(&now))
            .map(|(action, words)| (model.key(action), words))
            .filter(|(key, _)| !key.is_empty())
            .map_or(String::new(), |(key, words)| format!("{key}  {words}"));
        Self {
            tone,
            title,
            then,
            key,
        }
    }

    /// Its rows of words at this width, the key at the right end.
    fn rows(&self, width: u16) -> Vec<[&str; 2]> {
        let room = usize::from(width).saturating_sub(2);
        let beside = |text: &str| text.width() + 2 + self.key.width() <= room;
        if self.then.is_empty() && beside(&self.title) {
            return vec![[&self.title, &self.key]];
        }
        if self.then.is_empty() {
            return vec![[&self.title, ""], ["", &self.key]];
        }
        if self.key.is_empty() || beside(&self.then) {
            return vec![[&self.title, ""], [&self.then, &self.key]];
        }
        vec![[&self.title, ""], [&self.then, ""], ["", &self.key]]
    }

    /// Draws it over the top of an area; the rows it took.
    pub fn draw(&self, paint: &mut Paint<'_>, area: Rect) -> u16 {
        let mut rows = self.rows(area.width);
        if rows.len() > 1 && area.height < 8 {
            rows.truncate(1);
        }
        if area.height >= HIGH {
            rows.insert(0, ["", ""]);
            rows.push(["", ""]);
        }
        let rows = &rows[..rows.len().min(usize::from(area.height))];
        for (i, words) in rows.iter().enumerate() {
            paint.band(area, area.y + i as u16, *words, Role::Band(self.tone));
        }
        rows.len() as u16
    }
}

/// The action that follows a verdict, and two or three words for it.
fn acts(model: &Model) -> Option<(Action, &'static str)> {
    let asked = model.situation().asked;
    match model.analysis.advice.verdict {
        Verdict::Move => Some((Action::TakeMove, "take it")),
        Verdict::Shoot if model.practice.is_some() => Some((Action::Shot, "shoot")),
        Verdict::Shoot => Some((Action::Shot, "record it")),
        Verdict::Probe => Some((Action::Answer, "answer")),
        Verdict::Done => Some((Action::Proof, "prove it")),
        Verdict::Refuse if asked => Some((Action::Answer, "troubleshooting")),
        // After an incident the parts are looked over; what else forbids a shot
        // is found and put right.
        Verdict::Stop if model.timeline().open_incident().is_some() => {
            Some((Action::Answer, "look it over"))
        }
        Verdict::Stop if asked => Some((Action::Answer, "troubleshooting")),
        Verdict::Refuse | Verdict::Stop => None,
    }
}
