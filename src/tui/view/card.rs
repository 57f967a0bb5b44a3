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

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use ratatui::layout::Rect;

use super::adjusters::{self, Adding, Change};
use super::card_confirm::lifted;
use super::card_earlier::EARLIER;
use super::card_new;
use super::card_rows::label;
use super::paint::Paint;
use crate::actions::{Action, Scope, Situation};
use crate::gear::field::{self, FieldKind};
use crate::gear::{CardText, check_value};
use crate::question::Taken;
use crate::session::Event;
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::travel::chosen;

/// How the key of the line begins that folds a section.
pub(super) const FOLD: &str = "fold.";
/// The last line of a new card.
pub(super) const START: &str = "start the session";

/// The screen.
pub struct CardScreen {
    /// The card as it is recorded, or as it is being made.
    pub(super) base: CardText,
    /// Changes that do not fit the rest of the card yet.
    pub(super) changes: BTreeMap<String, String>,
    /// Where a new session goes; `None` for the card of the open session.
    pub(super) path: Option<PathBuf>,
    /// The draw weight is not known since the limb bolts were moved.
    pub(super) weigh: bool,
    pub(super) at: usize,
    pub(super) leaving: bool,
    /// What earlier bows teach is used, or on a new card will be.
    pub(super) earlier: bool,
    /// The line about earlier bows stands on the card of the open session.
    pub(super) taught: bool,
    /// An adjuster is being chosen to be listed.
    adding: Option<Adding>,
    pub(super) starting: bool,
    /// A change that makes something unknown again waits to be confirmed.
    pub(super) asking: bool,
    /// Sections whose optional lines are shown.
    pub(super) unfolded: BTreeSet<String>,
}

impl CardScreen {
    /// The card of the open session.
    pub fn of(app: &Model) -> Self {
        Self {
            base: app.timeline().card_text.clone(),
            changes: BTreeMap::new(),
            path: None,
            weigh: app.timeline().weight_unknown(),
            at: 0,
            leaving: false,
            earlier: app.timeline().learned.is_some(),
            taught: app.timeline().learned.is_some(),
            adding: None,
            starting: false,
            asking: false,
            unfolded: BTreeSet::new(),
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
        }
    }

    /// The keys shown: the table's, then those of the adjusters listed.
    pub(super) fn keys(&self) -> Vec<String> {
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

    pub(super) fn key(&self) -> String {
        self.keys().get(self.at).cloned().unwrap_or_default()
    }

    /// The text of a field, changes that wait included.
    pub(super) fn text(&self, key: &str) -> String {
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
    fn with_unit(&self, key: &str, text: &str) -> String {
        let bare = text.trim();
        let stood = self.text(key);
        let example = field::find(key).map_or("", |f| f.example);
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

    pub(super) fn with_changes(&self) -> CardText {
        let mut text = self.base.clone();
        for (key, value) in &self.changes {
            let _ = text.set(key, value);
        }
        text
    }

    /// Takes a new value: recorded at once where the whole card reads, kept
    /// waiting where another field must change too.
    fn take(&mut self, key: &str, value: &str, app: &mut App) -> Result<(), String> {
        (self.leaving, self.starting) = (false, false);
        if value.trim() == self.text(key) {
            if self.unchecked(key) {
                self.confirm(&[key.to_owned()], app);
            }
            return Ok(());
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
            return Ok(());
        }
        if self.base.get(key).unwrap_or_default() == value.trim()
            && self.changes.remove(key).is_some()
        {
            self.asking = false;
            return Ok(());
        }
        self.changes.insert(key.to_owned(), value.trim().to_owned());
        match self.resets(app) {
            Some(what) => {
                self.asking = true;
                app.complain(what);
            }
            None => {
                self.record(app);
            }
        }
        Ok(())
    }

    /// Records the changes that wait, if the card reads with all of them.
    pub(super) fn record(&mut self, app: &mut App) -> bool {
        self.record_as(None, app)
    }

    pub(super) fn record_as(&mut self, taken: Option<Taken>, app: &mut App) -> bool {
        let set = self.changes.clone();
        let taken = taken.map(Into::into);
        match app.record(Event::Card { set, taken }) {
            Ok(number) => {
                self.changes.clear();
                self.base = app.timeline().card_text.clone();
                self.weigh = app.timeline().weight_unknown();
                app.refresh_prior();
                app.say(format!("recorded: entry {number}{}", lifted(app, number)));
                if let Some(stop) = crate::advice::stopped(app.timeline()) {
                    app.complain(format!(
                        "{} recorded: entry {number}",
                        crate::words::stop_line(&stop)
                    ));
                }
                true
            }
            Err(problem) => {
                app.complain(format!(
                    "not recorded yet, something else must change too: {problem}"
                ));
                false
            }
        }
    }

    /// Lists an adjuster, or takes one off; the cursor goes where the change is.
    fn change_adjusters(&mut self, change: Change, app: &mut App) {
        self.adding = None;
        self.leaving = false;
        if self.path.is_some() {
            for (key, value) in &change.set {
                // The keys are those of the card's own table.
                let _ = self.base.set(key, value);
            }
        } else {
            self.changes.extend(change.set);
            if !self.record(app) {
                return;
            }
        }
        app.say(change.words);
        let keys = self.keys();
        let at = keys.iter().position(|k| k.starts_with(&change.cursor));
        self.at = at.unwrap_or(self.at).min(keys.len() - 1);
    }

    fn cycle(&mut self, by: isize, app: &mut App) {
        let key = self.key();
        if let Some(section) = key.strip_prefix(FOLD) {
            return self.fold(section);
        }
        let words = self.choices(&key);
        if words.is_empty() {
            return;
        }
        let now = words.iter().position(|w| *w == self.text(&key));
        let to = match now {
            Some(now) => (now as isize + by).rem_euclid(words.len() as isize) as usize,
            None => usize::from(by < 0) * (words.len() - 1),
        };
        if let Err(problem) = self.take(&key, words[to], app) {
            app.complain(problem);
        }
    }

    fn choose(&mut self, app: &mut App) -> Flow {
        if self.key() == EARLIER && self.adding.is_none() {
            self.turn_earlier(app);
            return Flow::Stay;
        }
        if self.key() == START && self.adding.is_none() {
            return self.start(app);
        }
        if self.asking && self.changes.contains_key(&self.key()) {
            self.asking = false;
            self.record(app);
            return Flow::Stay;
        }
        self.change(app);
        Flow::Stay
    }

    fn change(&mut self, app: &mut App) {
        if let Some(adding) = &self.adding {
            let change = adding.chosen().map(|k| adjusters::add(&self.base, k));
            return match change {
                Some(change) => self.change_adjusters(change, app),
                None => self.adding = None,
            };
        }
        let key = self.key();
        if let Some(section) = key.strip_prefix(FOLD) {
            return self.fold(section);
        }
        if key == adjusters::ADD {
            self.adding = Some(Adding::to(&self.with_changes()));
            return;
        }
        if let Some(name) = adjusters::taken_off(&key) {
            // What waits to be changed on it goes with it.
            let own = format!("adjuster.{name}.");
            self.changes.retain(|key, _| !key.starts_with(&own));
            let change = adjusters::take_off(&self.base, name);
            return self.change_adjusters(change, app);
        }
        let kind = field::find(&key).map(|f| f.kind);
        if let Some(FieldKind::Choice(_) | FieldKind::Flag) = kind {
            // The usual value of a new card is kept by Enter, as on every
            // other line; the arrows change it.
            if self.unchecked(&key) {
                self.confirm(&[key], app);
                self.go_on();
                return;
            }
            return self.cycle(1, app);
        }
        self.choose_typing(None, app);
    }

    /// Opens the line for a value, begun with what was typed or with what stands.
    fn choose_typing(&self, digit: Option<char>, app: &mut App) {
        if !self.is_typed() {
            return;
        }
        let key = self.key();
        let name = label(&key);
        app.prompt = Some(match digit {
            Some(digit) => Prompt::with(Purpose::Screen, name, &digit.to_string()),
            None => Prompt::over(Purpose::Screen, name, &self.text(&key)),
        });
    }
}

impl Screen for CardScreen {
    fn scope(&self) -> Scope {
        Scope::Card
    }
    fn title(&self, _app: &Model) -> String {
        self.named()
    }
    fn about(&self) -> &'static str {
        "The card: the bow, its rest and adjusters, the arrow, who shoots, and the paper. Enter keeps or changes a line; left and right go through fixed choices. Optional lines that hold nothing are folded behind one line of their section; Enter there shows them. Values are typed with their unit and checked as you type; a bare number takes the unit that stands there. 'check it' stands at a usual value that nobody confirmed yet: Enter confirms the line, one key its whole section. On an open session each change is recorded at once and can be undone."
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
    fn act_on(&mut self, action: Action, app: &mut App) -> Flow {
        match action {
            Action::Back if self.adding.is_some() => self.adding = None,
            Action::Back => return self.leave(app),
            Action::Start => return self.start(app),
            Action::ConfirmSection if self.adding.is_none() => self.confirm_section(app),
            Action::Choose => return self.choose(app),
            _ if self.adding.is_some() => {
                if let Some(adding) = &mut self.adding {
                    adding.go(action);
                }
            }
            Action::Left => self.cycle(-1, app),
            Action::Right => self.cycle(1, app),
            _ => self.at = chosen(self.at, self.keys().len(), action),
        }
        Flow::Stay
    }
    fn digit_on(&mut self, digit: char, app: &mut App) -> Flow {
        if self.asking && self.changes.contains_key(&self.key()) {
            self.says_which(digit, app);
            return Flow::Stay;
        }
        self.choose_typing(Some(digit), app);
        Flow::Stay
    }
    fn echo(&self, text: &str, _app: &Model) -> Echo {
        let key = self.key();
        if text.trim().is_empty() {
            return Echo::Hint("empty takes it off the card".into());
        }
        if field::find(&key).is_none() {
            return adjusters::echo(&self.with_changes(), &key, text);
        }
        let with = self.with_unit(&key, text);
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
    fn answer_on(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        let key = self.key();
        let text = self.with_unit(&key, text);
        self.take(&key, &text, app)?;
        // A new card is gone through line by line: Enter, Enter is "as it stands".
        if self.path.is_some() {
            self.go_on();
        }
        Ok(Flow::Stay)
    }
    fn draw(&self, app: &Model, paint: &mut Paint<'_>, area: Rect) {
        if let Some(adding) = &self.adding {
            return adding.draw(app.system, paint, area);
        }
        self.draw_lines(app, paint, area);
    }
}
