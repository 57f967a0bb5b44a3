//! What became of the runs that did not end well, one bow at a time:
//! `JUDGE_FAILURES` prints them to stderr.

use super::bow::Bench;
use super::policy::{self, End, tolerance};
use super::world::Kind;
use tearbench::advice::{Advice, advise};
use tearbench::range::Today;
use tearbench::session::Session;
use tearbench::units::System;

fn length(tear: [f64; 2]) -> f64 {
    tear[0].hypot(tear[1])
}

/// Settings in the order they were shot, the shots there, and the true tear.
fn path(bench: &Bench, kind: Kind, session: &Session) -> String {
    let mut out = String::new();
    let mut last = None;
    for at in &session.timeline().shots {
        if last != Some(at.setting) {
            let x = super::ours::adjusters(kind).map(|a| at.positions.get(a));
            let truth = bench.mean_at(x);
            out += &format!("\n      {x:.2?} truly {:.1} {:.1}:", truth[0], truth[1]);
            last = Some(at.setting);
        }
        out += &format!("  {} {}", at.shot.right, at.shot.up);
    }
    out
}

/// The settings inside tolerance: how many of those within travel, and the
/// best of them.
fn curable(bench: &Bench, kind: Kind) -> String {
    let grid = bench.grid();
    let inside = grid.iter().filter(|(_, m)| length(*m) <= tolerance(kind));
    let best = grid
        .iter()
        .min_by(|a, b| length(a.1).total_cmp(&length(b.1)));
    let best = best.map(|(x, m)| format!("best {x:.2?} {:.1}", length(*m)));
    format!(
        "{} of {} settings inside, {}",
        inside.count(),
        grid.len(),
        best.unwrap_or_default()
    )
}

/// Says how a run ended that did not end inside tolerance.
pub fn tell(bench: &Bench, kind: Kind, seed: u64, end: End, session: &Session) {
    let bow = bench.bow;
    let truth = bench.truth();
    if std::env::var("JUDGE_FAILURES").is_err()
        || end == End::Done && length(truth) <= tolerance(kind)
    {
        return;
    }
    let advice: Advice = advise(session.timeline(), Today::now());
    let codes: Vec<&str> = advice.findings.iter().map(|f| f.code().id()).collect();
    let mut knows = Bench::new(bow, seed);
    let known = policy::oracle(&mut knows, kind);
    eprintln!(
        "bow {seed} {end:?}: class {}, sd {:.1?}, start {:.1?}, ends {truth:.1?} after {} shots, {} moves; {}",
        bow.class,
        bench.spread(),
        bow.start,
        bench.shots,
        bench.moves,
        curable(bench, kind)
    );
    eprintln!(
        "      {} | {} | {codes:?} chance {:.3?}",
        tearbench::words::title(&advice),
        tearbench::words::headline(&advice, System::Mm),
        advice.estimate.probability_within_tolerance
    );
    eprintln!(
        "      who knows the response: {known:?} {:.1} after {} shots; {:?}{}",
        length(knows.truth()),
        knows.shots,
        bow.shape,
        path(bench, kind, session)
    );
}
