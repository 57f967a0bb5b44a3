//! The running record: what was believed after each shot, and how the
//! verdict was reached.

use super::outcome::{Outcome, rms};
use super::reading::Reading;
use super::types::{Reckoned, TrackPoint, Verdict};
use crate::belief::{Belief, Obs, Place, Prior};
use crate::checks::response::Known;
use crate::tear::Tear;
use crate::tuner::{Task, forecast};

/// How many of the latest shots get a point: what the widest screen shows.
const POINTS: usize = 80;

/// The points of the running record as they were worked out last, with what
/// they rest on: a shot more costs one point more, not all of them again.
#[derive(Debug, Default)]
pub struct Memo {
    basis: Option<(Prior, Task, f64)>,
    shots: Vec<Obs>,
    points: Vec<Option<TrackPoint>>,
}

impl Memo {
    /// One point for each shot of the timeline that was worked out last, in
    /// order; `None` for a shot that says nothing of the mean (called bad),
    /// and for those farther back than any screen shows.
    pub fn points(&self) -> &[Option<TrackPoint>] {
        &self.points
    }

    /// How many of the first points still hold.
    fn holds(&self, reading: &Reading<'_>) -> usize {
        let view = &reading.view;
        let same = self.basis.as_ref().is_some_and(|(prior, task, distance)| {
            *prior == view.prior && *task == view.task && *distance == view.here.distance_m
        });
        let alike = self.shots.iter().zip(&view.shots);
        if same {
            alike.take_while(|(a, b)| a == b).count()
        } else {
            0
        }
    }
}

/// Brings the memo up to the timeline: one point for each shot, those that
/// still hold as they are.
pub(super) fn renew(reading: &Reading<'_>, memo: &mut Memo) {
    let view = &reading.view;
    let shots = &view.shots;
    let first = shots.len().saturating_sub(POINTS);
    let holds = memo.holds(reading);
    let points: Vec<Option<TrackPoint>> = (0..shots.len())
        .map(|i| {
            let kept = memo.points.get(i).copied().flatten().filter(|_| i < holds);
            (i >= first && !shots[i].called_bad)
                .then(|| kept.unwrap_or_else(|| point(reading, &shots[..=i])))
        })
        .collect();
    memo.basis = Some((view.prior.clone(), view.task.clone(), view.here.distance_m));
    memo.shots.truncate(holds);
    memo.shots.extend_from_slice(&shots[holds..]);
    memo.points = points;
}

fn point(reading: &Reading<'_>, shots: &[Obs]) -> TrackPoint {
    let last = &shots[shots.len() - 1].place;
    let at = Place {
        arrow: None,
        bare: false,
        distance_m: reading.view.here.distance_m,
        ..last.clone()
    };
    // After the last shot it is the belief the verdict rests on, if it is
    // about the same shooter.
    let whole = shots.len() == reading.view.shots.len() && reading.belief.judged == at.shooter;
    let fitted = (!whole).then(|| Belief::fit(&reading.view.prior, shots, at.shooter));
    let belief = fitted.as_ref().unwrap_or(&reading.belief);
    let tear = belief.tear(&at);
    let aim = reading.view.task.aim;
    let length = Tear::new(tear.mean[0] - aim[0], tear.mean[1] - aim[1]).length();
    let sd = rms(tear.sd[0], tear.sd[1]);
    TrackPoint {
        right: tear.mean[0],
        up: tear.mean[1],
        // About nine in ten of a plane's spread lies within 1.6 of its per-axis sd each way.
        band: ((length - 1.6 * sd).max(0.0), length + 1.6 * sd),
        within: belief.probability_within(&at, aim, reading.view.task.tolerance),
    }
}

/// How the verdict was reached, line by line.
pub(super) fn reckoning(reading: &Reading<'_>, outcome: &Outcome) -> Vec<Reckoned> {
    let mut lines = Vec::new();
    let (task, decision) = (&reading.view.task, &reading.decision);
    if reading.known() {
        let tear = reading.belief.tear(&reading.track.here);
        let sd = rms(tear.sd[0], tear.sd[1]);
        lines.push(Reckoned::LikelyTear(reading.mean(), sd));
        // Beside a refusal or a stop no chance of success stands.
        if !matches!(outcome.verdict, Verdict::Refuse | Verdict::Stop) {
            lines.push(Reckoned::Chance {
                tolerance: task.tolerance,
                here: decision.here,
                best: decision.best.chance.max(decision.here),
            });
            lines.extend(last_shot(reading).map(Reckoned::BeforeLastShot));
            let once_more = forecast::odds_of_done(&reading.belief, task, &reading.track);
            lines.push(Reckoned::OneMoreShot(once_more));
        }
    }
    lines.extend(reading.gains.iter().map(|(kind, gain, used)| {
        let known = Known {
            kind: *kind,
            gain: *gain,
        };
        Reckoned::Response(known, *used)
    }));
    lines.extend(super::lean::about(reading.timeline).map(Reckoned::LeansOn));
    let learned = reading.timeline.learned.clone();
    lines.extend(learned.map(Reckoned::EarlierBows));
    lines.extend(bad_shots(reading));
    if outcome.verdict == Verdict::Move {
        lines.push(Reckoned::WhySize(decision.best.chance));
    }
    lines
}

/// The chance of being within tolerance before the last shot.
fn last_shot(reading: &Reading<'_>) -> Option<f64> {
    let shots = &reading.view.shots;
    let before = shots.len().checked_sub(1).filter(|n| *n > 0)?;
    let shooter = reading.view.here.shooter;
    let belief = Belief::fit(&reading.view.prior, &shots[..before], shooter);
    let task = &reading.view.task;
    Some(belief.probability_within(&reading.track.here, task.aim, task.tolerance))
}

fn bad_shots(reading: &Reading<'_>) -> Vec<Reckoned> {
    let shots = &reading.timeline.shots;
    (0..shots.len())
        .filter_map(|i| Some((i, reading.belief.shot_bad(i)?)))
        .filter(|(_, p)| *p >= 0.5)
        .map(|(i, p)| Reckoned::BadShot(i + 1, shots[i].entry, p))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{analyse, analyse_after, running_record};
    use crate::range::Today;
    use crate::session::{Event, Session, Shot};

    #[test]
    fn a_stop_has_no_chance_of_success_on_its_page() {
        let chances = |events: &[Event]| {
            let card = crate::gear::CardText::from_toml(crate::fixtures::PLAIN_COMPOUND).unwrap();
            let mut session = Session::from_text(&card.to_toml()).unwrap();
            for event in events {
                session.record(event.clone()).unwrap();
            }
            let lines = analyse(session.timeline(), Today::now()).reckoning;
            let chance = |r: &&Reckoned| {
                matches!(
                    r,
                    Reckoned::Chance { .. }
                        | Reckoned::BeforeLastShot(_)
                        | Reckoned::OneMoreShot(_)
                        | Reckoned::WhySize(_)
                )
            };
            lines.iter().filter(chance).count()
        };
        let shots = [-9.0, -8.0].map(|right| {
            Event::Shot(Shot {
                right,
                ..Shot::default()
            })
        });
        let incident = Event::Incident {
            what: "dry fire".into(),
        };
        assert_eq!(chances(&shots), 3);
        assert_eq!(chances(&[&shots[..], &[incident]].concat()), 0);
    }

    #[test]
    fn a_point_is_of_a_fletched_arrow_at_the_papers_own_distance() {
        let mut session = Session::from_text(crate::fixtures::PLAIN_COMPOUND).unwrap();
        let shot = |right: f64, from: Option<&str>, bare: bool| {
            let distance = from.map(|text| text.parse().unwrap());
            Event::Shot(Shot {
                right,
                distance,
                bare,
                ..Shot::default()
            })
        };
        for right in [-9.0, -8.0, -9.0] {
            session.record(shot(right, None, false)).unwrap();
        }
        for right in [20.0, 21.0, 20.0] {
            session.record(shot(right, Some("3 m"), false)).unwrap();
        }
        for right in [30.0, 31.0] {
            session.record(shot(right, None, true)).unwrap();
        }
        for bad in [true, false] {
            session
                .record(Event::Shot(Shot {
                    right: -9.0,
                    called_bad: bad,
                    ..Shot::default()
                }))
                .unwrap();
        }
        let points = running_record(session.timeline());
        assert_eq!(points.len(), 10);
        for (i, point) in points.iter().enumerate() {
            assert_eq!(point.is_none(), i == 8, "{i}");
            let right = point.map_or(-9.0, |p| p.right);
            assert!((-11.0..-6.0).contains(&right), "{i}: {right}");
        }
    }

    #[test]
    fn what_is_kept_in_the_memo_is_what_is_worked_out_afresh() {
        let text = include_str!("../../sample-sessions/half-way.toml");
        let mut session = Session::from_text(text).unwrap();
        let mut memo = Memo::default();
        let shot = |right: f64| {
            Event::Shot(Shot {
                right,
                up: 3.0,
                ..Shot::default()
            })
        };
        let distance =
            |text: &str| Event::card([("paper.distance".to_owned(), text.to_owned())].into());
        let events = [
            Some(shot(-9.0)),
            Some(shot(-8.0)),
            // A slip of the finger changes what the shots before it count for.
            Some(shot(80.0)),
            None,
            Some(distance("2.5 m")),
            Some(shot(-7.0)),
            None,
            None,
        ];
        for event in events {
            match event {
                Some(event) => vec![session.record(event).unwrap()],
                None => session.undo().unwrap(),
            };
            let fresh = analyse(session.timeline(), Today::now());
            let kept = analyse_after(session.timeline(), Today::now(), &mut memo);
            assert_eq!(memo.points(), running_record(session.timeline()));
            assert_eq!(kept.advice, fresh.advice);
        }
    }
}
