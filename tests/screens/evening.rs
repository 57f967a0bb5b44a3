//! The first evening: the first steps on the demo, hints that go away, and
//! `?` on what is on the screen now.

use crate::support::{look, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::{Action, Key};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::session::{Event, Session, Shot};
use tearbench::tui::hints::Hints;
use tearbench::tui::steps;
use tearbench::tui::{App, Look};

fn with_hints(file: &std::path::Path) -> Look {
    Look {
        hints: Hints::at(file.into()),
        ..look()
    }
}

/// The demo as it opens with these hints.
fn evening(file: &std::path::Path) -> App {
    let look = with_hints(file);
    let steps = look.hints.first_steps();
    steps::open(look, steps)
}

fn head(app: &App) -> String {
    app.hint().map_or(String::new(), |(head, _)| head)
}

/// Presses the key that the step names.
fn follow_the_step(app: &mut App) {
    let (_, words) = app.hint().expect("a step");
    let named = [
        ("take-move", "m takes the move"),
        ("as-shown", "y says"),
        ("shot", "s shoots"),
        ("practice", "v shows"),
        ("answer", "a shows"),
    ];
    let named = named.into_iter().find(|(_, said)| words.contains(said));
    let (id, _) = named.unwrap_or_else(|| panic!("no key in {words}"));
    let action = Action::from_id(id).unwrap();
    app.act(action);
    if app.screen_title() == "Range safety list" {
        app.press(Key::Enter);
    } else if action == Action::from_id("take-move").unwrap() {
        // The move is shown large; the key that confirms it works there.
        app.press(Key::Esc);
    }
}

#[test]
fn the_first_steps_end_within_tolerance_and_say_what_was_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hints");
    let mut app = evening(&file);
    assert_eq!(head(&app), "First steps:");
    snapshot("first-steps-begin-80x24", &styled(&app, 80, 24));
    let mut seen = vec![head(&app)];
    for _ in 0..20 {
        if app.screen_title() == "What it was" {
            break;
        }
        follow_the_step(&mut app);
        let now = head(&app);
        if !now.is_empty() && seen.last() != Some(&now) {
            seen.push(now);
        }
    }
    assert_eq!(app.screen_title(), "What it was", "{seen:?}");
    let steps: Vec<String> = (1..=6).map(|n| format!("First steps, {n} of 6:")).collect();
    assert_eq!(
        seen[1..],
        steps[..],
        "the range comes before the first shot"
    );
    let screen = text(&app, 80, 24);
    assert!(
        screen.contains("The rest stood 3.1 mm too low. You found it."),
        "{screen}"
    );
    snapshot("first-steps-end-80x24", &styled(&app, 80, 24));
    // From there: a session of one's own.
    app.press(Key::Down);
    app.press(Key::Enter);
    assert!(
        text(&app, 80, 24).contains("New session"),
        "{}",
        text(&app, 80, 24)
    );

    // On the next evening there is something to see, and no steps.
    let mut again = evening(&file);
    assert!(!head(&again).starts_with("First steps"), "{}", head(&again));
    assert!(text(&again, 80, 24).contains("MOVE"));
    again.act(Action::Guide);
    assert_eq!(head(&again), "First steps:");
}

#[test]
fn the_first_steps_can_be_left_at_any_of_them_and_go_on_there() {
    for leave_at in 2..=6 {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("hints");
        let mut app = evening(&file);
        let wanted = format!("First steps, {leave_at} of 6:");
        for _ in 0..12 {
            if head(&app) == wanted {
                break;
            }
            follow_the_step(&mut app);
        }
        assert_eq!(head(&app), wanted);
        let again = evening(&file);
        // Before a shot the range is asked about anew: it is another day.
        let asked_anew = head(&again) == "First steps:";
        assert!(
            head(&again) == wanted || asked_anew,
            "{leave_at}: {}",
            head(&again)
        );
        let tears = |app: &App| -> Vec<_> {
            let shots = app.timeline().shots.iter();
            shots.map(|s| s.shot.tear()).collect()
        };
        assert_eq!(tears(&again), tears(&app), "{leave_at}");
        assert_eq!(again.timeline().now, app.timeline().now, "{leave_at}");
    }
}

#[test]
fn a_tear_typed_on_the_demo_is_read_for_you_and_a_digit_shoots_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = evening(&folder.path().join("hints"));
    app.act(Action::Answer);
    app.press(Key::Enter);
    type_text(&mut app, "12 left 4 high");
    assert_eq!(
        app.screen_title(),
        "panes",
        "no letter ran on into a screen"
    );
    app.press(Key::Enter);
    let screen = text(&app, 80, 24);
    assert!(
        screen.contains("the paper is read for you. Press s to shoot"),
        "{screen}"
    );
    assert_eq!(head(&app), "First steps, 1 of 6:", "nothing was shot");
}

#[test]
fn a_hint_goes_away_once_it_was_used_twice() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hints");
    let mut app = sample("half-way", with_hints(&file));
    assert!(app.hint().unwrap().1.starts_with("a digit starts a tear"));
    for _ in 0..2 {
        type_text(&mut app, "9l");
        app.press(Key::Enter);
    }
    assert!(!app.hint().unwrap().1.starts_with("a digit starts"));
    let later = sample("half-way", with_hints(&file));
    assert!(!later.hint().unwrap().1.starts_with("a digit starts"));
    // Without hints there are none, and no row is given to them.
    assert_eq!(sample("half-way", look()).hint(), None);
}

#[test]
fn under_a_stop_no_hint_leads_to_the_next_shot() {
    let folder = tempfile::tempdir().unwrap();
    let look = with_hints(&folder.path().join("hints"));
    let text_of = include_str!("../../sample-sessions/half-way.toml");
    let mut session = Session::from_text(text_of).unwrap();
    let what = "dry fire".into();
    session.record(Event::Incident { what }).unwrap();
    let app = App::new(session, false, tearbench::advice::analyse_after, look);
    let (_, words) = app.hint().unwrap();
    assert!(
        words.ends_with("explains what is on the screen now"),
        "{words}"
    );
}

#[test]
fn a_damaged_list_of_hints_is_no_obstacle() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hints");
    for bytes in [
        &b"shot many\n\xff\x00"[..],
        b"fly 3\nshot 99999999999999\n",
        b"",
    ] {
        std::fs::write(&file, bytes).unwrap();
        assert!(sample("half-way", with_hints(&file)).hint().is_some());
    }
}

#[test]
fn help_speaks_of_what_is_on_the_screen_now() {
    for (name, words) in [
        ("half-way", "the latest tear is"),
        ("arrow-too-weak", "LEAVE THE REST ALONE"),
        ("converges-cleanly", "WITHIN TOLERANCE"),
    ] {
        let mut app = sample(name, look());
        press(&mut app, "help");
        let screen = text(&app, 80, 60);
        assert!(screen.contains(words), "{name}: {screen}");
        for check in ["safety (", "arrow spine (", "scatter (", "response ("] {
            assert!(screen.contains(check), "{name}: {check}");
        }
    }
    let mut app = sample("half-way", look());
    press(&mut app, "checks");
    press(&mut app, "help");
    assert!(text(&app, 80, 24).contains("What is on the screen now"));
}

#[test]
fn thin_leaves_the_faint_history_out() {
    let thin = Look {
        thin: true,
        ..look()
    };
    let earlier = |look: Look| {
        let mut app = sample("half-way", look);
        for tear in ["30r", "9l9d", "5l3h"] {
            type_text(&mut app, tear);
            app.press(Key::Enter);
        }
        // The grid, without the figures under it.
        let marks = |line: &String| {
            let grid = line.chars().skip(5).take(21);
            grid.filter(|c| matches!(c, '○' | 'x')).count()
        };
        let lines = crate::support::lines(&app, 80, 24);
        lines[2..16].iter().map(marks).sum::<usize>()
    };
    assert!(earlier(look()) >= 2);
    assert_eq!(earlier(thin), 0);
}

/// What a move made due again is said once there is nothing left to move,
/// and gone once it was looked at.
#[test]
fn what_the_moves_made_due_again_is_said_with_the_verdict() {
    let card = include_str!("../scenarios/cards/compound.toml");
    let looked_at = || Event::Setup {
        item: "clearance".into(),
        value: None,
        result: "ok".into(),
    };
    let steps = vec![Step {
        adjuster: AdjusterKind::RestHeight,
        amount: 1.0,
    }];
    let moved = Event::Move {
        steps,
        said: None,
        confirms: None,
    };
    let mut events = vec![looked_at(), moved];
    for up in [1.0, 0.0, -1.0, 0.0, 1.0, 0.0] {
        let shot = Shot {
            up,
            ..Shot::default()
        };
        events.push(Event::Shot(shot));
    }
    let due = |events: &[Event]| {
        let mut session = Session::from_text(card).unwrap();
        for event in events {
            session.record(event.clone()).unwrap();
        }
        let app = App::new(session, false, tearbench::advice::analyse_after, look());
        let screen = text(&app, 80, 24);
        assert!(screen.contains("WITHIN TOLERANCE"), "{screen}");
        screen.contains("Due again since the moves: clearance, by the powder test")
    };
    assert!(due(&events));
    events.push(looked_at());
    assert!(!due(&events));
}
