//! What the console costs in keys: a shot, a move, a card, a whole job from
//! an empty start to the sheet on disk. The figures are printed and may not
//! grow; those of the first console were 6, 2, 245 and about 400.

use std::path::Path;

use crate::support::{demo, look, text};
use tearbench::actions::{Action, Key, Scope};
use tearbench::gear::AdjusterKind;
use tearbench::session::Session;
use tearbench::tui::{App, Look};

/// A console whose keys are counted.
struct Typist {
    app: App,
    keys: usize,
    /// The most keys a move took.
    a_move: usize,
}

impl Typist {
    const fn at(app: App) -> Self {
        Self {
            app,
            keys: 0,
            a_move: 0,
        }
    }
}

impl Typist {
    fn key(&mut self, key: Key) {
        self.app.press(key);
        self.keys += 1;
    }

    fn text(&mut self, text: &str) {
        text.chars().for_each(|c| self.key(Key::Char(c)));
    }

    /// The keys of an action here: its own, after the key of the list where
    /// only the list has it.
    fn act(&mut self, id: &str) {
        let action = Action::from_id(id).unwrap();
        let spec = action.spec();
        if self.app.scope() == Scope::Main && spec.scopes.first() == Some(&Scope::More) {
            self.key(Key::Char(' '));
        }
        self.key(spec.keys[0]);
    }

    fn shows(&self, words: &str) -> bool {
        text(&self.app, 160, 50).contains(words)
    }

    /// The keys something took.
    fn counted(&mut self, what: impl FnOnce(&mut Self)) -> usize {
        let before = self.keys;
        what(self);
        self.keys - before
    }
}

/// A bow whose tail goes against the rest by 2 mm a mm, and which stands
/// 13 mm left and 5 mm high at the start; two readings a millimetre apart.
fn tear(app: &App) -> [i32; 2] {
    let now = &app.timeline().now;
    let side = -13.0 - 2.0 * now.get(AdjusterKind::RestSideways);
    let up =
        5.0 - 2.0 * now.get(AdjusterKind::RestHeight) + 2.0 * now.get(AdjusterKind::NockingPoint);
    let jitter = f64::from(app.timeline().shots.len() as u32 % 2);
    [side + jitter, up - jitter].map(|mm| mm.round() as i32)
}

/// Types a tear the shortest way, `13l5h`, and enters it.
fn shoot(typist: &mut Typist) {
    let [right, up] = tear(&typist.app);
    let part = |mm: i32, minus: char, plus: char| match mm {
        0 => String::new(),
        mm if mm < 0 => format!("{}{minus}", -mm),
        mm => format!("{mm}{plus}"),
    };
    let said = part(right, 'l', 'r') + &part(up, 'l', 'h').replace('l', "d");
    let said = if said.is_empty() {
        "0".to_owned()
    } else {
        said
    };
    typist.text(&said);
    typist.key(Key::Enter);
}

/// What differs from the usual on the bow at hand, by the line it stands on.
const TYPED: [(&str, &str); 8] = [
    ("peak weight", "62"),
    ("draw length", "28 1/2"),
    ("brace height", "6 3/4"),
    ("shaft length", "28"),
    ("static spine", "0.340"),
    ("shaft weight", "9.3"),
    ("point weight", "100"),
    ("vane weight", "24"),
];

/// Goes through a new card: what differs is typed, each section is read and
/// confirmed with one key, and the session begun.
fn card(typist: &mut Typist) {
    for (line, value) in TYPED {
        while !text(&typist.app, 100, 60)
            .lines()
            .any(|l| l.contains("> ") && l.contains(line))
        {
            typist.key(Key::Down);
            assert!(typist.keys < 600, "{line}: {}", text(&typist.app, 100, 60));
        }
        typist.text(value);
        typist.key(Key::Enter);
    }
    for _ in 0..6 {
        if !typist.app.screen_title().contains(" confirmed") {
            break;
        }
        typist.act("confirm-section");
    }
    typist.key(Key::End);
    typist.key(Key::Enter);
}

/// From the demo to a session of one's own, its card read.
fn begin(typist: &mut Typist) {
    typist.act("new");
    typist.text("blue");
    typist.key(Key::Enter);
}

/// Follows the verdicts to the end, as a technician at the frame would.
fn follow(typist: &mut Typist) {
    for _ in 0..60 {
        if typist.shows("WITHIN TOLERANCE") {
            return;
        }
        if typist.shows("RANGE SAFETY LIST FIRST") {
            typist.act("answer");
            typist.key(Key::Enter);
        } else if typist.shows("MOVE ") {
            let before = typist.keys;
            typist.act("take-move");
            typist.act("as-shown");
            typist.a_move = typist.a_move.max(typist.keys - before);
        } else if typist.shows("Test: ") || typist.app.screen_title().starts_with("Test") {
            typist.key(Key::Enter);
        } else if typist.shows("answer") && typist.app.model().situation().asked {
            typist.act("answer");
        } else {
            shoot(typist);
        }
    }
    panic!("no end:\n{}", text(&typist.app, 120, 40));
}

/// Writes the sheet as a page to print.
fn sheet(typist: &mut Typist, folder: &Path) {
    typist.act("sheet");
    typist.key(Key::Down);
    typist.key(Key::Enter);
    typist.key(Key::Enter);
    let written = std::fs::read_dir(folder).unwrap();
    let page = written
        .map(|f| f.unwrap().path())
        .any(|p| p.extension().is_some_and(|e| e == "html"));
    assert!(page, "{}", text(&typist.app, 120, 40));
}

#[test]
fn the_keys_of_a_shot_a_move_a_card_and_a_whole_job() {
    let folder = tempfile::tempdir().unwrap();
    let app = demo(Look {
        folder: folder.path().into(),
        ..look()
    });
    let mut typist = Typist::at(app);
    let begun = typist.counted(begin);
    let card = typist.counted(card);
    assert_eq!(
        typist.app.screen_title(),
        "panes",
        "{}",
        text(&typist.app, 120, 40)
    );
    let path = folder.path().join("blue.toml");
    let session = Session::open(&path).unwrap();
    assert_eq!(
        session
            .timeline()
            .card_text
            .to_toml()
            .matches("unconfirmed")
            .count(),
        0
    );
    let paper = typist.counted(follow);
    let sheet = typist.counted(|t| sheet(t, folder.path()));
    // By themselves, on the same session.
    let shot = {
        let app = demo(look());
        let mut typist = Typist::at(app);
        typist.text("12");
        typist.key(Key::Left);
        typist.text("4");
        typist.key(Key::Up);
        typist.key(Key::Enter);
        typist.keys
    };
    let moved = typist.a_move;
    let job = begun + card + paper + sheet;
    let shots = typist.app.timeline().shots.len();
    let moves = typist.app.timeline().moves.len();
    println!("| keys | a shot | a move | a card | a whole job |");
    println!("| now | {shot} | {moved} | {card} | {job} |");
    println!(
        "a whole job: {begun} to begin, {card} card, {paper} paper ({shots} shots, {moves} moves), {sheet} sheet"
    );
    assert!(moves > 0 && shots > 3, "{moves} {shots}");
    assert!(shot <= 6, "{shot}");
    assert!(moved <= 2, "{moved}");
    assert!(card <= 60, "{card}");
    assert!(job <= 115, "{job}");
}
