//! What earlier bows of the folder taught, as it enters the belief.

use super::asked;
use super::types::PriorSource;
use crate::belief::{self, Axis, Belief, OWNER, Obs, Powder, Prior, SlopePrior};
use crate::gear::{AdjusterKind, Card, Release};
use crate::question::{Contact, Test};
use crate::session::{LearnedGain, Timeline};

/// The word a powder answer is kept under; none where nobody looked.
pub(crate) fn powder_word(powder: Powder) -> Option<&'static str> {
    match powder {
        Powder::NotLooked => None,
        Powder::Clean => Some("none"),
        Powder::Slap => Some("button"),
    }
}

/// What the powder says of a bow shot with fingers, and these arrows. With a
/// release aid no slap turns the response round, so it says nothing of it.
pub fn powder(timeline: &Timeline) -> Powder {
    match timeline.card.bow.release {
        Release::Aid => Powder::NotLooked,
        Release::Fingers => asked::powder(timeline),
    }
}

/// The wide prior of an adjuster, which earlier bows are pooled against.
pub fn usual(card: &Card, kind: AdjusterKind, powder: Powder) -> SlopePrior {
    super::lean::usual(card, kind, powder)
}

/// What was taught of an adjuster, for what the powder shows now.
pub(super) fn gain_of(timeline: &Timeline, kind: AdjusterKind) -> Option<&LearnedGain> {
    let found = timeline.learned.as_ref()?;
    found.gain(kind, powder_word(powder(timeline)))
}

/// Puts what earlier bows taught into the prior: beside the wide one, of which
/// a share of at least 1/(n+2) stays, whatever the record says.
pub(super) fn teach(prior: &mut Prior, timeline: &Timeline, kinds: &[AdjusterKind]) {
    for (kind, adjuster) in kinds.iter().zip(&mut prior.adjusters) {
        let Some(gain) = gain_of(timeline, *kind) else {
            continue;
        };
        let axis = adjuster.axis.index();
        let least = 1.0 / f64::from(gain.bows.saturating_add(2));
        let wide = gain.wide.max(least);
        adjuster.pooled = Some(SlopePrior {
            mean: gain.mean,
            sd: gain.sd,
            walk: adjuster.slope[axis].walk,
        });
        adjuster.dead = gain.dead;
        // The adjusters of one axis share the share; it is never too small.
        let own = &mut prior.wide[axis];
        *own = if *own < 1.0 { own.max(wide) } else { wide };
    }
}

/// Puts the owner's scatter into the prior, where it is the owner's shots that
/// are judged, and nothing was cured since that changed how they repeat.
pub(super) fn steady(prior: &mut Prior, timeline: &Timeline, judged: belief::Shooter) {
    let known = timeline.learned.as_ref().and_then(|l| l.scatter);
    if let Some(known) = known.filter(|_| judged == OWNER) {
        prior.scatter = [known.right, known.up];
        prior.scatter_spread = known.spread;
        prior.scatter_known = true;
    }
}

/// Whether both axes may be moved at once on the word of earlier bows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Together {
    /// Not: nothing was taught, or contact is not ruled out, or it misled.
    No,
    /// Once somebody looked for contact.
    Ask,
    /// Contact was looked for and there was none.
    Yes,
}

/// Whether contact was looked for and none found.
pub(super) fn together(timeline: &Timeline) -> Together {
    if timeline.learned.is_none() {
        return Together::No;
    }
    let answer = timeline.answer(Test::Contact);
    match answer.map(|a| Contact::of(&a.result)) {
        None => Together::Ask,
        Some(Contact::None) => Together::Yes,
        Some(_) => Together::No,
    }
}

/// The move's forecast is missed by so many sds.
const MISSED: f64 = 2.0;

/// Whether the first move of both axes, made before both had been moved, was
/// answered otherwise than forecast: then earlier bows are no guide to this one.
pub(super) fn misled(prior: &Prior, shots: &[Obs]) -> bool {
    let counts = |s: &&Obs| !s.called_bad && !s.place.bare;
    let counted: Vec<&Obs> = shots.iter().filter(counts).collect();
    let moved = |before: &Obs, after: &Obs, axis: Axis| {
        prior.adjusters.iter().enumerate().any(|(k, a)| {
            a.axis == axis && (before.place.positions[k] - after.place.positions[k]).abs() > 1e-6
        })
    };
    let both = |w: &&[&Obs]| Axis::BOTH.iter().all(|a| moved(w[0], w[1], *a));
    let Some(n) = counted.windows(2).position(|w| both(&w)) else {
        return false;
    };
    let start = counted[0];
    let one_was_not = Axis::BOTH
        .iter()
        .any(|a| counted[..=n].iter().all(|s| !moved(start, s, *a)));
    let next = counted[n + 1];
    if !one_was_not || next.place.epoch != counted[n].place.epoch {
        return false;
    }
    let before: Vec<Obs> = counted[..=n].iter().map(|s| (*s).clone()).collect();
    let belief = Belief::fit(prior, &before, next.place.shooter);
    Axis::BOTH.iter().any(|axis| {
        let (mean, sd) = belief.next_shot(*axis, &next.place);
        (next.tear[axis.index()] - mean).abs() > MISSED * sd
    })
}

/// What the prior of a session rests on.
pub(super) fn source(timeline: &Timeline) -> PriorSource {
    match (&timeline.learned, &timeline.prior) {
        (Some(learned), _) => PriorSource::Earlier(learned.clone()),
        (None, Some(prior)) if prior.draws > 0 => PriorSource::Card(prior.draws),
        _ => PriorSource::Usual,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::belief::{Place, SlopePrior};

    /// What a folder taught: 3 mm a mm sideways, 3 mm the other way up and down.
    fn taught() -> Prior {
        let mut prior = Prior::aid();
        prior.wide = [0.1; 2];
        for (k, mean) in [(0, 3.0), (1, -3.0)] {
            prior.adjusters[k].pooled = Some(SlopePrior {
                mean,
                sd: 0.5,
                walk: 0.05,
            });
        }
        prior
    }

    fn shot(x: f64, y: f64, tear: [f64; 2]) -> Obs {
        Obs {
            place: Place::start(2, 2.0).moved(0, x).moved(1, y),
            called_bad: false,
            tear,
        }
    }

    #[test]
    fn a_first_move_of_both_axes_that_is_answered_otherwise_misled() {
        let start = || vec![shot(0.0, 0.0, [-12.0, 9.0]), shot(0.0, 0.0, [-11.0, 8.0])];
        let then = |before: Vec<Obs>, next: Obs| misled(&taught(), &[before, vec![next]].concat());
        // Forecast: nearly nothing both ways.
        assert!(!then(start(), shot(4.0, 3.0, [1.0, -1.0])));
        for other in [[-24.0, 0.0], [0.0, 20.0], [24.0, 0.0]] {
            assert!(then(start(), shot(4.0, 3.0, other)), "{other:?}");
            // From the far side of the start, where both moved once before: the
            // way between counts, not where it leads from nothing.
            let across = vec![shot(-4.0, -3.0, [-9.0, 9.0]), shot(-4.0, -3.0, [-8.0, 8.0])];
            assert!(then(across, shot(4.0, 3.0, other.map(|t| 3.0 * t))));
            // One axis alone is a move like any other.
            assert!(!then(start(), shot(4.0, 0.0, other)), "{other:?}");
            // Called bad, it says nothing; nor after other work on the bow.
            let mut bad = shot(4.0, 3.0, other);
            bad.called_bad = true;
            assert!(!then(start(), bad));
            let mut worked = shot(4.0, 3.0, other);
            worked.place.epoch = 1;
            assert!(!then(start(), worked));
            // One axis moved before: the other was not.
            let mut one = start();
            one.push(shot(1.0, 0.0, [-9.0, 9.0]));
            assert!(then(one.clone(), shot(4.0, 3.0, other)), "{other:?}");
            // Both had been moved, one after the other: this bow spoke itself.
            one.push(shot(1.0, 1.0, [-9.0, 6.0]));
            assert!(!then(one, shot(4.0, 3.0, other)), "{other:?}");
        }
    }
}
