//! Where the shots began to repeat better than before: the cause of the
//! scatter was found and cured, or the shots themselves say so. From there on
//! the scatter is learned anew and what was shot before does not count for it.

use super::usual::usual_tolerance;
use crate::question::{Answer, Contact, Question, Refusal, Test};
use crate::session::{AnswerAt, Shooter, ShotAt, Timeline};
use crate::stats::quantile;
use crate::tuner::gates::SCATTER_LIMIT;

/// Lengths of the latest tight run that are looked at, in shots.
pub(super) const RUNS: [usize; 4] = [6, 8, 12, 16];
/// How sure it must be that a tight run is under the limit.
const TIGHT_SURE: f64 = 0.95;
/// How sure it must be that the shots before it were over the limit.
const WILD_SURE: f64 = 0.8;
/// Fewest spare readings either may rest on.
const SPARE: usize = 4;

/// For each cure, how many shots were before it, in order.
///
/// A path walked to its end after a scatter refusal is one, and so is contact
/// that powder showed and later shows no more. So are at least
/// six shots in a row that are with 95 % odds under the limit on both axes,
/// after shots that were with 80 % odds over it on one: an archer at one and
/// a half times the limit on one axis shoots any six like that by luck less
/// than once in a hundred (pooled variance over true variance is chi-squared
/// over its degrees: 5 degrees, 1.145 / 2.25). `fliers` count for nothing, as
/// elsewhere: one wild shot is no scatter that was cured.
pub(super) fn cures(timeline: &Timeline, shooter: Shooter, fliers: &[usize]) -> Vec<usize> {
    let walked: Vec<usize> = timeline
        .answers
        .iter()
        .filter(|a| a.test == Question::Path(Refusal::Scatter))
        .filter(|a| a.result == Answer::Resume)
        .map(|a| a.shots_before)
        .collect();
    let walked = [walked, touched_no_more(timeline)].concat();
    let tolerance = timeline.card.paper.tolerance;
    let limit = SCATTER_LIMIT * tolerance.max(usual_tolerance(timeline.card.bow.release));
    let plain = |s: &ShotAt| s.shot.by == shooter && !s.shot.called_bad && !s.shot.bare;
    let shots = &timeline.shots;
    let mut cures = Vec::new();
    let mut segment: Vec<usize> = Vec::new();
    for i in 0..=shots.len() {
        for _ in walked.iter().filter(|before| **before == i) {
            cures.push(i);
            segment.clear();
        }
        if fliers.contains(&i) || !shots.get(i).is_some_and(plain) {
            continue;
        }
        segment.push(i);
        if let Some(at) = turned(shots, &segment, limit) {
            cures.push(segment[at]);
            segment.drain(..at);
        }
    }
    cures
}

/// Shots before each powder test that shows no more contact where the one
/// before it did.
fn touched_no_more(timeline: &Timeline) -> Vec<usize> {
    let powder: Vec<&AnswerAt> = timeline
        .answers
        .iter()
        .filter(|a| a.test == Test::Contact)
        .collect();
    let answer = |a: &AnswerAt| Contact::of(&a.result);
    powder
        .windows(2)
        .filter(|pair| answer(pair[0]).must_be_cured() && answer(pair[1]) == Contact::None)
        .map(|pair| pair[1].shots_before)
        .collect()
}

/// The latest fix of a rest that did nothing or whose tears jumped: what was
/// shot before no longer says how it answers, and until it is moved again
/// nothing may be held against it. A path walked to its end with nothing
/// fixed on it is none.
pub(super) fn rest_mended(timeline: &Timeline) -> Option<&AnswerAt> {
    let (mut fixed, mut mended) = (false, None);
    for answer in &timeline.answers {
        match (answer.test.known(), answer.result.known()) {
            (Some(Question::Fixed(_)), Some(Answer::Done)) => fixed = true,
            (Some(Question::Path(refusal)), Some(Answer::Resume)) => {
                let of_the_rest = matches!(refusal, Refusal::NoResponse | Refusal::Jumps);
                if fixed && of_the_rest {
                    mended = Some(answer);
                }
                fixed = false;
            }
            _ => {}
        }
    }
    mended
}

/// Where in the segment its latest tight run begins, if it ends in one and
/// what was before it was over the limit.
fn turned(shots: &[ShotAt], segment: &[usize], limit: f64) -> Option<usize> {
    RUNS.into_iter().find_map(|run| {
        let at = segment.len().checked_sub(run)?;
        let before = &segment[at.saturating_sub(RUNS[3])..at];
        let wild = [0, 1].into_iter().any(|axis| {
            let (ss, df) = about_their_means(shots, before, axis);
            df >= SPARE && over(ss, df, limit)
        });
        let tight = wild
            && [0, 1].into_iter().all(|axis| {
                let (ss, df) = about_their_means(shots, &segment[at..], axis);
                df >= SPARE && under(ss, df, limit)
            });
        tight.then_some(at)
    })
}

/// The plain comparison comes first: it is the cheap one, and needed anyway.
fn over(ss: f64, df: usize, limit: f64) -> bool {
    let df = df as f64;
    ss > df * limit * limit && ss > quantile::chi_squared(WILD_SURE, df) * limit * limit
}

fn under(ss: f64, df: usize, limit: f64) -> bool {
    let df = df as f64;
    ss < df * limit * limit && ss < quantile::chi_squared(1.0 - TIGHT_SURE, df) * limit * limit
}

/// Sum of squares about the mean of each setting and distance, and the
/// readings it leaves to spare: further from the paper the tear is another.
fn about_their_means(shots: &[ShotAt], which: &[usize], axis: usize) -> (f64, usize) {
    let value = |i: usize| [shots[i].shot.right, shots[i].shot.up][axis];
    let (mut ss, mut df) = (0.0, 0);
    let place = |i: &usize| (shots[*i].setting, shots[*i].distance);
    for group in which.chunk_by(|a, b| place(a) == place(b)) {
        let n = group.len() as f64;
        let mean = group.iter().map(|i| value(*i)).sum::<f64>() / n;
        ss += group
            .iter()
            .map(|i| (value(*i) - mean).powi(2))
            .sum::<f64>();
        df += group.len() - 1;
    }
    (ss, df)
}

/// How many shots were before the latest mending of a rest that did nothing
/// or whose tears jumped: they count for nothing since.
pub(crate) fn shots_before_mending(timeline: &Timeline) -> usize {
    rest_mended(timeline).map_or(0, |a| a.shots_before)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;
    use crate::session::{Entry, Event, Shot};

    fn found(tears: &[(f64, f64)]) -> Vec<usize> {
        found_at(&[(tears, None)])
    }

    type FromThere<'a> = (&'a [(f64, f64)], Option<&'a str>);

    /// Shots from one distance after another; none is the card's own.
    fn found_at(parts: &[FromThere<'_>]) -> Vec<usize> {
        let card = CardText::from_toml(crate::fixtures::COMPOUND).unwrap();
        let shots = parts.iter().flat_map(|(tears, distance)| {
            tears.iter().map(|(right, up)| Shot {
                right: *right,
                up: *up,
                distance: distance.map(str::to_owned),
                ..Shot::default()
            })
        });
        let entries: Vec<Entry> = (1..)
            .zip(shots)
            .map(|(n, shot)| Entry::now(n, Event::Shot(shot)))
            .collect();
        let timeline = Timeline::new(&card, &entries).unwrap();
        let fliers = crate::advice::fliers::find(&timeline);
        cures(&timeline, Shooter::Owner, &fliers)
    }

    const WILD: [(f64, f64); 6] = [
        (-30.0, -10.0),
        (22.0, 15.0),
        (-8.0, -25.0),
        (31.0, 4.0),
        (-18.0, 22.0),
        (25.0, -14.0),
    ];
    const TIGHT: [(f64, f64); 6] = [
        (-3.0, 1.0),
        (-5.0, 2.0),
        (-4.0, 0.0),
        (-6.0, -1.0),
        (-2.0, 2.0),
        (-4.0, 1.0),
    ];

    #[test]
    fn six_tight_shots_after_wild_ones_are_a_cure_and_five_are_not() {
        let all = [WILD, TIGHT].concat();
        assert_eq!(found(&all), [6]);
        assert!(found(&all[..11]).is_empty());
    }

    #[test]
    fn shots_that_always_repeated_are_no_cure() {
        assert!(found(&[TIGHT, TIGHT, TIGHT].concat()).is_empty());
        assert!(found(&[WILD, WILD].concat()).is_empty());
    }

    #[test]
    fn a_single_flier_or_another_distance_is_no_scatter_that_was_cured() {
        let flier = [&TIGHT[..], &[(90.0, 0.0)], &TIGHT, &TIGHT].concat();
        assert!(found(&flier).is_empty(), "{:?}", found(&flier));
        let far = TIGHT.map(|(right, up)| (right - 40.0, up));
        let parts = [(&TIGHT[..], None), (&far[..], Some("4.5 m"))];
        let back = [parts[0], parts[1], parts[0]];
        assert!(found_at(&back).is_empty(), "{:?}", found_at(&back));
    }

    #[test]
    fn wild_shots_come_back_and_can_be_cured_again() {
        assert_eq!(found(&[WILD, TIGHT, WILD, TIGHT].concat()), [6, 18]);
    }
}
