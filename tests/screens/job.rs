//! The screens around the paper at 80x24, pinned, and what their keys do.

use crate::support::{look, pinned, press, sample, snapshot, styled, text, type_text};
use tearbench::actions::Key;
use tearbench::session::{Event, Impact, Session};
use tearbench::tui::{App, Look};

const RECURVE: &str = include_str!("../../sample-sessions/left-handed-recurve.toml");

fn shown(name: &str, app: &App) {
    snapshot(&format!("screen-{name}-80x24"), &styled(app, 80, 24));
}

fn last(app: &App) -> &Event {
    &app.session().entries().last().unwrap().event
}

fn enter(app: &mut App, line: &str) {
    type_text(app, line);
    app.press(Key::Enter);
}

#[test]
fn before_paper_takes_a_figure_or_one_key_and_goes_on_to_the_next() {
    let mut app = pinned(look());
    press(&mut app, "before");
    shown("before", &app);
    enter(&mut app, "1.0 m");
    assert!(text(&app, 80, 24).contains("OFF"), "{}", text(&app, 80, 24));
    shown("before-off", &app);
    type_text(&mut app, "14 stone");
    assert!(app.is_typing());
    app.press(Key::Enter);
    assert!(app.is_typing(), "what cannot be read is not taken");
    app.press(Key::Esc);
    enter(&mut app, "1.4 m");
    press(&mut app, "in-order");
    let Event::Setup { item, result, .. } = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!(
        (item.word().as_str(), result.word().as_str()),
        ("range-paper", "ok")
    );
    // The safety inspection is never left out.
    let stands = |app: &App| text(app, 80, 24).contains("> to do     Safety inspection");
    for _ in 0..40 {
        if !stands(&app) {
            app.press(Key::Down);
        }
    }
    assert!(stands(&app), "{}", text(&app, 80, 24));
    let before = app.session().entries().len();
    press(&mut app, "leave-out");
    assert_eq!(app.session().entries().len(), before);
    press(&mut app, "not-in-order");
    assert!(text(&app, 80, 24).contains("Do not draw the bow"));
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn what_to_do_now_is_one_key_from_a_refusal_and_one_key_an_answer() {
    let mut app = sample("rest-does-nothing", look());
    press(&mut app, "answer");
    assert!(app.screen_title().starts_with("Troubleshooting"));
    shown("troubleshooting", &app);
    // The moves back to the start are recorded as made.
    app.press(Key::Char('1'));
    assert!(text(&app, 80, 24).contains("start position"));
    app.press(Key::Char('9'));
    assert!(text(&app, 80, 24).contains("no answer 9"));
    // The cheapest cause first: whether the rest moves at all.
    assert!(text(&app, 80, 24).contains("Does the rest itself move"));
    app.press(Key::Char('1'));
    app.press(Key::Char('2'));
    let Event::Answer { test, result, .. } = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!(
        (test.word().as_str(), result.word().as_str()),
        ("contact", "rest")
    );
    assert!(text(&app, 80, 24).contains("Fix this first"));
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "panes");
}

#[test]
fn a_rest_that_was_loose_and_is_mended_is_not_refused_again_before_it_is_moved() {
    let mut app = sample("rest-does-nothing", look());
    press(&mut app, "answer");
    for answer in ['1', '2', '1'] {
        app.press(Key::Char(answer));
    }
    assert_eq!(app.screen_title(), "panes");
    for _ in 0..3 {
        type_text(&mut app, "15 left");
        app.press(Key::Enter);
    }
    // What it did not do while it was loose says nothing of it now.
    let shown = text(&app, 80, 24);
    assert!(!shown.contains("LEAVE THE REST ALONE"), "{shown}");
    assert!(shown.contains("MOVE"), "{shown}");
}

#[test]
fn a_proved_stage_is_not_left_out_by_a_slip() {
    let mut app = sample("half-way", look());
    press(&mut app, "proof");
    press(&mut app, "in-order");
    assert!(text(&app, 80, 24).contains("ok        Levels"));
    for _ in 0..12 {
        press(&mut app, "up");
    }
    let before = app.session().entries().len();
    press(&mut app, "leave-out");
    assert_eq!(app.session().entries().len(), before);
    assert!(text(&app, 80, 24).contains("Levels is ok already"));
}

#[test]
fn at_the_bench_the_size_alone_says_what_was_really_made() {
    for (typed, wanted) in [("1.5", 0), ("out 1", 1), ("rest left 2 mm", 2)] {
        let mut app = sample("half-way", look());
        press(&mut app, "take-move");
        let advised = app.timeline().pending.as_ref().unwrap().steps[0];
        press(&mut app, "own-move");
        type_text(&mut app, typed);
        app.press(Key::Enter);
        let Event::Move { steps, .. } = last(&app) else {
            panic!("{:?}", last(&app))
        };
        let amount = [1.5 * advised.amount.signum(), -1.0, -2.0][wanted];
        assert_eq!(
            (steps[0].adjuster, steps[0].amount),
            (advised.adjuster, amount)
        );
    }
}

#[test]
fn a_weak_arrow_is_offered_its_remedies_with_their_sizes_and_the_card_takes_them() {
    let mut app = sample("arrow-too-weak", look());
    press(&mut app, "answer");
    app.press(Key::Char('1'));
    app.press(Key::Char('1'));
    app.press(Key::Down);
    shown("troubleshooting-weak", &app);
    app.press(Key::Enter);
    app.press(Key::Char('2'));
    assert!(app.is_typing());
    app.press(Key::Enter);
    let text = &app.timeline().card_text;
    let points = ["arrow.trial_point", "arrow.point_mass"].map(|key| text.get(key));
    assert_eq!(points, [Some("50 gr"), Some("125 gr")]);
}

#[test]
fn a_fix_that_is_not_enough_is_one_action_and_undone_as_one() {
    let mut app = sample("arrow-too-weak", look());
    press(&mut app, "answer");
    app.press(Key::Char('1'));
    app.press(Key::Char('1'));
    app.press(Key::Down);
    app.press(Key::Enter);
    app.press(Key::Char('2'));
    let answers = app.timeline().answers.len();
    // Lighter, and still too weak.
    (0..5).for_each(|_| app.press(Key::Backspace));
    type_text(&mut app, "120 gr");
    app.press(Key::Enter);
    let point = |app: &App| {
        let text = &app.timeline().card_text;
        text.get("arrow.trial_point").map(str::to_owned)
    };
    assert_eq!(point(&app).as_deref(), Some("120 gr"));
    assert!(app.screen_title().starts_with("Troubleshooting"));
    assert_eq!(app.timeline().answers.len(), answers + 1, "begun again");
    (0..3).for_each(|_| press(&mut app, "back"));
    press(&mut app, "undo");
    assert_eq!(point(&app), None);
    assert_eq!(app.timeline().answers.len(), answers);
}

#[test]
fn after_paper_goes_stage_by_stage() {
    let mut app = sample("converges-cleanly", look());
    press(&mut app, "proof");
    shown("after-paper", &app);
    press(&mut app, "in-order");
    app.press(Key::Down);
    app.press(Key::Down);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Bare shaft");
    enter(&mut app, "1 l; 1 r 1 h; 1 r");
    // The arrows write the sides, as in a tear.
    app.press(Key::Char('9'));
    app.press(Key::Left);
    assert!(text(&app, 80, 24).contains("9 left (cm)"));
    type_text(&mut app, "; 8 l; 9 l 1 h");
    app.press(Key::Enter);
    let Event::Group {
        proof,
        what,
        impacts,
        ..
    } = last(&app)
    else {
        panic!("{:?}", last(&app))
    };
    assert_eq!(
        (proof.word().as_str(), what.word().as_str(), impacts.len()),
        ("bare-shaft", "bare", 3)
    );
    // Typing goes on, whatever is suggested: Enter and digits take no move.
    let entries = app.session().entries().len();
    app.press(Key::Enter);
    assert!(app.is_typing(), "another group");
    app.press(Key::Esc);
    app.press(Key::Down);
    app.press(Key::Down);
    app.press(Key::Char('2'));
    assert!(
        app.is_typing(),
        "a digit on the suggested move begins a group"
    );
    app.press(Key::Esc);
    assert_eq!(app.session().entries().len(), entries);
    assert_eq!(app.timeline().pending, None);
    // Its own line takes it to the bench as any other.
    (0..4).for_each(|_| app.press(Key::Up));
    (0..3).for_each(|_| app.press(Key::Down));
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "At the bench");
    assert!(app.timeline().pending.is_some());
    press(&mut app, "as-shown");
    press(&mut app, "proof");
    assert!(text(&app, 200, 40).contains(tearbench::words::proof::PAPER_CHECK));
}

#[test]
fn a_stage_shows_its_verdict_the_move_it_suggests_and_how_it_is_shot() {
    // Advice made by hand: its odds do not change with every finer estimate.
    let mut app = pinned(look());
    press(&mut app, "proof");
    (0..3).for_each(|_| app.press(Key::Down));
    app.press(Key::Enter);
    enter(&mut app, "1 l; 1 r 1 h; 1 r");
    enter(&mut app, "9 l; 8 l; 9 l 1 h");
    app.press(Key::Up);
    shown("after-paper-bare-shaft", &app);
}

/// The bare-shaft stage, fletched recorded, the face open for the bare ones.
fn face_of_the_bare_shafts(look: Look) -> App {
    let mut app = pinned(look);
    press(&mut app, "proof");
    (0..3).for_each(|_| app.press(Key::Down));
    app.press(Key::Enter);
    enter(&mut app, "1 l; 1 r 1 h; 1 r");
    press(&mut app, "face");
    assert_eq!(app.scope(), tearbench::actions::Scope::Face);
    app
}

/// Digits, then an arrow, as somebody with one hand on the keyboard.
fn go(app: &mut App, digits: &str, way: Key) {
    type_text(app, digits);
    app.press(way);
}

#[test]
fn hits_are_marked_on_a_face_taken_back_and_recorded_as_if_they_were_typed() {
    let mut app = face_of_the_bare_shafts(look());
    go(&mut app, "9", Key::Left);
    app.press(Key::Enter);
    app.press(Key::Up);
    app.press(Key::Char('g'));
    go(&mut app, "30", Key::Right);
    app.press(Key::Enter);
    press(&mut app, "take-back");
    assert!(text(&app, 80, 24).contains("taken back: 21 right 0.5 high (cm)"));
    go(&mut app, "28", Key::Left);
    go(&mut app, "2", Key::Up);
    app.press(Key::Enter);
    type_text(&mut app, "4");
    shown("face", &app);
    // Marks are not lost by one key.
    app.press(Key::Esc);
    assert!(text(&app, 80, 24).contains("3 marks not recorded"));
    app.press(Key::Down);
    let before = app.session().entries().len();
    press(&mut app, "keep-group");
    assert_eq!(app.session().entries().len(), before + 1);
    let Event::Group { what, impacts, .. } = last(&app) else {
        panic!("{:?}", last(&app))
    };
    let hits: Vec<(f64, f64)> = impacts.iter().map(|i| (i.right, i.up)).collect();
    assert_eq!(what.word(), "bare");
    assert_eq!(hits, [(-90.0, 0.0), (-90.0, 5.0), (-70.0, 25.0)]);
    assert_eq!(app.screen_title(), "After paper: Bare shaft");
    assert!(text(&app, 80, 24).contains("recorded: bare at 5 m. Bare shaft"));
}

#[test]
fn a_face_is_left_empty_at_once_and_with_marks_at_the_second_key() {
    let mut app = face_of_the_bare_shafts(look());
    let entries = app.session().entries().len();
    press(&mut app, "keep-group");
    assert!(text(&app, 80, 24).contains("no arrow is marked yet"));
    app.press(Key::Esc);
    assert_ne!(app.scope(), tearbench::actions::Scope::Face);
    press(&mut app, "face");
    app.press(Key::Enter);
    app.press(Key::Esc);
    app.press(Key::Esc);
    assert_ne!(app.scope(), tearbench::actions::Scope::Face);
    assert_eq!(app.session().entries().len(), entries);
}

#[test]
fn a_face_in_inches_steps_quarters_and_draws_in_ascii_at_every_size() {
    let mut app = face_of_the_bare_shafts(Look {
        glyphs: tearbench::look::GlyphChoice::Ascii.set(),
        theme: tearbench::look::Theme::plain(),
        system: Some(tearbench::units::System::Inch),
        ..look()
    });
    app.press(Key::Left);
    go(&mut app, "2", Key::Up);
    app.press(Key::Enter);
    let seen = text(&app, 80, 24);
    assert!(seen.is_ascii(), "{seen}");
    assert!(seen.contains("0.25 left 2 high (in)"), "{seen}");
    for size in [(40, 12), (54, 18), (63, 20), (80, 24), (120, 40)] {
        let seen = text(&app, size.0, size.1);
        assert!(seen.contains("bare at 5 yd"), "{size:?}\n{seen}");
        assert!(seen.contains('#'), "the mark is seen: {size:?}\n{seen}");
    }
    press(&mut app, "keep-group");
    let Event::Group { impacts, .. } = last(&app) else {
        panic!("{:?}", last(&app))
    };
    assert_eq!((impacts[0].right, impacts[0].up), (-6.35, 50.8));
}

#[test]
fn creep_off_asks_for_its_work_and_once_done_begins_anew() {
    let mut app = sample("converges-cleanly", look());
    press(&mut app, "proof");
    assert!(text(&app, 80, 24).contains("optional  Creep"));
    app.press(Key::Down);
    app.press(Key::Down);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Creep");
    enter(&mut app, "1 h; 1 l; 1 r; 1 d");
    enter(&mut app, "9 h; 1 l 9 h; 1 r 8 h; 10 h");
    app.press(Key::Up);
    app.press(Key::Down);
    shown("after-paper-creep", &app);
    // Its own line says that the work was done; no key that types does.
    app.press(Key::Down);
    app.press(Key::Down);
    app.press(Key::Enter);
    assert!(matches!(last(&app), Event::Restart { .. }));
    assert!(text(&app, 80, 24).contains("normal at 18 m: type where they hit"));
    press(&mut app, "back");
    assert!(text(&app, 200, 40).contains(tearbench::words::proof::PAPER_CHECK));
    press(&mut app, "back");
    press(&mut app, "before");
    press(&mut app, "press-work");
    assert!(text(&app, 80, 24).contains("press work recorded"));
}

#[test]
fn what_one_key_records_in_several_entries_is_undone_and_brought_back_as_one() {
    let mut app = sample("converges-cleanly", look());
    let (answers, epoch) = (app.timeline().answers.len(), app.timeline().epoch);
    press(&mut app, "before");
    press(&mut app, "press-work");
    press(&mut app, "back");
    let after = |app: &App| (app.timeline().answers.len(), app.timeline().epoch);
    assert_eq!(after(&app), (answers + 1, epoch + 1));
    press(&mut app, "undo");
    assert_eq!(after(&app), (answers, epoch), "{}", text(&app, 80, 24));
    let seen = text(&app, 100, 24);
    assert!(seen.contains("undone: entries "), "{seen}");
    press(&mut app, "redo");
    assert_eq!(after(&app), (answers + 1, epoch + 1));
    // And what was there before is undone by itself.
    press(&mut app, "undo");
    let shots = app.timeline().shots.len();
    press(&mut app, "undo");
    assert_eq!(app.timeline().shots.len(), shots - 1);
}

#[test]
fn a_stage_that_is_proved_goes_on_to_the_next_and_one_that_is_not_says_how_many_more() {
    let mut app = pinned(look());
    press(&mut app, "proof");
    press(&mut app, "in-order");
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Rough sight");
    enter(&mut app, "1 l; 1 r; spot");
    assert!(text(&app, 80, 24).contains("> this stage is proved: on to Bare shaft"));
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Bare shaft");
    enter(&mut app, "3 h; 3 l; 3 r; 3 d; 2 l 2 h");
    // The likely centre of a larger group is drawn behind what is marked next.
    press(&mut app, "face");
    assert!(text(&app, 80, 24).contains("A faint ring holds"));
    shown("face-behind", &app);
    press(&mut app, "back");
    enter(&mut app, "3 r 1 h; 4 r; 1 l 2 d");
    let seen = text(&app, 80, 24);
    assert!(seen.contains("more of each"), "{seen}");
}

#[test]
fn a_stage_answered_on_its_own_page_goes_on_to_the_next_too() {
    let mut app = pinned(look());
    press(&mut app, "proof");
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Levels");
    // Off, it is still the one to do.
    press(&mut app, "not-in-order");
    assert_eq!(app.screen_title(), "After paper: Levels");
    press(&mut app, "in-order");
    assert_eq!(app.screen_title(), "After paper: Rough sight");
    assert!(text(&app, 80, 24).contains("levels: ok"));
    press(&mut app, "leave-out");
    assert_eq!(app.screen_title(), "After paper: Bare shaft");
    enter(&mut app, "1 l; 1 r; spot");
    assert!(text(&app, 80, 24).contains("3 arrows recorded"));
    // Back on the list the cursor is on what comes next.
    press(&mut app, "back");
    assert_eq!(app.screen_title(), "After paper");
    let seen = text(&app, 80, 24);
    assert!(seen.contains("> shoot     Bare shaft"), "{seen}");
    // A page that was only looked at leaves the cursor on itself.
    app.press(Key::Down);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Walk-back");
    press(&mut app, "back");
    let seen = text(&app, 80, 24);
    assert!(seen.contains("> to do     Walk-back"), "{seen}");
}

#[test]
fn every_stage_stays_in_sight_and_only_levels_offer_a_word() {
    let mut app = pinned(look());
    press(&mut app, "proof");
    (0..3).for_each(|_| app.press(Key::Down));
    app.press(Key::Enter);
    enter(&mut app, "1 l; 1 r 1 h; 1 r");
    enter(&mut app, "9 l; 8 l; 9 l 1 h");
    press(&mut app, "back");
    for at in 0..10 {
        let seen = text(&app, 80, 24);
        assert!(
            seen.contains("   Levels") && seen.contains("   Final sight"),
            "{seen}"
        );
        assert_eq!(seen.matches("│ >").count(), 1, "{seen}");
        assert_eq!(
            seen.contains("y ok"),
            seen.contains("> to do     Levels"),
            "{seen}"
        );
        app.press(if at < 5 { Key::Up } else { Key::Down });
    }
}

#[test]
fn what_is_not_asked_of_a_kind_of_bow_stands_in_the_list_only_once_it_was_shot() {
    let mut app = sample("left-handed-recurve", look());
    press(&mut app, "proof");
    let seen = text(&app, 80, 24);
    for stage in ["Broadhead", "Creep", "Torque"] {
        assert!(!seen.contains(stage), "{seen}");
    }
    assert!(
        seen.contains("Walk-back") && seen.contains("Groups"),
        "{seen}"
    );
    // The cursor goes through what is listed, to its end.
    app.press(Key::End);
    assert!(text(&app, 80, 24).contains("FINAL SIGHT"));
    let mut session = Session::from_text(RECURVE).unwrap();
    session
        .record(Event::Group {
            proof: "broadhead".into(),
            what: "field".into(),
            distance: "18 m".into(),
            impacts: vec![Impact {
                right: 0.0,
                up: 0.0,
            }],
        })
        .unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look());
    press(&mut app, "proof");
    let seen = text(&app, 80, 24);
    assert!(
        seen.contains("Broadhead") && !seen.contains("Creep"),
        "{seen}"
    );
}

#[test]
fn what_was_recorded_on_a_page_after_paper_is_undone_there() {
    let mut app = pinned(look());
    press(&mut app, "proof");
    press(&mut app, "in-order");
    let answers = app.timeline().answers.len();
    press(&mut app, "undo");
    assert_eq!(app.screen_title(), "After paper");
    assert_eq!(app.timeline().answers.len(), answers - 1);
    press(&mut app, "in-order");
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "After paper: Rough sight");
    enter(&mut app, "1 l; 1 r; spot");
    assert!(text(&app, 80, 24).contains("3 arrows recorded"));
    press(&mut app, "undo");
    assert_eq!(app.screen_title(), "After paper: Rough sight");
    assert!(!text(&app, 80, 24).contains("arrows recorded"));
    let seen = text(&app, 80, 24);
    assert!(seen.contains("undone: entry"), "{seen}");
}

#[test]
fn put_back_takes_the_moves_to_the_bench() {
    let mut app = sample("rest-does-nothing", look());
    press(&mut app, "put-back");
    shown("put-back", &app);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "At the bench");
    press(&mut app, "as-shown");
    assert!(text(&app, 80, 24).contains("start position"));
}

#[test]
fn the_sheet_is_read_written_and_never_over_something_else() {
    let folder = tempfile::tempdir().unwrap();
    let mut app = pinned(Look {
        folder: folder.path().into(),
        ..look()
    });
    press(&mut app, "sheet");
    shown("sheet", &app);
    app.press(Key::Enter);
    shown("sheet-read", &app);
    press(&mut app, "back");
    app.press(Key::Down);
    app.press(Key::Enter);
    app.press(Key::Enter);
    let page = folder.path().join("demo-sheet.html");
    assert!(std::fs::read_to_string(&page).unwrap().contains("<html"));
    assert!(text(&app, 200, 24).contains("wrote "));
    std::fs::write(&page, "Dear Ann").unwrap();
    app.press(Key::Enter);
    app.press(Key::Enter);
    assert!(app.is_typing(), "a letter is not replaced");
    assert_eq!(std::fs::read_to_string(&page).unwrap(), "Dear Ann");
}

#[test]
fn the_bench_book_parks_one_bow_and_opens_another_in_two_keys() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["half-way", "converges-cleanly", "arrow-too-weak"] {
        let from = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        std::fs::copy(from, folder.path().join(format!("{name}.toml"))).unwrap();
    }
    let (session, _) = App::open_session(&folder.path().join("half-way.toml")).unwrap();
    let look = Look {
        folder: folder.path().into(),
        ..look()
    };
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look);
    press(&mut app, "files");
    shown("bench-book", &app);
    app.press(Key::Enter);
    let now = app.session().path().unwrap().to_owned();
    assert_ne!(now.file_stem().unwrap(), "half-way");
    assert!(Session::open(&folder.path().join("half-way.toml")).is_ok());
    press(&mut app, "files");
    press(&mut app, "compare");
    assert_eq!(app.screen_title(), "Two sessions compared");
    press(&mut app, "back");
    press(&mut app, "new-visit");
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "panes");
    assert!(app.timeline().shots.is_empty());
    assert!(
        app.session()
            .path()
            .unwrap()
            .to_string_lossy()
            .ends_with("-2.toml")
    );
}
