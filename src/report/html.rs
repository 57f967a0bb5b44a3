//! The sheet as one HTML file: no network, no script, light and dark.

use super::document::{Block, Cell, Document};
use super::holes::{HolesFigure, notes};
use super::markup::escape;
use crate::units::{MM_PER_INCH, System};

const STYLE: &str = include_str!("style.css");

/// Nothing may be loaded from anywhere, whatever a text contains.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

pub(super) fn write(document: &Document) -> String {
    let title = escape(&document.title);
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<header>\n"
    );
    for line in &document.alarm {
        out.push_str(&format!("<p class=\"alarm\">{}</p>\n", escape(line)));
    }
    out.push_str(&format!("<h1>{title}</h1>\n"));
    if !document.lead.is_empty() {
        out.push_str(&format!(
            "<p class=\"lead\">{}</p>\n",
            escape(&document.lead.join(" \u{b7} "))
        ));
    }
    out.push_str("</header>\n<main>\n");
    for section in &document.sections {
        let class = slug(&section.title);
        out.push_str(&format!("<section class=\"s-{class}\">\n"));
        if !section.title.is_empty() {
            out.push_str(&format!("<h2>{}</h2>\n", escape(&section.title)));
        }
        for block in &section.blocks {
            self::block(block, &mut out);
        }
        out.push_str("</section>\n");
    }
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

/// A class name from a heading of ours: letters and hyphens only.
fn slug(title: &str) -> String {
    let words: Vec<String> = title
        .to_lowercase()
        .split(|c: char| !c.is_ascii_lowercase())
        .filter(|w| !w.is_empty())
        .map(Into::into)
        .collect();
    words.join("-")
}

fn block(block: &Block, out: &mut String) {
    match block {
        Block::Banner {
            verdict,
            text,
            good,
        } => {
            let good = if *good { " good" } else { "" };
            let below = if text.is_empty() {
                String::new()
            } else {
                format!("<br>{}", escape(text))
            };
            out.push_str(&format!(
                "<p class=\"banner{good}\"><strong>{}</strong>{below}</p>\n",
                escape(verdict)
            ));
        }
        Block::Facts(facts) => {
            out.push_str("<dl>\n");
            for (name, value) in facts {
                out.push_str(&format!(
                    "<div><dt>{}</dt><dd>{}</dd></div>\n",
                    escape(name),
                    escape(value)
                ));
            }
            out.push_str("</dl>\n");
        }
        Block::Table { head, rows } => table(head, rows, out),
        Block::Lines(lines) => {
            out.push_str("<ul>\n");
            for line in lines {
                out.push_str(&format!("<li>{}</li>\n", escape(line.trim_start())));
            }
            out.push_str("</ul>\n");
        }
        Block::Text(text) => out.push_str(&format!("<p>{}</p>\n", escape(text))),
        Block::Holes(figure) => holes(figure, out),
        Block::Plot(figure) => {
            out.push_str(&format!(
                "<figure>{}<figcaption class=\"note\">{}</figcaption></figure>\n",
                figure.svg(),
                escape(&figure.caption())
            ));
        }
    }
}

fn table(head: &[String], rows: &[Vec<Cell>], out: &mut String) {
    out.push_str("<div class=\"wide\"><table>\n<thead><tr>");
    for cell in head {
        out.push_str(&format!("<th>{}</th>", escape(cell)));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in rows {
        out.push_str("<tr>");
        for (cell, head) in row.iter().zip(head) {
            let class = match (head.is_empty(), cell.alarm) {
                (true, true) => " class=\"state alarm\"",
                (true, false) => " class=\"state\"",
                _ => "",
            };
            out.push_str(&format!("<td{class}>{}</td>", escape(&cell.text)));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody></table></div>\n");
}

/// One strip a setting: the setting as a line of its own, the tolerance, then
/// the holes with their shot numbers.
fn holes(figure: &HolesFigure, out: &mut String) {
    for strip in figure.strips() {
        let place = match strip.place {
            "" => String::new(),
            place => format!(" \u{b7} {}", escape(place)),
        };
        out.push_str(&format!(
            "<h3>Setting {}{place}</h3>\n<div class=\"strip\">\n<figure>{}<figcaption>within {}</figcaption></figure>\n",
            strip.setting,
            figure.tolerance_svg(),
            escape(&figure.system.tear(figure.tolerance))
        ));
        for hole in strip.holes {
            let notes: Vec<&str> = notes(hole).collect();
            let notes = match notes.is_empty() {
                true => String::new(),
                false => format!(" {}", notes.join(", ")),
            };
            out.push_str(&format!(
                "<figure>{}<figcaption>{}{notes}</figcaption></figure>\n",
                figure.svg(&strip, hole),
                hole.number,
            ));
        }
        out.push_str("</div>\n");
    }
    // The bar is a length of paper in the unit of the sheet.
    let bar = match figure.system {
        System::Mm => 10.0,
        System::Inch => MM_PER_INCH / 2.0,
    };
    let long = figure.system.tear(bar);
    out.push_str(&format!(
        "<p class=\"note\">{} <svg class=\"bar\" width=\"{}mm\" height=\"2mm\" viewBox=\"0 0 10 2\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"{long} of paper\"><path d=\"M0 0V2M0 1H10M10 0V2\"/></svg> {long} of paper. Numbers: the shots.</p>\n",
        escape(&figure.caption()),
        crate::units::trim_number(bar / f64::from(figure.scale), 2),
    ));
}
