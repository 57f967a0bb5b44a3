//! The habits the tuner is judged against.

use super::bow::Bench;
use super::world::Kind;
use tearbench::stats::{disk, regression};

/// Shots allowed.
pub const CAP: usize = 40;

/// How a run ended.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum End {
    Done,
    Scatter,
    Dead,
    Jumps,
    Limit,
    Huge,
    Other,
    Unresolved,
    NotEnded,
}

/// Tear that counts as inside, mm (the usual ones of either release).
pub const fn tolerance(kind: Kind) -> f64 {
    match kind {
        Kind::Aid => 6.0,
        Kind::Fingers | Kind::Plunger => 12.0,
    }
}

fn length(y: [f64; 2]) -> f64 {
    y[0].hypot(y[1])
}

/// 1 mm toward the tail after each shot, the larger component, until one
/// shot is inside.
pub fn thumb(bench: &mut Bench, kind: Kind) -> End {
    while bench.shots < CAP {
        let y = bench.shoot();
        if length(y) <= tolerance(kind) {
            return End::Done;
        }
        let a = usize::from(y[1].abs() > y[0].abs());
        let mut to = bench.x;
        to[a] += y[a].signum();
        bench.go(to);
    }
    End::Unresolved
}

/// The same, but a way that made it worse is reversed.
pub fn thumb_reversing(bench: &mut Bench, kind: Kind) -> End {
    let mut way = [1.0, 1.0];
    let mut last: Option<(usize, f64)> = None;
    while bench.shots < CAP {
        let y = bench.shoot();
        if length(y) <= tolerance(kind) {
            return End::Done;
        }
        if let Some((a, before)) = last
            && y[a].abs() > before
        {
            way[a] = -way[a];
        }
        let a = usize::from(y[1].abs() > y[0].abs());
        last = Some((a, y[a].abs()));
        let mut to = bench.x;
        to[a] += way[a] * y[a].signum();
        bench.go(to);
    }
    End::Unresolved
}

/// Knows the response and the scatter exactly; follows the mean of all
/// shots (the harmonic rule) and stops at 95 %.
pub fn oracle(bench: &mut Bench, kind: Kind) -> End {
    let mut sum = [0.0; 2];
    let spread = bench.spread();
    while bench.shots < CAP {
        let before = bench.truth();
        let y = bench.shoot();
        let n = bench.shots as f64;
        (0..2).for_each(|a| sum[a] += y[a] - before[a]);
        let error = [sum[0] / n, sum[1] / n];
        let sd = [0, 1].map(|a| ((spread[a].powi(2) + 1.08) / n).sqrt());
        let at = [before[0] + error[0], before[1] + error[1]];
        if disk::probability(tolerance(kind), (at[0], at[1]), (sd[0], sd[1])) >= 0.95 {
            return End::Done;
        }
        let lengths = bench
            .grid()
            .iter()
            .map(|(x, m)| (length([m[0] + error[0], m[1] + error[1]]), *x));
        let best = lengths.fold(
            (f64::INFINITY, bench.x),
            |b, c| if c.0 < b.0 { c } else { b },
        );
        if best.0 < length(at) - 1.0 {
            bench.go(best.1);
        }
    }
    End::Unresolved
}

/// Three shots a setting; a 1.5 mm test move; then lines through the means.
pub fn groups(bench: &mut Bench, kind: Kind) -> End {
    let mut seen: Vec<([f64; 2], [f64; 2])> = Vec::new();
    while bench.shots + 3 <= CAP {
        let mut mean = [0.0; 2];
        for _ in 0..3 {
            let y = bench.shoot();
            (0..2).for_each(|a| mean[a] += y[a] / 3.0);
        }
        seen.push((bench.x, mean));
        if length(mean) <= tolerance(kind) {
            return End::Done;
        }
        let mut to = bench.x;
        for a in 0..2 {
            let x: Vec<f64> = seen.iter().map(|s| s.0[a]).collect();
            let y: Vec<f64> = seen.iter().map(|s| s.1[a]).collect();
            let test = 1.5 * bench.bow.travel[a] / 8.0 * mean[a].signum();
            to[a] += match regression::line(&x, &y) {
                Some(f) if f.coefficients[1].abs() > 0.2 => -mean[a] / f.coefficients[1],
                _ => test,
            };
        }
        bench.go(to);
    }
    End::Unresolved
}
