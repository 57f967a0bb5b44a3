//! When the rest is to be left alone: the figures behind the checks.

use super::care::{self, Care, Silence};
use super::choose::{Decision, VERTICAL_LIKELY};
use super::reach::{self, Reach};
use super::task::{Task, Track};
use super::untried;
use crate::belief::{Axis, Belief, Evidence, Obs};

/// An answer that accumulates shot by shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gate {
    /// Good enough.
    Pass,
    /// Good enough so far: moves may go on, watched.
    SoFar,
    /// Cannot be told yet: no move.
    Wait,
    /// The shots at different settings lie off the response supposed, those
    /// at one setting agree: a bent response, or scatter. More shots at one
    /// setting tell the two apart: no move.
    Bent,
    /// Not good enough.
    Refuse,
}

/// Scatter against its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Consistency {
    /// The answer.
    pub gate: Gate,
    /// Larger of the two expected sds, mm.
    pub figure: f64,
    /// The axis that has it.
    pub axis: Axis,
    /// Limit for either, mm.
    pub(crate) limit: f64,
    /// Chance that the sd of that axis is above the limit.
    pub(crate) probability_over: f64,
    /// The same by shots at one setting alone.
    pub(crate) by_repeats: f64,
}

impl Consistency {
    /// Whether the shots repeat well enough for the rest to be moved.
    pub(crate) const fn may_move(&self) -> bool {
        matches!(self.gate, Gate::Pass | Gate::SoFar)
    }
}

/// Limit of the per-axis sd in tolerances.
pub(crate) const SCATTER_LIMIT: f64 = 1.0;
/// Chance above the limit at which it refuses.
const SURE: f64 = 0.8;
/// Fewest shots before it refuses.
const REFUSE_FROM: usize = 5;
/// Fewest repeats before it refuses or passes: single shots along a steep
/// response are no scatter, and one repeat is one accident.
pub(crate) const REPEATS: usize = 2;
/// Chance above the limit under which one repeat is good enough so far.
const SO_FAR: f64 = 0.3;
/// Chance above the limit under which more repeats pass.
const PASSES: f64 = 0.5;
/// Repeats after which what is not refused may be moved: more shots at one
/// setting would only tell an archer at the limit that he is at the limit.
const LONG_ENOUGH: usize = 5;

/// Chance above the limit, by shots at one setting alone, under which they
/// agree: what lies off the response is then the response.
const REPEATS_AGREE: f64 = 0.5;

/// Weighs the judged shooter's scatter. `normal_tolerance` is the usual one
/// for this release: an archer normal for the release is not refused because
/// the tolerance asked for is finer.
pub fn consistency(
    belief: &Belief,
    task: &Task,
    track: &Track,
    normal_tolerance: f64,
) -> Consistency {
    let limit = SCATTER_LIMIT * task.tolerance.max(normal_tolerance);
    let of = |axis: Axis| {
        let s = belief.scatter(axis);
        (s.probability_over(limit), s.mean, axis)
    };
    let (r, u) = (of(Axis::Right), of(Axis::Up));
    let (probability_over, figure, axis) = if u.0 > r.0 { u } else { r };
    let by_repeats = belief.scatter_of_repeats(axis).probability_over(limit);
    let gate = gate(
        track,
        probability_over,
        by_repeats,
        limit,
        belief.prior.scatter_known,
    );
    Consistency {
        gate,
        figure,
        axis,
        limit,
        probability_over,
        by_repeats,
    }
}

/// The answer rests on repeats, that is on shots at one setting: without any
/// nothing is known of the archer, however many settings were shot.
/// Where this owner's scatter is known from earlier sessions, one repeat is
/// enough to pass.
fn gate(track: &Track, over: f64, by_repeats: f64, limit: f64, known: bool) -> Gate {
    let apart = track.repeated.map_or(0.0, |r| r.apart);
    match track.repeats {
        0 => Gate::Wait,
        1 if known && over < PASSES => Gate::Pass,
        1 if over < SO_FAR && apart <= limit => Gate::SoFar,
        n if n >= REPEATS && track.shots >= REFUSE_FROM && over >= SURE => {
            match by_repeats < REPEATS_AGREE {
                false => Gate::Refuse,
                true if n >= LONG_ENOUGH => Gate::SoFar,
                true => Gate::Bent,
            }
        }
        n if n >= REPEATS && over < PASSES => Gate::Pass,
        n if n >= LONG_ENOUGH => Gate::SoFar,
        _ => Gate::Wait,
    }
}

/// Why the response says: leave the rest alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unfit {
    /// This adjuster does nothing (its index, how sure, and how sure is asked for).
    Dead(usize, f64, f64),
    /// The mean jumps between moves (how sure).
    Jumps(f64),
    /// Moves that would have shown a usual response showed none.
    Silent(Silence),
    /// Travel clips the move; best reachable chance.
    Clipped(f64),
    /// No likely response of this adjuster's axis brings the tear inside, and
    /// nothing was moved there yet.
    Huge(Reach),
    /// This adjuster was moved and hardly moves the tear: no likely response
    /// is left that brings it inside.
    Weak(usize, Reach),
    /// This adjuster moves the tear, and no likely place within its travel
    /// brings it inside.
    Short(usize, Reach),
}

/// Chance at which an adjuster is called dead.
const DEAD_SURE: f64 = 0.85;
/// Chance at which a jumping mean is called.
pub(crate) const JUMPS_SURE: f64 = 0.9;

/// What the response check finds, the worst first; `None` when it is fit.
pub fn response(
    belief: &Belief,
    evidence: &Evidence,
    decision: &Decision,
    task: &Task,
    track: &Track,
) -> Option<Unfit> {
    if track.moves >= 2 && evidence.jumps >= JUMPS_SURE {
        return Some(Unfit::Jumps(evidence.jumps));
    }
    let best = decision.best.chance.max(decision.here);
    let limit = matches!(decision.choice, super::Choice::Limit);
    // Giving up anyway, the likelier of the two reasons is named.
    let sure = if limit { 0.5 } else { DEAD_SURE };
    // Giving up anyway; else not while a weak answer could still do it.
    let open = |k: &usize| {
        task.adjusters[*k].usable
            && (limit || past_weak(belief, task, track, *k))
            && untried::steps(belief, task, track, *k).is_none()
    };
    if track.moves >= 1 && best < untried::OUT_OF_IDEAS {
        let dead = (0..task.adjusters.len())
            .filter(|k| evidence.dead[*k] >= sure && open(k))
            .max_by(|a, b| evidence.dead[*a].total_cmp(&evidence.dead[*b]));
        if let Some(k) = dead {
            return Some(Unfit::Dead(k, evidence.dead[k], sure));
        }
        let usable = (0..task.adjusters.len()).filter(open);
        let silent = usable.filter_map(|k| care::silence(belief, task, track, k, limit));
        if let Some(silence) = silent.max_by(|a, b| a.power.total_cmp(&b.power)) {
            return Some(Unfit::Silent(silence));
        }
    }
    beyond_reach(belief, task, track)
        .or_else(|| hardly(belief, task, track, best))
        .or_else(|| limit.then_some(Unfit::Clipped(best)))
}

/// A weak answer, in least answers: 0.6 mm a mm of rest.
const WEAK: f64 = 2.0;
/// Chance of more than a weak answer above which an adjuster is not said to
/// hardly move the tear.
const MOVES_IT: f64 = 0.5;

/// Whether a tear stands too far out for a weak answer of the adjuster to
/// bring it inside within travel.
fn past_weak(belief: &Belief, task: &Task, track: &Track, k: usize) -> bool {
    let a = &task.adjusters[k];
    let i = a.axis.index();
    let off = (belief.tear(&track.here).mean[i] - task.aim[i]).abs();
    let here = track.here.positions[k];
    let way = (a.high - here).max(here - a.low);
    off - task.tolerance > WEAK * task.caution[k].answer * way
}

/// Shots after which an adjuster that has not answered is given up, however
/// likely a place within reach is inside.
const TRIED_OUT: usize = 24;

/// An adjuster that was tried for long and hardly moves the tear, on an axis
/// that is not likely inside. While a place within reach is as likely inside
/// as not, a few shots more settle it sooner than another remedy would.
fn hardly(belief: &Belief, task: &Task, track: &Track, best: f64) -> Option<Unfit> {
    if best >= untried::OUT_OF_IDEAS && track.shots < TRIED_OUT {
        return None;
    }
    let axes = Axis::BOTH.into_iter();
    axes.filter(|axis| {
        let (aim, here) = (task.aim[axis.index()], &track.here);
        belief.probability_component(*axis, here, aim, task.tolerance) < VERTICAL_LIKELY
    })
    .find_map(|axis| {
        let k = task.adjuster(axis)?;
        let long = care::long_tried(belief, task, track, k);
        let left_out = untried::steps(belief, task, track, k).is_some();
        let reach = reach::of(belief, task, track, axis).filter(|_| long && !left_out)?;
        Some(Unfit::Weak(k, reach))
    })
}

/// Shots at a setting before a tear there is beyond reach.
pub(crate) const REACH_SHOTS: usize = 2;

/// A tear that no likely response brings inside the tolerance within travel.
fn beyond_reach(belief: &Belief, task: &Task, track: &Track) -> Option<Unfit> {
    if track.shots_here < REACH_SHOTS {
        return None;
    }
    let axes = Axis::BOTH.into_iter();
    let short = axes.filter_map(|axis| reach::of(belief, task, track, axis));
    let worst = short
        .filter(Reach::is_short)
        .max_by(|a, b| (a.off - a.longest).total_cmp(&(b.off - b.longest)))?;
    let k = task.adjuster(worst.axis)?;
    if !Care::of(belief, task, track, k).moved {
        return Some(Unfit::Huge(worst));
    }
    if untried::steps(belief, task, track, k).is_some() {
        return None;
    }
    let moves = care::beyond(belief, task, track, k, WEAK * task.caution[k].answer);
    Some(if moves > MOVES_IT {
        Unfit::Short(k, worst)
    } else {
        Unfit::Weak(k, worst)
    })
}

/// The other stories; those of a move only once something was moved.
pub fn evidence(belief: &Belief, task: &Task, shots: &[Obs], track: &Track) -> Evidence {
    if track.moves == 0 {
        return Evidence::unmoved(belief, shots);
    }
    let answers: Vec<f64> = task.caution.iter().map(|c| c.answer).collect();
    Evidence::weigh(belief, shots, &answers)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tuner::Repeated;
    use crate::tuner::cases::{pairs, task, weighed};

    fn track(shots: usize, repeats: usize, apart: f64) -> Track {
        let here = crate::belief::Place::start(1, 2.0);
        Track {
            shots,
            repeats,
            repeated: (repeats > 0).then_some(Repeated {
                shots: 2,
                apart,
                here: true,
            }),
            ..Track::count(&[], &here, crate::belief::OWNER)
        }
    }

    #[test]
    fn without_a_repeat_nothing_is_known_of_the_archer() {
        for over in [0.0, 0.29, 0.99] {
            assert_eq!(gate(&track(1, 0, 0.0), over, over, 6.0, false), Gate::Wait);
            assert_eq!(gate(&track(9, 0, 0.0), over, over, 6.0, false), Gate::Wait);
        }
    }

    #[test]
    fn one_repeat_is_good_enough_so_far_within_the_limit_and_under_30_percent() {
        assert_eq!(gate(&track(2, 1, 6.0), 0.29, 0.29, 6.0, false), Gate::SoFar);
        assert_eq!(gate(&track(2, 1, 6.1), 0.29, 0.29, 6.0, false), Gate::Wait);
        assert_eq!(gate(&track(2, 1, 6.0), 0.30, 0.30, 6.0, false), Gate::Wait);
        assert_eq!(
            gate(&track(2, 1, 6.1), 0.29, 0.29, 12.0, false),
            Gate::SoFar
        );
        // One repeat never refuses, whatever was shot at other settings.
        assert_eq!(gate(&track(9, 1, 30.0), 0.99, 0.99, 6.0, false), Gate::Wait);
    }

    #[test]
    fn one_repeat_passes_where_the_owners_scatter_is_known_and_none_never_does() {
        assert_eq!(gate(&track(2, 1, 9.0), 0.49, 0.99, 6.0, true), Gate::Pass);
        assert_eq!(gate(&track(2, 1, 9.0), 0.50, 0.01, 6.0, true), Gate::Wait);
        assert_eq!(gate(&track(1, 0, 0.0), 0.01, 0.01, 6.0, true), Gate::Wait);
    }

    #[test]
    fn two_repeats_pass_under_a_half_and_refuse_from_80_percent_and_five_shots() {
        assert_eq!(gate(&track(3, 2, 9.0), 0.49, 0.49, 6.0, false), Gate::Pass);
        assert_eq!(gate(&track(3, 2, 9.0), 0.50, 0.50, 6.0, false), Gate::Wait);
        assert_eq!(gate(&track(4, 2, 9.0), 0.80, 0.80, 6.0, false), Gate::Wait);
        assert_eq!(gate(&track(5, 2, 9.0), 0.79, 0.79, 6.0, false), Gate::Wait);
        assert_eq!(
            gate(&track(5, 2, 9.0), 0.80, 0.80, 6.0, false),
            Gate::Refuse
        );
        assert_eq!(gate(&track(6, 4, 9.0), 0.79, 0.79, 6.0, false), Gate::Wait);
        assert_eq!(gate(&track(6, 5, 9.0), 0.79, 0.79, 6.0, false), Gate::SoFar);
    }

    #[test]
    fn where_shots_at_one_setting_agree_two_more_are_shot_before_it_is_scatter() {
        let at = |repeats, by_repeats| gate(&track(9, repeats, 9.0), 0.8, by_repeats, 6.0, false);
        assert_eq!(at(2, 0.49), Gate::Bent);
        assert_eq!(at(4, 0.49), Gate::Bent);
        assert_eq!(at(5, 0.49), Gate::SoFar);
        assert_eq!(at(2, 0.50), Gate::Refuse);
        assert_eq!(at(5, 0.50), Gate::Refuse);
        // One repeat is one accident, whatever it says.
        assert_eq!(at(1, 0.0), Gate::Wait);
    }

    /// Nine shots over three places that show next to nothing, at the edge of
    /// the tolerance: while a place is as likely inside as not, up to 23 shots.
    #[test]
    fn what_is_likely_inside_is_not_given_up_before_24_shots() {
        for side in [1.0, -1.0] {
            let places = [0.0, 4.0, -4.0].repeat(3);
            let seen: Vec<(f64, f64)> = places.iter().map(|x| (*x, side * 6.0)).collect();
            let (belief, task, mut track, _) = told(&seen);
            let given_up = |track: &Track, best| hardly(&belief, &task, track, best).is_some();
            assert!(care::long_tried(&belief, &task, &track, 0), "{side}");
            for (shots, best, wanted) in [
                (18, 0.5, false),
                (18, 0.49, true),
                (23, 0.5, false),
                (24, 0.5, true),
                (24, 0.9, true),
            ] {
                track.shots = shots;
                assert_eq!(given_up(&track, best), wanted, "{side} {shots} {best}");
            }
        }
    }

    /// Tears at places of the rest sideways, two shots each, 1 mm apart; the
    /// adjusters stand at the last place.
    fn told(seen: &[(f64, f64)]) -> (Belief, Task, Track, Vec<Obs>) {
        let shots = pairs(seen);
        let (belief, track) = weighed(&shots);
        (belief, task(8.0), track, shots)
    }

    fn unfit(seen: &[(f64, f64)]) -> Option<Unfit> {
        let (belief, task, track, shots) = told(seen);
        let decision = crate::tuner::choose(&belief, &task, &track);
        let evidence = evidence(&belief, &task, &shots, &track);
        response(&belief, &evidence, &decision, &task, &track)
    }

    #[test]
    fn a_rest_that_hardly_moves_the_tear_is_given_up_early_once_both_sides_were_tried() {
        for side in [1.0, -1.0] {
            let at = |x: f64, right: f64| (side * x, side * right);
            // 0.4 mm a mm, 14 mm out: its whole travel brings in 3.
            let both = unfit(&[at(0.0, 14.0), at(4.0, 15.6), at(-4.0, 12.4)]);
            assert!(matches!(both, Some(Unfit::Weak(0, _))), "{both:?}");
            // A mm a mm over the whole travel, and still 14 mm out: it moves the
            // tear, and not far enough. Half a mm a mm is hardly anything.
            let short = unfit(&[at(0.0, 22.0), at(4.0, 26.0), at(-4.0, 18.0), at(-8.0, 14.0)]);
            assert!(matches!(short, Some(Unfit::Short(0, _))), "{short:?}");
            let weak = unfit(&[at(0.0, 22.0), at(4.0, 24.0), at(-4.0, 20.0), at(-8.0, 18.0)]);
            assert!(matches!(weak, Some(Unfit::Weak(0, _))), "{weak:?}");
            // One side alone shows nothing of the other.
            assert_eq!(unfit(&[at(0.0, 14.0), at(4.0, 14.0)]), None);
            // The same slope and 7 mm out: two millimetres of rest do it.
            let near = unfit(&[at(0.0, 7.0), at(4.0, 8.6), at(-4.0, 5.4)]);
            assert_eq!(near, None);
        }
    }

    #[test]
    fn a_weak_answer_is_an_answer_and_opens_the_travel() {
        for side in [1.0, -1.0] {
            let care = |slope: f64| {
                let places = [0.0, 4.0, -4.0, 2.0, -2.0, 0.0];
                let seen = places.map(|x| (side * x, side * (9.0 + slope * x)));
                let (belief, task, track, _) = told(&seen);
                Care::of(&belief, &task, &track, 0)
            };
            let weak = care(0.6);
            assert!(weak.answered && weak.side, "{weak:?}");
            assert_eq!(weak.bounds, (-32, 32));
            let none = care(0.0);
            assert!(!none.answered, "{none:?}");
            assert!(none.bounds.0 >= -16 && none.bounds.1 <= 16, "{none:?}");
        }
    }

    #[test]
    fn a_bent_response_whose_repeats_agree_is_not_refused_for_scatter() {
        for side in [1.0, -1.0] {
            let seen = [(0.0, 12.0), (2.0, 44.0), (-2.0, 10.0), (-4.0, 36.0)]
                .map(|(x, right)| (side * x, side * right));
            let (belief, task, track, _) = told(&seen);
            let found = consistency(&belief, &task, &track, 6.0);
            assert!(found.by_repeats < REPEATS_AGREE, "{found:?}");
            assert_ne!(found.gate, Gate::Refuse, "{found:?}");
        }
    }

    #[test]
    fn a_response_is_likely_from_one_in_ten() {
        let reach = |chance| Reach {
            axis: Axis::Right,
            off: 40.0,
            chance,
            longest: 39.0,
        };
        assert!(reach(0.0999).is_short());
        assert!(!reach(0.1).is_short());
    }
}
