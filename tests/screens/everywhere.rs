//! What must hold on whatever any action opens, at every size, in every theme.

use ratatui::style::Color;

use crate::support::{cells, look, sample};
use tearbench::actions::{ACTIONS, Action, Scope};
use tearbench::look::Theme;
use tearbench::tui::{App, Look};

const SIZES: [(u16, u16); 9] = [
    (1, 1),
    (39, 11),
    (40, 12),
    (60, 20),
    (76, 24),
    (80, 24),
    (120, 40),
    (200, 60),
    (320, 90),
];

fn after(action: Action, theme: Theme) -> App {
    let look = Look {
        theme,
        folder: std::env::temp_dir().join("no-such-folder-here"),
        ..look()
    };
    let mut app = sample("half-way", look);
    app.act(action);
    app
}

fn letters(app: &App, (width, height): (u16, u16)) -> String {
    let shown = cells(app, width, height);
    shown
        .content
        .iter()
        .map(ratatui::buffer::Cell::symbol)
        .collect()
}

#[test]
fn every_action_draws_at_every_size_and_says_the_same_with_and_without_colour() {
    let main = ACTIONS.iter().filter(|s| s.scopes.contains(&Scope::Main));
    for spec in main.filter(|s| s.action != Action::Quit) {
        let plain = after(spec.action, Theme::plain());
        for theme in [Theme::coloured(), Theme::coloured().safe()] {
            let coloured = after(spec.action, theme);
            for size in SIZES {
                assert_eq!(
                    letters(&plain, size),
                    letters(&coloured, size),
                    "{} at {size:?}: meaning by colour alone",
                    spec.id
                );
            }
        }
        for (width, height) in SIZES {
            let shown = cells(&plain, width, height);
            assert!(
                shown
                    .content
                    .iter()
                    .all(|c| c.fg == Color::Reset && c.bg == Color::Reset),
                "{} at {width}x{height} has a colour without colours",
                spec.id
            );
            // The key line and the status line are never empty where the screen fits.
            if width >= 40 && height >= 12 {
                for y in [0, height - 1] {
                    let line: String = (0..width).map(|x| shown[(x, y)].symbol()).collect();
                    assert!(!line.trim().is_empty(), "{} at {width}x{height}", spec.id);
                }
            }
        }
    }
}

#[test]
fn what_counts_as_wrong_is_marked_by_more_than_colour() {
    // The control: the same screens do differ in colour.
    let app = after(Action::Why, Theme::coloured());
    let plain = after(Action::Why, Theme::plain());
    assert_ne!(cells(&app, 80, 24), cells(&plain, 80, 24));
}
