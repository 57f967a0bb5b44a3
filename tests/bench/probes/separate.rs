//! How well a figure tells two kinds of bow apart.

/// Shots behind the mean here, and the most at the probe.
pub const HERE_SHOTS: usize = 3;
pub const MOST: usize = 3;

/// One bow asked once.
#[derive(Clone, Debug)]
pub struct Case {
    /// Whether it is the kind looked for.
    pub positive: bool,
    /// Plus for a right-handed bow.
    pub hand: f64,
    /// Mean of the shots here.
    pub here: [f64; 2],
    /// Mean of the first one, two, three shots of the probe.
    pub there: [[f64; 2]; MOST],
}

/// Names of the figures, in the order of [`figures`].
pub const NAMES: [&str; 8] = [
    "sideways change, by hand",
    "up change",
    "size of change",
    "change against the tear",
    "size there less here",
    "size there over here",
    "sideways change over here",
    "size of sideways change",
];

/// What a technician could read off the two means.
pub fn figures(c: &Case, shots: usize) -> [f64; 8] {
    let t = c.there[shots - 1];
    let d = [t[0] - c.here[0], t[1] - c.here[1]];
    let size = |v: [f64; 2]| v[0].hypot(v[1]);
    let along = (d[0] * c.here[0] + d[1] * c.here[1]) / size(c.here).max(1.0);
    [
        c.hand * d[0],
        d[1],
        size(d),
        along,
        size(t) - size(c.here),
        size(t) / size(c.here).max(1.0),
        d[0] * c.here[0].signum(),
        d[0].abs(),
    ]
}

/// Chance that a random case of the kind shows more than one that is not.
pub fn auc(values: &[(f64, bool)]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut below, mut wins) = (0.0, 0.0);
    let mut i = 0;
    while i < sorted.len() {
        let end = (i..sorted.len())
            .find(|k| sorted[*k].0 > sorted[i].0)
            .unwrap_or(sorted.len());
        let yes = sorted[i..end].iter().filter(|v| v.1).count() as f64;
        let no = (end - i) as f64 - yes;
        wins += yes * (below + 0.5 * no);
        below += no;
        i = end;
    }
    let yes = values.iter().filter(|v| v.1).count() as f64;
    wins / (yes * (values.len() as f64 - yes)).max(1.0)
}

/// Share of each kind above a limit: of those looked for, of the others.
fn above(values: &[(f64, bool)], limit: f64, way: f64) -> (f64, f64) {
    let share = |kind: bool| {
        let of: Vec<f64> = values
            .iter()
            .filter(|v| v.1 == kind)
            .map(|v| way * v.0)
            .collect();
        of.iter().filter(|v| **v > limit).count() as f64 / of.len().max(1) as f64
    };
    (share(true), share(false))
}

/// A rule: figure, side, and limits, all settled on the tuning bows.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    pub figure: usize,
    pub way: f64,
    /// Limit of most right answers, both kinds weighed alike.
    pub limit: f64,
    /// Limit of 5 % false alarms.
    strict: f64,
}

/// What a rule does on the other bows.
#[derive(Clone, Copy, Debug)]
pub struct Result {
    pub auc: f64,
    pub right: f64,
    pub caught: f64,
    pub false_alarm: f64,
}

fn values(cases: &[Case], figure: usize, shots: usize) -> Vec<(f64, bool)> {
    cases
        .iter()
        .map(|c| (figures(c, shots)[figure], c.positive))
        .collect()
}

fn quantiles(values: &[(f64, bool)], way: f64) -> Vec<f64> {
    let mut all: Vec<f64> = values.iter().map(|v| way * v.0).collect();
    all.sort_by(f64::total_cmp);
    (0..100).map(|q| all[q * all.len() / 100]).collect()
}

/// The best figure, side and limit on the tuning bows.
pub fn tune(cases: &[Case], shots: usize) -> Rule {
    let mut best = (
        -1.0,
        Rule {
            figure: 0,
            way: 1.0,
            limit: 0.0,
            strict: 0.0,
        },
    );
    for figure in 0..NAMES.len() {
        let values = values(cases, figure, shots);
        for way in [1.0, -1.0] {
            let mut strict = f64::INFINITY;
            for limit in quantiles(&values, way).into_iter().rev() {
                let (hit, miss) = above(&values, limit, way);
                if miss <= 0.05 {
                    strict = limit;
                }
                let right = 0.5 * (hit + 1.0 - miss);
                if right > best.0 {
                    let rule = Rule {
                        figure,
                        way,
                        limit,
                        strict: 0.0,
                    };
                    best = (right, rule);
                }
            }
            if best.1.figure == figure && best.1.way == way {
                best.1.strict = strict;
            }
        }
    }
    best.1
}

/// How the rule does.
pub fn report(rule: &Rule, cases: &[Case], shots: usize) -> Result {
    let values = values(cases, rule.figure, shots);
    let (hit, miss) = above(&values, rule.limit, rule.way);
    let (caught, false_alarm) = above(&values, rule.strict, rule.way);
    let signed: Vec<(f64, bool)> = values.iter().map(|v| (rule.way * v.0, v.1)).collect();
    Result {
        auc: auc(&signed),
        right: 0.5 * (hit + 1.0 - miss),
        caught,
        false_alarm,
    }
}

/// What the best linear mix of everything read gives (logistic regression
/// by plain descent), as the most that could be had: AUC and right answers.
pub fn mixture(tuning: &[Case], judged: &[Case], shots: usize) -> (f64, f64) {
    let row = |c: &Case| {
        let mut r = figures(c, shots).to_vec();
        let h = c.here;
        r.extend([
            c.hand * h[0],
            h[1],
            h[0].abs(),
            h[1].abs(),
            h[0].hypot(h[1]),
        ]);
        r
    };
    let x: Vec<Vec<f64>> = tuning.iter().map(row).collect();
    let n = x[0].len();
    let count = x.len() as f64;
    let mean: Vec<f64> = (0..n)
        .map(|j| x.iter().map(|r| r[j]).sum::<f64>() / count)
        .collect();
    let sd: Vec<f64> = (0..n)
        .map(|j| {
            let v = x.iter().map(|r| (r[j] - mean[j]).powi(2)).sum::<f64>();
            (v / count).sqrt().max(1e-6)
        })
        .collect();
    let scaled = |r: &[f64]| -> Vec<f64> {
        (0..n)
            .map(|j| ((r[j] - mean[j]) / sd[j]).clamp(-4.0, 4.0))
            .collect()
    };
    let yes = tuning.iter().filter(|c| c.positive).count() as f64;
    let weight = [0.5 / (count - yes).max(1.0), 0.5 / yes.max(1.0)];
    let (mut w, mut b) = (vec![0.0; n], 0.0);
    let rows: Vec<Vec<f64>> = x.iter().map(|r| scaled(r)).collect();
    for _ in 0..400 {
        let (mut g, mut gb) = (vec![0.0; n], 0.0);
        for (r, c) in rows.iter().zip(tuning) {
            let z: f64 = b + r.iter().zip(&w).map(|(a, b)| a * b).sum::<f64>();
            let e = weight[usize::from(c.positive)]
                * (f64::from(u8::from(c.positive)) - 1.0 / (1.0 + (-z).exp()));
            (0..n).for_each(|j| g[j] += e * r[j]);
            gb += e;
        }
        (0..n).for_each(|j| w[j] += 0.5 * (g[j] - 0.01 * w[j]));
        b += 0.5 * gb;
    }
    let found: Vec<(f64, bool)> = judged
        .iter()
        .map(|c| {
            let r = scaled(&row(c));
            (
                b + r.iter().zip(&w).map(|(a, b)| a * b).sum::<f64>(),
                c.positive,
            )
        })
        .collect();
    let (hit, miss) = above(&found, 0.0, 1.0);
    (auc(&found), 0.5 * (hit + 1.0 - miss))
}
