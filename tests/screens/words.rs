//! Everyday words typed in one go on any page: nothing is recorded, nothing
//! is lost, nothing runs on into another page. A key alone still acts.

use std::time::{Duration, Instant};

use crate::support::{lines, look, sample, type_text};
use tearbench::actions::{ACTIONS, Action, Key, Scope};
use tearbench::session::Event;
use tearbench::tui::App;

const WORDS: [&str; 14] = [
    "dry fire",
    "derailed",
    "broken",
    "clean",
    "12 left 4 high",
    "11l4h",
    "undo",
    "yes",
    "stop",
    "help",
    "exit",
    "my rest",
    "sorry",
    "22",
];

const SAMPLES: [&str; 6] = [
    "half-way",
    "converges-cleanly",
    "rest-does-nothing",
    "shots-do-not-repeat",
    "arrow-too-weak",
    "left-handed-recurve",
];

/// A pause in which the screen is read.
const PAUSE: Duration = Duration::from_secs(2);

/// Types it with so much time between the letters; nothing comes after it.
fn types(app: &mut App, text: &str, between: Duration) {
    let mut at = Instant::now() + PAUSE;
    for c in text.chars() {
        let key = match c {
            '\n' => Key::Enter,
            c => Key::Char(c),
        };
        // The console's own clock releases a key that stood alone so long.
        if between > Duration::from_millis(250) && app.holds() {
            app.alone();
        }
        app.typed(key, at);
        at += between;
    }
    app.alone();
}

fn fast(app: &mut App, text: &str) {
    types(app, text, Duration::from_millis(4));
}

/// What must not change: the entries, what the next shots are recorded with,
/// the page in front.
fn state(app: &App) -> (String, String, String) {
    (
        format!("{:?}", app.session().entries()),
        lines(app, 160, 40)[0].clone(),
        app.screen_title(),
    )
}

/// Every page a session opens from its panes, and pages on those pages.
fn pages(name: &str) -> Vec<(String, App)> {
    pages_of(|| sample(name, look()))
}

/// The same of any console.
pub fn pages_of(console: impl Fn() -> App) -> Vec<(String, App)> {
    let opened = |action: Action| {
        let mut app = console();
        app.act(action);
        (!app.wants_to_quit() && !app.is_typing()).then_some((action.spec().id.to_owned(), app))
    };
    let opens = ACTIONS.iter().filter(|s| {
        let on_panes = [Scope::Main, Scope::More].contains(&s.scopes[0]);
        // Another bow takes the place of this one.
        on_panes && ![Action::Guide, Action::Reload].contains(&s.action)
    });
    let mut all: Vec<(String, App)> = opens.filter_map(|s| opened(s.action)).collect();
    let deeper = |action: Action, name: &str, keys: &[Key]| {
        let (id, mut app) = opened(action)?;
        keys.iter().for_each(|key| app.press(*key));
        Some((format!("{id} {name}"), app))
    };
    let down = |n: usize| [vec![Key::Down; n], vec![Key::Enter]].concat();
    for n in 0..8 {
        all.extend(deeper(Action::Proof, &format!("stage {n}"), &down(n)));
    }
    all.extend(deeper(
        Action::Proof,
        "face",
        &[
            down(2),
            vec![Key::Char('f'), Key::Char('1'), Key::Left, Key::Enter],
        ]
        .concat(),
    ));
    // A change on the card that asks whether it was a typo, and a text line.
    all.extend(deeper(Action::Card, "asks", &[Key::Down, Key::Right]));
    all.extend(deeper(
        Action::Incident,
        "stands",
        &[Key::Enter, Key::Char('a')],
    ));
    all.extend(deeper(Action::Mark, "point", &[Key::Enter]));
    all.push(("panes".into(), console()));
    all
}

#[test]
fn words_typed_in_one_go_are_no_keys_on_any_page() {
    let mut seen = std::collections::BTreeSet::new();
    for name in SAMPLES {
        for (page, mut app) in pages(name) {
            seen.insert(format!("{:?}", app.scope()));
            for word in WORDS {
                for end in ["", "\n"] {
                    // Typed onto a line of the card, an item or a stage it is
                    // its value, and on the panes a tear is a tear.
                    let digit = word.starts_with(|c: char| c.is_ascii_digit());
                    let text = match app.scope() {
                        Scope::Card => true,
                        Scope::Job | Scope::Stage => digit,
                        Scope::Main => digit || word == "clean",
                        _ => false,
                    };
                    if text && !end.is_empty() {
                        continue;
                    }
                    let before = state(&app);
                    fast(&mut app, &format!("{word}{end}"));
                    if app.is_typing() {
                        app.press(Key::Esc);
                    }
                    assert!(!app.wants_to_quit(), "{name}, {page}: '{word}' leaves");
                    // The list of actions gives way to what is typed.
                    if page == "more" && app.screen_title() == "panes" {
                        app.act(Action::More);
                    }
                    assert_eq!(state(&app), before, "{name}, {page}: '{word}'{end:?}");
                }
            }
        }
    }
    // Every kind of page was typed on, but the book and a virtual bow's.
    for scope in [
        "Main", "More", "Grid", "Bench", "Card", "Log", "Job", "Stage", "Face", "Choice", "Reading",
    ] {
        assert!(seen.contains(scope), "{scope}: {seen:?}");
    }
}

#[test]
fn a_word_typed_slowly_is_no_key_from_its_first_idle_letter_on() {
    for word in ["dry fire", "broken", "derailed", "help"] {
        let mut app = sample("half-way", look());
        app.act(Action::TakeMove);
        let before = state(&app);
        types(&mut app, word, Duration::from_millis(400));
        app.press(Key::Esc);
        assert_eq!(state(&app), before, "{word}");
    }
}

#[test]
fn a_key_alone_acts_after_a_moment_and_before_any_other_key() {
    let bench = || {
        let mut app = sample("half-way", look());
        app.act(Action::TakeMove);
        app
    };
    let made = |app: &App| app.timeline().pending.is_none();
    let mut app = bench();
    app.typed(Key::Char('y'), Instant::now());
    assert!(app.holds() && !made(&app));
    app.alone();
    assert!(made(&app) && app.screen_title() == "panes");
    // A key that is no letter follows: it is done first.
    let mut app = bench();
    let at = Instant::now();
    app.typed(Key::Char('y'), at);
    app.typed(Key::Down, at + Duration::from_millis(5));
    assert!(made(&app));
    // So is the same key again, however fast: two items of the list.
    let mut app = sample("half-way", look());
    app.act(Action::Before);
    let entries = app.session().entries().len();
    app.press(Key::End);
    fast(&mut app, "xx");
    assert!(app.session().entries().len() > entries);
}

#[test]
fn a_word_is_looked_up_among_the_actions_and_done_only_when_enter_is_pressed() {
    let mut app = sample("half-way", look());
    app.act(Action::TakeMove);
    let shots = app.timeline().shots.len();
    fast(&mut app, "undo\n");
    assert!(app.is_typing(), "the end of the line came with it");
    assert!(app.timeline().pending.is_some());
    app.typed(Key::Enter, Instant::now() + PAUSE + PAUSE);
    assert!(app.timeline().pending.is_none() && app.screen_title() == "panes");
    assert_eq!(app.timeline().shots.len(), shots);
    let mut app = sample("half-way", look());
    app.act(Action::Why);
    fast(&mut app, "dry fire");
    app.typed(Key::Enter, Instant::now() + PAUSE + PAUSE);
    assert_eq!(app.scope(), Scope::Choice);
    assert!(app.timeline().open_incident().is_none());
}

#[test]
fn what_was_recorded_on_a_page_of_choices_is_undone_there() {
    // Troubleshooting: the answer goes, the page stays on the step before.
    let mut app = sample("rest-does-nothing", look());
    app.act(Action::Answer);
    let title = app.screen_title();
    assert!(title.starts_with("Troubleshooting"), "{title}");
    let answers = |app: &App| app.timeline().answers.len();
    let before = (answers(&app), crate::support::text(&app, 100, 40));
    app.press(Key::Char('1'));
    assert_eq!(answers(&app), before.0 + 1);
    app.press(Key::Char('u'));
    assert_eq!(app.screen_title(), title);
    assert_eq!(answers(&app), before.0);
    let same = |text: &str| text.lines().take(20).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(same(&crate::support::text(&app, 100, 40)), same(&before.1));
    // An inspection: the part goes back to be done.
    let mut app = sample("half-way", look());
    app.act(Action::Incident);
    app.press(Key::Enter);
    app.act(Action::Answer);
    app.press(Key::Enter);
    assert_eq!(app.screen_title(), "Inspection");
    let entries = app.session().entries().len();
    app.press(Key::Char('u'));
    assert_eq!(app.screen_title(), "Inspection");
    assert!(matches!(
        app.session().entries().last().unwrap().event,
        Event::Undo { .. }
    ));
    assert_eq!(app.session().entries().len(), entries + 1);
    // The shot before the incident is not this page's to undo.
    app.press(Key::Char('u'));
    assert_eq!(app.session().entries().len(), entries + 1);
    let shown = crate::support::text(&app, 120, 40);
    assert!(
        shown.contains("nothing of this page is left to undo"),
        "{shown}"
    );
    assert!(app.timeline().open_incident().is_some());
}

#[test]
fn a_list_that_records_nothing_has_no_undo() {
    let mut app = sample("half-way", look());
    app.act(Action::LookPage);
    let entries = app.session().entries().len();
    app.press(Key::Char('u'));
    assert_eq!(app.session().entries().len(), entries);
    app.press(Key::Esc);
    type_text(&mut app, "u");
    assert_eq!(app.session().entries().len(), entries + 1);
}
