//! A line down the face: walk-back, near and far.
//!
//! With fingers the trade reads a slanting line as centre shot and a curved
//! one as plunger tension; with a release aid a slant is the rest, or a level
//! that is off (common practice; levels: a shop manager's article). What is
//! suggested waits for every distance that the stage asks for.

use super::drift::{Drift, distances, drift};
use super::judge::{Context, SURE, Status, Verdict, status_of};
use super::stage::Stage;
use super::suggest::{FIRST_MM, Run, SMALL_MM, Wanted, adjuster_for, suggest};
use crate::gear::{AdjusterKind, Axis, Release};
use crate::session::{GroupAt, Impact};
use crate::units::Length;
use crate::words;

/// What a line that is not straight is read as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Read {
    Slant,
    Curve,
}

/// How far the farthest distance is from the nearest, at least.
const SPREAD: f64 = 1.6;

impl Context<'_> {
    /// Walk-back and near-far.
    pub(super) fn line(&self) -> Verdict {
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
                verdict.status = Status::ShootMore;
                verdict.text = self.more_distances(shot.len(), asked);
                verdict.shots_wanted = 3;
            }
            return verdict;
        };
        let whole = shot.len() >= asked && shot.last() >= shot.first().map(|m| m * SPREAD).as_ref();
        let mut verdict = self.of_drift(&found);
        if !whole {
            verdict.status = Status::ShootMore;
            verdict.shots_wanted = 3;
            let more = self.more_distances(shot.len(), asked);
            verdict.text = format!("{}. {}", verdict.text, words::capital(&more));
            return verdict;
        }
        match verdict.status {
            Status::ShootMore => verdict.shots_wanted = 3,
            Status::Off => self.correct_line(&mut verdict, &found),
            _ => {}
        }
        verdict
    }

    /// Whether a curve is read by itself: over four distances, with fingers.
    fn reads_curves(&self) -> bool {
        self.stage == Stage::WalkBack && self.timeline.card.bow.release == Release::Fingers
    }

    fn more_distances(&self, shot: usize, asked: usize) -> String {
        format!(
            "{shot} of {asked} distances shot, two arrows or more at each and well apart: what it means waits for all of them"
        )
    }

    fn of_drift(&self, found: &Drift) -> Verdict {
        let limit = width(found);
        let mut odds = found.odds_within(limit);
        let mut status = status_of(odds, found.is_real());
        let mut text = self.drift_words(found, limit);
        if let Some(bend) = found.bend {
            let straight = bend.odds_within(limit);
            let bent = status_of(straight, bend.is_real());
            status = match (status, bent) {
                (Status::Off, _) | (_, Status::Off) => Status::Off,
                (Status::Passed, Status::Passed) => Status::Passed,
                _ => Status::ShootMore,
            };
            text.push_str(&format!(
                "; the middle stands {} off the straight line. Chance of a slant wider than that: {}, of a curve: {}",
                self.aside(bend.mm),
                words::odds(1.0 - odds),
                words::odds(1.0 - straight)
            ));
            odds = odds.min(straight);
        } else {
            text.push_str(&format!(
                ". Chance that it is straight within that: {}",
                words::odds(odds)
            ));
        }
        let mut verdict = Verdict::new(self.stage, status, text);
        verdict.distance = Some(Length::from_m(found.span.1));
        verdict.drift = Some(*found);
        verdict.limit_mm = Some(limit);
        verdict.odds = Some(odds);
        verdict
    }

    fn drift_words(&self, found: &Drift, limit: f64) -> String {
        let drifts = match self.face.length(found.over_span().abs()) {
            none if none.starts_with("0 ") => "do not drift".to_owned(),
            _ => format!("drift {}", self.aside(found.over_span())),
        };
        format!(
            "from {} to {} the arrows {drifts} ± {}; this archer's width there is {}",
            self.system.distance(Length::from_m(found.span.0)),
            self.system.distance(Length::from_m(found.span.1)),
            self.face.length(found.over_span_se()),
            self.face.length(limit),
        )
    }

    /// A length to one side: `3 cm left`.
    fn aside(&self, mm: f64) -> String {
        match self.face.length(mm.abs()) {
            none if none.starts_with("0 ") => none,
            far if mm < 0.0 => format!("{far} left"),
            far => format!("{far} right"),
        }
    }

    /// What a line that is not straight is read as, and the move for it.
    fn correct_line(&self, verdict: &mut Verdict, found: &Drift) {
        let read = read(found);
        let fingers = self.timeline.card.bow.release == Release::Fingers;
        verdict.text.push_str(match (read, fingers) {
            (Read::Slant, true) => {
                if off(found).1 {
                    ". A slanting line and a curved one: with fingers the slant is read as centre shot, the curve as plunger tension (common practice, no source). Centre shot first, then the line again"
                } else {
                    ". A slanting line: with fingers that is read as centre shot (common practice, no source)"
                }
            }
            (Read::Curve, _) => {
                ". A curved line: with fingers that is read as plunger tension (common practice, no source). Wind bends a line as well: believe it in calm air only"
            }
            (Read::Slant, false) => {
                ". With a release aid a slanting line is the rest, or a level that is off: look at the levels once more before the rest is moved"
            }
        });
        let kind = match read {
            Read::Slant => adjuster_for(self.timeline, self.stage, Axis::Sideways),
            Read::Curve => {
                let plunger = self.timeline.card.adjuster(AdjusterKind::PlungerTension);
                plunger.map(|a| a.kind)
            }
        };
        let Some(kind) = kind else {
            verdict.text.push_str(match read {
                Read::Slant => ". Nothing on the card moves the centre shot",
                Read::Curve => {
                    ". The card has no plunger: what remains is the arrow (point weight, draw weight)"
                }
            });
            return;
        };
        let figure = |d: &Drift| match read {
            Read::Slant => Some((d.over_span(), d.over_span_se())),
            Read::Curve => d.bend.map(|b| (b.mm, b.se)),
        };
        let Some((offset, se)) = figure(found) else {
            return;
        };
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
            rule: read == Read::Slant,
        };
        self.suggested(verdict, &wanted);
    }

    /// Sets the suggested move, or says why there is none.
    pub(super) fn suggested(&self, verdict: &mut Verdict, wanted: &Wanted<'_>) {
        match suggest(self.timeline, self.analysis, wanted, self.system) {
            Ok(found) => verdict.suggestion = Some(found),
            Err(why) => verdict
                .text
                .push_str(&format!(". No move is suggested: {why}")),
        }
    }
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

/// A curve only where the line does not slant as well: centre shot is set
/// before the plunger (common practice).
fn read(found: &Drift) -> Read {
    match off(found) {
        (false, true) => Read::Curve,
        _ => Read::Slant,
    }
}

fn rows<'a>(groups: &[&'a GroupAt]) -> Vec<(f64, &'a [Impact])> {
    groups
        .iter()
        .filter_map(|g| Some((g.distance?.m(), g.impacts.as_slice())))
        .collect()
}
