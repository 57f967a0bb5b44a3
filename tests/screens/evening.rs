//! The first evening: the first sitting on the demo, hints that go away, and
//! `?` on what is on the screen now.

use crate::support::{demo, look, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::{Action, Key};
use tearbench::gear::{AdjusterKind, Step};
use tearbench::session::{Event, Session, Shot};
use tearbench::tui::hints::Hints;
use tearbench::tui::{App, Look};

fn with_hints(file: &std::path::Path) -> Look {
    Look {
        hints: Hints::at(file.into()),
        ..look()
    }
}

#[test]
fn the_first_sitting_goes_step_by_step_and_ends() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hints");
    let mut app = demo(with_hints(&file));
    let step = |app: &tearbench::tui::App| app.hint().map_or(String::new(), |(head, _)| head);
    assert_eq!(step(&app), "First sitting, 1 of 10:");
    snapshot("first-sitting-80x24", &styled(&app, 80, 24));
    type_text(&mut app, "9");
    app.press(Key::Esc);
    assert!(
        step(&app).contains("1 of 10"),
        "a tear that was not recorded is no step done"
    );
    type_text(&mut app, "9l2h");
    app.press(Key::Enter);
    assert!(step(&app).contains("2 of 10"));
    let mut seen = Vec::new();
    for _ in 0..30 {
        let Some((head, words)) = app.hint().filter(|(h, _)| h.starts_with("First")) else {
            break;
        };
        seen.push(head);
        // The step names the key to press.
        let action = [
            "why",
            "checks",
            "take-move",
            "as-shown",
            "call-bad",
            "undo",
            "help",
            // Its key is also a word of other steps.
            "answer",
        ]
        .into_iter()
        .map(|id| Action::from_id(id).unwrap())
        .find(|a| words.split(' ').any(|w| w == a.spec().keys[0].label()));
        match action {
            Some(action) => app.act(action),
            None => break,
        }
        // The range safety list is answered with one key.
        if app.screen_title() == "Range safety list" {
            app.press(Key::Enter);
        } else {
            app.press(Key::Esc);
        }
    }
    assert!(seen.len() >= 5, "{seen:?}");
    assert!(step(&app).contains("10 of 10"), "{}", step(&app));
    // On the next evening it does not begin again, and by name it does.
    let mut again = demo(with_hints(&file));
    assert!(!step(&again).contains("First"));
    again.act(Action::Guide);
    assert!(step(&again).contains("1 of 10"));
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
    assert!(text(&app, 80, 24).contains("The four checks, in the order they count"));
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
