//! Figures as they stand, pinned: column, launch and flight, the tuner's
//! choices, the checks, proof and remedies, each over a grid of cases.
//!
//! None of this says that a figure is right: that is what `tests/published`
//! and the tests beside the code are for. It says that no figure, side or
//! limit changes unseen. Where one changes knowingly, the new snapshot is read
//! line by line.

use std::fmt::{Debug, Write as _};
use std::path::PathBuf;

mod checks;
mod physics;
mod proof;
mod remedies;
mod tuner;

/// Six figures of a number: more would differ from one machine to another.
fn six(value: f64) -> String {
    let size = value.abs();
    if size < 1e-9 {
        return "0".into();
    }
    if !(1e-3..1e6).contains(&size) {
        return format!("{value:.5e}");
    }
    let places = (5 - size.log10().floor() as i32).max(0) as usize;
    let said = format!("{value:.places$}");
    if places == 0 {
        return said;
    }
    said.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// What `Debug` writes, its numbers to six figures.
fn rounded(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let inside_a_word = out.chars().last().is_some_and(char::is_alphanumeric);
        if !c.is_ascii_digit() || inside_a_word {
            out.push(c);
            rest = &rest[c.len_utf8()..];
            continue;
        }
        let mut end = 0;
        for (i, d) in rest.char_indices() {
            let exponent = d == '-' && rest[..i].ends_with('e');
            if !(d.is_ascii_digit() || d == '.' || d == 'e' || exponent) {
                break;
            }
            end = i + 1;
        }
        let token = &rest[..end];
        match token.parse::<f64>() {
            Ok(value) if token.contains(['.', 'e']) => {
                let said = six(value);
                if said == "0" && out.ends_with('-') {
                    out.pop();
                }
                out.push_str(&said);
            }
            _ => out.push_str(token),
        }
        rest = &rest[end..];
    }
    out
}

/// Lines of one table.
#[derive(Default)]
struct Table(String);

impl Table {
    fn row(&mut self, name: impl std::fmt::Display, value: impl Debug) {
        let _ = writeln!(self.0, "{name}: {}", rounded(&format!("{value:?}")));
    }

    /// Compares with the snapshot of this name.
    fn pinned(&self, name: &str) {
        let mut settings = insta::Settings::clone_current();
        settings.set_snapshot_path(PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("snapshots"));
        settings.set_prepend_module_to_snapshot(false);
        settings.set_omit_expression(true);
        settings.bind(|| insta::assert_snapshot!(format!("figures-{name}"), self.0));
    }
}

#[test]
fn numbers_are_rounded_and_names_are_left_alone() {
    let said =
        rounded("Gain { k: 12, mean: -3.14159265, up1: 2.5e-7, none: -1e-17, x: [0.0, 20.0] }");
    assert_eq!(
        said,
        "Gain { k: 12, mean: -3.14159, up1: 2.50000e-7, none: 0, x: [0, 20] }"
    );
}
