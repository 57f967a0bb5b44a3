//! Marking where arrows hit on a face, as one sees it from the shooting line.
//!
//! ```text
//! |          .   2      | fletched at 18 m
//! |   o  ....+....1.... | 1  3 right (cm)
//! |          .          | 2  4 right 5 high (cm)
//! | 20  10   0   10  20 | the mark: 8 left 2 high (cm)
//! ```

use ratatui::layout::Rect;

use crate::actions::Action;
use crate::look::Role;
use crate::proof::{FaceUnit, GroupKind, MOST, ellipse_of_mean, spot};
use crate::session::Impact;
use crate::tui::draw::axes::{self, MARGIN, Scale};
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::draw::plot::Plot;
use crate::units::System;
use crate::words::pages::proof as page;
use crate::words::{self, proof as said};

/// The face ends here, mm from the spot, either way.
const EDGE: f64 = 1400.0;
/// Least half-width shown, mm.
const LEAST_REACH: f64 = 80.0;
/// How surely a faint ring holds the true centre of its group.
const LIKELY: f64 = 0.9;
/// Below this many hits that ring is too wide to say anything.
const ENOUGH: usize = 5;
/// Columns of the words beside the face, and of a screen that has room for both.
const WORDS: u16 = 32;
const BESIDE: u16 = 64;

/// The marks of one group, not recorded yet.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Face {
    at: Option<Impact>,
    marks: Vec<Impact>,
    count: String,
    /// Leaving with marks not recorded was asked about.
    asked: bool,
}

/// What else is drawn: the tolerance round a place, and hits recorded before.
pub struct Behind<'a> {
    /// What is being marked, `bare at 18 m`.
    pub(crate) title: &'a str,
    /// Centre of the ring and its radius, mm.
    pub(crate) ring: Option<(Impact, f64)>,
    /// Name and hits of each kind already recorded here.
    pub(crate) recorded: &'a [(GroupKind, Vec<Impact>)],
}

const fn spot_itself() -> Impact {
    Impact {
        right: 0.0,
        up: 0.0,
    }
}

impl Face {
    /// Where the mark is.
    pub fn at(&self) -> Impact {
        self.at.unwrap_or(spot_itself())
    }

    /// The marks so far.
    pub(crate) fn marks(&self) -> &[Impact] {
        &self.marks
    }

    /// One step of an arrow alone: half a centimetre, a quarter of an inch.
    const fn step(unit: FaceUnit) -> f64 {
        match unit {
            FaceUnit::Cm => 5.0,
            FaceUnit::Inch => crate::units::MM_PER_INCH / 4.0,
        }
    }

    /// Takes a digit for the next arrow.
    pub(crate) fn digit(&mut self, digit: char) {
        self.asked = false;
        if self.count.len() < 3 {
            self.count.push(digit);
        }
    }

    /// Moves the mark: so many centimetres or inches as were typed, else a step.
    pub(crate) fn go(&mut self, way: Action, unit: FaceUnit) {
        let typed = self.count.parse::<f64>().ok();
        self.count.clear();
        self.asked = false;
        let far = typed.map_or(Self::step(unit), |n| n * unit.mm());
        let (right, up) = match way {
            Action::Left => (-far, 0.0),
            Action::Right => (far, 0.0),
            Action::Up => (0.0, far),
            _ => (0.0, -far),
        };
        // Rounded to hundredths: sums of quarters must not leave dust in the file.
        let place = |v: f64| ((v * 100.0).round() / 100.0 + 0.0).clamp(-EDGE, EDGE);
        let from = self.at();
        self.at = Some(Impact {
            right: place(from.right + right),
            up: place(from.up + up),
        });
    }

    /// An arrow hit where the mark is.
    ///
    /// # Errors
    /// When the group is as large as a group may be.
    pub(crate) fn hit(&mut self) -> Result<usize, String> {
        if self.marks.len() >= MOST {
            return Err(page::full_group());
        }
        self.asked = false;
        self.count.clear();
        self.marks.push(self.at());
        Ok(self.marks.len())
    }

    /// Takes the last mark back; the mark goes where it was.
    pub(crate) fn take_back(&mut self) -> Option<Impact> {
        self.asked = false;
        let last = self.marks.pop()?;
        self.at = Some(last);
        Some(last)
    }

    /// Whether it may be left: at once with nothing marked, else asked first.
    pub(crate) fn may_leave(&mut self) -> bool {
        let may = self.marks.is_empty() || self.asked;
        self.asked = true;
        may
    }

    /// Draws it.
    pub fn draw(&self, paint: &mut Paint<'_>, area: Rect, system: System, behind: &Behind<'_>) {
        let text_wide = if area.width >= BESIDE {
            WORDS
        } else {
            area.width
        };
        let rows = self.said(FaceUnit::of(system), behind, text_wide.saturating_sub(1));
        let (face, text) = split(area, rows.len() as u16);
        if face.height >= 4 && face.width >= 10 {
            self.draw_face(paint, face, system, behind);
        }
        paint.rows(text, &rows);
    }

    fn draw_face(&self, paint: &mut Paint<'_>, face: Rect, system: System, behind: &Behind<'_>) {
        let grid = Rect::new(
            face.x + MARGIN,
            face.y,
            face.width - MARGIN,
            face.height - 1,
        );
        let plot = Plot::new(grid, self.reach(behind));
        axes::draw(paint, &plot, grid, Scale::face(system));
        if let Some((centre, radius)) = behind.ring {
            let at = (centre.right, centre.up);
            plot.ellipse(paint, at, (radius, radius), Role::Tolerance);
        }
        for (n, (_, hits)) in behind.recorded.iter().enumerate() {
            if let Some(e) = ellipse_of_mean(hits, LIKELY).filter(|_| hits.len() >= ENOUGH) {
                let radii = (e.major, e.minor);
                plot.turned(paint, (e.right, e.up), radii, e.angle, Role::Faint);
            }
            for hit in hits {
                plot.mark(paint, hit.right, hit.up, SIGNS[n.min(1)], Role::Faint);
            }
        }
        for (n, hit) in self.marks.iter().enumerate() {
            // The tenth and later share a sign; the list beside tells them apart.
            let c = u32::try_from(n + 1)
                .ok()
                .and_then(|n| char::from_digit(n, 10));
            let c = c.unwrap_or(paint.glyphs.nock);
            plot.mark(paint, hit.right, hit.up, c, Role::Latest);
        }
        let at = self.at();
        plot.mark(paint, at.right, at.up, paint.glyphs.cursor, Role::Selected);
    }

    fn reach(&self, behind: &Behind<'_>) -> f64 {
        let far = |i: &Impact| i.right.abs().max(i.up.abs());
        let recorded = behind.recorded.iter().flat_map(|(_, hits)| hits);
        let ring = behind.ring.map_or(0.0, |(at, radius)| far(&at) + radius);
        recorded
            .chain(&self.marks)
            .chain([&self.at()])
            .map(far)
            .fold(ring.max(LEAST_REACH), f64::max)
            * 1.1
    }

    /// What it says in words, most important first.
    fn said(&self, unit: FaceUnit, behind: &Behind<'_>, width: u16) -> Vec<Row> {
        let mut rows = wrap(behind.title, Role::Title, width, 0);
        let next = match self.count.as_str() {
            "" => String::new(),
            n => format!(", next arrow goes {n} {}", unit.unit()),
        };
        let at = format!("the mark: {}{next}", said::impact(self.at(), unit));
        rows.extend(wrap(&at, Role::Strong, width, 2));
        if self.marks.len() > 1
            && let Some(centre) = spot(&self.marks)
        {
            let centre = Impact {
                right: centre.right,
                up: centre.up,
            };
            let text = format!("their centre: {}", said::impact(centre, unit));
            rows.extend(wrap(&text, Role::Likely, width, 2));
        }
        for (n, hit) in self.marks.iter().enumerate().rev() {
            let text = format!("{}  {}", n + 1, said::impact(*hit, unit));
            rows.push(row(text, Role::Latest));
        }
        if self.marks.is_empty() {
            let text = page::how_to_mark(unit);
            rows.extend(wrap(&text, Role::Faint, width, 0));
        }
        for (n, (what, hits)) in behind.recorded.iter().enumerate() {
            if !hits.is_empty() {
                let c = SIGNS[n.min(1)];
                let text = format!(
                    "{c}  {}: {} recorded",
                    said::kind(*what),
                    words::count(hits.len(), "arrow")
                );
                rows.push(row(text, Role::Faint));
            }
        }
        if behind.recorded.iter().any(|(_, hits)| hits.len() >= ENOUGH) {
            rows.extend(wrap(page::FAINT_RING, Role::Faint, width, 0));
        }
        if let Some((_, radius)) = behind.ring {
            let text = page::ring(radius, unit);
            rows.extend(wrap(&text, Role::Tolerance, width, 0));
        }
        rows
    }
}

/// Signs of the first and of the other kind of arrow.
const SIGNS: [char; 2] = ['o', 'x'];

/// The face, and the words beside it or under it.
fn split(area: Rect, rows: u16) -> (Rect, Rect) {
    if area.width >= BESIDE {
        let wide = area.width - WORDS;
        let face = Rect::new(area.x, area.y, wide, area.height);
        let text = Rect::new(area.x + wide + 1, area.y, WORDS - 1, area.height);
        return (face, text);
    }
    let words = rows.min(area.height / 3).max(2).min(area.height);
    let face = Rect::new(area.x, area.y, area.width, area.height - words);
    let text = Rect::new(area.x, area.y + face.height, area.width, words);
    (face, text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hit(right: f64, up: f64) -> Impact {
        Impact { right, up }
    }

    #[test]
    fn digits_then_an_arrow_go_that_far_and_an_arrow_alone_goes_a_step() {
        let mut face = Face::default();
        face.digit('1');
        face.digit('2');
        face.go(Action::Left, FaceUnit::Cm);
        face.go(Action::Up, FaceUnit::Cm);
        assert_eq!(face.at(), hit(-120.0, 5.0));
        face.digit('3');
        face.go(Action::Down, FaceUnit::Inch);
        assert_eq!(face.at(), hit(-120.0, -71.2));
    }

    #[test]
    fn the_last_mark_is_taken_back_and_marks_are_not_left_without_asking() {
        let mut face = Face::default();
        assert!(face.may_leave());
        let mut face = Face::default();
        face.hit().unwrap();
        face.go(Action::Right, FaceUnit::Cm);
        face.hit().unwrap();
        face.go(Action::Right, FaceUnit::Cm);
        assert_eq!(face.take_back(), Some(hit(5.0, 0.0)));
        assert_eq!((face.at(), face.marks().len()), (hit(5.0, 0.0), 1));
        assert!(!face.may_leave());
        assert!(face.may_leave());
    }

    #[test]
    fn a_group_has_an_end_and_the_face_an_edge() {
        let mut face = Face::default();
        for _ in 0..MOST {
            face.hit().unwrap();
        }
        assert!(face.hit().is_err());
        for _ in 0..3 {
            "999".chars().for_each(|c| face.digit(c));
            face.go(Action::Left, FaceUnit::Inch);
        }
        assert_eq!(face.at().right, -EDGE);
    }
}
