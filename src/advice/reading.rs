//! Everything worked out once from a timeline, before anything is decided.

use super::usual::usual_tolerance;
use super::view::View;
use crate::belief::{Belief, Evidence, Gain};
use crate::checks::consistency::Repeats;
use crate::checks::response::{self, Obstacle};
use crate::checks::spine::{self, SpineReport};
use crate::checks::{self, Checks, rests};
use crate::gear::{AdjusterKind, Axis};
use crate::session::{Shooter, Timeline};
use crate::setup;
use crate::tuner::gates::{self, Consistency, Gate};
use crate::tuner::{Decision, Track, choose};

/// What the checks and the tuner found.
pub(super) struct Reading<'a> {
    pub timeline: &'a Timeline,
    pub(crate) view: View,
    pub(crate) belief: Belief,
    pub track: Track,
    pub(crate) decision: Decision,
    pub(crate) evidence: Evidence,
    pub consistency: Consistency,
    pub(crate) spine: SpineReport,
    pub(crate) obstacle: Option<Obstacle>,
    pub gains: Vec<(AdjusterKind, Gain, bool)>,
}

/// Chance of one component being inside, below which a missing adjuster matters.
const HOPELESS_COMPONENT: f64 = 0.2;

impl<'a> Reading<'a> {
    pub fn of(timeline: &'a Timeline) -> Self {
        let view = View::of(timeline);
        let belief = Belief::fit(&view.prior, &view.shots, view.here.shooter);
        let track = Track::count(&view.shots, &view.here, view.here.shooter);
        let decision = choose(&belief, &view.task, &track);
        let evidence = gates::evidence(&belief, &view.task, &view.shots, &track);
        let normal = usual_tolerance(timeline.card.bow.release);
        let consistency = gates::consistency(&belief, &view.task, &track, normal);
        let gains = gains(&view, &belief, &track);
        let mut reading = Self {
            spine: spine::assess(timeline),
            obstacle: None,
            timeline,
            view,
            belief,
            track,
            decision,
            evidence,
            consistency,
            gains,
        };
        reading.obstacle = reading.find_obstacle();
        reading
    }

    /// The mean tear here, mm, less nothing: as it would read on paper.
    pub fn mean(&self) -> crate::tear::Tear {
        let tear = self.belief.tear(&self.track.here);
        crate::tear::Tear::new(tear.mean[0], tear.mean[1])
    }

    /// Chance of being inside, if anything was shot by the judged shooter in this epoch.
    pub(crate) fn known(&self) -> bool {
        self.view.shots.iter().any(|s| {
            !s.called_bad
                && s.place.epoch == self.view.here.epoch
                && s.place.response_epoch == self.view.here.response_epoch
        })
    }

    /// Whether this bow was shot with the adjuster in more than one place.
    pub fn moved(&self, k: usize) -> bool {
        self.track.reached[k] != (0.0, 0.0)
    }

    pub(crate) fn owner_is_judged(&self) -> bool {
        self.view.shooter == Shooter::Owner
    }

    fn find_obstacle(&self) -> Option<Obstacle> {
        if let Some(found) = setup::contact_found(self.timeline) {
            return Some(Obstacle::Contact(found));
        }
        let unfit = gates::response(
            &self.belief,
            &self.evidence,
            &self.decision,
            &self.view.task,
            &self.track,
        );
        unfit
            .map(|u| Obstacle::of(u, &self.view.kinds, &self.timeline.card))
            .or_else(|| self.missing_adjuster())
    }

    /// A component that is out and that nothing on the card can move.
    fn missing_adjuster(&self) -> Option<Obstacle> {
        if self.track.shots_here < 2 {
            return None;
        }
        let task = &self.view.task;
        let axes = [
            (crate::belief::Axis::Up, Axis::Vertical),
            (crate::belief::Axis::Right, Axis::Sideways),
        ];
        axes.into_iter().find_map(|(axis, named)| {
            let aim = task.aim[axis.index()];
            let inside =
                self.belief
                    .probability_component(axis, &self.track.here, aim, task.tolerance);
            (task.adjuster(axis).is_none() && inside < HOPELESS_COMPONENT)
                .then(|| Obstacle::NoAdjuster(response::Instead::of(named, &self.timeline.card)))
        })
    }

    /// How far the rest stands from the start, as a share of its travel, when far.
    fn far(&self) -> Option<f64> {
        let card = &self.timeline.card;
        let shares = card
            .adjusters
            .iter()
            .filter(|a| a.range > 0.0)
            .map(|a| self.timeline.now.get(a.kind).abs() / a.range);
        shares
            .filter(|share| *share >= response::FAR)
            .fold(None, |most: Option<f64>, s| {
                Some(most.map_or(s, |m| m.max(s)))
            })
    }

    /// The four checks.
    pub fn checks(&self) -> Checks {
        let timeline = self.timeline;
        let mended = super::cures::rest_mended(timeline).map_or(0, |a| a.entry);
        // Press work and weight restart the tear; how it answers to the
        // adjusters they do not show.
        let since = timeline.moves.iter().filter(|m| m.place > mended);
        let moved: Vec<AdjusterKind> = since
            .flat_map(|m| m.steps.iter().map(|s| s.adjuster))
            .filter(|kind| self.view.kinds.contains(kind))
            .collect();
        let response = response::check(self.obstacle.as_ref(), &self.gains, &moved, self.far());
        let open = |keys| timeline.card_text.unconfirmed_of(keys);
        Checks {
            safety: checks::safety::check(timeline),
            spine: self.spine.clone(),
            consistency: self.repeats().held(open(rests::CONSISTENCY)),
            response: response.held(open(rests::RESPONSE)),
        }
    }

    /// Whether the shots repeat.
    pub fn repeats(&self) -> Repeats {
        let tolerance = self.view.task.tolerance;
        checks::consistency::check(&self.consistency, &self.track, tolerance)
    }

    pub(crate) fn scatter_refuses(&self) -> bool {
        self.consistency.gate == Gate::Refuse
    }
}

fn gains(view: &View, belief: &Belief, track: &Track) -> Vec<(AdjusterKind, Gain, bool)> {
    view.kinds
        .iter()
        .enumerate()
        .map(|(k, kind)| {
            let step = 2.0 * view.task.adjusters[k].step;
            let gain = belief.gain(k, super::usual::axis(*kind), &track.here, step);
            let used = track.reached[k] != (0.0, 0.0);
            (*kind, gain, used)
        })
        .collect()
}
