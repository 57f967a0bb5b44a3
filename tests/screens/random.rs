//! Keys pressed at random: nothing panics, and what is on disk is what is on screen.

use crate::support::{cells, look};
use proptest::prelude::*;
use tearbench::actions::{Action, Key, Scope};
use tearbench::session::Session;
use tearbench::tui::{App, Look};

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

fn key() -> impl Strategy<Value = Key> {
    prop_oneof![
        6 => prop::sample::select("smoyxgkurclwdbtefpianhjvq/?,.-z".chars().collect::<Vec<_>>()).prop_map(Key::Char),
        4 => prop::sample::select("0123456789".chars().collect::<Vec<_>>()).prop_map(Key::Char),
        6 => prop::sample::select(vec![Key::Left, Key::Right, Key::Up, Key::Down, Key::Tab]),
        5 => Just(Key::Enter),
        2 => Just(Key::Esc),
        2 => prop::sample::select(vec![Key::Backspace, Key::Delete, Key::Home, Key::End, Key::PageUp, Key::PageDown]),
        1 => any::<char>().prop_map(Key::Char),
    ]
}

fn cases() -> u32 {
    std::env::var("TEARBENCH_KEY_CASES")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(40)
}

/// Back on the panes, undo then redo leaves everything as it was.
fn undo_then_redo_changes_nothing(app: &mut App) {
    for _ in 0..12 {
        app.press(Key::Esc);
    }
    if app.scope() != Scope::Main || !app.model().situation().undoable {
        return;
    }
    let state = |app: &App| {
        let timeline = app.timeline();
        format!(
            "{:?} {:?} {:?}",
            timeline.shots, timeline.now, timeline.card
        )
    };
    let before = state(app);
    app.act(Action::Undo);
    app.act(Action::Redo);
    assert_eq!(state(app), before);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(), failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_keys_leave_the_file_equal_to_the_screen(
        keys in prop::collection::vec(key(), 1..60),
        width in 1u16..140,
        height in 1u16..50,
    ) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        std::fs::write(&path, CARD).unwrap();
        let (session, _) = App::open_session(&path).unwrap();
        let look = Look { folder: folder.path().into(), ..look() };
        let mut app = App::new(session, false, tearbench::advice::analyse_after, look);
        for key in keys {
            app.press(key);
            cells(&app, width, height);
        }
        undo_then_redo_changes_nothing(&mut app);
        let on_screen = app.session();
        // Practice has no file.
        if let Some(path) = on_screen.path() {
            let on_disk = Session::open(path).unwrap();
            prop_assert_eq!(on_disk.entries(), on_screen.entries());
            prop_assert!(on_disk.damage().is_empty());
        }
    }
}
