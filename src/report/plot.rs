//! The tear's size shot by shot.

use std::fmt::Write as _;

use crate::units::{System, trim_number};

/// One point of the plot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlotPoint {
    /// Shot number, from 1.
    pub number: usize,
    /// Tear's length off the aim, mm.
    pub(crate) size: f64,
    /// Setting it was shot at.
    pub setting: u32,
    /// Called bad.
    pub bad: bool,
    /// Likely length of the mean tear then, mm.
    pub band: Option<(f64, f64)>,
}

/// The tear's size shot by shot.
#[derive(Debug, Clone, PartialEq)]
pub struct PlotFigure {
    /// Points, in order.
    pub(crate) points: Vec<PlotPoint>,
    /// Tolerance, mm.
    pub(crate) tolerance: f64,
    /// Display system.
    pub system: System,
}

/// Size of the plot's drawing area, in its own units (mm at full size).
const WIDE: f64 = 176.0;
const HIGH: f64 = 46.0;
/// Room for the figures of the scale, which a phone draws twice as large.
const LEFT: f64 = 14.0;
const BELOW: f64 = 7.0;
const ABOVE: f64 = 3.0;

impl PlotFigure {
    /// Top of the scale, mm of tear: a round figure above every point.
    pub(crate) fn top(&self) -> f64 {
        let most = self
            .points
            .iter()
            .flat_map(|p| [p.size, p.band.map_or(0.0, |b| b.1.min(1.5 * p.size + 10.0))])
            .fold(1.5 * self.tolerance, f64::max);
        let unit = if self.system == System::Mm {
            10.0
        } else {
            12.7
        };
        (most / unit).ceil() * unit
    }

    fn x(&self, number: usize) -> f64 {
        let n = self.points.len().max(2) as f64;
        LEFT + (number as f64 - 0.5) / n * (WIDE - LEFT - 2.0)
    }

    /// Where a size stands under this top, which is worked out once a plot:
    /// it looks at every point.
    fn y(size: f64, top: f64) -> f64 {
        ABOVE + (1.0 - size.min(top) / top) * (HIGH - BELOW - ABOVE)
    }

    /// The plot as inline SVG.
    pub(crate) fn svg(&self) -> String {
        let mut out = format!(
            "<svg class=\"plot\" role=\"img\" aria-label=\"tear size shot by shot\" viewBox=\"0 0 {} {}\">",
            num(WIDE),
            num(HIGH)
        );
        let top = self.top();
        let (zero, ring) = (Self::y(0.0, top), Self::y(self.tolerance, top));
        let _ = write!(
            out,
            "<rect class=\"inside\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            num(LEFT),
            num(ring),
            num(WIDE - LEFT - 2.0),
            num(zero - ring)
        );
        self.axis(top, &mut out);
        self.bands(top, &mut out);
        self.moves(&mut out);
        for p in &self.points {
            let _ = write!(
                out,
                "<circle class=\"shot{}\" cx=\"{}\" cy=\"{}\" r=\"1.1\"/>",
                if p.bad { " bad" } else { "" },
                num(self.x(p.number)),
                num(Self::y(p.size, top))
            );
        }
        out.push_str("</svg>");
        out
    }

    fn axis(&self, top: f64, out: &mut String) {
        for share in [0.0, 0.5, 1.0] {
            let y = Self::y(share * top, top);
            let _ = write!(
                out,
                "<line class=\"axis\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/><text x=\"{}\" y=\"{}\" text-anchor=\"end\" dominant-baseline=\"central\">{}</text>",
                num(LEFT),
                num(y),
                num(WIDE - 2.0),
                num(y),
                num(LEFT - 1.5),
                num(y),
                self.system.tear_number(share * top)
            );
        }
        let every = (self.points.len() / 20).max(1) * if self.points.len() > 40 { 5 } else { 1 };
        for p in self
            .points
            .iter()
            .filter(|p| p.number == 1 || p.number % every == 0)
        {
            let _ = write!(
                out,
                "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{}</text>",
                num(self.x(p.number)),
                num(HIGH - 1.4),
                p.number
            );
        }
    }

    fn bands(&self, top: f64, out: &mut String) {
        for p in &self.points {
            if let Some((low, high)) = p.band {
                let _ = write!(
                    out,
                    "<line class=\"band\" x1=\"{0}\" y1=\"{1}\" x2=\"{0}\" y2=\"{2}\"/>",
                    num(self.x(p.number)),
                    num(Self::y(low, top)),
                    num(Self::y(high, top))
                );
            }
        }
    }

    fn moves(&self, out: &mut String) {
        for pair in self.points.windows(2) {
            if pair[0].setting != pair[1].setting {
                let x = 0.5 * (self.x(pair[0].number) + self.x(pair[1].number));
                let _ = write!(
                    out,
                    "<line class=\"move\" x1=\"{0}\" y1=\"{2}\" x2=\"{0}\" y2=\"{1}\"/>",
                    num(x),
                    num(HIGH - BELOW),
                    num(ABOVE)
                );
            }
        }
    }

    /// What is drawn, in a line under the plot.
    pub(crate) fn caption(&self) -> String {
        format!(
            "{} from the wanted tear, shot by shot; shaded: within {}; bars: likely tear; dotted: moves",
            self.system.unit(),
            self.system.tear(self.tolerance)
        )
    }

    /// Rows for a text sheet: one bar a shot.
    pub(crate) fn bars(&self) -> Vec<String> {
        let top = self.top();
        self.points
            .iter()
            .enumerate()
            .map(|(i, p)| {
                let moved = i > 0 && self.points[i - 1].setting != p.setting;
                let bar = "#".repeat((p.size / top * 40.0).round().min(40.0) as usize);
                format!(
                    "{:>3} {:>5} {bar}{}{}",
                    p.number,
                    self.system.tear_number(p.size),
                    if p.bad { " called bad" } else { "" },
                    if moved {
                        format!(" < setting {}", p.setting)
                    } else {
                        String::new()
                    }
                )
            })
            .collect()
    }
}

/// A coordinate: hundredths are finer than any printer here.
pub(super) fn num(value: f64) -> String {
    trim_number(value, 2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three shots of 20, 10 and 0 mm on a scale to 20 mm, the last after a move;
    /// the drawing is 162 wide from 14 on, less 2, and 36 high from 3 down.
    #[test]
    fn shots_band_and_moves_stand_where_their_figures_say() {
        let point = |(number, size, setting): (usize, f64, u32)| PlotPoint {
            number,
            size,
            setting,
            bad: number == 2,
            band: (number == 2).then_some((5.0, 12.0)),
        };
        let figure = PlotFigure {
            points: [(1, 20.0, 1), (2, 10.0, 1), (3, 0.0, 2)]
                .map(point)
                .to_vec(),
            tolerance: 6.0,
            system: System::Mm,
        };
        assert_eq!(figure.top(), 20.0);
        let svg = figure.svg();
        for drawn in [
            "<circle class=\"shot\" cx=\"40.67\" cy=\"3\" r=\"1.1\"/>",
            "<circle class=\"shot bad\" cx=\"94\" cy=\"21\" r=\"1.1\"/>",
            "<circle class=\"shot\" cx=\"147.33\" cy=\"39\" r=\"1.1\"/>",
            "<rect class=\"inside\" x=\"14\" y=\"28.2\" width=\"160\" height=\"10.8\"/>",
            "<line class=\"band\" x1=\"94\" y1=\"30\" x2=\"94\" y2=\"17.4\"/>",
            "<line class=\"move\" x1=\"120.67\" y1=\"3\" x2=\"120.67\" y2=\"39\"/>",
            "<line class=\"axis\" x1=\"14\" y1=\"21\" x2=\"174\" y2=\"21\"/>",
            ">0</text>",
            ">10</text>",
            ">20</text>",
        ] {
            assert!(svg.contains(drawn), "{drawn} in {svg}");
        }
        for (element, count) in [("circle", 3), ("class=\"move\"", 1), ("class=\"band\"", 1)] {
            assert_eq!(svg.matches(element).count(), count, "{element}");
        }
        for number in 1..=3 {
            let label = format!("text-anchor=\"middle\">{number}</text>");
            assert!(svg.contains(&label), "{label} in {svg}");
        }
        // A tear past the scale of its own accord is a round figure further.
        let mut far = figure;
        far.points[0].size = 20.1;
        assert_eq!(far.top(), 30.0);
    }

    #[test]
    fn a_plot_of_a_hundred_thousand_shots_is_drawn_in_one_pass() {
        let point = |number: usize| PlotPoint {
            number,
            size: (number % 17) as f64,
            setting: (number / 10) as u32,
            bad: false,
            band: Some((1.0, 2.0)),
        };
        let figure = PlotFigure {
            points: (1..=100_000).map(point).collect(),
            tolerance: 6.0,
            system: System::Mm,
        };
        let began = std::time::Instant::now();
        assert_eq!(figure.svg().matches("<circle").count(), 100_000);
        // Looking at every point for every point took half a minute.
        assert!(began.elapsed().as_secs() < 10, "{:?}", began.elapsed());
    }
}
