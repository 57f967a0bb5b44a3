//! Counting runs and printing them.

use super::policy::End;
use super::world::TOLERANCE;

/// All runs of one policy in one world.
#[derive(Default)]
pub struct Tally {
    shots: Vec<usize>,
    moves: Vec<usize>,
    right: usize,
    wrong: usize,
    ends: [usize; 5],
    /// Stated chance and truth of the runs that ended well.
    pub stated: Vec<(f64, bool)>,
    /// Runs, wrong and refused by class of archer.
    pub classes: [[usize; 4]; 3],
}

impl Tally {
    pub fn add(
        &mut self,
        end: End,
        stated: f64,
        shots: usize,
        moves: usize,
        truth: [f64; 2],
        class: usize,
    ) {
        self.shots.push(shots);
        self.moves.push(moves);
        let inside = truth[0].hypot(truth[1]) <= TOLERANCE;
        self.classes[class][0] += 1;
        match end {
            End::Done if inside => {
                self.right += 1;
                self.classes[class][1] += 1;
            }
            End::Done => {
                self.wrong += 1;
                self.classes[class][2] += 1;
            }
            End::Scatter => {
                self.ends[0] += 1;
                self.classes[class][3] += 1;
            }
            End::Dead => self.ends[1] += 1,
            End::Jumps => self.ends[2] += 1,
            End::Limit => self.ends[3] += 1,
            End::Unresolved => self.ends[4] += 1,
        }
        if end == End::Done && stated > 0.0 {
            self.stated.push((stated, inside));
        }
    }

    /// Runs counted.
    pub fn runs(&self) -> usize {
        self.shots.len()
    }

    /// Shots of each run.
    pub fn shots(&self) -> &[usize] {
        &self.shots
    }

    fn percent(&self, n: usize) -> f64 {
        100.0 * n as f64 / self.shots.len().max(1) as f64
    }

    pub fn line(&self, name: &str) -> String {
        let q = |v: &[usize], p: f64| {
            let mut v = v.to_vec();
            v.sort_unstable();
            v[((v.len() as f64 * p) as usize).min(v.len() - 1)]
        };
        let e = self.ends.map(|n| self.percent(n));
        format!(
            "  {name:<34} {:>3}/{:<3} {:>3}/{:<3} {:>6.1} {:>6.1}  {:>6.1} {:>6.1} {:>6.1} {:>6.1} {:>6.1}",
            q(&self.shots, 0.5),
            q(&self.shots, 0.9),
            q(&self.moves, 0.5),
            q(&self.moves, 0.9),
            self.percent(self.right),
            self.percent(self.wrong),
            e[0],
            e[1],
            e[2],
            e[3],
            e[4]
        )
    }
}

pub const HEADING: &str = "  policy                              shots   moves  success  wrong  scatter   dead  jumps  limit  unresolved";
