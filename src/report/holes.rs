//! Every hole to scale, one strip a setting.
//!
//! A hole is drawn in millimetres of the sheet: the drawing's own unit is
//! 1 mm of paper, and its printed size is that divided by the stated scale.
//! The tolerance is drawn once a strip, on its own at the head of it.

use std::fmt::Write as _;

use super::plot::num;
use crate::tear::Tear;
use crate::units::System;

/// One hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleMark {
    /// Shot number, from 1.
    pub number: usize,
    /// Setting it was shot at.
    pub setting: u32,
    /// The tear, mm.
    pub tear: Tear,
    /// Shot without fletching: no vane cuts.
    pub bare: bool,
    /// Called bad.
    pub bad: bool,
}

/// Holes shot one after another at one setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Strip<'a> {
    /// The setting's number.
    pub setting: u32,
    /// Where the adjusters stood, such as `rest sideways 1.50 mm left`.
    pub place: &'a str,
    /// The holes, oldest first.
    pub(crate) holes: &'a [HoleMark],
}

/// Every hole, drawn to one scale.
#[derive(Debug, Clone, PartialEq)]
pub struct HolesFigure {
    /// The holes, oldest first.
    pub(crate) holes: Vec<HoleMark>,
    /// Where the adjusters stood, by the number of the setting.
    pub places: Vec<(u32, String)>,
    /// Earlier holes that are not drawn for want of room.
    pub(crate) left_out: usize,
    /// Shaft diameter, mm.
    pub(crate) diameter: f64,
    /// Wanted tear, mm.
    pub(crate) wanted: (f64, f64),
    /// Tolerance about it, mm.
    pub(crate) tolerance: f64,
    /// The scale is 1 to this.
    pub(crate) scale: u32,
    /// Display system.
    pub system: System,
}

/// Most holes drawn: what fits half a page.
const MOST: usize = 60;
/// How far a vane cut reaches beyond the shaft, mm (a usual low vane).
const VANE_MM: f64 = 8.0;
/// Blank paper left about a drawing, mm of paper.
const MARGIN_MM: f64 = 1.0;
/// Widest printed drawing, mm, for few, more and many holes.
const WIDEST_MM: [f64; 3] = [40.0, 26.0, 18.0];

/// A box on the paper, mm: right and down positive, as a drawing counts.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Frame {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

impl Frame {
    fn wide(self) -> f64 {
        self.right - self.left
    }

    fn high(self) -> f64 {
        self.bottom - self.top
    }

    fn around(x: f64, y: f64, reach: f64) -> Self {
        Self {
            left: x - reach,
            right: x + reach,
            top: y - reach,
            bottom: y + reach,
        }
    }

    fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            right: self.right.max(other.right),
            top: self.top.min(other.top),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

impl HolesFigure {
    /// Chooses one scale that holds every hole.
    pub fn new(
        mut holes: Vec<HoleMark>,
        places: Vec<(u32, String)>,
        diameter: f64,
        (wanted, tolerance): ((f64, f64), f64),
        system: System,
    ) -> Self {
        let left_out = holes.len().saturating_sub(MOST);
        holes.drain(..left_out);
        let widest = match holes.len() {
            0..=6 => WIDEST_MM[0],
            7..=28 => WIDEST_MM[1],
            _ => WIDEST_MM[2],
        };
        let mut figure = Self {
            holes,
            places,
            left_out,
            diameter,
            wanted,
            tolerance,
            scale: 1,
            system,
        };
        let frames = figure.holes.iter().map(|h| figure.frame(h));
        let reach = frames
            .map(|f| f.wide().max(f.high()))
            .fold(2.0 * tolerance, f64::max);
        figure.scale = (reach / widest).ceil().max(1.0) as u32;
        figure
    }

    /// The holes by setting, in the order they were shot.
    pub(crate) fn strips(&self) -> Vec<Strip<'_>> {
        let same = |a: &HoleMark, b: &HoleMark| a.setting == b.setting;
        self.holes
            .chunk_by(same)
            .map(|holes| {
                let setting = holes[0].setting;
                let place = self.places.iter().find(|(number, _)| *number == setting);
                Strip {
                    setting,
                    place: place.map_or("", |(_, place)| place),
                    holes,
                }
            })
            .collect()
    }

    /// The paper one hole takes up.
    fn frame(&self, hole: &HoleMark) -> Frame {
        let shaft = self.diameter / 2.0 + MARGIN_MM;
        let tail = if hole.bare { shaft } else { shaft + VANE_MM };
        let point = Frame::around(0.0, 0.0, shaft);
        point.with(Frame::around(hole.tear.right, 0.0 - hole.tear.up, tail))
    }

    /// The head of a drawing: its box, and its printed size at the scale.
    fn open(&self, class: &str, label: &str, frame: Frame) -> String {
        let scale = f64::from(self.scale);
        format!(
            "<svg class=\"{class}\" role=\"img\" aria-label=\"{}\" width=\"{}mm\" height=\"{}mm\" viewBox=\"{} {} {} {}\">",
            super::markup::escape(label),
            num(frame.wide() / scale),
            num(frame.high() / scale),
            num(frame.left),
            num(frame.top),
            num(frame.wide()),
            num(frame.high())
        )
    }

    /// The tolerance about the wanted tear, as a drawing of its own.
    pub(crate) fn tolerance_svg(&self) -> String {
        let (x, y) = (self.wanted.0, 0.0 - self.wanted.1);
        let ring = Frame::around(x, y, self.tolerance + MARGIN_MM);
        let frame = ring.with(Frame::around(0.0, 0.0, MARGIN_MM + 1.0));
        let label = format!("tolerance {}", self.system.tear(self.tolerance));
        let mut out = self.open("ring", &label, frame);
        let _ = write!(
            out,
            "<circle class=\"inside\" cx=\"{}\" cy=\"{}\" r=\"{}\"/><path class=\"cross\" d=\"M-1 0H1M0 -1V1\"/></svg>",
            num(x),
            num(y),
            num(self.tolerance)
        );
        out
    }

    /// One hole of a strip as inline SVG: as wide as it needs to be and as
    /// high as the strip, so that the points stand on one line.
    pub(crate) fn svg(&self, strip: &Strip<'_>, hole: &HoleMark) -> String {
        let own = self.frame(hole);
        let all = strip.holes.iter().map(|h| self.frame(h));
        let strip = all.fold(own, Frame::with);
        let frame = Frame {
            top: strip.top,
            bottom: strip.bottom,
            ..own
        };
        let label = format!(
            "shot {}: {}",
            hole.number,
            crate::words::tear_with_unit(hole.tear, self.system)
        );
        let class = if hole.bad { "hole bad" } else { "hole" };
        let mut out = self.open(class, &label, frame);
        self.draw(hole, &mut out);
        out.push_str("</svg>");
        out
    }

    fn draw(&self, hole: &HoleMark, out: &mut String) {
        // Up is up: the drawing's y runs down.
        let (x, y) = (hole.tear.right, 0.0 - hole.tear.up);
        let _ = write!(
            out,
            "<line class=\"slit\" x1=\"0\" y1=\"0\" x2=\"{}\" y2=\"{}\" stroke-width=\"{}\"/>",
            num(x),
            num(y),
            num(0.55 * self.diameter)
        );
        if !hole.bare {
            let reach = self.diameter / 2.0 + VANE_MM;
            for degrees in [90.0_f64, 210.0, 330.0] {
                let (sin, cos) = degrees.to_radians().sin_cos();
                let _ = write!(
                    out,
                    "<line class=\"vane\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
                    num(x),
                    num(y),
                    num(x + reach * cos),
                    num(y - reach * sin)
                );
            }
        }
        let _ = write!(
            out,
            "<circle class=\"nock\" cx=\"{}\" cy=\"{}\" r=\"{}\"/><circle class=\"point\" cx=\"0\" cy=\"0\" r=\"{}\"/>",
            num(x),
            num(y),
            num(0.35 * self.diameter),
            num(self.diameter / 2.0)
        );
    }

    /// What stands under the strips.
    pub(crate) fn caption(&self) -> String {
        let about = if self.wanted == (0.0, 0.0) {
            "a clean hole"
        } else {
            "the wanted tear"
        };
        let mut text = format!(
            "Scale 1:{}. Filled circle: the point; lines: the vanes at the tail; shaded: {} about {about}.",
            self.scale,
            self.system.tear(self.tolerance),
        );
        if self.left_out > 0 {
            let _ = write!(text, " The first {} holes are not drawn.", self.left_out);
        }
        text
    }

    /// The holes of each setting in words:
    /// `setting 2 (rest sideways 1.50 mm left): 12 left 4 high; clean (mm)`.
    pub(crate) fn lines(&self) -> Vec<String> {
        let said = |hole: &HoleMark| {
            let mut said = crate::words::tear(hole.tear, self.system);
            for word in notes(hole) {
                let _ = write!(said, " ({word})");
            }
            said
        };
        let line = |strip: Strip<'_>| {
            let holes: Vec<String> = strip.holes.iter().map(said).collect();
            let place = match strip.place {
                "" => String::new(),
                place => format!(" ({place})"),
            };
            let (setting, holes) = (strip.setting, holes.join("; "));
            format!("setting {setting}{place}: {holes} ({})", self.system.unit())
        };
        self.strips().into_iter().map(line).collect()
    }
}

/// What else is known of a hole, a word or two each.
pub(super) fn notes(hole: &HoleMark) -> impl Iterator<Item = &'static str> {
    let all = [(hole.bare, "bare"), (hole.bad, "called bad")];
    all.into_iter().filter_map(|(is, word)| is.then_some(word))
}
