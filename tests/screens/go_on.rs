//! The offer to go on, before the demo.

use crate::support::{demo, look, text};
use tearbench::actions::{Action, Key};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::session::Event;
use tearbench::tui::recent::Recent;
use tearbench::tui::{App, Look};

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

struct Bench(tempfile::TempDir);

impl Bench {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }
    fn file(&self, name: &str) -> std::path::PathBuf {
        let path = self.0.path().join(name);
        std::fs::write(&path, CARD).unwrap();
        path
    }
    fn recent(&self) -> Recent {
        Recent::at(self.0.path().join("state").join("recent"))
    }
    fn started(&self) -> App {
        let mut app = demo(Look {
            recent: self.recent(),
            ..look()
        });
        app.offer_to_go_on();
        app
    }
}

#[test]
fn several_that_were_dropped_are_offered_latest_first_and_none_of_them_is_a_choice() {
    let bench = Bench::new();
    for name in ["one.toml", "two.toml", "three.toml", "four.toml"] {
        bench.recent().opened(&bench.file(name));
    }
    let app = bench.started();
    for (width, height) in [(40, 12), (60, 20), (80, 24), (120, 40)] {
        let shown = text(&app, width, height);
        assert!(shown.contains("four.toml"), "{shown}");
    }
    let shown = text(&app, 80, 24);
    let place = |name: &str| shown.find(name).unwrap_or(usize::MAX);
    assert!(place("four.toml") < place("three.toml") && place("three.toml") < place("two.toml"));
    assert!(shown.contains("leave them: the demo") && !shown.contains("one.toml"));
    assert!(
        shown.contains("These sessions") || shown.contains("these sessions"),
        "{shown}"
    );
    let mut app = app;
    app.press(Key::Down);
    app.press(Key::Enter);
    assert!(app.session().path().unwrap().ends_with("three.toml"));
    // It is open here: at another start only the others are left over.
    assert!(!text(&bench.started(), 80, 24).contains("three.toml"));
    app.put_down();
}

#[test]
fn a_move_left_at_the_bench_is_offered_even_where_the_session_was_left_properly() {
    let bench = Bench::new();
    let path = bench.file("bow.toml");
    let recent = bench.recent();
    recent.remember(&path);
    assert_eq!(bench.started().screen_title(), "panes", "nothing waits");
    let (mut session, _) = App::open_session(&path).unwrap();
    let steps = vec![Step {
        adjuster: AdjusterKind::RestSideways,
        amount: -1.0,
    }];
    session.record(Event::Pending { steps }).unwrap();
    drop(session);
    let mut app = bench.started();
    let shown = text(&app, 80, 24);
    assert!(shown.contains("pending move: Rest"), "{shown}");
    app.act(Action::Choose);
    assert!(app.timeline().pending.is_some() && app.session().path().is_some());
}

#[test]
fn what_cannot_be_read_any_more_is_not_offered() {
    let bench = Bench::new();
    let path = bench.file("bow.toml");
    bench.recent().opened(&path);
    std::fs::write(&path, "no session").unwrap();
    assert_eq!(bench.started().screen_title(), "panes");
    std::fs::write(&path, [0xff, 0xfe]).unwrap();
    assert_eq!(bench.started().screen_title(), "panes");
    // One that vanishes while the offer is on the screen says so, and nothing else happens.
    std::fs::write(&path, CARD).unwrap();
    let mut app = bench.started();
    std::fs::remove_file(&path).unwrap();
    app.act(Action::Choose);
    assert_eq!(app.screen_title(), "Go on where it stopped?");
    assert!(text(&app, 80, 24).contains("! "));
}
