//! The main screen, pinned.

use crate::support::{look, look_with, pinned, press, sample, snapshot, styled, type_text};
use tearbench::tui::Look;
use tearbench::tui::glyphs::GlyphChoice;
use tearbench::tui::theme::Theme;
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
