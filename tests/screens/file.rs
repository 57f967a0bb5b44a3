//! The file underneath: read-only, newer, changed, gone. Nothing typed is lost.

use std::path::Path;

use crate::support::{look, press, text, type_text};
use tearbench::actions::Key;
use tearbench::session::{Event, Session};
use tearbench::tui::{App, Look, Options, Source};

const CARD: &str = include_str!("../../sample-sessions/half-way.toml");

fn file(folder: &Path) -> std::path::PathBuf {
    let path = folder.join("bow.toml");
    std::fs::write(&path, CARD).unwrap();
    path
}

fn console(path: &Path) -> App {
    let (session, _) = App::open_session(path).unwrap();
    let look = Look {
        folder: path.parent().unwrap().into(),
        ..look()
    };
    App::new(session, false, tearbench::advice::analyse_after, look)
}

fn shots(path: &Path) -> usize {
    Session::open(path).unwrap().timeline().shots.len()
}

#[test]
fn a_vanished_folder_keeps_the_tear_in_the_prompt_until_it_is_back() {
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("shop");
    std::fs::create_dir(&shop).unwrap();
    let path = file(&shop);
    let mut app = console(&path);
    let before = shots(&path);
    std::fs::rename(&shop, folder.path().join("elsewhere")).unwrap();
    assert!(app.look_at_file());
    type_text(&mut app, "9l4h");
    app.press(Key::Enter);
    assert!(app.is_typing());
    let screen = text(&app, 80, 24);
    assert!(
        screen.contains("9l4h") && screen.contains("no such file"),
        "{screen}"
    );
    std::fs::rename(folder.path().join("elsewhere"), &shop).unwrap();
    app.press(Key::Enter);
    assert!(!app.is_typing(), "{}", text(&app, 80, 24));
    assert_eq!(shots(&path), before + 1);
}

#[test]
fn a_file_changed_by_an_editor_is_said_and_never_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let mut app = console(&path);
    assert!(!app.look_at_file(), "nothing happened yet");
    let changed = CARD.replacen("[bow]", "# looked at\n[bow]", 1);
    std::fs::write(&path, &changed).unwrap();
    assert!(app.look_at_file());
    app.tell_of_file();
    let screen = text(&app, 80, 24);
    assert!(screen.contains("changed by another program"), "{screen}");
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    let screen = text(&app, 80, 24);
    assert!(
        app.is_typing() && screen.contains("Enter reads it"),
        "{screen}"
    );
    assert_eq!(std::fs::read_to_string(&path).unwrap(), changed);
    app.press(Key::Enter);
    assert!(!app.is_typing(), "{}", text(&app, 80, 24));
    let after = std::fs::read_to_string(&path).unwrap();
    assert!(after.starts_with(changed.trim_end()) && after.len() > changed.len());
    assert_eq!(
        Session::open(&path).unwrap().entries(),
        app.session().entries()
    );
}

#[test]
fn a_file_an_editor_broke_is_named_by_line_and_the_tear_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let mut app = console(&path);
    std::fs::write(&path, CARD.replacen("[bow]", "[bow]\nwings = \"2\"", 1)).unwrap();
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    app.press(Key::Enter);
    let screen = text(&app, 120, 40);
    assert!(
        screen.contains("Tear> 9l") && screen.contains("bow.wings"),
        "{screen}"
    );
    std::fs::write(&path, CARD).unwrap();
    app.press(Key::Enter);
    assert!(!app.is_typing(), "{}", text(&app, 80, 24));
    assert_eq!(
        Session::open(&path).unwrap().entries(),
        app.session().entries()
    );
}

#[test]
fn our_own_writing_is_no_change_by_another() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let mut app = console(&path);
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    assert!(!app.look_at_file());
    app.tell_of_file();
    assert!(!text(&app, 80, 24).contains("another program"));
}

#[test]
fn reading_again_by_name_takes_the_change_in() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let mut app = console(&path);
    std::fs::write(&path, CARD.replacen("[bow]", "# looked at\n[bow]", 1)).unwrap();
    press(&mut app, "palette");
    type_text(&mut app, "reload");
    app.press(Key::Enter);
    assert!(
        text(&app, 80, 24).contains("read again"),
        "{}",
        text(&app, 80, 24)
    );
    type_text(&mut app, "9l");
    app.press(Key::Enter);
    assert!(!app.is_typing());
}

#[test]
fn a_second_console_reads_only_says_who_holds_it_follows_and_takes_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let mut first = console(&path);
    let options = Options {
        source: Source::File(path.clone()),
        hints: false,
        ..Options::default()
    };
    let (session, why) = App::open_session(&path).unwrap();
    let why = why.unwrap();
    assert!(
        why.contains("in use by the tearbench console, process"),
        "{why}"
    );
    drop(session);
    let mut second = tearbench::tui::open(&options).unwrap();
    assert!(second.follows() && !first.follows());
    assert!(!second.look_at_file());
    type_text(&mut first, "9l4h");
    first.press(Key::Enter);
    assert!(second.look_at_file());
    second.press(Key::Left);
    second.tell_of_file();
    let screen = text(&second, 80, 24);
    assert!(
        screen.contains("recorded elsewhere: shot 9 mm left, 4 mm high"),
        "{screen}"
    );
    assert_eq!(second.session().entries(), first.session().entries());
    type_text(&mut second, "1");
    assert!(!second.is_typing());
    drop(first);
    press(&mut second, "palette");
    type_text(&mut second, "reload");
    second.press(Key::Enter);
    assert!(
        text(&second, 80, 24).contains("yours now"),
        "{}",
        text(&second, 80, 24)
    );
    type_text(&mut second, "1l");
    second.press(Key::Enter);
    assert!(matches!(
        second.session().entries().last().unwrap().event,
        Event::Shot(_)
    ));
}

#[test]
fn a_newer_or_protected_file_opens_for_reading_with_the_reason() {
    let folder = tempfile::tempdir().unwrap();
    let path = file(folder.path());
    let newer = CARD.replacen("format = 1", "format = 7\n[scope]\nrings = \"2\"", 1);
    std::fs::write(&path, &newer).unwrap();
    let mut app = console(&path);
    let screen = text(&app, 80, 24);
    assert!(
        screen.contains("format 7") && screen.contains("READING ONLY"),
        "{screen}"
    );
    type_text(&mut app, "9");
    assert!(!app.is_typing());
    drop(app);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), newer);
    std::fs::write(&path, CARD).unwrap();
    let mut permissions = std::fs::metadata(&path).unwrap().permissions();
    permissions.set_readonly(true);
    std::fs::set_permissions(&path, permissions).unwrap();
    let (_, why) = App::open_session(&path).unwrap();
    assert!(why.unwrap().contains("marked read-only"));
}
