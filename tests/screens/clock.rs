//! Screens on entries whose times run backwards.

use crate::support::{look, text};
use tearbench::actions::{ACTIONS, Action, Key, Scope};
use tearbench::session::Session;
use tearbench::tui::{App, Look};

const SOUND: &str = include_str!("../../sample-sessions/half-way.toml");

/// The sample with each entry an hour before the one before it, the second
/// half around 1970.
fn backwards() -> String {
    let mut hour = 0;
    let lines = SOUND.split_inclusive('\n').map(|line| {
        if !line.starts_with("at = \"") {
            return line.to_owned();
        }
        hour += 1;
        match hour {
            1..=12 => format!("at = \"2026-03-02T{:02}:00:00+00:00\"\n", 23 - hour),
            _ => format!("at = \"1969-12-31T{:02}:00:00+00:00\"\n", 23 - hour % 23),
        }
    });
    lines.collect()
}

fn app(text: &str) -> App {
    let look = Look {
        folder: std::env::temp_dir().join("no-such-folder-here"),
        ..look()
    };
    let session = Session::from_text(text).unwrap();
    App::new(session, false, tearbench::advice::analyse_after, look)
}

#[test]
fn every_screen_says_the_same_but_for_the_times_and_what_follows_is_the_latest() {
    let text_back = backwards();
    assert_ne!(text_back, SOUND);
    for spec in ACTIONS.iter().filter(|s| s.scopes.contains(&Scope::Main)) {
        if matches!(spec.action, Action::Quit) {
            continue;
        }
        let shown = |source: &str| {
            let mut app = app(source);
            app.act(spec.action);
            let all = text(&app, 120, 200);
            let words = all.split_whitespace();
            let times = |w: &&str| !w.contains(':') && !w.contains("-0") && !w.contains("-1");
            words.filter(times).collect::<Vec<_>>().join(" ")
        };
        assert_eq!(shown(SOUND), shown(&text_back), "{}", spec.id);
    }
    let mut app = app(&text_back);
    let last = app.session().entries().last().unwrap().number;
    "5l2h".chars().for_each(|c| app.press(Key::Char(c)));
    app.press(Key::Enter);
    assert_eq!(app.session().entries().last().unwrap().number, last + 1);
    app.act(Action::Undo);
    assert!(text(&app, 120, 40).contains("undone"), "the latest entry");
    assert!(app.timeline().undone.contains(&(last + 1)));
}
