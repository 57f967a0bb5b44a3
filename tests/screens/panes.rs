//! The main screen, pinned.

use crate::support::{lines, look, look_with, pinned, press, sample, snapshot, styled, type_text};
use tearbench::look::GlyphChoice;
use tearbench::look::Scheme;
use tearbench::look::Theme;
use tearbench::tui::{App, Look};
use tearbench::units::System;

#[test]
fn the_three_panes_at_three_sizes_in_both_systems_with_and_without_colour() {
    for (width, height) in [(80, 24), (120, 40), (160, 50)] {
        for (unit, system) in [("mm", System::Mm), ("in", System::Inch)] {
            for (colour, theme) in [("colour", Theme::coloured()), ("plain", Theme::plain())] {
                let app = pinned(look_with(system, theme));
                let name = format!("panes-{width}x{height}-{unit}-{colour}");
                snapshot(&name, &styled(&app, width, height));
            }
        }
    }
}

#[test]
fn small_and_large_screens_in_every_character_set() {
    for (width, height) in [(40, 12), (60, 20), (200, 60)] {
        for (set, choice) in [
            ("unicode", GlyphChoice::Unicode),
            ("dot", GlyphChoice::Dot),
            ("ascii", GlyphChoice::Ascii),
        ] {
            let look = Look {
                glyphs: choice.set(),
                theme: Theme::plain(),
                ..look()
            };
            let app = pinned(look);
            snapshot(
                &format!("panes-{width}x{height}-{set}"),
                &styled(&app, width, height),
            );
        }
    }
}

#[test]
fn the_usual_sizes_in_ascii() {
    for (width, height) in [(80, 24), (120, 40)] {
        let look = Look {
            glyphs: GlyphChoice::Ascii.set(),
            theme: Theme::plain(),
            ..look()
        };
        let screen = styled(&pinned(look), width, height);
        assert!(screen.is_ascii());
        snapshot(&format!("panes-{width}x{height}-ascii"), &screen);
    }
}

#[test]
fn every_verdict_has_its_words() {
    for name in [
        "converges-cleanly",
        "arrow-too-weak",
        "arrow-too-stiff",
        "shots-do-not-repeat",
        "answers-backwards",
        "left-handed-recurve",
    ] {
        let app = sample(name, look());
        snapshot(&format!("verdict-{name}-80x24"), &styled(&app, 80, 24));
    }
}

#[test]
fn a_tear_is_echoed_and_drawn_as_it_is_typed() {
    let mut app = pinned(look());
    type_text(&mut app, "12");
    app.press(tearbench::actions::Key::Left);
    type_text(&mut app, "4");
    app.press(tearbench::actions::Key::Up);
    snapshot("typing-a-tear-80x24", &styled(&app, 80, 24));
    let mut app = pinned(look());
    press(&mut app, "shot");
    type_text(&mut app, "12 lift 4 high");
    snapshot("typing-a-wrong-word-80x24", &styled(&app, 80, 24));
}

/// The half-way bow under names as long as people give them.
fn long_names() -> tearbench::session::Session {
    let text = include_str!("../../sample-sessions/half-way.toml")
        .replace(
            "owner = \"Demo owner\"",
            "owner = \"Maximiliana Featherstonehaugh-Cholmondeley of the range at the mill\"",
        )
        .replace(
            "name = \"green hunting bow\"",
            "name = \"the green hunting bow with the repaired upper limb and the old string\"",
        );
    assert!(text.contains("Maximiliana") && text.contains("repaired upper limb"));
    tearbench::session::Session::from_text(&text).unwrap()
}

#[test]
fn every_screen_in_inches_in_ascii_with_long_names() {
    // Not those that show what is in the folder, or another bow each time.
    let screens = crate::rules::SCREENS.iter();
    for screen in screens.filter(|s| !matches!(**s, "files" | "practice")) {
        let look = Look {
            glyphs: GlyphChoice::Ascii.set(),
            ..look_with(System::Inch, Theme::plain())
        };
        let mut app =
            tearbench::tui::App::new(long_names(), false, tearbench::advice::analyse_after, look);
        if !screen.is_empty() {
            press(&mut app, screen);
        }
        let shown = crate::support::text(&app, 80, 24);
        // The page of looks shows the characters there are.
        assert!(shown.is_ascii() || *screen == "look", "{screen}: {shown}");
        let name = if screen.is_empty() { &"panes" } else { screen };
        let trimmed: Vec<&str> = shown.lines().map(str::trim_end).collect();
        snapshot(&format!("inches-ascii-{name}-80x24"), &trimmed.join("\n"));
    }
}

#[test]
fn every_verdict_in_inches_has_all_of_its_figures() {
    for session in crate::rules::SESSIONS {
        let app = sample(session, look_with(System::Inch, Theme::of(Scheme::Dark)));
        let lines = crate::support::lines(&app, 80, 24);
        let tear = lines
            .iter()
            .skip(2)
            .map(|l| l.chars().take(26).collect::<String>());
        let tear: Vec<String> = tear.take(20).collect();
        let pane = tear.join("\n");
        assert!(!pane.contains("..."), "{session}:\n{pane}");
        for name in ["last", "likely", "scatter", "wanted"] {
            assert!(pane.contains(name), "{session} has no {name}:\n{pane}");
        }
        assert!(pane.contains("within"), "{session}:\n{pane}");
    }
}

#[test]
fn long_names_of_owner_and_bow_both_keep_a_part_on_the_status_line() {
    let mut card = include_str!("../scenarios/cards/compound.toml").replace(
        "[bow]",
        "[bow]\nname = \"The long hunting bow of grandfather X\"",
    );
    card.push_str("\n[job]\nowner = \"Wilhelmina-Alexandra von Oberndorf-Stein\"\n");
    let session = tearbench::session::Session::from_text(&card).unwrap();
    let app = App::new(session, false, tearbench::advice::analyse_after, look());
    let first = |width: u16| lines(&app, width, 24)[0].clone();
    let narrow = first(80);
    assert!(
        narrow.contains("Wilhelmina-Al") && narrow.contains(": The long"),
        "{narrow}"
    );
    assert!(
        narrow.contains("right-handed") && narrow.contains("start position"),
        "{narrow}"
    );
    let wide = first(160);
    assert!(
        wide.contains(
            "Wilhelmina-Alexandra von Oberndorf-Stein: The long hunting bow of grandfather X"
        ),
        "{wide}"
    );
}
