//! A virtual bow under a stop: practice teaches what holds on a bow of one's own.

use crate::support::{look, press, text};
use tearbench::actions::Key;
use tearbench::tui::{App, practise};

const STOP: &str = "DO NOT SHOOT";

fn after_a_dry_fire() -> [App; 2] {
    [(7, 1), (8, 3)].map(|(seed, level)| {
        let mut app = practise(seed, level, look());
        press(&mut app, "incident");
        app.press(Key::Enter);
        assert!(text(&app, 80, 24).contains(STOP));
        app
    })
}

/// The line of keys, and the one above it, where the console says something.
fn last_lines(app: &App) -> (String, String) {
    let screen = text(app, 80, 24);
    let mut lines = screen.lines().rev().filter(|l| !l.trim().is_empty());
    let keys = lines.next().unwrap_or_default().to_owned();
    (keys, lines.next().unwrap_or_default().to_owned())
}

/// Chooses the line of the practice screen with these words.
fn choose(app: &mut App, words: &str) {
    press(app, "practice");
    app.press(Key::Home);
    for _ in 0..30 {
        let screen = text(app, 80, 40);
        if screen
            .lines()
            .any(|l| l.contains("> ") && l.contains(words))
        {
            return app.press(Key::Enter);
        }
        app.press(Key::Down);
    }
    panic!("no line {words}");
}

#[test]
fn a_stopped_virtual_bow_is_not_shot_and_no_key_says_so() {
    for mut app in after_a_dry_fire() {
        let (keys, _) = last_lines(&app);
        assert!(!keys.contains("shoot"), "{keys}");
        assert!(keys.contains("look it over"), "{keys}");
        press(&mut app, "shot");
        let (_, said) = last_lines(&app);
        assert!(said.contains(STOP), "{said}");
        assert!(text(&app, 80, 24).contains("none here yet"));
    }
}

/// Powder is shot with two arrows, and a bow is drawn to be weighed.
#[test]
fn no_test_and_no_cure_shoots_or_draws_a_stopped_virtual_bow() {
    for mut app in after_a_dry_fire() {
        for job in ["powder test", "weigh the bow", "turn the nocks"] {
            choose(&mut app, job);
            let (_, said) = last_lines(&app);
            assert!(said.contains(STOP), "{job}: {said}");
        }
    }
}

/// Pages of figures about the arrow say the stop first, and hang no second
/// sheet for a shot that is not made.
#[test]
fn pages_about_the_arrow_begin_with_the_stop() {
    for mut app in after_a_dry_fire() {
        for (page, not) in [("distances", "Shoot first"), ("spine", "Shoot first")] {
            press(&mut app, page);
            let screen = text(&app, 80, 24);
            let first = screen.lines().nth(2).unwrap_or_default();
            assert!(first.contains(STOP), "{page}: {screen}");
            assert!(
                !screen.contains(not) && !screen.contains("hang it at"),
                "{screen}"
            );
            press(&mut app, "back");
        }
    }
}

#[test]
fn a_stopped_virtual_bow_is_not_handed_over_as_tuned() {
    for mut app in after_a_dry_fire() {
        choose(&mut app, "it is tuned");
        let screen = text(&app, 80, 24);
        assert!(screen.contains(STOP), "{screen}");
        assert!(!screen.contains("WHAT WAS WRONG"), "{screen}");
    }
}
