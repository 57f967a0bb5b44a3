//! Keys pressed at random: nothing panics, and what is on disk is what is on screen.

use crate::support::{cells, look};
use proptest::prelude::*;
use tearbench::actions::Key;
use tearbench::session::Session;
use tearbench::tui::{App, Look};

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

fn key() -> impl Strategy<Value = Key> {
    prop_oneof![
        6 => prop::sample::select("smoyxgkurclwdbtefpian/?,.-z".chars().collect::<Vec<_>>()).prop_map(Key::Char),
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
        let mut app = App::new(session, false, tearbench::advice::analyse, look);
        for key in keys {
            app.press(key);
            cells(&app, width, height);
        }
        let on_screen = app.session();
        let on_disk = Session::open(on_screen.path().unwrap()).unwrap();
        prop_assert_eq!(on_disk.entries(), on_screen.entries());
        prop_assert!(on_disk.damage().is_empty());
    }
}
