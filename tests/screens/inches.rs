//! On a card in inches every distance, length and weight of console and sheet
//! is in its units: no metric unit stands anywhere, but in what was entered so
//! and where both are given on purpose.

use tearbench::actions::{Key, Scope};
use tearbench::report::{self, Format, Options};
use tearbench::session::Session;
use tearbench::tui::App;
use tearbench::units::System;

use crate::support::{lines, look};
use crate::words::pages_of;

/// Both units on purpose, so that it is seen that either is taken; and what is
/// sold by its metric figure.
const ON_PURPOSE: [&str; 8] = [
    "178 mm, 7 in, 2.5 m",
    "2 mm out, 1/16 in in, 0",
    "3 mm high, 1/8 in high, 0",
    "190 mm / 187 mm, 7 1/2 in / 7 3/8 in",
    "such as 2.5 m or 8 ft",
    // The key that changes them.
    "i mm/in",
    "mm/in",
    "Millimetres or inches",
];

const CARDS: [&str; 4] = [
    "half-way",
    "rest-does-nothing",
    "arrow-too-weak",
    "left-handed-recurve",
];

/// A sample as one would have it who works in inches: its card and what was
/// typed are in them.
fn in_inches(name: &str) -> Session {
    let path = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let figure = |line: &str| -> Option<String> {
        let (key, value) = line.split_once(" = ")?;
        let value = value.trim().trim_matches('"');
        let metric = |unit: &str, mm: f64| {
            let number = value.strip_suffix(unit)?.parse::<f64>().ok()?;
            Some(format!("{key} = \"{:.4} in\"", number * mm / 25.4))
        };
        // What was typed is shown as it was typed.
        if key.trim() == "said" {
            return Some(String::new());
        }
        metric(" mm", 1.0)
            .or_else(|| metric(" m", 1000.0))
            .or_else(|| metric(" cm", 10.0))
    };
    let mut out = String::new();
    for line in text.lines() {
        out.push_str(&figure(line).unwrap_or_else(|| line.to_owned()));
        out.push('\n');
    }
    Session::from_text(&out).unwrap_or_else(|e| panic!("{name}: {e:?}\n{out}"))
}

fn app(name: &str) -> App {
    App::new(
        in_inches(name),
        false,
        tearbench::advice::analyse_after,
        look(),
    )
}

/// The metric figures of a text, each with what stands about it.
fn metric(text: &str) -> Vec<String> {
    let mut text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for kept in ON_PURPOSE {
        text = text.replace(kept, "");
    }
    let words: Vec<&str> = text.split(' ').collect();
    let bare = |w: &str| {
        w.trim_matches(|c: char| !c.is_alphanumeric() && c != '/')
            .to_owned()
    };
    let metric = [
        "mm", "cm", "m", "km", "g", "kg", "N", "m/s", "metre", "metres",
    ];
    let mut found = Vec::new();
    for (i, word) in words.iter().enumerate() {
        let number = |w: &str| bare(w).chars().last().is_some_and(|c| c.is_ascii_digit());
        let unit = bare(word);
        let after = i > 0 && number(words[i - 1]) && metric.contains(&unit.as_str());
        let long = ["mm", "cm", "metre", "metres", "millimetres"].contains(&unit.as_str());
        if after || long {
            found.push(words[i.saturating_sub(8)..words.len().min(i + 6)].join(" "));
        }
    }
    found
}

/// All that a page says, scrolled from its top to its end.
fn all_of(app: &App) -> String {
    lines(app, 120, 100)
        .join(" ")
        .replace(['│', '─', '╭', '╮', '╰', '╯'], " ")
}

#[test]
fn no_page_of_a_card_in_inches_has_a_metric_figure() {
    let mut found = std::collections::BTreeSet::new();
    for name in CARDS {
        for (page, mut app) in pages_of(|| app(name)) {
            // The key that shows the other units.
            if page == "units" {
                continue;
            }
            // Lists say more of each line the cursor comes to.
            let lines = match app.scope() {
                Scope::Card | Scope::Job => 60,
                Scope::Choice | Scope::Book => 8,
                _ => 0,
            };
            for line in 0..=lines {
                let seen = metric(&all_of(&app));
                found.extend(
                    seen.into_iter()
                        .map(|text| format!("{page} {line}: {text}")),
                );
                app.press(Key::Down);
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn no_sheet_of_a_card_in_inches_has_a_metric_figure() {
    for name in CARDS {
        let session = in_inches(name);
        assert_eq!(session.timeline().card.paper.system, System::Inch);
        let analysis =
            tearbench::advice::analyse(session.timeline(), tearbench::range::Today::now());
        let options = Options {
            system: System::Inch,
            ..Options::default()
        };
        for format in [Format::Text, Format::Markdown] {
            let sheet = report::render(session.timeline(), &analysis, format, &options);
            let found = metric(&sheet);
            assert!(found.is_empty(), "{name}: {found:#?}");
        }
    }
}

#[test]
fn the_measure_finds_what_is_metric() {
    assert_eq!(metric("within 6 mm of it").len(), 1);
    assert_eq!(metric("from 18 m, then").len(), 1);
    assert_eq!(metric("(3 cm)").len(), 1);
    assert!(metric("1/2 in left, 20 yd, i mm/in").is_empty());
}
