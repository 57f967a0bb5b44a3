//! A screen as a picture: the cells of the test backend as SVG, monospaced
//! text in the colours a terminal would show.

use std::fmt::Write as _;

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use tearbench::look::terminals::{Rgb, Sixteen, TERMINALS};

/// A cell, in the picture's own unit.
const WIDE: f64 = 8.4;
const HIGH: f64 = 17.0;
/// The size of letters, and where they stand in a cell.
const FONT: f64 = 14.0;
const BASE: f64 = 13.0;
/// Ground left round the screen.
const EDGE: f64 = 10.0;

/// A terminal's own ground and text.
#[derive(Debug, Clone, Copy)]
pub struct Ground {
    /// What is behind.
    pub back: Rgb,
    /// What is written in.
    pub text: Rgb,
}

/// Light letters on black, as most terminals start.
pub const ON_BLACK: Ground = Ground {
    back: [0, 0, 0],
    text: [229, 229, 229],
};
/// Black letters on white.
pub const ON_WHITE: Ground = Ground {
    back: [255, 255, 255],
    text: [0, 0, 0],
};

fn hex([r, g, b]: Rgb) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}

fn mixed(a: Rgb, b: Rgb) -> Rgb {
    let part = |i: usize| ((u16::from(a[i]) * 3 + u16::from(b[i]) * 2) / 5) as u8;
    [part(0), part(1), part(2)]
}

/// What one cell comes out as: ground, text, and whether it is bold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Shown {
    back: Rgb,
    text: Rgb,
    bold: bool,
}

fn shown(cell: &Cell, ground: Ground, terminal: &Sixteen) -> Shown {
    let rgb = |colour: Color, own: Rgb| terminal.rgb(colour).unwrap_or(own);
    let (mut back, mut text) = (rgb(cell.bg, ground.back), rgb(cell.fg, ground.text));
    if cell.modifier.contains(Modifier::REVERSED) {
        std::mem::swap(&mut back, &mut text);
    }
    if cell.modifier.contains(Modifier::DIM) {
        text = mixed(text, back);
    }
    let bold = cell.modifier.contains(Modifier::BOLD);
    Shown { back, text, bold }
}

/// The part of a cell that a block element fills: from where, how high.
fn block(symbol: &str) -> Option<(f64, f64)> {
    match symbol {
        "█" => Some((0.0, 1.0)),
        "▀" => Some((0.0, 0.5)),
        "▄" => Some((0.5, 0.5)),
        _ => None,
    }
}

fn rect(out: &mut String, (x, y): (f64, f64), (wide, high): (f64, f64), colour: Rgb) {
    let colour = hex(colour);
    let _ = writeln!(
        out,
        r#"<rect x="{x:.1}" y="{y:.1}" width="{wide:.1}" height="{high:.1}" fill="{colour}"/>"#
    );
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// The screen as SVG.
pub fn svg(cells: &Buffer, ground: Ground) -> String {
    let terminal = &TERMINALS[1];
    let (columns, rows) = (cells.area.width, cells.area.height);
    let wide = f64::from(columns) * WIDE + 2.0 * EDGE;
    let high = f64::from(rows) * HIGH + 2.0 * EDGE;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide:.0}\" height=\"{high:.0}\" viewBox=\"0 0 {wide:.0} {high:.0}\" font-family=\"DejaVu Sans Mono, Menlo, Consolas, monospace\" font-size=\"{FONT}\">\n"
    );
    let corner = shown(&cells[(0, 0)], ground, terminal).back;
    rect(&mut out, (0.0, 0.0), (wide, high), corner);
    for y in 0..rows {
        let top = EDGE + f64::from(y) * HIGH;
        let at = |x: u16| EDGE + f64::from(x) * WIDE;
        let look = |x: u16| shown(&cells[(x, y)], ground, terminal);
        let mut x = 0;
        while x < columns {
            let from = x;
            let here = look(x);
            while x < columns && look(x).back == here.back {
                x += 1;
            }
            if here.back != corner {
                let size = (f64::from(x - from) * WIDE, HIGH);
                rect(&mut out, (at(from), top), size, here.back);
            }
        }
        let mut x = 0;
        while x < columns {
            let symbol = cells[(x, y)].symbol();
            let here = look(x);
            if let Some((down, part)) = block(symbol) {
                let size = (WIDE + 0.2, part * HIGH);
                rect(&mut out, (at(x), top + down * HIGH), size, here.text);
                x += 1;
                continue;
            }
            if symbol == " " {
                x += 1;
                continue;
            }
            let from = x;
            let mut text = String::new();
            while x < columns && look(x) == here {
                let symbol = cells[(x, y)].symbol();
                let gap = symbol == " " && (x + 1 == columns || cells[(x + 1, y)].symbol() == " ");
                if block(symbol).is_some() || gap {
                    break;
                }
                text.push_str(symbol);
                x += 1;
            }
            let weight = if here.bold {
                " font-weight=\"bold\""
            } else {
                ""
            };
            let _ = writeln!(
                out,
                r#"<text x="{:.1}" y="{:.1}" textLength="{:.1}" fill="{}"{weight} xml:space="preserve">{}</text>"#,
                at(from),
                top + BASE,
                f64::from(x - from) * WIDE,
                hex(here.text),
                escaped(&text)
            );
        }
    }
    out.push_str("</svg>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::support::{cells, look, look_with, sample};
    use tearbench::look::{GlyphChoice, Scheme, Theme};
    use tearbench::tui::Look;
    use tearbench::units::System;

    /// Every picture that is worth looking at, into the folder named by
    /// `TEARBENCH_PICTURES`.
    #[test]
    fn pictures_to_look_at() {
        let Some(folder) = std::env::var_os("TEARBENCH_PICTURES") else {
            return;
        };
        let folder = std::path::PathBuf::from(folder);
        let keep = |name: &str, app: &tearbench::tui::App, size: (u16, u16), ground| {
            let picture = svg(&cells(app, size.0, size.1), ground);
            std::fs::write(folder.join(format!("{name}.svg")), picture).unwrap();
        };
        for session in crate::rules::SESSIONS {
            for (scheme, ground) in [
                (Scheme::Dark, ON_BLACK),
                (Scheme::Light, ON_WHITE),
                (Scheme::Terminal, ON_BLACK),
                (Scheme::Terminal, ON_WHITE),
                (Scheme::Contrast, ON_BLACK),
                (Scheme::Mono, ON_WHITE),
            ] {
                let app = sample(session, look_with(System::Mm, Theme::of(scheme)));
                let on = if ground.back[0] == 0 {
                    "black"
                } else {
                    "white"
                };
                for size in [(80, 24), (120, 40)] {
                    let name = format!("{session}-{}-{on}-{}x{}", scheme.id(), size.0, size.1);
                    keep(&name, &app, size, ground);
                }
            }
            let app = sample(session, look_with(System::Inch, Theme::of(Scheme::Dark)));
            keep(&format!("{session}-in-80x24"), &app, (80, 24), ON_BLACK);
            let ascii = Look {
                glyphs: GlyphChoice::Ascii.set(),
                ..look()
            };
            let app = sample(session, ascii);
            keep(&format!("{session}-ascii-80x24"), &app, (80, 24), ON_BLACK);
            keep(
                &format!("{session}-ascii-120x40"),
                &app,
                (120, 40),
                ON_BLACK,
            );
        }
    }

    /// The picture of the README.
    #[test]
    fn the_console_s_picture_is_the_console() {
        let dark = look_with(System::Mm, Theme::of(Scheme::Dark));
        let app = sample("half-way", dark);
        let picture = svg(&cells(&app, 120, 40), ON_BLACK);
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/snapshots/console.svg");
        if std::env::var("INSTA_UPDATE").is_ok_and(|v| v == "always") {
            std::fs::write(path, &picture).unwrap();
        }
        let kept = std::fs::read_to_string(path).unwrap_or_default();
        assert!(
            kept == picture,
            "snapshots/console.svg is not what the console shows: INSTA_UPDATE=always writes it"
        );
    }
}
