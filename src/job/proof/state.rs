//! The stages with how each stands, and the paper check a move asks for.

use super::impacts::{FaceUnit, ImpactError, read_impacts};
use super::judge::{StageVerdict, assess};
use super::stage::{GroupKind, Stage};
use crate::advice::{self, Analysis};
use crate::question::{Answer, Question, Said, Work};
use crate::session::{Event, Impact, Timeline};
use crate::setup;
use crate::step::State;
use crate::units::{Length, QuantityError};

/// One stage with its verdict.
#[derive(Debug, Clone, PartialEq)]
pub struct StageState {
    /// The verdict.
    pub verdict: StageVerdict,
    /// Usual for this kind of bow.
    pub usual: bool,
    /// Optional for this kind of bow.
    pub optional: bool,
    /// Something of it was shot, or it was left out.
    pub begun: bool,
}

impl StageState {
    /// Whether the list names it: what this kind of bow is not asked for
    /// stands there only once something of it is on record.
    pub const fn is_listed(&self) -> bool {
        self.usual || self.optional || self.begun
    }
}

/// Every stage, in order.
pub fn stages(timeline: &Timeline, analysis: &Analysis) -> Vec<StageState> {
    Stage::ALL
        .into_iter()
        .map(|stage| {
            let verdict = assess(timeline, analysis, stage);
            let mut groups = timeline.groups.iter();
            let shot = groups.any(|g| g.proof.known() == Some(stage));
            StageState {
                begun: shot || verdict.status == State::Skipped,
                usual: stage.usual(&timeline.card),
                optional: stage.optional(&timeline.card),
                verdict,
            }
        })
        .collect()
}

/// The stage to do next: the first usual one that is neither passed nor skipped.
pub fn next_stage(list: &[StageState]) -> Option<&StageState> {
    list.iter()
        .find(|s| s.usual && !s.verdict.status.is_settled())
}

/// The same without working out the stages after it.
pub(crate) fn comes_next(timeline: &Timeline, analysis: &Analysis) -> Option<Stage> {
    let usual = |stage: &Stage| stage.usual(&timeline.card);
    let open = |stage: &Stage| !assess(timeline, analysis, *stage).status.is_settled();
    Stage::ALL.into_iter().filter(usual).find(open)
}

/// Whether paper is inside tolerance, so that proof has something to prove.
pub fn ready(analysis: &Analysis) -> bool {
    analysis.advice.verdict == advice::Verdict::Done
}

/// Whether a move made during proof, or other work on the bow, still asks for
/// its one paper check: a fletched shot through paper, not called bad, since.
pub fn paper_check_due(timeline: &Timeline) -> bool {
    let moved = timeline.moves.last().map_or(0, |m| m.place);
    let changed = moved.max(setup::bow_changed(timeline));
    if changed == 0 {
        return false;
    }
    let in_proof = timeline
        .groups
        .iter()
        .any(|g| g.entry < changed && g.proof.known().is_some_and(|s| s > Stage::RoughSight));
    let checked = timeline
        .shots
        .iter()
        .any(|s| s.entry >= changed && !s.shot.called_bad && !s.shot.bare);
    in_proof && !checked
}

/// The entries that record that what a stage asked for was done to the bow:
/// groups shot before it are no longer counted.
///
/// # Errors
/// A stage that asks for nothing of the kind.
pub(crate) fn record_done(stage: Stage) -> Result<Vec<Event>, AsksForAMove> {
    match stage {
        Stage::Creep => Ok(setup::work_done(Work::PressWork)),
        Stage::Torque => Ok(setup::work_done(Work::RestForeAft)),
        other => Err(AsksForAMove(other)),
    }
}

/// A stage whose finding asks for a move of an adjuster, not for other work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct AsksForAMove(pub(crate) Stage);

/// Why a group is not taken; said in [`crate::words`].
#[derive(Debug, Clone, PartialEq)]
pub enum GroupRefused {
    /// The stage is answered in a word and not shot.
    Answered(Stage),
    /// What was shot does not belong to the stage.
    NotShotHere(Said<GroupKind>, Stage),
    /// The distance cannot be read.
    Distance(QuantityError),
    /// The distance, as it was typed, is none to shoot a group from.
    NoSuchDistance(String),
    /// An impact cannot be read.
    Impact(ImpactError),
    /// Nothing is marked on the face.
    NoMark,
}

/// The entry that records a group.
///
/// # Errors
/// What was shot does not belong to the stage, the distance or an impact
/// cannot be read.
pub fn record_group(
    stage: Stage,
    what: &Said<GroupKind>,
    distance: &str,
    impacts: &str,
    unit: FaceUnit,
) -> Result<Event, GroupRefused> {
    let what = shot_at(stage, what, distance)?;
    let impacts = read_impacts(impacts, unit).map_err(GroupRefused::Impact)?;
    Ok(group(stage, what, distance, impacts))
}

/// The entry that records a group as it was marked on a face.
///
/// # Errors
/// What was shot does not belong to the stage, the distance cannot be read, or
/// nothing is marked.
pub(crate) fn record_marks(
    stage: Stage,
    what: GroupKind,
    distance: &str,
    impacts: Vec<Impact>,
) -> Result<Event, GroupRefused> {
    let what = shot_at(stage, &what.into(), distance)?;
    if impacts.is_empty() {
        return Err(GroupRefused::NoMark);
    }
    Ok(group(stage, what, distance, impacts))
}

fn group(stage: Stage, what: GroupKind, distance: &str, impacts: Vec<Impact>) -> Event {
    Event::Group {
        proof: stage.into(),
        what: what.into(),
        distance: distance.trim().into(),
        impacts,
    }
}

/// What was shot, if it belongs to the stage and the distance is one.
fn shot_at(
    stage: Stage,
    what: &Said<GroupKind>,
    distance: &str,
) -> Result<GroupKind, GroupRefused> {
    let known = what.known().filter(|what| stage.whats().contains(what));
    let known = known.ok_or_else(|| match stage.whats() {
        [] => GroupRefused::Answered(stage),
        _ => GroupRefused::NotShotHere(what.clone(), stage),
    })?;
    let length = Length::parse(distance).map_err(GroupRefused::Distance)?;
    if !DISTANCES_M.contains(&length.m()) {
        return Err(GroupRefused::NoSuchDistance(distance.into()));
    }
    Ok(known)
}

/// From where a group can be shot, m.
pub(crate) const DISTANCES_M: std::ops::RangeInclusive<f64> = 1.0..=120.0;

/// The entry that leaves a stage out knowingly.
pub fn skip(stage: Stage) -> Event {
    Event::answer(Question::Stage(stage), Answer::Skipped)
}

#[cfg(test)]
mod tests {
    use super::super::found::{AimFound, Found};
    use super::super::tests::group;
    use super::super::{By, Rests, Rule};
    use super::*;
    use crate::gear::AdjusterKind;
    use crate::range::Today;
    use crate::session::{Shot, told};
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::step::State;

    fn answer(test: &str, result: &str) -> Event {
        Event::answer(test, result)
    }

    fn moved(amount: f64) -> Event {
        told::moved(AdjusterKind::RestSideways, amount)
    }

    fn verdict(card: &str, events: Vec<Event>, stage: Stage) -> StageVerdict {
        let t = timeline(card, events);
        assess(&t, &advice::analyse(&t, Today::now()), stage)
    }

    const TIGHT: [(f64, f64); 3] = [(0.0, 8.0), (-9.0, -5.0), (9.0, -3.0)];

    fn shifted(by: (f64, f64)) -> Vec<(f64, f64)> {
        TIGHT.iter().map(|(r, u)| (r + by.0, u + by.1)).collect()
    }

    #[test]
    fn levels_come_first_and_the_diagonal_waits_for_them() {
        let t = timeline(COMPOUND, vec![]);
        let list = stages(&t, &advice::analyse(&t, Today::now()));
        assert_eq!(next_stage(&list).unwrap().verdict.stage, Stage::Levels);
        assert_eq!(
            verdict(COMPOUND, vec![], Stage::WalkBack).status,
            State::LevelsFirst
        );
        assert_eq!(
            verdict(COMPOUND, vec![answer("levels", "ok")], Stage::Levels).status,
            State::Ok
        );
    }

    #[test]
    fn bare_shafts_that_land_with_the_rest_pass_and_far_ones_do_not() {
        let near = vec![
            group("bare-shaft", "fletched", "18 m", &TIGHT),
            group("bare-shaft", "bare", "18 m", &shifted((10.0, 5.0))),
        ];
        assert_eq!(verdict(COMPOUND, near, Stage::BareShaft).status, State::Ok);
        let far = vec![
            group("bare-shaft", "fletched", "18 m", &TIGHT),
            group("bare-shaft", "bare", "18 m", &shifted((-140.0, 5.0))),
        ];
        let off = verdict(COMPOUND, far, Stage::BareShaft);
        assert_eq!(off.status, State::Off);
        assert!(off.difference().unwrap().chance.unwrap() < 0.05);
        // Nothing shot on paper: which way is open, so it is a test move.
        let suggestion = off.suggestion().unwrap();
        assert_eq!(suggestion.step().adjuster, AdjusterKind::RestSideways);
        assert_eq!((suggestion.odds(), suggestion.test()), (None, true));
        assert_eq!(suggestion.rests, Rests::OnRule(Rule::TowardFletched));
    }

    #[test]
    fn wide_groups_ask_for_more_shots_before_anything_is_said() {
        let wide = |by: f64| -> Vec<(f64, f64)> {
            vec![(by, 60.0), (by - 70.0, -50.0), (by + 80.0, -20.0)]
        };
        let found = verdict(
            COMPOUND,
            vec![
                group("bare-shaft", "fletched", "18 m", &wide(0.0)),
                group("bare-shaft", "bare", "18 m", &wide(-45.0)),
            ],
            Stage::BareShaft,
        );
        assert_eq!(found.status, State::ShootMore);
        assert!(found.shots_wanted > 0 && found.correction.is_none());
    }

    #[test]
    fn how_the_groups_answered_overrules_the_usual_rule() {
        // Rest moved right 1 mm, and the broadheads that landed left went farther left.
        let events = vec![
            group("broadhead", "field", "18 m", &TIGHT),
            group("broadhead", "broadhead", "18 m", &shifted((-90.0, 0.0))),
            moved(1.0),
            group("broadhead", "field", "18 m", &TIGHT),
            group("broadhead", "broadhead", "18 m", &shifted((-160.0, 0.0))),
        ];
        let found = verdict(COMPOUND, events, Stage::Broadhead);
        let found = found.suggestion().unwrap();
        assert!(found.step().amount < 0.0, "{found:?}");
        let Rests::Shown { by, rule, .. } = found.rests else {
            panic!("{found:?}")
        };
        assert_eq!(by, By::Groups);
        assert_eq!(rule, Some((Rule::TowardFieldPoints, false)));
        assert!(found.odds().unwrap() > 0.9 && !found.test());
    }

    #[test]
    fn bare_high_calls_for_the_nocking_point_up_or_the_rest_down() {
        let high = |card: &str| {
            verdict(
                card,
                vec![
                    group("bare-shaft", "fletched", "18 m", &TIGHT),
                    group("bare-shaft", "bare", "18 m", &shifted((0.0, 260.0))),
                ],
                Stage::BareShaft,
            )
            .suggestion()
            .unwrap()
            .step()
        };
        let rest = high(COMPOUND);
        assert_eq!(rest.adjuster, AdjusterKind::RestHeight);
        assert!(rest.amount < 0.0, "{rest:?}");
        let nock = high(RECURVE);
        assert_eq!(nock.adjuster, AdjusterKind::NockingPoint);
        assert!(nock.amount > 0.0, "{nock:?}");
    }

    #[test]
    fn a_leaning_column_suggests_a_sixteenth_and_a_straight_one_passes() {
        let column = |lean: f64| {
            let mut events = vec![answer("levels", "ok")];
            for m in [18.0, 27.0, 32.0, 36.0] {
                let x = lean * (m - 18.0);
                events.push(group(
                    "walk-back",
                    "fletched",
                    &format!("{m} m"),
                    &[(x - 6.0, 0.0), (x + 6.0, -2.0), (x, 3.0)],
                ));
            }
            verdict(COMPOUND, events, Stage::WalkBack)
        };
        assert_eq!(column(0.0).status, State::Ok);
        let off = column(8.0);
        assert_eq!(off.status, State::Off, "{:?}", off.found);
        let step = off.suggestion().unwrap().step();
        assert_eq!(
            (step.adjuster, step.amount),
            (AdjusterKind::RestSideways, -1.5)
        );
    }

    #[test]
    fn the_wider_group_is_put_back_to_the_narrower_setting() {
        let scale = |k: f64| -> Vec<(f64, f64)> {
            [
                (1.0, 0.5),
                (-1.0, 0.3),
                (0.2, -1.0),
                (-0.4, 0.9),
                (0.8, -0.6),
                (-0.6, -0.1),
            ]
            .iter()
            .map(|(x, y)| (k * x, k * y))
            .collect()
        };
        let found = verdict(
            COMPOUND,
            vec![
                group("groups", "fletched", "18 m", &scale(20.0)),
                moved(0.75),
                group("groups", "fletched", "18 m", &scale(60.0)),
            ],
            Stage::Groups,
        );
        assert_eq!(found.status, State::Off, "{:?}", found.found);
        assert_eq!(
            crate::words::put_back_command(&found.put_back.unwrap()),
            "rest left 0.75 mm"
        );
    }

    #[test]
    fn the_final_sight_moves_toward_the_miss_in_clicks() {
        let found = verdict(
            COMPOUND,
            vec![
                told::measured("eye-to-pin", "33 in"),
                told::measured("sight-click", "0.2 mm"),
                group("final-sight", "fletched", "20 yd", &shifted((-50.8, 0.0))),
            ],
            Stage::FinalSight,
        );
        assert_eq!(found.status, State::Off, "{:?}", found.found);
        let Found::Aim(AimFound {
            sight: Some(sight), ..
        }) = found.found
        else {
            panic!("{found:?}")
        };
        // 50.8 mm off at 18.288 m with the pin 838 mm from the eye: 2.33 mm.
        assert!((sight.right.mm + 2.328).abs() < 1e-3, "{sight:?}");
        assert_eq!((sight.right.clicks, sight.up.clicks), (Some(-12), Some(0)));
        let on = verdict(
            COMPOUND,
            vec![group("final-sight", "fletched", "20 yd", &TIGHT)],
            Stage::FinalSight,
        );
        assert_eq!(on.status, State::Ok, "{:?}", on.found);
    }

    #[test]
    fn a_move_made_in_proof_asks_for_one_paper_check() {
        let shot = || Event::Shot(Shot::default());
        let proof = || group("bare-shaft", "bare", "18 m", &TIGHT);
        assert!(!paper_check_due(&timeline(
            COMPOUND,
            vec![shot(), moved(0.5)]
        )));
        assert!(paper_check_due(&timeline(
            COMPOUND,
            vec![proof(), moved(0.5)]
        )));
        assert!(!paper_check_due(&timeline(
            COMPOUND,
            vec![proof(), moved(0.5), shot()]
        )));
    }

    #[test]
    fn a_group_is_read_with_its_distance_and_kind() {
        let event = record_group(
            Stage::BareShaft,
            &"bare".into(),
            "20 yd",
            "3 left; 2 left 1 high",
            FaceUnit::Inch,
        )
        .unwrap();
        let Event::Group { impacts, .. } = event else {
            panic!("a group")
        };
        assert!((impacts[0].right + 76.2).abs() < 1e-9);
        let refused = |stage, what: &str, distance, text| {
            record_group(stage, &what.into(), distance, text, FaceUnit::Cm).unwrap_err()
        };
        let (shot, groups) = (Stage::BareShaft, Stage::Groups);
        assert_eq!(
            refused(shot, "broadhead", "20 yd", "spot"),
            GroupRefused::NotShotHere(GroupKind::Broadhead.into(), shot)
        );
        assert_eq!(
            refused(Stage::Levels, "fletched", "20 yd", "spot"),
            GroupRefused::Answered(Stage::Levels)
        );
        assert!(matches!(
            refused(groups, "fletched", "20", "spot"),
            GroupRefused::Distance(_)
        ));
        for far in ["900 m", "0.9 m", "120.1 m"] {
            let none = GroupRefused::NoSuchDistance(far.into());
            assert_eq!(refused(groups, "fletched", far, "spot"), none);
        }
        for near in ["1 m", "120 m"] {
            let what = GroupKind::Fletched.into();
            assert!(record_group(groups, &what, near, "spot", FaceUnit::Cm).is_ok());
        }
        assert!(matches!(
            refused(groups, "fletched", "20 m", "nowhere"),
            GroupRefused::Impact(_)
        ));
    }

    #[test]
    fn a_stage_left_out_and_shot_all_the_same_is_judged_by_its_groups() {
        let hits = [(0.0, 5.0), (4.0, -3.0), (-4.0, -2.0)];
        let shot = || ["fletched", "bare"].map(|what| group("bare-shaft", what, "18 m", &hits));
        let after = [vec![skip(Stage::BareShaft)], shot().to_vec()].concat();
        let found = verdict(COMPOUND, after, Stage::BareShaft);
        assert_ne!(found.status, State::Skipped);
        assert!(found.difference().is_some());
        let before = [shot().to_vec(), vec![skip(Stage::BareShaft)]].concat();
        let found = verdict(COMPOUND, before, Stage::BareShaft);
        assert_eq!(found.status, State::Skipped);
        let level = Event::answer("levels", "ok");
        let found = verdict(COMPOUND, vec![skip(Stage::Levels), level], Stage::Levels);
        assert_eq!(found.status, State::Ok);
    }

    #[test]
    fn a_skipped_stage_is_on_the_record() {
        let found = verdict(COMPOUND, vec![skip(Stage::WalkBack)], Stage::WalkBack);
        assert_eq!(found.status, State::Skipped);
    }
}
