//! When all the shots came from one arrow: is it that arrow, or the bow?
//!
//! Two others of the set answer it, by their shots or in words. If they tear
//! as the first did, it is the bow; if both stand off from it, the first is
//! odd and its shots are set aside, two against one.

use std::collections::BTreeMap;

use crate::belief::{Belief, Obs, Place, Prior, same_distance};
use crate::gear::Release;
use crate::question::{Answer, Test as Asked};
use crate::session::{ShotAt, Timeline};
use crate::tuner::probe::{OTHER_ARROWS, Question, Telling, Test, worth_asking};

/// Shots from one numbered arrow before the question can arise.
const ALONE: usize = 4;

/// How the question stands.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Standing {
    /// It does not arise: arrows are not numbered, or several were shot.
    Open,
    /// Every shot came from the arrow with this mark.
    Alone(String),
    /// Another arrow or two were shot since, which do not settle it yet.
    Begun(String),
    /// Others tear as it does.
    Same,
    /// Others do not: this arrow is odd.
    Odd(String),
}

/// What tells the two apart with this release, if well enough to be asked for.
pub(super) fn telling(release: Release) -> Option<Telling> {
    worth_asking(Test::OtherArrows, Question::OddArrow, release)
}

/// How it stands after these shots; `shots` are the timeline's, as numbers.
///
/// It is settled where another arrow is first shot, after earlier settings
/// that saw one alone, and stays settled when the rest moves on. The order of
/// the shots at a setting does not matter.
pub(super) fn standing(
    timeline: &Timeline,
    shots: &[Obs],
    prior: &Prior,
    here: &Place,
) -> Standing {
    let Some(telling) = telling(timeline.card.bow.release) else {
        return Standing::Open;
    };
    if let Some(said) = in_words(timeline) {
        return said;
    }
    let counts: Vec<usize> = (0..shots.len())
        .filter(|i| counted(&timeline.shots[*i], &shots[*i], here))
        .collect();
    let mark = |i: usize| timeline.shots[i].shot.arrow.as_deref();
    let Some(first) = counts.first().and_then(|i| mark(*i)) else {
        return Standing::Open;
    };
    let Some(new) = counts.iter().find(|i| mark(**i) != Some(first)) else {
        let alone = counts.len() >= ALONE;
        return if alone {
            Standing::Alone(first.to_owned())
        } else {
            Standing::Open
        };
    };
    let place = &shots[*new].place;
    let setting = timeline.shots[*new].setting;
    let at = |i: &&usize| timeline.shots[**i].setting == setting;
    let earlier = counts.iter().take_while(|i| !at(i)).count();
    let there: Vec<usize> = counts[earlier..].iter().take_while(at).copied().collect();
    let (own, others): (Vec<usize>, Vec<usize>) =
        there.iter().partition(|i| mark(**i) == Some(first));
    let numbered = others.iter().all(|i| mark(*i).is_some());
    if earlier == 0 || earlier + own.len() < ALONE || !numbered {
        return Standing::Open;
    }
    let own: Vec<Obs> = counts[..earlier]
        .iter()
        .chain(&own)
        .map(|i| shots[*i].clone())
        .collect();
    let tears: Vec<(&str, [f64; 2])> = others
        .iter()
        .filter_map(|i| Some((mark(*i)?, shots[*i].tear)))
        .collect();
    let mean = Belief::fit(prior, &own, own[0].place.shooter).tear(&Place {
        shooter: own[0].place.shooter,
        ..place.any_arrow()
    });
    match compare(mean.mean, &tears, telling.limit_mm) {
        Some(true) => Standing::Same,
        Some(false) => Standing::Odd(first.to_owned()),
        None if setting == timeline.setting_index() => Standing::Begun(first.to_owned()),
        None => Standing::Open,
    }
}

/// Same, odd, or not to be told yet.
fn compare(first: [f64; 2], others: &[(&str, [f64; 2])], limit: f64) -> Option<bool> {
    if others.len() < OTHER_ARROWS as usize {
        return None;
    }
    let n = others.len() as f64;
    let mean = [0, 1].map(|a| others.iter().map(|o| o.1[a]).sum::<f64>() / n);
    let off = (mean[0] - first[0]).hypot(mean[1] - first[1]);
    if off <= limit {
        return Some(true);
    }
    // Two against one: each of two others must stand nearer the other two
    // than the first does.
    let two = others.iter().any(|o| o.0 != others[0].0);
    let agree = others
        .iter()
        .all(|o| (o.1[0] - mean[0]).hypot(o.1[1] - mean[1]) < off);
    (two && agree).then_some(false)
}

fn counted(shot: &ShotAt, obs: &Obs, here: &Place) -> bool {
    let near = same_distance(obs.place.distance_m, here.distance_m);
    !shot.shot.called_bad
        && !shot.shot.bare
        && near
        && obs.place.epoch == here.epoch
        && obs.place.response_epoch == here.response_epoch
}

/// An answer in words since the arrow type was changed.
fn in_words(timeline: &Timeline) -> Option<Standing> {
    let answer = timeline.answer(Asked::Arrow)?;
    match answer.result.known() {
        Some(Answer::Same) => return Some(Standing::Same),
        Some(Answer::Odd) => {}
        // Another word, of whatever test: the shots are left to say it.
        _ => return None,
    }
    let before = timeline.shots.iter().take(answer.shots_before);
    // The one shot most: the two others were shot only to compare.
    let mut times: BTreeMap<&str, usize> = BTreeMap::new();
    for mark in before
        .filter(|s| s.arrow_epoch == timeline.arrow_epoch)
        .filter_map(|s| s.shot.arrow.as_deref())
    {
        *times.entry(mark).or_default() += 1;
    }
    let most = times.into_iter().max_by_key(|t| t.1)?;
    Some(Standing::Odd(most.0.to_owned()))
}

/// The timeline with the shots of one arrow alone.
pub(super) fn only(timeline: &Timeline, mark: &str) -> Timeline {
    let mut own = timeline.clone();
    own.shots.retain(|s| s.shot.arrow.as_deref() == Some(mark));
    own
}

/// Indices of the shots of the odd arrow: they count for nothing.
pub(super) fn set_aside(timeline: &Timeline, standing: &Standing) -> Vec<usize> {
    let Standing::Odd(mark) = standing else {
        return Vec::new();
    };
    let of_it = |s: &ShotAt| {
        s.arrow_epoch == timeline.arrow_epoch && s.shot.arrow.as_deref() == Some(mark.as_str())
    };
    (0..timeline.shots.len())
        .filter(|i| of_it(&timeline.shots[*i]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::COMPOUND;
    use crate::gear::AdjusterKind;
    use crate::session::told::Bow;
    use crate::session::{Event, Shot};

    fn shoot(bow: &mut Bow, arrow: Option<&str>, right: f64) {
        let shot = Shot {
            right,
            arrow: arrow.map(str::to_owned),
            ..Shot::default()
        };
        bow.0.record(Event::Shot(shot)).unwrap();
    }

    /// Arrow 1 at the start, then `own` shots of it and one of each of the
    /// others after a move.
    fn stands(before: usize, own: usize, others: &[Option<&str>]) -> Standing {
        let mut bow = Bow::new(COMPOUND, "right", &[]);
        (0..before).for_each(|_| shoot(&mut bow, Some("1"), -14.0));
        bow.moved(AdjusterKind::RestSideways, -2.0);
        (0..own).for_each(|_| shoot(&mut bow, Some("1"), -14.0));
        others
            .iter()
            .for_each(|arrow| shoot(&mut bow, *arrow, -13.0));
        let timeline = bow.0.timeline();
        let view = crate::advice::view::View::of(timeline);
        standing(timeline, &view.shots, &view.prior, &view.here)
    }

    #[test]
    fn others_settle_it_after_four_shots_of_one_arrow_at_an_earlier_setting() {
        let both = [Some("2"), Some("3")];
        assert_eq!(stands(3, 1, &both), Standing::Same);
        assert_eq!(stands(2, 1, &both), Standing::Open);
        // No earlier setting saw it alone.
        assert_eq!(stands(0, 4, &both), Standing::Open);
        assert_eq!(stands(3, 1, &[Some("2"), None]), Standing::Open);
        assert_eq!(stands(3, 1, &[Some("2")]), Standing::Begun("1".into()));
        assert_eq!(stands(4, 0, &[]), Standing::Alone("1".into()));
        assert_eq!(stands(3, 0, &[]), Standing::Open);
    }

    #[test]
    fn two_others_that_agree_make_the_first_odd_and_one_alone_cannot() {
        let a = |mark, right: f64| (mark, [right, 0.0]);
        assert_eq!(
            compare([20.0, 0.0], &[a("2", 17.0), a("3", 22.0)], 8.0),
            Some(true)
        );
        assert_eq!(
            compare([20.0, 0.0], &[a("2", 2.0), a("3", 0.0)], 8.0),
            Some(false)
        );
        assert_eq!(compare([20.0, 0.0], &[a("2", 2.0), a("2", 0.0)], 8.0), None);
        // On the other side of nothing, and up and down; 8 mm apart are alike.
        for side in [1.0, -1.0] {
            let across = [a("2", -side * 5.0), a("3", -side * 6.0)];
            assert_eq!(compare([side * 5.0, 0.0], &across, 8.0), Some(false));
            let up = |up: f64| ("2", [0.0, up]);
            let beside = [up(-side * 5.0), ("3", [0.0, -side * 4.0])];
            assert_eq!(compare([0.0, side * 5.0], &beside, 8.0), Some(false));
            let alike = [a("2", -side * 4.0), a("3", -side * 4.0)];
            assert_eq!(compare([side * 4.0, 0.0], &alike, 8.0), Some(true));
            assert_eq!(compare([side * 4.1, 0.0], &alike, 8.0), Some(false));
        }
        assert_eq!(
            compare([20.0, 0.0], &[a("2", -22.0), a("3", 22.0)], 8.0),
            None
        );
    }
}
