//! Pages and lists: moving in them, how far down one is, the page of three
//! parts, finding by everyday words, the page of looks, the bell.

use crate::support::{lines, look, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::look::{GlyphChoice, Scheme};
use tearbench::tui::{App, Look};

fn page(app: &App) -> String {
    text(app, 80, 24)
}

#[test]
fn the_letters_of_pagers_move_in_pages_and_lists_and_begin_tears_on_the_panes() {
    let mut app = sample("half-way", look());
    press(&mut app, "help");
    let top = page(&app);
    for (letter, arrow) in [
        ('j', Key::Down),
        ('G', Key::End),
        ('k', Key::Up),
        ('g', Key::Home),
    ] {
        let mut other = sample("half-way", look());
        press(&mut other, "help");
        other.press(Key::PageDown);
        app.press(Key::Home);
        app.press(Key::PageDown);
        app.press(Key::Char(letter));
        other.press(arrow);
        assert_eq!(page(&app), page(&other), "{letter}");
    }
    app.press(Key::Home);
    assert_eq!(page(&app), top);
    // In a list they move the cursor.
    let mut log = sample("half-way", look());
    press(&mut log, "log");
    let newest = page(&log);
    log.press(Key::Char('g'));
    assert!(page(&log).contains(">    1 "), "{}", page(&log));
    log.press(Key::Char('G'));
    assert_eq!(page(&log), newest);
    log.press(Key::Char('k'));
    assert_ne!(page(&log), newest);
    // On the panes a letter that begins a tear begins one, and typing goes on.
    let mut app = sample("half-way", look());
    type_text(&mut app, "high 4");
    assert!(app.is_typing());
}

#[test]
fn the_right_edge_says_how_far_down_one_is() {
    let column = |app: &App| -> String {
        let edge = lines(app, 80, 24).into_iter();
        edge.filter_map(|l| l.chars().nth(79)).collect()
    };
    let mut app = sample("half-way", look());
    press(&mut app, "help");
    app.press(Key::Right);
    app.press(Key::Left);
    let top = column(&app);
    assert!(
        top.contains('┃') && top.contains('↓') && !top.contains('↑'),
        "{top}"
    );
    app.press(Key::End);
    let end = column(&app);
    assert!(
        end.contains('┃') && end.contains('↑') && !end.contains('↓'),
        "{end}"
    );
    let place = |column: &str| column.chars().position(|c| c == '┃').unwrap();
    assert!(place(&end) > place(&top) + 8, "{top} {end}");
    let ascii = Look {
        glyphs: GlyphChoice::Ascii.set(),
        ..look()
    };
    let mut app = sample("half-way", ascii);
    press(&mut app, "help");
    assert!(column(&app).contains('#') && page(&app).is_ascii());
}

#[test]
fn why_checks_and_keys_are_one_page_of_three_parts() {
    let mut app = sample("half-way", look());
    app.press(Key::Char('w'));
    assert_eq!(app.screen_title(), "Why");
    assert!(page(&app).contains("THE RECKONING"));
    app.press(Key::Tab);
    assert_eq!(app.screen_title(), "Checks");
    assert!(page(&app).contains("SAFETY: ok"));
    app.press(Key::Right);
    assert_eq!(app.screen_title(), "Help");
    assert!(page(&app).contains("What is on the screen now"));
    app.press(Key::Tab);
    assert_eq!(app.screen_title(), "Why");
    // From within, the keys turn to their part and do not pile up.
    app.press(Key::Char('?'));
    app.press(Key::Char('c'));
    assert_eq!(app.screen_title(), "Checks");
    app.press(Key::Esc);
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn actions_are_found_by_everyday_words() {
    for (word, label) in [
        ("export", "sheet"),
        ("print", "sheet"),
        ("save", "sheet"),
        ("colour", "look"),
        ("exit", "quit"),
        ("string", "before paper"),
        ("cable", "before paper"),
        ("inch", "mm/in"),
        ("broadhead", "after paper"),
        ("graph", "chart"),
        ("mistake", "undo"),
    ] {
        let mut app = sample("half-way", look());
        press(&mut app, "palette");
        type_text(&mut app, word);
        let shown = page(&app);
        let first = shown.lines().find(|l| l.starts_with("> "));
        let first = first.unwrap_or_else(|| panic!("{word}: {shown}"));
        assert!(first.contains(label), "{word}: {first}");
    }
}

#[test]
fn every_look_is_shown_and_the_one_that_is_read_can_be_taken() {
    let mut app = sample("half-way", look());
    press(&mut app, "look");
    snapshot("screen-look-80x24", &styled(&app, 80, 24));
    let tall = text(&app, 80, 40);
    for (word, _) in Scheme::ALL {
        assert!(tall.contains(&format!("{word} ")), "{word}: {tall}");
    }
    app.press(Key::Down);
    app.press(Key::Enter);
    let said = page(&app);
    assert!(said.contains("look = \"dark\""), "{said}");
    // Its ground is under everything now.
    let ground = crate::support::cells(&app, 80, 24)[(40, 20)].bg;
    assert_ne!(ground, ratatui::style::Color::Reset);
    // Down to the last: the set of characters that every terminal has.
    app.press(Key::End);
    app.press(Key::Enter);
    assert!(page(&app).contains("draw = \"ascii\""));
    app.press(Key::Esc);
    assert!(page(&app).is_ascii());
}

#[test]
fn the_bell_rings_once_when_a_job_comes_within_tolerance_and_only_where_it_is_wanted() {
    for wanted in [true, false] {
        let with = Look {
            bell: wanted,
            ..look()
        };
        let mut app = sample("converges-cleanly", with);
        let done = |app: &App| page(app).contains("WITHIN TOLERANCE");
        assert!(
            done(&app) && !app.rings(),
            "opening what is done rings nothing"
        );
        for _ in 0..12 {
            if !done(&app) {
                break;
            }
            press(&mut app, "undo");
        }
        assert!(!done(&app) && !app.rings());
        for _ in 0..12 {
            if done(&app) {
                break;
            }
            press(&mut app, "redo");
        }
        assert!(done(&app));
        assert_eq!(app.rings(), wanted);
        assert!(!app.rings(), "once");
    }
}

#[test]
fn a_shot_that_does_not_count_says_so_where_it_is_listed() {
    let mut app = sample("half-way", look());
    press(&mut app, "call-bad");
    type_text(&mut app, "9l2h");
    app.press(Key::Enter);
    let panes = page(&app);
    assert!(panes.contains("called bad"), "{panes}");
    assert!(panes.contains("not counted"), "{panes}");
    press(&mut app, "log");
    let log = page(&app);
    assert!(log.contains("called bad): not counted"), "{log}");
}

#[test]
fn the_chart_turns_to_sideways_and_to_up_and_down_and_names_its_axis() {
    let mut app = sample("half-way", look());
    assert!(page(&app).contains("mm from wanted"));
    for named in [
        "right above left, mm",
        "high above low, mm",
        "mm from wanted",
    ] {
        press(&mut app, "chart");
        let shown = page(&app);
        assert!(shown.contains(named), "{named}: {shown}");
        assert!(shown.contains("○ shot ● likely"), "{shown}");
    }
}

#[test]
fn spare_room_tells_what_each_move_did_and_the_tail_of_the_log() {
    let app = sample("answers-backwards", look());
    let shown = text(&app, 120, 40);
    // Before and after by the likely tears, as the session has them.
    for told in [
        "2 IN 5.00",
        "15 right → 31 right",
        "3 OUT 9.50",
        "31 right → 1 left",
    ] {
        assert!(shown.contains(told), "{told}: {shown}");
    }
    assert!(shown.contains("moved OUT 9.50") && shown.contains("shot 32 right"));
    let narrow = page(&app);
    assert!(!narrow.contains("WHAT THE MOVES DID"));
}

#[test]
fn the_verdict_stays_however_far_the_reasons_are_scrolled() {
    for session in crate::rules::SESSIONS {
        let mut app = sample(session, look());
        let band = |app: &App| lines(app, 80, 24)[2].clone();
        let before = band(&app);
        for _ in 0..6 {
            app.press(Key::PageDown);
        }
        assert_eq!(band(&app), before, "{session}");
        let shown = page(&app);
        for check in ["safety", "spine", "scatter", "response"] {
            assert!(shown.contains(check), "{session} {check}");
        }
    }
}

#[test]
fn block_letters_show_the_side() {
    // The first row of LEFT: an L, an E, an F, a T.
    let mut app = sample("half-way", look());
    press(&mut app, "letters");
    let shown = page(&app);
    let rows: Vec<&str> = shown.lines().collect();
    let left = rows.iter().any(|r| r.contains("█     █████ █████ █████"));
    assert!(left, "{shown}");
}

#[test]
fn a_test_answered_in_words_says_what_each_answer_means_and_takes_its_digit() {
    let card = include_str!("../scenarios/cards/compound.toml");
    let session = tearbench::session::Session::from_text(card).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    for tear in ["12 left 1 high", "11 left"] {
        type_text(&mut app, tear);
        app.press(Key::Enter);
    }
    press(&mut app, "answer");
    assert_eq!(app.screen_title(), "The bow hand");
    let seen = text(&app, 80, 24);
    for line in [
        "> 1 relaxed: go on, no shot is needed",
        "  2 not: shoot two with a relaxed hand",
        "  3 not-looked: nobody watched",
    ] {
        assert!(seen.contains(line), "{line}: {seen}");
    }
    app.press(Key::Char('7'));
    assert_eq!(app.screen_title(), "The bow hand");
    app.press(Key::Char('2'));
    assert_eq!(app.screen_title(), "panes");
    let entry = &app.session().entries().last().unwrap().event;
    let tearbench::session::Event::Answer { test, result, .. } = entry else {
        panic!("{entry:?}")
    };
    assert_eq!(
        (test.to_string().as_str(), result.to_string().as_str()),
        ("hand", "not")
    );
    assert!(text(&app, 80, 24).contains("recorded: the bow hand: not"));
}

#[test]
fn shots_that_no_longer_count_are_not_said_never_to_have_been() {
    let mut app = sample("left-handed-recurve", look());
    app.act(tearbench::actions::Action::Restart);
    let seen = text(&app, 120, 40);
    assert!(!seen.contains("Nothing is shot"), "{seen}");
    assert!(!seen.contains("The first shots at this setting"), "{seen}");
}

#[test]
fn the_key_that_reads_the_range_list_is_called_so_in_the_key_line() {
    let card = include_str!("../scenarios/cards/compound.toml");
    let session = tearbench::session::Session::from_text(card).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    let keys = |app: &App| lines(app, 160, 30)[29].clone();
    assert!(keys(&app).contains("a range list"), "{}", keys(&app));
    press(&mut app, "answer");
    assert_eq!(app.screen_title(), "Range safety list");
    app.press(Key::Enter);
    assert!(!keys(&app).contains("a range list"), "{}", keys(&app));
    // After an incident the same key looks the bow over.
    press(&mut app, "incident");
    app.press(Key::Enter);
    assert!(keys(&app).contains("a look it over"), "{}", keys(&app));
}
