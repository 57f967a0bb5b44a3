//! What the sessions of the folder have taught: for each kind of bow, release
//! and rest how the adjusters answered, a line a bow.
//!
//! ```text
//! +- What this folder teaches -------------------------------+
//! | COMPOUND, AID, DROP-AWAY                                 |
//! | rest sideways: times its own move that the tear goes, n 2|
//! |        -5             0             5                    |
//! | bow 1      --o--      |                     -2.7 to -1.9 |
//! | bow 2    ----o----    |                     -3.5 to -1.7 |
//! +----------------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::book::{Class, Lessons};
use crate::gear::AdjusterKind;
use crate::look::{Glyphs, Role};
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::scrolled;
use crate::units::System;
use crate::words;
use crate::words::pages::taught;

/// Columns for a bow's number, and for its figures.
const NAME: usize = 8;
const FIGURES: usize = 16;
/// The chart is no narrower and no wider than this.
const CHART: (usize, usize) = (15, 61);

/// The screen.
pub(crate) struct TaughtScreen {
    classes: Vec<Class>,
    read: (usize, usize),
    skipped: Vec<String>,
    scroll: u16,
    /// Rows at the last look, so that scrolling ends at the last of them.
    rows: usize,
}

impl TaughtScreen {
    /// Of the lessons of a folder.
    pub fn new(lessons: &Lessons) -> Self {
        let classes = lessons.classes();
        let of = |c: &Class| {
            c.answers
                .iter()
                .map(|(_, bows)| bows.len() + 3)
                .sum::<usize>()
                + 2
        };
        Self {
            rows: classes.iter().map(of).sum::<usize>() + lessons.skipped.len() + 4,
            classes,
            read: lessons.read,
            skipped: lessons.skipped.clone(),
            scroll: 0,
        }
    }

    fn lines(&self, width: u16, glyphs: &Glyphs, system: System) -> Vec<Row> {
        let mut rows = Vec::new();
        if self.classes.is_empty() {
            rows.extend(wrap(taught::NOTHING, Role::Text, width, 0));
        }
        for class in &self.classes {
            rows.push(row(class.class.join(", ").to_uppercase(), Role::Title));
            for (kind, bows) in &class.answers {
                rows.extend(chart(*kind, bows, width, glyphs, system));
                rows.push(Row::new());
            }
        }
        if !self.classes.is_empty() {
            let legend = taught::legend(self.read);
            rows.extend(wrap(&legend, Role::Faint, width, 0));
        }
        let skipped = self.skipped.iter();
        rows.extend(skipped.flat_map(|s| wrap(s, Role::Warn, width, 2)));
        rows
    }
}

/// A scale's end that is a round number: 1, 2 or 5 times a power of ten.
fn round_end(most: f64) -> f64 {
    let ten = 10f64.powf(most.max(0.1).log10().floor());
    let ends = [1.0, 2.0, 5.0, 10.0].map(|n| n * ten);
    ends.into_iter().find(|e| *e >= most).unwrap_or(10.0 * ten)
}

/// The bows' answers to one adjuster: a heading, the scale, a line a bow.
fn chart(
    kind: AdjusterKind,
    bows: &[(f64, f64)],
    width: u16,
    glyphs: &Glyphs,
    system: System,
) -> Vec<Row> {
    let title = format!("{}, n {}", words::slope_of(kind, system), bows.len());
    let mut rows = wrap(&title, Role::Strong, width, 2);
    let end = round_end(bows.iter().map(|(m, sd)| m.abs() + sd).fold(0.0, f64::max));
    let room = usize::from(width).saturating_sub(NAME + FIGURES);
    let wide = room.clamp(CHART.0, CHART.1) / 2 * 2 - 1;
    let column = |v: f64| {
        let middle = (wide / 2) as f64;
        (middle + v / end * middle)
            .round()
            .clamp(0.0, (wide - 1) as f64) as usize
    };
    let figure = |v: f64| words::slope(v, kind, system);
    let (low, high) = (figure(-end), figure(end));
    let gap = wide.saturating_sub(low.chars().count() + high.chars().count() + 1) / 2;
    let scale = format!("{:NAME$}{low}{:gap$}0{:gap$}{high}", "", "", "");
    rows.push(row(scale, Role::Faint));
    for (n, (mean, sd)) in bows.iter().enumerate() {
        let mut line: Vec<char> = vec![' '; wide];
        line[column(0.0)] = glyphs.frame[1];
        for c in &mut line[column(mean - sd)..=column(mean + sd)] {
            *c = glyphs.frame[0];
        }
        line[column(*mean)] = glyphs.nock;
        let line: String = line.into_iter().collect();
        rows.push(vec![
            (format!("{:<NAME$}", format!("bow {}", n + 1)), Role::Text),
            (line, Role::Text),
            (
                format!("  {} to {}", figure(mean - sd), figure(mean + sd)),
                Role::Text,
            ),
        ]);
    }
    rows
}

impl Screen for TaughtScreen {
    fn scope(&self) -> Scope {
        Scope::Reading
    }
    fn title(&self, _model: &Model) -> String {
        "What this folder teaches".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::TAUGHT
    }
    fn act(&mut self, action: Action, _model: &Model) -> Vec<Effect> {
        self.scroll = scrolled(self.scroll, action).min(self.rows as u16);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let rows = self.lines(area.width, paint.glyphs, model.system);
        paint.scrolled(area, &rows, self.scroll);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_ends_at_a_round_number_that_holds_every_bow() {
        for (most, end) in [
            (0.4, 0.5),
            (1.0, 1.0),
            (2.3, 5.0),
            (5.1, 10.0),
            (17.0, 20.0),
        ] {
            assert!((round_end(most) - end).abs() < 1e-9, "{most}");
        }
    }
}
