//! Each verdict on the console: the band, the checks and the letters, at the
//! smallest usual size, and where it can be drawn a picture of each.

use tearbench::actions::Key;
use tearbench::range::Today;
use tearbench::report::{self, Format};
use tearbench::session::Session;
use tearbench::tui::{App, Look};

use crate::support::{look, press, sample, snapshot, styled, text, type_text};

/// The half-way sample's bow with nothing shot yet.
fn fresh(look: Look) -> App {
    let text = include_str!("../../sample-sessions/half-way.toml");
    let card = Session::from_text(text).unwrap().first_card().to_toml();
    let session = Session::from_text(&card).unwrap();
    let mut app = App::new(session, false, tearbench::advice::analyse_after, look);
    press(&mut app, "answer");
    app.press(Key::Enter);
    app
}

fn shots(app: &mut App, tears: &[&str]) {
    for tear in tears {
        type_text(app, tear);
        app.press(Key::Enter);
    }
}

/// Every verdict, with the words of its band.
fn all(look: &Look) -> Vec<(&'static str, App)> {
    let with = |tears: &[&str]| {
        let mut app = fresh(look.clone());
        shots(&mut app, tears);
        app
    };
    let mut fired = with(&["12l 4h"]);
    press(&mut fired, "incident");
    fired.press(Key::Enter);
    let mut weak = String::from(include_str!("../../sample-sessions/arrow-too-weak.toml"));
    let spine = weak.lines().find(|l| l.starts_with("spine")).unwrap();
    weak = weak.replace(spine, "spine = \"0.900\"");
    let weak = Session::from_text(&weak).unwrap();
    let weak = App::new(weak, false, tearbench::advice::analyse_after, look.clone());
    // Both axes have answered: the last move of this session is a correction.
    let cleanly = include_str!("../../sample-sessions/converges-cleanly.toml");
    let moves = cleanly.match_indices("[[entry]]\nkind = \"move\"");
    let (last, _) = moves.last().unwrap();
    let moving = Session::from_text(&cleanly[..last]).unwrap();
    let moving = App::new(
        moving,
        false,
        tearbench::advice::analyse_after,
        look.clone(),
    );
    vec![
        ("SHOOT", with(&[])),
        ("SHOOT AGAIN", with(&["12l 4h"])),
        ("TEST MOVE", with(&["1l 14h", "2l 15h"])),
        ("MOVE", moving),
        ("TEST", with(&["14l 1h", "15l 0h"])),
        (
            "LEAVE THE REST ALONE",
            sample("shots-do-not-repeat", look.clone()),
        ),
        (
            "WITHIN TOLERANCE",
            sample("converges-cleanly", look.clone()),
        ),
        ("DO NOT SHOOT", fired),
        ("DO NOT SHOOT", weak),
    ]
}

/// The row that holds the band's words, and the checks under the middle pane.
fn band(app: &App) -> String {
    let shown = text(app, 80, 24);
    let row = shown.lines().nth(2).unwrap();
    let inside: String = row.chars().skip(27).take(27).collect();
    inside.trim().to_owned()
}

#[test]
fn each_verdict_stands_in_its_band_with_its_word_and_its_key() {
    let bands: Vec<String> = all(&look()).iter().map(|(_, app)| band(app)).collect();
    assert_eq!(
        bands,
        [
            "SHOOT        s  record it",
            "SHOOT AGAIN  s  record it",
            "TEST MOVE      m  take it",
            "MOVE           m  take it",
            "TEST            a  answer",
            "LEAVE THE REST ALONE",
            "WITHIN TOLERANCE",
            "DO NOT SHOOT",
            "DO NOT SHOOT",
        ]
    );
}

/// What forbids a shot without an incident is looked for, not looked over.
#[test]
fn a_stop_offers_what_it_needs() {
    let stops = all(&look()).split_off(7);
    let keys: Vec<bool> = stops
        .iter()
        .map(|(_, app)| text(app, 80, 24).contains("a  look it over"))
        .collect();
    assert_eq!(keys, [true, false]);
    assert!(text(&stops[1].1, 80, 24).contains("a  troubleshooting"));
}

/// A list that is due hides no finished paper tune: it stands beside it on
/// the pane, under the letters and in `advise`.
#[test]
fn the_range_list_stands_beside_a_finished_tune_and_not_over_it() {
    let (_, mut app) = all(&look()).remove(6);
    let analysis = tearbench::advice::analyse(app.timeline(), Today::now());
    assert!(analysis.range_due.is_some());
    let pane = text(&app, 80, 24);
    assert!(!pane.contains("RANGE SAFETY LIST FIRST"), "{pane}");
    assert!(pane.contains("Go through the range"), "{pane}");
    assert!(pane.contains(".. safety"), "{pane}");
    press(&mut app, "letters");
    let letters = text(&app, 80, 24);
    let said = "Go through the range safety list first: it was not gone through today.";
    assert!(letters.contains(said), "{letters}");
    shown("verdict-within-letters", &app);
}

/// Beside a refusal or a stop the sheet gives no chance of success.
#[test]
fn a_sheet_gives_a_chance_except_beside_a_refusal_or_a_stop() {
    let chance: Vec<bool> = all(&look())
        .iter()
        .map(|(_, app)| sheet(app, Format::Text).contains("Chance within 6 mm  "))
        .collect();
    // Without a shot there is none to give.
    let wanted = [false, true, true, true, true, false, true, false, false];
    assert_eq!(chance, wanted);
}

/// A sheet says what stood when the shots were made; it asks for no list.
#[test]
fn a_sheet_says_how_the_range_list_stood_and_asks_nobody_for_it() {
    let (_, app) = all(&look()).remove(6);
    let sheet = sheet(&app, Format::Text);
    let together = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    let said = "safety not yet Range safety list: not gone through on this day. 6.6 gr/lb";
    assert!(together.contains(said), "{sheet}");
    assert!(!sheet.contains("Go through"), "{sheet}");
}

fn sheet(app: &App, format: Format) -> String {
    let timeline = app.timeline();
    let day = Today::of_last_shot(timeline).unwrap_or_else(Today::now);
    let analysis = tearbench::advice::analyse(timeline, day);
    report::render(timeline, &analysis, format, &report::Options::default())
}

fn shown(name: &str, app: &App) {
    snapshot(&format!("{name}-80x24"), &styled(app, 80, 24));
}

#[test]
fn pictures_of_each_verdict() {
    use crate::picture::{ON_BLACK, ON_WHITE, svg};
    use crate::support::{cells, look_with};
    use tearbench::look::{Scheme, Theme};
    use tearbench::units::System;
    let Some(folder) = std::env::var_os("TEARBENCH_PICTURES") else {
        return;
    };
    let folder = std::path::PathBuf::from(folder);
    for (scheme, ground) in [(Scheme::Dark, ON_BLACK), (Scheme::Light, ON_WHITE)] {
        let look = look_with(System::Mm, Theme::of(scheme));
        for (i, (title, mut app)) in all(&look).into_iter().enumerate() {
            let name = format!("v{i}-{}", title.to_lowercase().replace(' ', "-"));
            let keep = |name: &str, app: &App| {
                let picture = svg(&cells(app, 80, 24), ground);
                let file = format!("{name}-{}.svg", scheme.id());
                std::fs::write(folder.join(file), picture).unwrap();
            };
            keep(&name, &app);
            press(&mut app, "letters");
            keep(&format!("{name}-letters"), &app);
            if scheme == Scheme::Dark {
                for (format, end) in [(Format::Text, "txt"), (Format::Html, "html")] {
                    let sheet = sheet(&app, format);
                    std::fs::write(folder.join(format!("{name}.{end}")), sheet).unwrap();
                }
            }
        }
    }
}
