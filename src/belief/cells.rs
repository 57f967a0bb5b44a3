//! Shots grouped: those that share everything but the reading make a cell,
//! and equal readings in a cell are counted, so that the work grows with the
//! number of different readings and not with the number of shots.

use super::obs::{Obs, Place, Shooter};
use std::collections::HashMap;

/// Shots that share place, shooter, arrow, fletching and distance.
#[derive(Debug, Clone)]
pub struct Cell {
    /// What they share.
    pub place: Place,
    /// Which visit to the setting, when visits are told apart; otherwise 0.
    pub(crate) visit: usize,
}

/// Equal readings of one cell.
#[derive(Debug, Clone, Copy)]
pub struct Reading {
    /// Index of the cell.
    pub(crate) cell: usize,
    /// Who shot.
    pub shooter: Shooter,
    /// The reading on this axis, mm.
    pub(crate) y: f64,
    /// How many shots read this.
    pub count: f64,
}

/// All cells and, for each axis, their readings.
#[derive(Debug, Clone, Default)]
pub struct Cells {
    /// The cells in order of first appearance.
    pub cells: Vec<Cell>,
    /// Readings right and up.
    pub readings: [Vec<Reading>; 2],
    /// For each shot its reading's index on each axis; `None` if called bad.
    pub(crate) of_shot: Vec<Option<[usize; 2]>>,
}

#[derive(PartialEq, Eq, Hash)]
struct Key {
    positions: Vec<i64>,
    epochs: (u32, u32),
    shooter: Shooter,
    arrow: Option<u32>,
    bare: bool,
    distance: i64,
    visit: usize,
}

/// Distances nearer than this share one cell, m.
const DISTANCE_STEP: f64 = 0.05;

fn key(place: &Place, visit: usize) -> Key {
    Key {
        positions: place
            .positions
            .iter()
            .map(|p| (p * 1e4).round() as i64)
            .collect(),
        epochs: (place.epoch, place.response_epoch),
        shooter: place.shooter,
        arrow: place.arrow,
        bare: place.bare,
        distance: (place.distance_m / DISTANCE_STEP).round() as i64,
        visit,
    }
}

impl Cells {
    /// Groups the shots; with `visits`, each return to a setting is new.
    pub fn build(shots: &[Obs], visits: bool) -> Self {
        let mut out = Cells::default();
        let mut index: HashMap<Key, usize> = HashMap::new();
        let mut seen: [HashMap<(usize, i64), usize>; 2] = [HashMap::new(), HashMap::new()];
        let (mut visit, mut last): (usize, Option<&Place>) = (0, None);
        for shot in shots {
            if last.is_some_and(|l| !l.same_setting(&shot.place)) {
                visit += 1;
            }
            last = Some(&shot.place);
            if shot.called_bad {
                out.of_shot.push(None);
                continue;
            }
            let told = if visits { visit } else { 0 };
            let cell = *index.entry(key(&shot.place, told)).or_insert_with(|| {
                out.cells.push(Cell {
                    place: shot.place.clone(),
                    visit: told,
                });
                out.cells.len() - 1
            });
            let mut at = [0; 2];
            for axis in 0..2 {
                let y = shot.tear[axis];
                let list = &mut out.readings[axis];
                at[axis] = *seen[axis]
                    .entry((cell, (y * 1e3).round() as i64))
                    .or_insert_with(|| {
                        list.push(Reading {
                            cell,
                            shooter: shot.place.shooter,
                            y,
                            count: 0.0,
                        });
                        list.len() - 1
                    });
                list[at[axis]].count += 1.0;
            }
            out.of_shot.push(Some(at));
        }
        out
    }

    /// The shooters met, the first to shoot first.
    pub(crate) fn shooters(&self) -> Vec<Shooter> {
        let mut all = Vec::new();
        for c in &self.cells {
            if !all.contains(&c.place.shooter) {
                all.push(c.place.shooter);
            }
        }
        all
    }
}
