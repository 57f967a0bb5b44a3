//! The card, edited in place.
//!
//! ```text
//! +- Card ------------------------------------------+
//! | BOW                                             |
//! | > peak weight      60 lb                        |
//! |   draw length      29 in                        |
//! | ...                                             |
//! | what the field means; a value that is right     |
//! | what is still wrong with the card               |
//! +-------------------------------------------------+
//! ```

pub(crate) mod adjusters;
pub(crate) mod confirm;
pub(crate) mod drawing;
pub(crate) mod earlier;
pub(crate) mod fold;
pub(crate) mod keys;
pub(crate) mod new;
pub(crate) mod rows;

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use ratatui::layout::Rect;

use crate::actions::{Action, Scope, Situation};
use crate::gear::field::{self, FieldKind};
use crate::gear::{CardText, check_value};
use crate::question::Taken;
use crate::session::Event;
use crate::tui::draw::paint::Paint;
use crate::tui::effects::{Effect, ask, complain, record, say};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::card::adjusters::{Adding, Change};
use crate::tui::screens::card::keys::{EARLIER, FOLD, Follows, START, label, lifted};
use crate::tui::screens::card::new as card_new;
use crate::tui::travel::chosen;
use crate::units::System;

/// The screen.
pub(crate) struct CardScreen {
    /// The card as it is recorded, or as it is being made.
    pub(crate) base: CardText,
    /// Changes that do not fit the rest of the card yet.
    pub(crate) changes: BTreeMap<String, String>,
    /// Where a new session goes; `None` for the card of the open session.
    pub path: Option<PathBuf>,
    /// The draw weight is not known since the limb bolts were moved.
    pub(crate) weigh: bool,
    pub at: usize,
    pub(crate) leaving: bool,
    /// What earlier bows teach is used, or on a new card will be.
    pub earlier: bool,
    /// The line about earlier bows stands on the card of the open session.
    pub(crate) taught: bool,
    /// An adjuster is being chosen to be listed.
    adding: Option<Adding>,
    pub(crate) starting: bool,
    /// A change that makes something unknown again waits to be confirmed.
    pub(crate) asking: bool,
    /// Sections whose optional lines are shown.
    pub(crate) unfolded: BTreeSet<String>,
    /// What follows once it is recorded.
    pub after: Follows,
}

impl CardScreen {
    /// The card of the open session.
    pub fn of(model: &Model) -> Self {
        Self {
            base: model.timeline().card_text.clone(),
            changes: BTreeMap::new(),
            path: None,
            weigh: model.timeline().weight_unknown(),
            at: 0,
            leaving: false,
            earlier: model.timeline().learned.is_some(),
            taught: model.timeline().learned.is_some(),
            adding: None,
            starting: false,
            asking: false,
            unfolded: BTreeSet::new(),
            after: Follows::Nothing,
        }
    }

    /// A card for a new session.
    pub fn fresh(path: PathBuf) -> Self {
        Self {
            base: card_new::text(),
            changes: BTreeMap::new(),
            path: Some(path),
            weigh: false,
            at: 0,
            leaving: false,
            earlier: true,
            taught: true,
            adding: None,
            starting: false,
            asking: false,
            unfolded: BTreeSet::new(),
            after: Follows::Nothing,
        }
    }

    /// The keys shown: the table's, then those of the adjusters listed.
    pub fn keys(&self) -> Vec<String> {
        let mut keys = self.field_keys();
        for adjuster in &self.base.adjusters {
            let Some(name) = adjuster.get("name") else {
                continue;
            };
            let items = field::ADJUSTER_FIELDS.iter().filter(|k| **k != "name");
            keys.extend(items.map(|k| format!("adjuster.{}.{k}", name.text)));
            keys.push(format!("adjuster.{}.{}", name.text, adjusters::TAKE_OFF));
        }
        keys.push(adjusters::ADD.to_owned());
        if self.taught {
            keys.push(EARLIER.to_owned());
        }
        if self.path.is_some() {
            keys.push(START.to_owned());
        }
        keys
    }

    /// Whether the line the cursor is on is typed.
    fn is_typed(&self) -> bool {
        let key = self.key();
        let fixed = matches!(
            field::find(&key).map(|f| f.kind),
            Some(FieldKind::Choice(_) | FieldKind::Flag)
        );
        !fixed
            && key != START
            && key != EARLIER
            && !key.starts_with(FOLD)
            && self.adding.is_none()
            && adjusters::does(&key).is_none()
    }

    pub(crate) fn key(&self) -> String {
        self.keys().get(self.at).cloned().unwrap_or_default()
    }

    /// The text of a field, changes that wait included.
    pub fn text(&self, key: &str) -> String {
        if let Some(text) = self.changes.get(key) {
            return text.clone();
        }
        if let Some(rest) = key.strip_prefix("adjuster.") {
            let (name, item) = rest.rsplit_once('.').unwrap_or((rest, ""));
            let named = |a: &&BTreeMap<String, crate::gear::Entered>| {
                a.get("name").is_some_and(|n| n.text == name)
            };
            let found = self
                .base
                .adjusters
                .iter()
                .find(named)
                .and_then(|a| a.get(item));
            return found.map_or(String::new(), |e| e.text.clone());
        }
        self.base.get(key).unwrap_or_default().to_owned()
    }

    /// What is typed, with the unit of what stood there where none is said.
    fn with_unit(&self, key: &str, text: &str, system: System) -> String {
        let bare = text.trim();
        let stood = self.text(key);
        let example = crate::words::card_example(key, system);
        let stood = if stood.is_empty() {
            example
        } else {
            stood.as_str()
        };
        let unit = stood.trim_start_matches(|c: char| !c.is_alphabetic() && c != '%' && c != '"');
        let number = bare
            .chars()
            .all(|c| c.is_ascii_digit() || " ./,-+".contains(c));
        if bare.is_empty() || unit.is_empty() || !number || check_value(key, bare).is_ok() {
            return bare.to_owned();
        }
        format!("{bare} {unit}")
    }

    pub(crate) fn with_changes(&self) -> CardText {
        let mut text = self.base.clone();
        for (key, value) in &self.changes {
            let _ = text.set(key, value);
        }
        text
    }

    /// Takes a new value: recorded at once where the whole card reads, kept
    /// waiting where another field must change too.
    fn take(&mut self, key: &str, value: &str, model: &Model) -> Result<Vec<Effect>, String> {
        (self.leaving, self.starting) = (false, false);
        if value.trim() == self.text(key) {
            if self.unchecked(key) {
                return Ok(self.confirm(&[key.to_owned()]));
            }
            return Ok(Vec::new());
        }
        if !value.trim().is_empty() && field::find(key).is_some() {
            check_value(key, value).map_err(|p| p.message)?;
        } else if !value.trim().is_empty()
            && let Echo::Wrong { text, .. } = adjusters::echo(&self.with_changes(), key, value)
        {
            return Err(text);
        }
        if self.path.is_some() {
            self.base.set(key, value).map_err(|p| p.message)?;
            if key == "bow.kind" {
                card_new::dress(&mut self.base, value);
            }
            return Ok(Vec::new());
        }
        if self.base.get(key).unwrap_or_default() == value.trim()
            && self.changes.remove(key).is_some()
        {
            self.asking = false;
            return Ok(Vec::new());
        }
        self.changes.insert(key.to_owned(), value.trim().to_owned());
        Ok(match self.resets(model) {
            Some(what) => {
                self.asking = true;
                complain(what)
            }
            None => self.record(Follows::Nothing),
        })
    }

    /// Records the changes that wait, if the card reads with all of them.
    pub fn record(&mut self, after: Follows) -> Vec<Effect> {
        self.record_as(None, after)
    }

    pub(crate) fn record_as(&mut self, taken: Option<Taken>, after: Follows) -> Vec<Effect> {
        self.after = after;
        record(Event::Card {
            set: self.changes.clone(),
            taken: taken.map(Into::into),
        })
    }

    /// Goes on once the changes that waited are on disk as this entry.
    fn kept(&mut self, entry: u32, model: &Model) -> Vec<Effect> {
        self.changes.clear();
        self.base = model.timeline().card_text.clone();
        self.weigh = model.timeline().weight_unknown();
        match crate::advice::stopped(model.timeline()) {
            Some(stop) => complain(format!(
                "{} recorded: entry {entry}",
                crate::words::stop_line(&stop)
            )),
            None => say(format!("recorded: entry {entry}{}", lifted(model, entry))),
        }
    }

    /// Lists an adjuster, or takes one off; the cursor goes where the change is.
    fn change_adjusters(&mut self, change: Change) -> Vec<Effect> {
        self.adding = None;
        self.leaving = false;
        let after = Follows::Adjusters {
            said: change.words,
            cursor: change.cursor,
        };
        if self.path.is_none() {
            self.changes.extend(change.set);
            return self.record(after);
        }
        for (key, value) in &change.set {
            // The keys are those of the card's own table.
            let _ = self.base.set(key, value);
        }
        self.go_after(after)
    }

    fn cycle(&mut self, by: isize, model: &Model) -> Vec<Effect> {
        let key = self.key();
        if let Some(section) = key.strip_prefix(FOLD) {
            self.fold(section);
            return Vec::new();
        }
        let words = self.choices(&key);
        if words.is_empty() {
            return Vec::new();
        }
        let now = words.iter().position(|w| *w == self.text(&key));
        let to = match now {
            Some(now) => (now as isize + by).rem_euclid(words.len() as isize) as usize,
            None => usize::from(by < 0) * (words.len() - 1),
        };
        self.take(&key, words[to], model).unwrap_or_else(complain)
    }

    fn choose(&mut self, model: &Model) -> Vec<Effect> {
        if self.key() == EARLIER && self.adding.is_none() {
            return self.turn_earlier(model);
        }
        if self.key() == START && self.adding.is_none() {
            return self.start(model);
        }
        if self.asking && self.changes.contains_key(&self.key()) {
            self.asking = false;
            return self.record(Follows::Nothing);
        }
        self.change(model)
    }

    fn change(&mut self, model: &Model) -> Vec<Effect> {
        if let Some(adding) = &self.adding {
            let change = adding.chosen().map(|k| adjusters::add(&self.base, k));
            if let Some(change) = change {
                return self.change_adjusters(change);
            }
            self.adding = None;
            return Vec::new();
        }
        let key = self.key();
        if let Some(section) = key.strip_prefix(FOLD) {
            self.fold(section);
            return Vec::new();
        }
        if key == adjusters::ADD {
            self.adding = Some(Adding::to(&self.with_changes()));
            return Vec::new();
        }
        if let Some(name) = adjusters::taken_off(&key) {
            // What waits to be changed on it goes with it.
            let own = format!("adjuster.{name}.");
            self.changes.retain(|key, _| !key.starts_with(&own));
            let change = adjusters::take_off(&self.base, name);
            return self.change_adjusters(change);
        }
        let kind = field::find(&key).map(|f| f.kind);
        if let Some(FieldKind::Choice(_) | FieldKind::Flag) = kind {
            // The usual value of a new card is kept by Enter, as on every
            // other line; the arrows change it.
            if self.unchecked(&key) {
                let effects = self.confirm(&[key]);
                self.go_on();
                return effects;
            }
            return self.cycle(1, model);
        }
        self.typed(None)
    }

    /// Opens the line for a value, begun with what was typed or with what stands.
    fn typed(&self, digit: Option<char>) -> Vec<Effect> {
        if !self.is_typed() {
            return Vec::new();
        }
        let key = self.key();
        let name = label(&key);
        ask(match digit {
            Some(digit) => Prompt::with(Purpose::Screen, name, &digit.to_string()),
            None => Prompt::over(Purpose::Screen, name, &self.text(&key)),
        })
    }
}

impl Screen for CardScreen {
    fn scope(&self) -> Scope {
        Scope::Card
    }
    fn title(&self, _model: &Model) -> String {
        self.named()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::CARD
    }
    fn adjust(&self, now: &mut Situation) {
        now.new_card = self.path.is_some();
    }
    fn minds_leaving(&self) -> bool {
        true
    }
    fn takes_letters(&self) -> bool {
        self.is_typed()
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        match action {
            Action::Back if self.adding.is_some() => self.adding = None,
            Action::Back => return self.leave(),
            Action::Start => return self.start(model),
            Action::ConfirmSection if self.adding.is_none() => return self.confirm_section(),
            Action::Choose => return self.choose(model),
            _ if self.adding.is_some() => {
                if let Some(adding) = &mut self.adding {
                    adding.go(action);
                }
            }
            Action::Left => return self.cycle(-1, model),
            Action::Right => return self.cycle(1, model),
            _ => self.at = chosen(self.at, self.keys().len(), action),
        }
        Vec::new()
    }
    fn digit_answers(&self) -> bool {
        self.asking
    }
    fn digit(&mut self, digit: char, _model: &Model) -> Vec<Effect> {
        if self.asking && self.changes.contains_key(&self.key()) {
            return self.says_which(digit);
        }
        self.typed(Some(digit))
    }
    fn recorded(&mut self, entry: u32, model: &Model) -> Vec<Effect> {
        let after = std::mem::take(&mut self.after);
        if matches!(after, Follows::Earlier(_)) {
            return self.go_after(after);
        }
        let mut effects = self.kept(entry, model);
        effects.extend(self.go_after(after));
        effects
    }
    fn refused(&mut self, problem: String) -> Result<Vec<Effect>, String> {
        // Only a change of the card waits for another.
        if self.path.is_some() || matches!(self.after, Follows::Earlier(_)) {
            return Err(problem);
        }
        Ok(complain(crate::words::pages::card::something_else(
            &problem,
        )))
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let key = self.key();
        if text.trim().is_empty() {
            return Echo::Hint(crate::words::pages::card::EMPTY.into());
        }
        if field::find(&key).is_none() {
            return adjusters::echo(&self.with_changes(), &key, text);
        }
        let with = self.with_unit(&key, text, model.system);
        match check_value(&key, &with) {
            Ok(None) if with != text.trim() => Echo::Reads(with),
            Ok(None) => Echo::Reads("is understood".into()),
            Ok(Some(unusual)) => Echo::Hint(format!("unusual, but kept: {}", unusual.message)),
            Err(problem) => Echo::Wrong {
                at: 0,
                len: 0,
                text: problem.message,
            },
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let key = self.key();
        let text = self.with_unit(&key, text, model.system);
        let effects = self.take(&key, &text, model)?;
        // A new card is gone through line by line: Enter, Enter is "as it stands".
        if self.path.is_some() {
            self.go_on();
        }
        Ok(effects)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        if let Some(adding) = &self.adding {
            return adding.draw(model.system, paint, area);
        }
        self.draw_lines(model, paint, area);
    }
}
