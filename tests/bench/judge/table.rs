//! Counting runs and printing them.

use super::ours::Ran;
use super::policy::{End, tolerance};
use super::world::Kind;

/// Share of the places within travel that are inside where a bow does not ask
/// for the one right click.
const ROOMY: f64 = 0.02;

/// All runs of one policy in one world.
#[derive(Default)]
pub struct Tally {
    shots: Vec<usize>,
    moves: Vec<usize>,
    /// Moves of the runs that were refused for scatter.
    before_scatter: Vec<usize>,
    right: usize,
    wrong: usize,
    curable: usize,
    /// Bows with more than a few places inside, and those of them cured.
    roomy: [usize; 2],
    refused: [usize; 6],
    unresolved: usize,
    not_ended: usize,
    /// Of the bows that cannot be cured: how many were refused.
    hopeless_refused: usize,
    without_shot: usize,
    before_repeat: usize,
    probes: usize,
    /// Stated chance and truth of the runs that ended well.
    pub stated: Vec<(f64, bool)>,
    /// Runs, right, wrong and refused for scatter by class of archer.
    pub classes: [[usize; 4]; 3],
}

/// One run, to be counted.
pub struct Run {
    pub end: End,
    pub ran: Ran,
    pub shots: usize,
    pub moves: usize,
    pub truth: [f64; 2],
    pub class: usize,
    pub kind: Kind,
    /// Share of the settings within the travel, 1 mm apart, that are inside
    /// tolerance; none: it cannot be cured.
    pub inside: f64,
}

impl Tally {
    pub fn add(&mut self, run: &Run) {
        self.shots.push(run.shots);
        self.moves.push(run.moves);
        self.curable += usize::from(run.inside > 0.0);
        let roomy = run.inside >= ROOMY;
        self.roomy[0] += usize::from(roomy);
        self.without_shot += usize::from(run.ran.without_shot > 0);
        self.before_repeat += usize::from(run.ran.before_repeat > 0);
        self.probes += run.ran.probes;
        let inside = run.truth[0].hypot(run.truth[1]) <= tolerance(run.kind);
        let class = &mut self.classes[run.class];
        class[0] += 1;
        let refused = match run.end {
            End::Done if inside => {
                self.right += 1;
                self.roomy[1] += usize::from(roomy);
                class[1] += 1;
                None
            }
            End::Done => {
                self.wrong += 1;
                class[2] += 1;
                None
            }
            End::Scatter => {
                class[3] += 1;
                self.before_scatter.push(run.moves);
                Some(0)
            }
            End::Dead => Some(1),
            End::Jumps => Some(2),
            End::Limit => Some(3),
            End::Huge => Some(4),
            End::Other => Some(5),
            End::Unresolved => {
                self.unresolved += 1;
                None
            }
            End::NotEnded => {
                self.not_ended += 1;
                None
            }
        };
        if let Some(why) = refused {
            self.refused[why] += 1;
            self.hopeless_refused += usize::from(run.inside <= 0.0);
        }
        if run.end == End::Done && run.ran.stated > 0.0 {
            self.stated.push((run.ran.stated, inside));
        }
    }

    /// Runs counted.
    pub fn runs(&self) -> usize {
        self.shots.len()
    }

    /// Mean shots of a run.
    pub fn mean_shots(&self) -> f64 {
        self.shots.iter().sum::<usize>() as f64 / self.runs().max(1) as f64
    }

    /// Shots of each run.
    pub fn shots(&self) -> &[usize] {
        &self.shots
    }

    fn percent(&self, n: usize) -> f64 {
        100.0 * n as f64 / self.runs().max(1) as f64
    }

    /// Success among the bows that can be cured, %.
    fn of_curable(&self) -> f64 {
        100.0 * self.right as f64 / self.curable.max(1) as f64
    }

    pub fn line(&self, name: &str) -> String {
        let e = self.refused.map(|n| self.percent(n));
        format!(
            "| {name} | {:.1} | {:.1} | {}/{} | {}/{} | {:.1} | {:.1} | {:.1} | {:.1} | {:.1} | {:.1} | {:.1} | {:.1} |",
            self.percent(self.right),
            self.of_curable(),
            quantile(&self.shots, 0.5),
            quantile(&self.shots, 0.9),
            quantile(&self.moves, 0.5),
            quantile(&self.moves, 0.9),
            self.percent(self.wrong),
            e[0],
            e[1],
            e[2],
            e[3],
            e[4],
            e[5],
            self.percent(self.unresolved),
        )
    }

    /// What must be nought, and what came before a refusal.
    pub fn promises(&self) -> String {
        let hopeless = self.runs() - self.curable;
        format!(
            "runs with two moves and no shot between {}, with a move before any repeat {}, not ended {}; success {:.1} % of the {} with 2 % of the places inside; cannot be cured {hopeless}, refused of those {}; moves before a refusal for scatter {} (median of {}); tests asked for {:.2} a run",
            self.without_shot,
            self.before_repeat,
            self.not_ended,
            100.0 * self.roomy[1] as f64 / self.roomy[0].max(1) as f64,
            self.roomy[0],
            self.hopeless_refused,
            quantile(&self.before_scatter, 0.5),
            self.before_scatter.len(),
            self.probes as f64 / self.runs().max(1) as f64
        )
    }
}

fn quantile(values: &[usize], p: f64) -> usize {
    let mut v = values.to_vec();
    v.sort_unstable();
    let last = v.len().saturating_sub(1);
    v.get(((v.len() as f64 * p) as usize).min(last))
        .copied()
        .unwrap_or(0)
}

pub const HEADING: &str = "| policy | success % | of the curable % | shots | moves | wrong done % | refused: scatter | no response | jumps | travel | huge tear | other | unresolved |\n|---|---|---|---|---|---|---|---|---|---|---|---|---|";
