//! The one table of actions and keys. Dispatch, key line, help screen,
//! palette, the manual page and the README's table all come from it.

mod also;
mod key;
mod listing;

use std::fmt;

pub use key::Key;
pub(crate) use listing::{KeyRow, key_rows};

/// Where keys mean what they mean: the main screen, its grid, or a kind of screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Scope {
    /// The three panes.
    Main,
    /// The list of further actions, one letter each, over the panes.
    More,
    /// Marking a hole on the grid.
    Grid,
    /// A move at the bench.
    Bench,
    /// The card.
    Card,
    /// The log of entries.
    Log,
    /// A step before or after paper.
    Job,
    /// A stage of proof that is shot.
    Stage,
    /// Marking where arrows hit on a face.
    Face,
    /// The bench book.
    Book,
    /// Something to choose from: answers, incidents, files, next shots.
    Choice,
    /// Something to read.
    Reading,
}

impl Scope {
    /// Every scope, in the order of the help screen.
    pub(crate) const ALL: [Self; 12] = [
        Self::Main,
        Self::More,
        Self::Grid,
        Self::Bench,
        Self::Card,
        Self::Log,
        Self::Job,
        Self::Stage,
        Self::Face,
        Self::Book,
        Self::Choice,
        Self::Reading,
    ];

    /// Its heading on the help screen.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Main => "The three panes",
            Self::More => "More actions",
            Self::Grid => "Marking a hole on the grid",
            Self::Bench => "A move at the bench",
            Self::Card => "The card",
            Self::Log => "The log",
            Self::Job => "Before and after paper",
            Self::Stage => "A stage of proof",
            Self::Face => "Marking hits on a face",
            Self::Book => "The bench book",
            Self::Choice => "A list to choose from",
            Self::Reading => "A page to read",
        }
    }
}

/// What an action needs before it can be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum When {
    /// Nothing.
    Always,
    /// A session that can be written.
    Writable,
    /// An advised move, or one waiting at the bench.
    MoveShown,
    /// A move waiting at the bench.
    Pending,
    /// A question: a test to answer, a step of troubleshooting, or an inspection to be done.
    Asked,
    /// Something to undo.
    Undoable,
    /// Something to redo.
    Redoable,
    /// A card that is not yet a session.
    NewCard,
    /// Something answered in one word, not shot.
    ByWord,
}

/// What holds now, for [`When`].
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Situation {
    /// Entries can be recorded.
    pub(crate) writable: bool,
    /// The verdict is a move.
    pub(crate) move_advised: bool,
    /// A move waits at the bench.
    pub pending: bool,
    /// A question waits for an answer.
    pub asked: bool,
    /// Undo would do something.
    pub undoable: bool,
    /// Redo would do something.
    pub(crate) redoable: bool,
    /// The card on screen is not yet a session.
    pub(crate) new_card: bool,
    /// The line the cursor is on is answered in one word.
    pub(crate) by_word: bool,
}

impl When {
    /// Whether it holds.
    pub(crate) const fn holds(self, now: &Situation) -> bool {
        match self {
            Self::Always => true,
            Self::Writable => now.writable,
            Self::MoveShown => now.writable && (now.move_advised || now.pending),
            Self::Pending => now.writable && now.pending,
            Self::Asked => now.writable && now.asked,
            Self::Undoable => now.writable && now.undoable,
            Self::Redoable => now.writable && now.redoable,
            Self::NewCard => now.new_card,
            Self::ByWord => now.writable && now.by_word,
        }
    }

    /// Why not, when it does not hold.
    pub(crate) const fn else_say(self) -> &'static str {
        match self {
            Self::Always => "",
            Self::Writable => "this session is open for reading only",
            Self::MoveShown => "no move is advised now; a move of your own can still be recorded",
            Self::Pending => "no move is waiting at the bench",
            Self::Asked => "nothing is asked now",
            Self::Undoable => "there is nothing to undo",
            Self::Redoable => "there is nothing to redo",
            Self::NewCard => "this card is in use already; each change is recorded as it is made",
            Self::ByWord => "this is shot, not answered in a word; Enter opens it",
        }
    }
}

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Spec {
    /// Which action.
    pub action: Action,
    /// Its stable name.
    pub id: &'static str,
    /// Default keys; none where only the palette reaches it.
    pub keys: &'static [Key],
    /// Where its keys work.
    pub scopes: &'static [Scope],
    /// When it is usable.
    pub(crate) when: When,
    /// One or two words for the key line.
    pub label: &'static str,
    /// One line for help, palette, manual page and README.
    pub doc: &'static str,
}

macro_rules! actions {
    ($($name:ident $id:literal [$($key:expr),*] [$($scope:ident),*] $when:ident $label:literal $doc:literal;)+) => {
        /// Everything the console can be told to do.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Action {
            $(#[doc = $doc] $name),+
        }
        /// The table, in the order of the key line and the help screen.
        pub const ACTIONS: &[Spec] = &[$(Spec {
            action: Action::$name,
            id: $id,
            keys: &[$($key),*],
            scopes: &[$(Scope::$scope),*],
            when: When::$when,
            label: $label,
            doc: $doc,
        }),+];
    };
}

use Key::Char;

actions! {
    Shot "shot" [Char('s'), Key::Enter] [Main] Writable "shot" "Type a tear; a digit starts it straight away";
    TakeMove "take-move" [Char('m')] [Main] MoveShown "take the move" "Take the advised move to the bench";
    AsShown "as-shown" [Char('y')] [Main, Bench] Pending "made as shown" "The move was made as shown";
    NotMade "not-made" [Char('x')] [Main, Bench] Pending "not made" "The move was not made";
    OwnMove "own-move" [Char('o')] [Main, Bench] Writable "other move" "Record a move that was made and not the one shown";
    Answer "answer" [Char('a')] [Main] Asked "answer" "Answer the test that is asked; after a refusal troubleshooting, a step at a time; the inspection; the range safety list";
    Undo "undo" [Char('u')] [Main, Job, Stage, Choice] Undoable "undo" "Undo the latest entry (it stays in the log)";
    Card "card" [Char('c')] [Main] Always "card" "The card: bow, rest, arrow, archer, paper";
    Log "log" [Char('l')] [Main] Always "log" "Every entry: browse, undo, note";
    Why "why" [Char('w')] [Main, Reading] Always "why" "How the verdict was reached";
    Checks "checks" [Char('c')] [More, Reading] Always "checks" "The four checks in detail, with their figures";
    Mark "mark" [Char('g')] [More] Writable "grid" "Mark a hole on the grid: point, then nock";
    MarkHere "mark-here" [Key::Enter, Char('g')] [Grid] Writable "mark" "Mark the point hole, then the nock hole";
    CallBad "call-bad" [Char('k')] [Main] Writable "call bad" "Call the shot bad before looking at the paper";
    NextShots "next-shots" [Char('p')] [Main] Writable "who, arrow" "Who shoots, which arrow, how far, bare or fletched";
    Chart "chart" [Char('g')] [Main] Always "chart" "The chart: distance from the wanted tear, sideways, up and down";
    Redo "redo" [Char('r')] [More] Redoable "redo" "Redo the entry undone last";
    Note "note" [Char('t')] [More, Log] Writable "note" "Write a note into the log";
    Letters "letters" [Char('b')] [Main] Always "big" "The verdict alone in block letters, to read from across the room";
    Incident "incident" [Char('e')] [More] Writable "incident" "Dry fire, struck arrow and the like: stop until inspected";
    Before "before" [Char('b')] [More] Always "before paper" "Before paper: the range, the set-up checklist, what is due again";
    Proof "proof" [Char('a')] [More] Always "after paper" "After paper: proof at distance, stage by stage, and the sight";
    PutBack "put-back" [Char('k')] [More] Always "put back" "Put the bow back to the start or to a setting: the moves, and to the bench";
    Sheet "sheet" [Char('z')] [More] Always "sheet" "The sheet: read it, write it to a file, close the job";
    Files "files" [Char('f')] [More] Always "bench book" "The bench book: sessions here and recent ones; park this one and open another";
    New "new" [Char('n')] [More] Always "new session" "Start a session of your own: a file, then its card";
    Practice "practice" [Char('v')] [Main] Always "practise" "Practise on a virtual bow with something wrong; in practice: tests, fixes, your answer";
    Spine "spine" [Char('h')] [More, Reading] Always "arrow" "The arrow as a column: how it bends, whether it suits the bow, what would change that";
    Distances "distances" [Char('d')] [More, Reading] Always "distances" "The same arrow at other distances, from the tear as it is known now";
    InOrder "in-order" [Char('y')] [Job] ByWord "ok" "In order";
    NotInOrder "not-in-order" [Char('x')] [Job] ByWord "off" "Not in order: what follows is said";
    Face "face" [Char('f')] [Stage] Writable "mark on a face" "Mark where the arrows of this group hit, on a face";
    HitHere "hit-here" [Key::Enter, Char('g')] [Face] Writable "hit here" "An arrow hit here";
    TakeBack "take-back" [Char('u'), Key::Backspace] [Face] Writable "take back" "Take the last mark back";
    KeepGroup "keep-group" [Char('y')] [Face] Writable "record them" "These are all: record the group";
    LeaveOut "leave-out" [Char('s')] [Job, Stage] Writable "skip" "Left out knowingly; the record shows it";
    PressWork "press-work" [Char('p')] [Job] Writable "press work" "Press work, a new string or cables was done: what it changes is asked again";
    NewVisit "new-visit" [Char('n')] [Book] Always "new from this card" "A new session from the card of this one, as the bow stood at its end";
    Compare "compare" [Char('w')] [Book] Always "compare" "This session against the one that is open: what moved, what changed in the tears";
    Choose "choose" [Key::Enter] [Card, Job, Stage, Book, Choice] Always "choose" "Change or choose the line the cursor is on";
    ConfirmSection "confirm-section" [Char('+')] [Card] Always "confirm section" "The values of this section were read and are right: what was filled in counts as entered";
    Start "start" [] [Card] NewCard "start the session" "Make the session file from this card";
    UndoEntry "undo-entry" [Char('u')] [Log] Writable "undo it" "Undo the entry the cursor is on, or redo it";
    RestartAt "restart-at" [Char('r')] [Log] Writable "bow put back here" "The bow was put back to the setting of this entry: the likely tear is forgotten";
    PlaceMove "place-move" [Char('m')] [Log] Writable "a move was made here" "A move was made before this shot and not recorded: place it; what it changes is said first";
    HandOver "hand-over" [Char('h')] [Log] Writable "another bow's" "This shot and those after it were another bow's: hand them to its session";
    Up "up" [Key::Up] [Main, More, Grid, Bench, Card, Log, Job, Stage, Face, Book, Choice, Reading] Always "up" "Cursor, line or text up";
    Down "down" [Key::Down] [Main, More, Grid, Bench, Card, Log, Job, Stage, Face, Book, Choice, Reading] Always "down" "Cursor, line or text down";
    Left "left" [Key::Left] [Main, Grid, Card, Job, Stage, Face, Choice, Reading] Always "left" "Cursor left, the choice before, or the pane before";
    Right "right" [Key::Right, Key::Tab] [Main, Grid, Card, Job, Stage, Face, Choice, Reading] Always "right" "Cursor right, the next choice, or the next pane";
    First "first" [Key::Home] [Bench, More, Card, Log, Job, Stage, Book, Choice, Reading] Always "first" "To the first line";
    Last "last" [Key::End] [Bench, More, Card, Log, Job, Stage, Book, Choice, Reading] Always "last" "To the last line";
    PageUp "page-up" [Key::PageUp] [Main, More, Bench, Card, Log, Job, Stage, Book, Choice, Reading] Always "page up" "A page up";
    PageDown "page-down" [Key::PageDown] [Main, More, Bench, Card, Log, Job, Stage, Book, Choice, Reading] Always "page down" "A page down";
    More "more" [Char(' ')] [Main] Always "more" "Every further action, by its letter";
    Range "range" [Char('l')] [More, Job, Stage] Always "range list" "The range safety list: eight items, one key; another place";
    Reload "reload" [] [Main] Always "reload" "Read the file again, as another program left it; take it over for writing where it is free";
    Guide "guide" [] [Main] Always "first steps" "The first steps from the start: a virtual bow tuned by keyboard; on the demo";
    Restart "restart" [] [Main] Writable "start over" "Something on the bow changed: the likely tear is forgotten, what its adjusters do is kept";
    Mirror "mirror" [] [Main] Writable "mirror" "Read the sheet from the target side: left and right swap on entry";
    LookPage "look" [Char('o')] [More] Always "look" "Colours and characters: every look side by side, and the one to use";
    Units "units" [Char('i')] [Main, More, Grid, Bench, Card, Log, Job, Stage, Face, Book, Choice, Reading] Always "mm/in" "Millimetres or inches, on screen only";
    Palette "palette" [Char('/')] [Main, More, Log, Job, Stage, Book, Choice, Reading, Bench] Always "find" "Find an action by a few of its letters";
    Help "help" [Char('?')] [Main, More, Grid, Bench, Card, Log, Job, Stage, Face, Book, Choice, Reading] Always "help" "What is on the screen now, and its keys";
    Back "back" [Key::Esc, Char('q')] [More, Grid, Bench, Card, Log, Job, Stage, Face, Book, Choice, Reading] Always "back" "Back to the screen before";
    Quit "quit" [Char('q')] [Main] Always "quit" "Leave; everything recorded is on disk already";
}

impl Action {
    /// Its row in the table.
    pub fn spec(self) -> &'static Spec {
        // The enum and the table are written by the same macro, in the same order.
        &ACTIONS[self as usize]
    }
    /// Whether it is used on the panes, by a key of theirs or from the list.
    pub(crate) fn on_panes(self) -> bool {
        self.spec().scopes.contains(&Scope::Main) || self.behind_more()
    }
    /// Whether only the list of further actions has a key for it on the panes.
    pub(crate) fn behind_more(self) -> bool {
        self.spec().scopes.first() == Some(&Scope::More) && self != Self::Back
    }
    /// Whether it only moves a cursor or a page.
    pub(crate) const fn travels(self) -> bool {
        matches!(
            self,
            Self::Up
                | Self::Down
                | Self::Left
                | Self::Right
                | Self::First
                | Self::Last
                | Self::PageUp
                | Self::PageDown
        )
    }
    /// Whether its key acts before it is known that it begins no word: it only
    /// moves, opens a page that can be taken off again, or a line to type on. On
    /// a virtual bow shooting and answering record at once.
    pub(crate) const fn acts_at_once(self, virtual_bow: bool) -> bool {
        self.travels()
            || match self {
                Self::Shot | Self::Answer | Self::Mark => !virtual_bow,
                Self::OwnMove
                | Self::Card
                | Self::Log
                | Self::Why
                | Self::Checks
                | Self::NextShots
                | Self::Note
                | Self::Letters
                | Self::Incident
                | Self::Before
                | Self::Proof
                | Self::PutBack
                | Self::Sheet
                | Self::Files
                | Self::New
                | Self::Spine
                | Self::Distances
                | Self::NewVisit
                | Self::Compare
                | Self::PlaceMove
                | Self::HandOver
                | Self::More
                | Self::Range
                | Self::LookPage
                | Self::Palette
                | Self::Help => true,
                _ => false,
            }
    }
    /// The action with this name.
    pub fn from_id(id: &str) -> Option<Self> {
        ACTIONS.iter().find(|s| s.id == id).map(|s| s.action)
    }
}

/// One key that two actions share on one screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Clash {
    /// The key.
    pub(crate) key: Key,
    /// The two actions, in the order of the table.
    pub(crate) actions: [Action; 2],
    /// Where both would work.
    pub scope: Scope,
}

impl fmt::Display for Clash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = self.actions.map(|a| a.spec().id);
        let (key, title) = (self.key.label(), self.scope.title());
        write!(f, "key {key} is both {first} and {second} ({title})")
    }
}

/// The keys in force: the table's, with whatever overrides them.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Keymap {
    overrides: Vec<(Action, Vec<Key>)>,
}

impl Keymap {
    /// The table's keys with some replaced, by action name.
    ///
    /// # Errors
    /// An unknown action, or a key that two actions would share on one screen; both are named.
    pub fn with(overrides: &[(&str, Vec<Key>)]) -> Result<Self, String> {
        let mut map = Self::default();
        for (id, keys) in overrides {
            let action = Action::from_id(id).ok_or_else(|| format!("there is no action {id}"))?;
            map.set(action, keys.clone());
        }
        match map.clash() {
            Some(clash) => Err(clash.to_string()),
            None => Ok(map),
        }
    }

    /// Replaces the keys of an action, clashes or not: see [`Self::clash`].
    pub fn set(&mut self, action: Action, keys: Vec<Key>) {
        self.overrides.push((action, keys));
    }

    /// Gives an action the table's keys back.
    pub(crate) fn unset(&mut self, action: Action) {
        self.overrides.retain(|(a, _)| *a != action);
    }

    /// The keys of an action.
    pub fn keys(&self, action: Action) -> &[Key] {
        self.overrides
            .iter()
            .rev()
            .find(|(a, _)| *a == action)
            .map_or(action.spec().keys, |(_, keys)| keys)
    }

    /// What a key means in a scope.
    pub fn action(&self, scope: Scope, key: Key) -> Option<Action> {
        ACTIONS
            .iter()
            .filter(|s| s.scopes.contains(&scope))
            .map(|s| s.action)
            .find(|a| self.keys(*a).contains(&key))
    }

    /// The first key two actions share in one scope.
    pub(crate) fn clash(&self) -> Option<Clash> {
        for scope in Scope::ALL {
            let mut seen: Vec<(Key, Action)> = Vec::new();
            for spec in ACTIONS.iter().filter(|s| s.scopes.contains(&scope)) {
                for key in self.keys(spec.action) {
                    if let Some((_, other)) = seen.iter().find(|(k, _)| k == key) {
                        return Some(Clash {
                            key: *key,
                            actions: [*other, spec.action],
                            scope,
                        });
                    }
                    seen.push((*key, spec.action));
                }
            }
        }
        None
    }

    /// What to press for an action from a screen: its first key, after the
    /// key of the list where only the list has it.
    pub(crate) fn way(&self, action: Action, from: Scope) -> String {
        let first = self.first(action);
        let scopes = action.spec().scopes;
        let behind = scopes.contains(&Scope::More) && !scopes.contains(&from);
        if first.is_empty() || !behind || from == Scope::More {
            return first;
        }
        format!("{} {first}", self.first(Action::More))
    }

    /// The keys of an action as written on screen, `s, Enter`.
    pub fn label(&self, action: Action) -> String {
        let labels: Vec<String> = self.keys(action).iter().map(|k| k.label()).collect();
        labels.join(", ")
    }

    /// Its first key as written on screen.
    pub fn first(&self, action: Action) -> String {
        self.keys(action)
            .first()
            .map_or_else(String::new, |k| k.label())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_means_two_things_on_one_screen() {
        assert_eq!(Keymap::default().clash(), None);
        let clash = Keymap::with(&[("undo", vec![Char('s')])]).unwrap_err();
        assert!(clash.contains("shot and undo"), "{clash}");
        assert!(
            Keymap::with(&[("fly", vec![])])
                .unwrap_err()
                .contains("fly")
        );
        assert!(Keymap::with(&[("undo", vec![Char('+')])]).is_ok());
    }

    #[test]
    fn every_action_stands_in_its_own_row_with_a_name_of_its_own() {
        for (i, spec) in ACTIONS.iter().enumerate() {
            assert_eq!(spec.action as usize, i);
            assert_eq!(Action::from_id(spec.id), Some(spec.action), "{}", spec.id);
            assert!(!spec.doc.is_empty() && !spec.label.is_empty() && !spec.scopes.is_empty());
        }
    }

    #[test]
    fn letters_and_arrows_are_enough() {
        let plain = |key: &Key| match key {
            Char(c) => c.is_ascii_lowercase() || matches!(c, '?' | '/' | ' ' | '+'),
            _ => true,
        };
        assert!(ACTIONS.iter().all(|s| s.keys.iter().all(plain)));
        // Digits start a tear, so no action may take one.
        assert!(
            !ACTIONS
                .iter()
                .any(|s| s.keys.iter().any(|k| matches!(k, Char('0'..='9'))))
        );
    }
}
