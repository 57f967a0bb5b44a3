//! Marking a hole on the grid: point first, then nock, read off in mm.

use crate::actions::Action;
use crate::tear::Tear;
use crate::units::System;

/// The cursor on the sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct GridCursor {
    /// Where it is, right and up of the middle of the grid, mm.
    pub at: Tear,
    /// The point hole, once marked.
    pub(crate) point: Option<Tear>,
    /// Digits typed for the next arrow: `12` then left goes 12.
    pub count: String,
}

/// The sheet ends here, mm from the middle.
const EDGE: f64 = 250.0;

impl GridCursor {
    /// One step: a millimetre, or a sixteenth of an inch.
    pub const fn step(system: System) -> f64 {
        match system {
            System::Mm => 1.0,
            System::Inch => crate::units::MM_PER_INCH / 16.0,
        }
    }

    /// Takes a digit for the next arrow.
    pub(crate) fn digit(&mut self, digit: char) {
        if self.count.len() < 3 {
            self.count.push(digit);
        }
    }

    /// Moves by an arrow, as many steps as were typed.
    pub(crate) fn go(&mut self, way: Action, system: System) {
        let steps: f64 = self.count.parse().unwrap_or(1.0);
        self.count.clear();
        let far = steps * Self::step(system);
        let (right, up) = match way {
            Action::Left => (-far, 0.0),
            Action::Right => (far, 0.0),
            Action::Up => (0.0, far),
            _ => (0.0, -far),
        };
        self.at.right = (self.at.right + right).clamp(-EDGE, EDGE);
        self.at.up = (self.at.up + up).clamp(-EDGE, EDGE);
    }

    /// The tear from the point mark to the cursor.
    pub fn tear(&self) -> Option<Tear> {
        let point = self.point?;
        // Rounded to hundredths: sums of sixteenths must not leave dust in the file.
        let round = |v: f64| (v * 100.0).round() / 100.0 + 0.0;
        Some(Tear::new(
            round(self.at.right - point.right),
            round(self.at.up - point.up),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_then_an_arrow_go_that_far() {
        let mut cursor = GridCursor::default();
        cursor.point = Some(cursor.at);
        cursor.digit('1');
        cursor.digit('2');
        cursor.go(Action::Left, System::Mm);
        cursor.go(Action::Up, System::Mm);
        assert_eq!(cursor.tear(), Some(Tear::new(-12.0, 1.0)));
        cursor.go(Action::Right, System::Inch);
        assert_eq!(cursor.tear(), Some(Tear::new(-10.41, 1.0)));
    }
}
