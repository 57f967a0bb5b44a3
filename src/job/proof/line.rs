//! A line down the face: walk-back, near and far.
//!
//! With fingers the trade reads a slanting line as centre shot and a curved
//! one as plunger tension; with a release aid a slant is the rest, or a level
//! that is off (common practice; levels: a shop manager's article). What is
//! suggested waits for every distance that the stage asks for.

use super::drift::{Drift, distances, drift};
use super::found::{Distances, Found, LineFound, Read};
use super::judge::{Context, SURE, StageVerdict, status_of};
use super::stage::Stage;
use super::suggest::{FIRST_MM, NoMove, Run, SMALL_MM, Suggestion, Wanted, adjuster_for, suggest};
use crate::gear::{AdjusterKind, Axis, Release};
use crate::session::{GroupAt, Impact};
use crate::step::State;

/// How far the farthest distance is from the nearest, at least.
const SPREAD: f64 = 1.6;

impl Context<'_> {
    /// Walk-back and near-far.
    pub(super) fn line(&self) -> StageVerdict {
        if let Some(first) = self.levels_first() {
            return first;
        }
        let here = self.at(self.timeline.now);
        let rows = rows(&here);
        let shot = distances(&rows);
        let asked = self.stage.distances_m(&self.timeline.card).len();
        let Some(found) = drift(&rows, self.reads_curves()) else {
            let mut verdict = self.open();
            if !here.is_empty() {
                verdict.status = State::ShootMore;
                verdict.found = Found::FewDistances(Distances {
                    shot: shot.len(),
                    asked,
                });
                verdict.shots_wanted = 3;
            }
            return verdict;
        };
        let whole = shot.len() >= asked && shot.last() >= shot.first().map(|m| m * SPREAD).as_ref();
        let (mut line, mut status) = judged(&found);
        if !whole {
            status = State::ShootMore;
            line.waits = Some(Distances {
                shot: shot.len(),
                asked,
            });
        }
        let read = (status == State::Off).then(|| self.read(&found));
        line.read = read;
        let mut verdict = StageVerdict::new(self.stage, status, Found::Line(line));
        if status == State::ShootMore {
            verdict.shots_wanted = 3;
        }
        verdict.correction = read.map(|read| self.correct_line(&found, read));
        verdict
    }

    /// Whether a curve is read by itself: over four distances, with fingers.
    fn reads_curves(&self) -> bool {
        self.stage == Stage::WalkBack && self.timeline.card.bow.release == Release::Fingers
    }

    /// What a line that is not straight is read as. A curve only where the
    /// line does not slant as well: centre shot is set before the plunger
    /// (common practice).
    fn read(&self, found: &Drift) -> Read {
        let fingers = self.timeline.card.bow.release == Release::Fingers;
        match off(found) {
            (false, true) => Read::Curve,
            (_, true) if fingers => Read::Both,
            _ if fingers => Read::CentreShot,
            _ => Read::Slant,
        }
    }

    /// The move for a line that is not straight.
    fn correct_line(&self, found: &Drift, read: Read) -> Result<Suggestion, NoMove> {
        let curve = read == Read::Curve;
        let kind = if curve {
            let plunger = self.timeline.card.adjuster(AdjusterKind::PlungerTension);
            plunger.map(|a| a.kind).ok_or(NoMove::NoPlunger)?
        } else {
            let sideways = adjuster_for(self.timeline, self.stage, Axis::Sideways);
            sideways.ok_or(NoMove::NothingMovesCentreShot)?
        };
        let figure = |d: &Drift| match curve {
            false => Some((d.over_span(), d.over_span_se())),
            true => d.bend.map(|b| (b.mm, b.se)),
        };
        // A curve was read off a bend, so that there is a figure.
        let (offset, se) = figure(found).ok_or(NoMove::NoPlunger)?;
        let earlier: Vec<Run> = self
            .others(kind)
            .into_iter()
            .filter_map(|(place, positions)| {
                let (offset, se) =
                    figure(&drift(&rows(&self.at(positions)), self.reads_curves())?)?;
                Some(Run { place, offset, se })
            })
            .collect();
        let wanted = Wanted {
            stage: self.stage,
            kind,
            offset,
            se,
            earlier: &earlier,
            size_mm: match self.stage {
                Stage::WalkBack => FIRST_MM,
                _ => SMALL_MM,
            },
            rule: !curve,
        };
        suggest(self.timeline, self.analysis, &wanted)
    }
}

/// A fitted line with its chances, and how the stage stands by it.
fn judged(found: &Drift) -> (LineFound, State) {
    let limit = width(found);
    let leans_within = found.odds_within(limit);
    let slant = status_of(leans_within, found.is_real());
    let bends_within = found.bend.map(|bend| bend.odds_within(limit));
    let bent = found.bend.zip(bends_within);
    let bent = bent.map(|(bend, odds)| status_of(odds, bend.is_real()));
    let status = match (slant, bent.unwrap_or(slant)) {
        (State::Off, _) | (_, State::Off) => State::Off,
        (State::Ok, State::Ok) => State::Ok,
        _ => State::ShootMore,
    };
    let line = LineFound {
        drift: *found,
        limit,
        leans_within,
        bends_within,
        read: None,
        waits: None,
    };
    (line, status)
}

/// The column may lean, or bend, as much as the archer's own group is wide.
fn width(found: &Drift) -> f64 {
    (2.0 * found.sd_far).max(10.0)
}

/// Whether the line slants, and whether it bends, more than the archer's width.
fn off(found: &Drift) -> (bool, bool) {
    let limit = width(found);
    let slants = found.is_real() && found.odds_within(limit) <= 1.0 - SURE;
    let bends = found
        .bend
        .is_some_and(|b| b.is_real() && b.odds_within(limit) <= 1.0 - SURE);
    (slants, bends)
}

fn rows<'a>(groups: &[&'a GroupAt]) -> Vec<(f64, &'a [Impact])> {
    groups
        .iter()
        .filter_map(|g| Some((g.distance?.m(), g.impacts.as_slice())))
        .collect()
}
