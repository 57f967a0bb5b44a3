//! How an arrow bends and swings once it is free of the string.

use super::column::ArrowSpec;
use super::{BowSpec, FreeModes, Losses};

/// The first bending shape comes after the two rigid ones.
const FIRST_BENDING: usize = 2;
/// Its number among the bending shapes.
const FIRST: usize = 1;

/// An arrow's first bending shape, how fast it swings and how fast it flies.
#[derive(Debug, Clone)]
pub struct Bending {
    modes: FreeModes,
    long_m: f64,
    /// Where it stays still, m from the nock.
    pub nodes_m: Vec<f64>,
    /// Swings a second.
    pub swings_hz: f64,
    /// Its speed from this bow, with middling losses.
    pub speed_m_s: f64,
}

impl Bending {
    /// Of an arrow from a bow.
    #[must_use]
    pub fn of(arrow: &ArrowSpec, bow: &BowSpec) -> Self {
        let modes = FreeModes::of(arrow);
        let mass = arrow.mass_kg();
        Self {
            nodes_m: modes.nodes_m(FIRST),
            swings_hz: modes.frequency_hz(FIRST),
            speed_m_s: bow.speed_m_s(mass, &Losses::middling(bow.kind, mass)),
            long_m: arrow.shaft_length_m,
            modes,
        }
    }

    /// How far it flies in one swing, m.
    #[must_use]
    pub fn wave_m(&self) -> f64 {
        self.speed_m_s / self.swings_hz
    }

    /// The shape at so many places from nock to point, 1 where it is bent
    /// most; the ends up and the middle down.
    #[must_use]
    pub fn shape(&self, places: usize) -> Vec<f64> {
        let last = places.saturating_sub(1).max(1) as f64;
        let at = |i: usize| self.modes.at(self.long_m * i as f64 / last)[FIRST_BENDING];
        let bent: Vec<f64> = (0..places).map(at).collect();
        let most = bent.iter().fold(1e-12, |most: f64, v| most.max(v.abs()));
        // Whatever sign the solver chose.
        let down = bent.get(places / 2).is_some_and(|middle| *middle > 0.0);
        let sign = if down { -1.0 } else { 1.0 };
        bent.iter().map(|v| sign * v / most).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::bow::tests::compound;
    use super::super::column::tests::common_arrow;
    use super::*;

    #[test]
    fn the_ends_are_up_the_middle_is_down_and_it_passes_zero_at_its_still_places() {
        let arrow = common_arrow();
        let found = Bending::of(&arrow, &compound(60.0, 19.25));
        let shape = found.shape(201);
        assert!(shape[0] > 0.0 && shape[200] > 0.0 && shape[100] < 0.0);
        let crossings: Vec<f64> = (1..shape.len())
            .filter(|i| (shape[i - 1] > 0.0) != (shape[*i] > 0.0))
            .map(|i| arrow.shaft_length_m * i as f64 / 200.0)
            .collect();
        assert_eq!(crossings.len(), found.nodes_m.len(), "{crossings:?}");
        for (crossing, node) in crossings.iter().zip(&found.nodes_m) {
            assert!((crossing - node).abs() < 0.01, "{crossing} {node}");
        }
    }
}
