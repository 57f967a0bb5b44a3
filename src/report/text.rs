//! The sheet as plain text, 78 columns.

use super::document::{Block, Cell, Document};

/// Columns of a sheet that is written to a file.
pub(super) const WIDE: usize = 78;

/// Writes at most `wide` columns.
pub(super) fn write(document: &Document, wide: usize) -> String {
    let mut out = Vec::new();
    for line in &document.alarm {
        out.extend(wrap(line, "", "  ", wide));
    }
    if !document.alarm.is_empty() {
        out.push(String::new());
    }
    out.push(document.title.clone());
    out.push("=".repeat(document.title.chars().count().min(wide)));
    out.extend(wrap(&document.lead.join("; "), "", "", wide));
    for section in &document.sections {
        out.push(String::new());
        if !section.title.is_empty() {
            out.push(section.title.clone());
            out.push("-".repeat(section.title.chars().count()));
        }
        for block in &section.blocks {
            self::block(block, &mut out, wide);
        }
    }
    out.push(String::new());
    let lines: Vec<String> = out.iter().map(|l| l.trim_end().to_owned()).collect();
    lines.join("\n")
}

fn block(block: &Block, out: &mut Vec<String>, wide: usize) {
    match block {
        Block::Banner { verdict, text, .. } => {
            out.push(verdict.clone());
            out.extend(wrap(text, "", "", wide));
        }
        Block::Facts(facts) => {
            let name_wide = facts
                .iter()
                .map(|f| f.0.chars().count())
                .max()
                .unwrap_or(0)
                .min(32);
            for (name, value) in facts {
                let first = format!("{name:<name_wide$}  ");
                out.extend(wrap(value, &first, &" ".repeat(name_wide + 2), wide));
            }
        }
        Block::Table { head, rows } => table(head, rows, out, wide),
        Block::Lines(lines) => {
            for line in lines {
                out.extend(wrap(line.trim_start(), "- ", "  ", wide));
            }
        }
        Block::Text(text) => out.extend(wrap(text, "", "", wide)),
        Block::Holes(figure) => {
            for line in figure.lines() {
                out.extend(wrap(&line, "- ", "  ", wide));
            }
            if figure.left_out > 0 {
                out.push(format!(
                    "The first {} holes are left out here.",
                    figure.left_out
                ));
            }
        }
        Block::Plot(figure) => out.extend(figure.bars()),
    }
}

/// Columns as wide as they need to be, the last one wrapped.
fn table(head: &[String], rows: &[Vec<Cell>], out: &mut Vec<String>, most: usize) {
    let last = head.len().saturating_sub(1);
    let wide: Vec<usize> = (0..last)
        .map(|c| {
            rows.iter()
                .map(|r| r[c].text.chars().count())
                .max()
                .unwrap_or(0)
                .min(34)
        })
        .collect();
    let before = wide.iter().sum::<usize>() + 2 * last;
    let indent = " ".repeat(if before > 48 { 4 } else { before });
    for row in rows {
        let mut first = String::new();
        for (cell, wide) in row.iter().zip(&wide) {
            first.push_str(&format!("{:<wide$}  ", cell.text));
        }
        let cell = row.get(last).map_or("", |cell| cell.text.as_str());
        if cell.is_empty() {
            out.push(first);
        } else if before > 48 && before + cell.chars().count() > most {
            out.push(first);
            out.extend(wrap(cell, &indent, &indent, most));
        } else {
            out.extend(wrap(cell, &first, &indent, most));
        }
    }
}

/// Wraps at words; a word longer than the line is left whole.
fn wrap(text: &str, first: &str, later: &str, wide: usize) -> Vec<String> {
    if text.trim().is_empty() {
        return Vec::new();
    }
    let mut lines = Vec::new();
    let mut line = first.to_owned();
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > wide {
            lines.push(std::mem::replace(&mut line, later.to_owned()));
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    lines.push(line);
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_wrapped_at_words_and_long_words_kept() {
        let text = "word ".repeat(40);
        let lines = wrap(&text, "- ", "  ", WIDE);
        assert!(lines.len() > 2 && lines.iter().all(|l| l.chars().count() <= WIDE));
        let long = "x".repeat(120);
        assert_eq!(wrap(&long, "", "", WIDE).concat(), long);
        assert!(wrap("  ", "- ", "  ", WIDE).is_empty());
    }
}
