//! The sheet as Markdown.

use super::document::{Block, Document};

pub(super) fn write(document: &Document) -> String {
    let mut out = String::new();
    for line in &document.alarm {
        out.push_str(&format!("**{}**\n\n", escape(line)));
    }
    out.push_str(&format!("# {}\n", escape(&document.title)));
    if !document.lead.is_empty() {
        out.push_str(&format!("\n{}\n", escape(&document.lead.join("; "))));
    }
    for section in &document.sections {
        if !section.title.is_empty() {
            out.push_str(&format!("\n## {}\n", escape(&section.title)));
        }
        for block in &section.blocks {
            self::block(block, &mut out);
        }
    }
    out
}

fn block(block: &Block, out: &mut String) {
    out.push('\n');
    match block {
        Block::Banner { verdict, text, .. } => {
            out.push_str(&format!("**{}**\n", escape(verdict)));
            if !text.is_empty() {
                out.push_str(&format!("\n{}\n", escape(text)));
            }
        }
        Block::Facts(facts) => {
            for (name, value) in facts {
                out.push_str(&format!("- **{}:** {}\n", escape(name), escape(value)));
            }
        }
        Block::Table { head, rows } => {
            out.push_str(&row(head.iter().map(String::as_str)));
            out.push_str(&format!("|{}\n", " --- |".repeat(head.len())));
            for cells in rows {
                out.push_str(&row(cells.iter().map(|c| c.text.as_str())));
            }
        }
        Block::Lines(lines) => list(lines, out),
        Block::Text(text) => out.push_str(&format!("{}\n", escape(text))),
        Block::Holes(figure) => list(&figure.lines(), out),
        Block::Plot(figure) => {
            out.push_str("```text\n");
            for line in figure.bars() {
                out.push_str(&line);
                out.push('\n');
            }
            out.push_str("```\n");
        }
    }
}

fn list(lines: &[String], out: &mut String) {
    for line in lines {
        out.push_str(&format!("- {}\n", escape(line.trim_start())));
    }
}

fn row<'a>(cells: impl Iterator<Item = &'a str>) -> String {
    let cells: Vec<String> = cells.map(escape).collect();
    format!("| {} |\n", cells.join(" | "))
}

/// Characters with a meaning in Markdown or HTML, made plain.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' | '~' => {
                out.push('\\');
                out.push(c);
            }
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            c => out.push(c),
        }
    }
    out
}
