//! Keys to actions, and what the actions on the three panes do.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

use crate::actions::{Action, Key, Scope};
use crate::advice::ProbeKind;
use crate::session::Event;
use crate::tear::{ASK_ABOVE, Hole};
use crate::tui::app::App;
use crate::tui::effects::Effect;
use crate::tui::grid::GridCursor;
use crate::tui::names::{HelpPart, Name};
use crate::tui::prompt::{Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::{screens, wording};
use crate::words::pages::typing;

/// The key of a terminal event, if the console knows it.
pub(crate) fn key_of(event: &KeyEvent) -> Option<Key> {
    let chord = KeyModifiers::CONTROL | KeyModifiers::ALT | KeyModifiers::SUPER;
    if event.kind == KeyEventKind::Release || event.modifiers.intersects(chord) {
        return None;
    }
    Some(match event.code {
        KeyCode::Char(c) => Key::Char(c),
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        KeyCode::Up => Key::Up,
        KeyCode::Down => Key::Down,
        KeyCode::Enter => Key::Enter,
        KeyCode::Esc => Key::Esc,
        KeyCode::Tab => Key::Tab,
        KeyCode::Backspace => Key::Backspace,
        KeyCode::Delete => Key::Delete,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        _ => return None,
    })
}

impl App {
    /// Takes one key. In practice a guess comes before new advice, whatever
    /// brought it: a shot, an answer, a cure.
    pub fn press(&mut self, key: Key) {
        let before = self.model.analysis.advice.refusal;
        self.take_key(key);
        if self.stack.last().is_none() && self.prompt.is_none() {
            self.ask_guess(before);
        }
    }

    fn take_key(&mut self, key: Key) {
        self.message = None;
        if self.tear_letter(key) {
            return;
        }
        if let Some(prompt) = &mut self.prompt {
            match key {
                Key::Enter => self.accept(),
                Key::Esc => self.prompt = None,
                _ => prompt.edit(key),
            }
            return;
        }
        let scope = self.scope();
        if let Key::Char(digit @ '0'..='9') = key {
            match (scope, self.stack.grid_mut()) {
                (Scope::Main, _) => self.start_tear(digit),
                (Scope::Grid, Some(cursor)) => cursor.digit(digit),
                _ => self.digit_here(digit),
            }
            return;
        }
        if let Key::Char(letter) = key
            && letter.is_alphabetic()
            && self.stack.last().is_some_and(Screen::takes_letters)
        {
            return self.digit_here(letter);
        }
        match self.means(key) {
            Some(action) => {
                self.may_be_a_tear(key.plain(), action);
                self.act(action);
            }
            None if matches!(key, Key::Char(_) | Key::Enter) => {
                self.say(typing::does_nothing(&key.label()));
            }
            None => {}
        }
    }

    /// What a key means on what is in front.
    pub(in crate::tui) fn means(&self, key: Key) -> Option<Action> {
        let scope = self.scope();
        let bound = self.model.look.keymap.action(scope, key.plain());
        bound.or_else(|| travels(scope, key))
    }

    /// Takes pasted text: into the line being typed, or as a tear.
    pub fn paste(&mut self, text: &str) {
        self.message = None;
        if self.prompt.is_none() && self.scope() == Scope::Main && self.model.read_only.is_none() {
            self.type_tear("");
        }
        if let Some(prompt) = &mut self.prompt {
            prompt.paste(text);
        }
    }

    fn digit_here(&mut self, digit: char) {
        if let Some(mut screen) = self.pop() {
            let effects = screen.digit(digit, &self.model);
            self.follow(screen, effects);
        }
    }

    pub(super) fn follow(&mut self, screen: Box<dyn Screen>, effects: Vec<Effect>) {
        if let Err(problem) = self.perform(screen, effects) {
            self.complain(problem);
        }
    }

    fn start_tear(&mut self, digit: char) {
        // On a virtual bow the key for a shot shoots; what is typed is a tear
        // there too, and read to its end.
        if self.model.is_virtual() {
            return self.type_tear(&digit.to_string());
        }
        self.act(Action::Shot);
        if let Some(prompt) = &mut self.prompt {
            prompt.edit(Key::Char(digit));
        }
    }

    /// Does an action, on the screen in front or on the panes.
    pub fn act(&mut self, action: Action) {
        let when = action.spec().when;
        if !when.holds(&self.model.situation()) {
            let behind = action == Action::Undo && self.timeline().can_undo.is_some();
            if behind && self.model.read_only.is_none() {
                return self.complain(crate::words::pages::typed::NOT_UNDONE_HERE);
            }
            let why = self
                .model
                .read_only
                .clone()
                .filter(|_| when != crate::actions::When::NewCard);
            self.complain(why.unwrap_or_else(|| when.else_say().to_owned()));
            return;
        }
        // A shot counts as used once it is recorded.
        if action != Action::Shot {
            self.model.look.hints.used(action);
        }
        self.leave_list(action);
        self.meet_the_bow();
        self.do_it(action);
        self.keep_first_step();
    }

    fn do_it(&mut self, action: Action) {
        match action {
            Action::Units => {
                // What is known does not change with the units: it is drawn again.
                self.model.system = self.model.system.other();
            }
            Action::Palette => self.prompt = Some(Prompt::new(Purpose::Find, "Find")),
            Action::Help | Action::Why | Action::Checks => self.explain(action),
            Action::Note => self.prompt = Some(Prompt::new(Purpose::Note, "Note")),
            Action::New => self.ask_for_file(),
            Action::OwnMove => self.prompt = Some(Prompt::new(Purpose::Move, "Move made")),
            Action::AsShown => self.confirm_as_shown(),
            Action::NotMade => self.confirm_not_made(),
            Action::Quit => self.quit = true,
            Action::Reload => self.reload(),
            Action::Guide => self.begin_guide(),
            _ => self.act_here(action),
        }
    }

    /// Asks where a session of one's own goes.
    pub(in crate::tui) fn ask_for_file(&mut self) {
        self.prompt = Some(Prompt::new(Purpose::NewFile, "New session"));
    }

    /// The list of actions gives way to the one that was chosen on it.
    fn leave_list(&mut self, action: Action) {
        if self.scope() == Scope::More && action.behind_more() {
            self.pop();
        }
    }

    fn act_here(&mut self, action: Action) {
        // What comes before a shot is answered over the page that asks for it.
        if action == Action::Range && matches!(self.scope(), Scope::Job | Scope::Stage) {
            return self.show(Name::Range);
        }
        // A page of figures opens over any other page to read.
        if matches!(action, Action::Spine | Action::Distances)
            && self.scope() == Scope::Reading
            && let Some(screen) = self.opened_by(action)
        {
            // The same page twice would only be in the way.
            if self.screen_title() == screen.title(&self.model) {
                self.pop();
            }
            return self.open(screen);
        }
        // What was recorded a moment ago is undone where it was recorded, too.
        if action == Action::Undo {
            return self.undo_here();
        }
        if let Some(mut screen) = self.pop() {
            if action == Action::Back && !screen.minds_leaving() {
                if let Some(mut under) = self.pop() {
                    under.uncovered(&self.model);
                    self.open(under);
                }
                return;
            }
            let effects = screen.act(action, &self.model);
            self.follow(screen, effects);
            return;
        }
        if self.stack.grid().is_some() {
            return self.act_on_grid(action);
        }
        if action == Action::Practice && self.model.first_steps.is_some() {
            return self.show_what_was_wrong();
        }
        if action == Action::Practice && self.model.demo {
            return self.begin_practice(crate::tui::app::practice::new_seed(), 1);
        }
        if let Some(screen) = self.opened_by(action) {
            return self.open(screen);
        }
        match action {
            Action::Shot if self.model.is_virtual() => self.practice_shot(),
            Action::Mark if self.model.is_virtual() => self.practice_reads(),
            Action::Shot => self.prompt = Some(Prompt::new(Purpose::Tear, "Tear")),
            Action::TakeMove => self.take_move(),
            Action::Answer => self.open_question(),
            Action::Mark => {
                self.mark(Some(GridCursor::default()));
            }
            Action::Redo => self.redo(),
            Action::CallBad => {
                self.model.next.called_bad = !self.model.next.called_bad;
                let (yes, no) = typing::CALLED_BAD;
                self.say(if self.model.next.called_bad { yes } else { no });
            }
            Action::Mirror => {
                self.model.next.mirrored = !self.model.next.mirrored;
                let (yes, no) = typing::READ_FROM;
                self.say(if self.model.next.mirrored { yes } else { no });
            }
            Action::Chart => self.model.series = self.model.series.next(),
            Action::Restart => self.restart(),
            Action::Left => self.model.pane = self.model.pane.step(-1),
            Action::Right => self.model.pane = self.model.pane.step(1),
            Action::Up => self.model.scroll = self.model.scroll.saturating_sub(1),
            Action::Down => self.model.scroll = (self.model.scroll + 1).min(200),
            Action::PageUp => self.model.scroll = self.model.scroll.saturating_sub(8),
            Action::PageDown => self.model.scroll = (self.model.scroll + 8).min(200),
            _ => {}
        }
    }

    /// The page of three parts at the part an action asks for; over itself it
    /// only turns to it.
    fn explain(&mut self, action: Action) {
        let titles = HelpPart::ALL.map(HelpPart::title);
        if titles.contains(&self.screen_title().as_str()) {
            self.pop();
        }
        self.show(Name::Explained(HelpPart::of(action)));
    }

    /// The screen an action opens.
    fn opened_by(&self, action: Action) -> Option<Box<dyn Screen>> {
        screens::make(Name::opened_by(action)?, &self.model)
    }

    /// Opens a screen by name, where there is something to show on it.
    pub(in crate::tui) fn show(&mut self, name: Name) {
        if let Some(screen) = screens::make(name, &self.model) {
            self.open(screen);
        }
    }

    /// Puts a screen in front.
    pub(in crate::tui) fn open(&mut self, screen: Box<dyn Screen>) {
        self.stack.push(screen, &mut self.model.front);
    }

    /// Takes the screen in front off.
    pub(in crate::tui) fn pop(&mut self) -> Option<Box<dyn Screen>> {
        self.stack.pop(&mut self.model.front)
    }

    /// Back to the panes.
    pub(in crate::tui) fn clear_screens(&mut self) {
        self.stack.clear(&mut self.model.front);
    }

    /// Begins to mark a hole on the grid, or leaves off; the marks so far.
    pub(in crate::tui) fn mark(&mut self, grid: Option<GridCursor>) -> Option<GridCursor> {
        self.stack.set_grid(grid, &mut self.model.front)
    }

    fn act_on_grid(&mut self, action: Action) {
        let system = self.model.system;
        let Some(cursor) = self.stack.grid_mut() else {
            return;
        };
        match action {
            Action::Left | Action::Right | Action::Up | Action::Down => cursor.go(action, system),
            Action::Back => {
                self.mark(None);
            }
            Action::MarkHere if cursor.point.is_none() => cursor.point = Some(cursor.at),
            Action::MarkHere => self.record_marks(),
            _ => {}
        }
    }

    fn record_marks(&mut self) {
        let Some(tear) = self.mark(None).and_then(|c| c.tear()) else {
            return;
        };
        if tear.length() > ASK_ABOVE {
            let text = crate::words::tear(tear, self.model.system);
            self.prompt = Some(Prompt::with(Purpose::Tear, "Tear", &text));
            return self.accept();
        }
        let hole = Hole {
            tear,
            ..Hole::default()
        };
        if let Err(problem) = self.record_holes(&[hole], "") {
            self.complain(problem);
        }
    }

    /// The advised move goes to the bench: recorded as pending, then shown.
    fn take_move(&mut self) {
        if self.timeline().pending.is_none() {
            let Some(advised) = &self.model.analysis.advice.movement else {
                return;
            };
            let steps = advised.moves();
            if let Err(problem) = self.record(Event::Pending { steps }) {
                return self.complain(problem);
            }
        }
        self.show(Name::Bench);
    }

    fn confirm_as_shown(&mut self) {
        let Some(pending) = self.timeline().pending.clone() else {
            return;
        };
        let words = wording::steps(&pending.steps, &self.timeline().card, self.model.system);
        let event = Event::Move {
            steps: pending.steps,
            said: None,
            confirms: Some(pending.entry),
        };
        self.settle(event, typing::move_recorded(&words));
        if let Some(message) = self.message.take().filter(|m| !m.problem) {
            let then = self.model.before_shooting();
            self.say(format!("{}. {then}", message.text));
        }
    }

    fn confirm_not_made(&mut self) {
        let Some(pending) = &self.timeline().pending else {
            return;
        };
        let event = Event::NotMade {
            pending: pending.entry,
        };
        self.settle(event, typing::NOT_MADE.to_owned());
    }

    fn settle(&mut self, event: Event, words: String) {
        match self.record(event) {
            Ok(_) => {
                self.clear_screens();
                self.say(words);
            }
            Err(problem) => self.complain(problem),
        }
    }

    /// A test answered in words, what to do after a refusal, an inspection, or
    /// shots for a test.
    fn open_question(&mut self) {
        if self.timeline().open_incident().is_some() {
            return self.show(Name::Inspection);
        }
        if let Some(reason) = crate::question::Refusal::of(&self.model.analysis) {
            return self.show(Name::Trouble(reason));
        }
        if self.model.analysis.range_due.is_some() {
            return self.show(Name::Range);
        }
        let Some(probe) = self.model.analysis.advice.probe.clone() else {
            return;
        };
        if !probe.answers.is_empty() && self.model.is_virtual() {
            return self.practice_answer(probe.kind);
        }
        if !probe.answers.is_empty() {
            return self.show(Name::Answers);
        }
        self.model.next.for_test = true;
        self.model.next.distance = probe
            .distance_m
            .map(|m| format!("{} m", crate::units::trim_number(m, 2)));
        self.model.next.bare = probe.kind == ProbeKind::BareShaft;
        let how = wording::next_shots(&self.model.next, self.model.system);
        self.say(typing::for_this_test(
            &how,
            &self.model.key(Action::NextShots),
        ));
    }
}

/// What `j`, `k`, `g` and `G` mean in pages and lists, wherever no action of
/// the screen has the letter: on the panes letters begin tears.
fn travels(scope: Scope, key: Key) -> Option<Action> {
    let action = match key {
        Key::Char('j' | 'J') => Action::Down,
        Key::Char('k' | 'K') => Action::Up,
        Key::Char('g') => Action::First,
        Key::Char('G') => Action::Last,
        _ => return None,
    };
    let goes = |action: Action| action.spec().scopes.contains(&scope);
    (scope != Scope::Main && goes(Action::First) && goes(action)).then_some(action)
}
