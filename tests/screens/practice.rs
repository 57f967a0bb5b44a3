//! Practice and the screens of the mechanics, at 80x24.

use crate::support::{demo, look, look_with, press, sample, snapshot, styled, text};
use tearbench::actions::Key;
use tearbench::look::Theme;
use tearbench::practice::{Conclusion, Practice};
use tearbench::session::Session;
use tearbench::tui::{App, practise};
use tearbench::units::System;

/// The title of the page that asks for a guess.
const GUESS: &str = "Your guess first";
/// A bow whose advice is a move at once, and one whose vanes touch.
const MOVED: (u64, u8) = (7, 1);

fn shown(name: &str, app: &App) {
    snapshot(&format!("{name}-80x24"), &styled(app, 80, 24));
}

/// The first seed of a level whose bow ends this way.
fn seed_that_ends(level: u8, end: Conclusion) -> u64 {
    (0..)
        .find(|seed| {
            let practice = Practice::new(*seed, level);
            practice.right_conclusion(practice.session().timeline()) == end
        })
        .expect("every level has one")
}

/// Follows the verdicts by key until there is no move and no shot to make.
fn follow(app: &mut App) {
    for _ in 0..40 {
        if app.screen_title() == GUESS {
            press(app, "back");
        }
        let mut screen = text(app, 200, 60);
        if screen.contains("RANGE SAFETY LIST FIRST") {
            press(app, "answer");
            app.press(Key::Enter);
            screen = text(app, 200, 60);
        }
        // A test move is a move; a test alone is answered.
        if screen.contains(" MOVE ") {
            press(app, "take-move");
            press(app, "as-shown");
            press(app, "shot");
        } else if screen.contains(" TEST") {
            press(app, "answer");
        } else if screen.contains("SHOOT AGAIN") || screen.contains("│ SHOOT ") {
            press(app, "shot");
        } else {
            return;
        }
    }
    panic!("no end:\n{}", text(app, 120, 40));
}

/// Chooses the line of the practice screen with these words.
fn choose(app: &mut App, words: &str) {
    press(app, "practice");
    for _ in 0..30 {
        app.press(Key::Up);
    }
    for _ in 0..30 {
        let screen = text(app, 80, 40);
        if screen
            .lines()
            .any(|l| l.contains("> ") && l.contains(words))
        {
            app.press(Key::Enter);
            return;
        }
        app.press(Key::Down);
    }
    panic!("no line {words}");
}

#[test]
fn the_arrow_and_the_other_distances() {
    for (name, session) in [
        ("spine", "half-way"),
        ("spine-weak", "arrow-too-weak"),
        ("spine-stiff-fingers", "arrow-too-stiff"),
    ] {
        let mut app = sample(session, look());
        press(&mut app, "spine");
        shown(&format!("screen-{name}"), &app);
    }
    for (name, system) in [("distances", System::Mm), ("distances-in", System::Inch)] {
        let mut app = sample("half-way", look_with(system, Theme::coloured()));
        press(&mut app, "distances");
        shown(&format!("screen-{name}"), &app);
    }
}

#[test]
fn pages_of_figures_open_over_the_checks_and_never_twice() {
    let mut app = sample("half-way", look());
    press(&mut app, "checks");
    press(&mut app, "spine");
    assert_eq!(app.screen_title(), "The arrow as a column");
    press(&mut app, "spine");
    press(&mut app, "distances");
    assert_eq!(app.screen_title(), "The same arrow at other distances");
    for title in ["The arrow as a column", "Checks", "panes"] {
        press(&mut app, "back");
        assert_eq!(app.screen_title(), title);
    }
}

#[test]
fn nothing_looks_like_a_stiffness_wanted_and_had() {
    let mut app = sample("arrow-too-weak", look());
    press(&mut app, "spine");
    let screen = text(&app, 400, 80);
    // Pounds are said of the bow's draw weight and of nothing else.
    for line in screen.lines().filter(|l| l.contains(" lb")) {
        let of_the_bow = ["lb >", "gr/lb", "Draw weight", "a label", "(70 lb"];
        assert!(of_the_bow.iter().any(|w| line.contains(w)), "{line}");
    }
}

#[test]
fn the_demo_offers_practice_with_one_key() {
    let mut app = demo(look());
    assert!(text(&app, 80, 24).contains("v practise"));
    press(&mut app, "practice");
    let screen = text(&app, 80, 24);
    assert!(screen.contains("PRACTICE: NOT KEPT") && screen.contains("Something"));
    press(&mut app, "shot");
    assert!(text(&app, 80, 24).contains("1 shot "));
}

#[test]
fn practice_from_the_first_shot_to_what_it_was() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    shown("practice-begins", &app);
    press(&mut app, "shot");
    assert!(text(&app, 80, 24).contains("Through the paper: "));
    follow(&mut app);
    assert!(text(&app, 80, 24).contains("WITHIN TOLERANCE"));
    press(&mut app, "practice");
    shown("practice-answer", &app);
    app.press(Key::Enter);
    assert!(text(&app, 80, 24).contains("Right: it is tuned"));
    // Back to the same bow, as it stands.
    (0..3).for_each(|_| app.press(Key::Down));
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
    assert!(text(&app, 80, 24).contains("PRACTICE"));
}

#[test]
fn giving_up_shows_what_it_was() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    choose(&mut app, "I give up");
    // How many shots the advice takes is the tuner's business.
    let screen: Vec<String> = styled(&app, 80, 24)
        .lines()
        .map(|line| match line {
            l if l.contains("Par: ") => l.replace(|c: char| c.is_ascii_digit(), "#"),
            l => l.to_owned(),
        })
        .collect();
    snapshot("practice-what-it-was-80x24", &screen.join("\n"));
}

#[test]
fn what_touches_is_found_by_the_test_and_cured_at_the_bench() {
    let seed = seed_that_ends(4, Conclusion::Contact);
    let mut app = practise(seed, 4, look());
    follow(&mut app);
    let screen = text(&app, 120, 40);
    assert!(screen.contains("touches"), "{screen}");
    choose(&mut app, "something touches");
    assert!(text(&app, 80, 24).contains("Right: something touches"));
    press(&mut app, "back");
    press(&mut app, "back");
    choose(&mut app, "turn the nocks");
    assert!(text(&app, 80, 24).contains("clean"));
    follow(&mut app);
    choose(&mut app, "it is tuned");
    assert!(text(&app, 80, 24).contains("Right: it is tuned"));
}

#[test]
fn a_wrong_arrow_is_answered_or_changed() {
    let seed = seed_that_ends(4, Conclusion::Arrow);
    let mut app = practise(seed, 4, look());
    assert!(text(&app, 80, 24).contains("LEAVE THE REST ALONE"));
    choose(&mut app, "it is tuned");
    assert!(text(&app, 80, 24).contains("No, the answer was: the arrow"));
    press(&mut app, "back");
    press(&mut app, "back");
    choose(&mut app, "weigh the bow");
    choose(&mut app, "take other shafts");
    follow(&mut app);
    choose(&mut app, "it is tuned");
    let screen = text(&app, 80, 24);
    assert!(screen.contains("Right: it is tuned"), "{screen}");
}

#[test]
fn typing_a_tear_in_practice_says_that_the_paper_is_read() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    for tear in ["12 left 4 high", "l12", "clean"] {
        for letter in tear.chars() {
            app.press(Key::Char(letter));
        }
        assert_eq!(app.screen_title(), "panes", "no letter of {tear} ran on");
        app.press(Key::Enter);
        assert!(text(&app, 80, 24).contains("read for you"), "{tear}");
        assert!(!app.is_typing());
    }
    press(&mut app, "mark");
    assert!(text(&app, 80, 24).contains("read for you"));
    app.paste("12 left");
    app.press(Key::Enter);
    assert!(!app.is_typing() && app.timeline().shots.is_empty());
}

#[test]
fn a_practice_session_can_be_saved_and_opened() {
    let folder = tempfile::tempdir().unwrap();
    let mut look = look();
    look.folder = folder.path().into();
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look);
    press(&mut app, "shot");
    press(&mut app, "shot");
    press(&mut app, "back");
    for _ in 0..2 {
        choose(&mut app, "save this session");
        "mira".chars().for_each(|c| app.press(Key::Char(c)));
        app.press(Key::Enter);
        if app.is_typing() {
            // The second time the name is taken.
            assert!(text(&app, 80, 24).contains("exists already"));
            break;
        }
    }
    assert!(app.is_typing());
    let saved = Session::open(&folder.path().join("mira.toml")).unwrap();
    assert_eq!(saved.timeline().shots, app.timeline().shots);
    assert!(saved.damage().is_empty());
}

#[test]
fn no_word_of_a_practice_screen_is_cut_at_eighty_columns() {
    for level in 1..=5 {
        let mut app = practise(3, level, look());
        press(&mut app, "practice");
        let narrow = text(&app, 80, 24);
        // The status line may shorten the bow's name.
        let inside = narrow.lines().skip(1).collect::<String>();
        assert!(!inside.contains("..."), "{narrow}");
    }
}

#[test]
fn after_a_refusal_what_to_do_now_and_the_bows_own_tests_are_both_a_key_away() {
    let seed = seed_that_ends(4, Conclusion::Arrow);
    let mut app = practise(seed, 4, look());
    press(&mut app, "up");
    let keys = text(&app, 80, 24);
    let keys = keys.lines().last().unwrap();
    assert!(
        keys.contains("a troubleshooting") && keys.contains("v tests, answer"),
        "{keys}"
    );
    press(&mut app, "answer");
    assert!(app.screen_title().starts_with("Troubleshooting"));
    // The bow answers its own test: what is recorded is one of the answers.
    let screen = text(&app, 80, 24);
    let line = screen
        .lines()
        .find(|l| l.contains("try it on this virtual"));
    let digit = line.unwrap().chars().find(char::is_ascii_digit).unwrap();
    let before = app.session().entries().len();
    app.press(Key::Char(digit));
    assert!(app.session().entries().len() > before);
    // Its tests and fixes are a line of the same screen.
    let screen = text(&app, 80, 24);
    if app.screen_title().starts_with("Troubleshooting") {
        let line = screen.lines().find(|l| l.contains("its tests and fixes"));
        let digit = line.unwrap().chars().find(char::is_ascii_digit).unwrap();
        app.press(Key::Char(digit));
        assert!(app.screen_title().starts_with("Practice"));
        press(&mut app, "back");
        press(&mut app, "back");
    }
    press(&mut app, "practice");
    assert!(app.screen_title().starts_with("Practice"));
}

/// Shoots until the first guess is asked.
fn to_the_first_guess(app: &mut App) {
    for _ in 0..4 {
        press(app, "shot");
        if text(app, 80, 24).contains("TEST") {
            press(app, "answer");
        }
        if app.screen_title() == GUESS {
            return;
        }
        if text(app, 80, 24).contains("RANGE SAFETY") {
            press(app, "answer");
            app.press(Key::Enter);
        }
    }
    panic!("no guess asked:\n{}", text(app, 80, 24));
}

/// A console whose state is kept in this folder.
fn kept_in(folder: &std::path::Path) -> tearbench::tui::Look {
    let mut look = look();
    look.folder = folder.join("sessions");
    look.recent = tearbench::tui::recent::Recent::at(folder.join("state").join("recent"));
    look
}

#[test]
fn the_guess_comes_before_the_advice_with_the_two_holes_beside_one_another() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    to_the_first_guess(&mut app);
    snapshot("practice-guess-80x24", &styled(&app, 80, 24));
    snapshot("practice-guess-120x40", &styled(&app, 120, 40));
    let screen = text(&app, 120, 40);
    // Nothing of the advice is on it: no order, no verdict.
    for told in ["MOVE ", "OUT", " IN ", "clicks", "LEAVE", "headline"] {
        assert!(!screen.contains(told), "{told}:\n{screen}");
    }
    app.press(Key::Char('1'));
    assert_eq!(app.screen_title(), "panes");
    let screen = text(&app, 200, 24);
    assert!(screen.contains("You: "), "{screen}");
    assert!(screen.contains("the nock end came"), "{screen}");
    assert!(screen.contains("MOVE"), "{screen}");
    snapshot("practice-guessed-80x24", &styled(&app, 80, 24));
}

#[test]
fn after_a_move_the_holes_before_and_after_it_are_compared() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    to_the_first_guess(&mut app);
    app.press(Key::Char('2'));
    for _ in 0..8 {
        press(&mut app, "take-move");
        press(&mut app, "as-shown");
        press(&mut app, "shot");
        if app.screen_title() == GUESS {
            snapshot("practice-guess-after-80x24", &styled(&app, 80, 24));
            let screen = text(&app, 80, 24);
            assert!(screen.contains("between: "), "{screen}");
            assert!(
                screen.contains("shot 2") && screen.contains("shot 3"),
                "{screen}"
            );
            return;
        }
    }
    panic!("no second guess");
}

#[test]
fn a_guess_is_skipped_with_one_key_and_switched_off_for_good() {
    let folder = tempfile::tempdir().unwrap();
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, kept_in(folder.path()));
    to_the_first_guess(&mut app);
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "panes");
    assert!(text(&app, 80, 24).contains("MOVE"));
    // Off, by the last line of the page.
    let mut app = practise(seed, level, kept_in(folder.path()));
    to_the_first_guess(&mut app);
    app.press(Key::Char('9'));
    assert_eq!(app.screen_title(), GUESS, "no digit switches it off");
    app.press(Key::End);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
    let mut app = practise(seed, level, kept_in(folder.path()));
    for _ in 0..3 {
        press(&mut app, "shot");
        assert_eq!(app.screen_title(), "panes");
    }
    // And on again, where the tests and answers stand.
    choose(&mut app, "no guess is asked");
    press(&mut app, "back");
    let mut app = practise(seed, level, kept_in(folder.path()));
    to_the_first_guess(&mut app);
}

#[test]
fn a_round_is_counted_once_and_shown_beside_par() {
    let folder = tempfile::tempdir().unwrap();
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, kept_in(folder.path()));
    to_the_first_guess(&mut app);
    app.press(Key::Char('1'));
    choose(&mut app, "I give up");
    let screen = text(&app, 100, 40);
    for told in [
        "Tell-tale: ",
        "Par: ",
        "Your guesses before the advice: ",
        "1 round, 0 right",
    ] {
        assert!(screen.contains(told), "{told}:\n{screen}");
    }
    press(&mut app, "back");
    press(&mut app, "back");
    choose(&mut app, "it is tuned");
    assert!(text(&app, 100, 40).contains("1 round, 0 right"));
    // The same bow again is known, and not counted.
    for _ in 0..2 {
        app.press(Key::Down);
    }
    app.press(Key::Enter);
    choose(&mut app, "I give up");
    assert!(text(&app, 100, 40).contains("1 round, 0 right"));
    let all: Vec<String> = std::fs::read_dir(folder.path().join("state"))
        .unwrap()
        .map(|f| f.unwrap().file_name().into_string().unwrap())
        .collect();
    assert_eq!(all, ["practice.toml"]);
    // No session was touched or made.
    assert!(!folder.path().join("sessions").exists());
    // What cannot be read begins again, with a word.
    std::fs::write(folder.path().join("state").join("practice.toml"), "x").unwrap();
    let app = practise(seed, level, kept_in(folder.path()));
    assert!(
        text(&app, 200, 40).contains("could not be read"),
        "{}",
        text(&app, 200, 40)
    );
}

#[test]
fn tests_cures_and_answers_do_not_look_alike() {
    let (seed, level) = MOVED;
    let mut app = practise(seed, level, look());
    press(&mut app, "practice");
    snapshot("practice-list-120x40", &styled(&app, 120, 40));
    let screen = text(&app, 80, 40);
    for line in [
        "? weigh the bow",
        "+ turn the nocks",
        "\"it is tuned: hand it over\"",
    ] {
        assert!(screen.contains(line), "{line}:\n{screen}");
    }
}

#[test]
fn a_guess_is_asked_too_where_an_answer_brought_the_move() {
    let mut app = practise(5, 2, look());
    press(&mut app, "answer");
    app.press(Key::Enter);
    press(&mut app, "shot");
    press(&mut app, "shot");
    // The bow hand is asked about first; the virtual bow answers at once.
    assert_eq!(app.screen_title(), "panes");
    press(&mut app, "answer");
    assert_eq!(app.screen_title(), GUESS, "{}", text(&app, 80, 24));
    // Once is enough: it can be left, and does not come back by itself.
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "panes");
    press(&mut app, "units");
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn nobody_is_asked_to_enter_the_tear_of_a_virtual_bow() {
    let mut app = practise(MOVED.0, MOVED.1, look());
    let mut moved = None;
    for _ in 0..40 {
        if app.screen_title() == GUESS {
            press(&mut app, "back");
        }
        let screen = text(&app, 200, 60);
        if screen.contains("RANGE SAFETY LIST FIRST") {
            press(&mut app, "answer");
            app.press(Key::Enter);
        } else if screen.contains(" MOVE ") {
            press(&mut app, "take-move");
            press(&mut app, "as-shown");
            moved = Some(text(&app, 200, 60));
            break;
        } else if screen.contains(" TEST") {
            press(&mut app, "answer");
        } else {
            press(&mut app, "shot");
        }
    }
    let said = moved.expect("a move is advised");
    assert!(said.contains("move recorded: "), "{said}");
    assert!(!said.contains("enter the tear"), "{said}");
}
