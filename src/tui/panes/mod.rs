//! The three panes, as many of them as there is room for.
//!
//! ```text
//! +- Tear ----------+- Next step -------+- Convergence -----+   76 columns and more
//! +- Tear ----------+- Next step -------+                       54 to 75: the next step and one more
//! +- Next step -------------------------+                       less: one at a time
//! ```

pub(crate) mod convergence;
pub(crate) mod keyline;
pub mod next_step;
pub(crate) mod past;
pub(crate) mod series;
pub(crate) mod status;
pub(crate) mod tear;
pub(crate) mod trend;
pub(crate) mod verdict;

use ratatui::layout::Rect;

use crate::tui::draw::paint::Paint;
use crate::tui::model::{Model, Pane};
use crate::tui::panes::tear::Typing;

/// Columns from which all three stand side by side.
const THREE: u16 = 76;
/// Columns from which two do.
const TWO: u16 = 54;
/// Shares of the width, in per mille: tear, next step, convergence.
const SHARES: [u32; 3] = [336, 348, 316];

fn shown(width: u16, front: Pane) -> Vec<Pane> {
    match (width, front) {
        (THREE.., _) => Pane::ALL.to_vec(),
        (TWO.., Pane::Convergence) => vec![Pane::Next, Pane::Convergence],
        (TWO.., _) => vec![Pane::Tear, Pane::Next],
        _ => vec![front],
    }
}

const fn title(pane: Pane) -> &'static str {
    match pane {
        Pane::Tear => "Tear",
        Pane::Next => "Next step",
        Pane::Convergence => "Convergence",
    }
}

fn dividers(area: Rect, panes: &[Pane]) -> Vec<u16> {
    let share = |p: &Pane| SHARES[*p as usize];
    let all: u32 = panes.iter().map(share).sum();
    let mut so_far = 0;
    panes[..panes.len() - 1]
        .iter()
        .map(|p| {
            so_far += share(p);
            area.x + (u32::from(area.width - 1) * so_far / all) as u16
        })
        .collect()
}

/// Draws the panes.
pub fn draw(model: &Model, typing: &Typing<'_>, paint: &mut Paint<'_>, area: Rect) {
    // Marking a hole needs the grid in front, whatever was in front before.
    let front = if typing.grid.is_some() {
        Pane::Tear
    } else {
        model.pane
    };
    let panes = shown(area.width, front);
    let titles: Vec<&str> = panes.iter().map(|p| title(*p)).collect();
    let insides = paint.frame(area, &dividers(area, &panes), &titles);
    for (pane, inside) in panes.iter().zip(insides) {
        match pane {
            Pane::Tear => tear::draw(model, typing, paint, inside),
            Pane::Next => next_step::draw(model, paint, inside),
            Pane::Convergence => convergence::draw(model, paint, inside),
        }
    }
}

/// Whether all panes are on screen at this width.
pub(crate) const fn all_fit(width: u16) -> bool {
    width >= THREE
}
