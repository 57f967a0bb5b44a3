//! The move that a stage suggests, and what it rests on.
//!
//! The rule of the trade decides until this bow has answered, and the move is
//! then a test. What this bow has shown is only what its own moves have
//! shown: how earlier groups of the same stage answered to the adjuster, else
//! how the tears on paper answered to it. Where the bow and the rule both
//! speak, both are named, and the bow decides. Where neither speaks, the way
//! is called a test and nothing more.

use super::rule::{Rule, rule_of};
use super::stage::Stage;
use crate::advice::Analysis;
use crate::gear::{AdjusterKind, AdjusterUnit, Axis, BenchStep, Hand, Release, Step};
use crate::session::Timeline;
use crate::setup;
use crate::stats::normal;
use crate::units::MM_PER_INCH;

/// How often the side a bow showed on paper is taken to hold at distance:
/// planing follows the tail's angle (an arrow that arrives tail right planes
/// left), but paper sees one moment of a bending arrow. An assumption, no source.
const PAPER_HOLDS: f64 = 0.8;
/// Chance of one side from which a bow is said to have shown it.
const SHOWN: f64 = 0.9;
/// The trade's small step, 1/32 in.
pub(super) const SMALL_MM: f64 = MM_PER_INCH / 32.0;
/// The trade's first step, 1/16 in.
pub(super) const FIRST_MM: f64 = MM_PER_INCH / 16.0;

/// A suggested move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suggestion {
    /// The move, with what the bench has to know of it.
    pub bench: BenchStep,
    /// What it rests on.
    pub(crate) rests: Rests,
}

impl Suggestion {
    /// The move.
    pub const fn step(&self) -> Step {
        self.bench.step
    }

    /// Chance that this is the right way, 0.5 to 1; `None` where this bow has
    /// not shown it by its own moves.
    pub const fn odds(&self) -> Option<f64> {
        match self.rests {
            Rests::Shown { odds, .. } => Some(odds),
            Rests::OnRule(_) | Rests::Nothing => None,
        }
    }

    /// A test move, to see which way this bow responds: the side is under
    /// 90 % sure.
    pub fn test(&self) -> bool {
        self.odds().is_none_or(|odds| odds < SHOWN)
    }
}

/// What the way of a suggested move rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Rests {
    /// This bow's own moves.
    Shown {
        /// What showed it.
        by: By,
        /// Chance that this way helps, 0.5 to 1.
        odds: f64,
        /// The rule of the trade, where there is one, and whether it says the
        /// same.
        rule: Option<(Rule, bool)>,
    },
    /// The rule of the trade alone.
    OnRule(Rule),
    /// Neither.
    Nothing,
}

/// What has shown which way a bow responds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum By {
    /// Groups of the same stage, before and after a move.
    Groups,
    /// Tears on paper, before and after a move.
    Paper,
}

/// Why no move is suggested.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoMove {
    /// Nothing on the card moves it that way.
    NothingMovesIt,
    /// Nothing on the card moves the centre shot.
    NothingMovesCentreShot,
    /// The card has no plunger.
    NoPlunger,
    /// The adjuster is not on the card.
    NotOnCard(AdjusterKind),
    /// The adjuster has no more travel that way.
    NoTravel(AdjusterKind),
    /// The point would stand inside the string's line, with fingers.
    InsideTheString,
    /// The nocking point would stand below square.
    BelowSquare,
}

/// How impacts stood with an adjuster at an earlier place in this stage:
/// place, offset and its standard error, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Run {
    pub place: f64,
    pub(crate) offset: f64,
    pub se: f64,
}

/// What is to be brought to nothing, and with what.
pub(super) struct Wanted<'a> {
    pub stage: Stage,
    pub kind: AdjusterKind,
    /// Offset now (bare less fletched, broadhead less field, far less near, the
    /// middle off the straight line), right or up positive, mm.
    pub(crate) offset: f64,
    /// Its standard error, mm.
    pub se: f64,
    /// Runs of this stage at other places of the adjuster, latest last.
    pub earlier: &'a [Run],
    /// Size of a first move, mm.
    pub(crate) size_mm: f64,
    /// Whether the trade has a rule for this offset.
    pub(crate) rule: bool,
}

/// The adjuster that a stage moves on an axis. With fingers the plunger's
/// tension comes before the rest where bare shafts land aside (section 5 of
/// the trade's order: cheap and reversible first).
pub(super) fn adjuster_for(timeline: &Timeline, stage: Stage, axis: Axis) -> Option<AdjusterKind> {
    let card = &timeline.card;
    if axis == Axis::Vertical {
        return card.vertical().map(|a| a.kind);
    }
    let plunger = || card.adjuster(AdjusterKind::PlungerTension);
    let rest = || {
        card.adjuster(AdjusterKind::RestSideways)
            .or_else(|| card.adjuster(AdjusterKind::CentreShot))
    };
    let fingers = card.bow.release == Release::Fingers;
    match stage {
        Stage::BareShaft if fingers => plunger().or_else(rest),
        // A line's slant is centre shot or rest, never the plunger's tension.
        Stage::WalkBack | Stage::NearFar => rest(),
        _ => rest().or_else(plunger),
    }
    .map(|a| a.kind)
}

/// What this bow's own moves have shown.
struct Shown {
    /// Chance that moving the positive way moves the impacts the positive way.
    follows: f64,
    by: By,
}

/// What this bow has shown of an adjuster by its own moves; `None` before.
fn shown(timeline: &Timeline, analysis: &Analysis, wanted: &Wanted<'_>) -> Option<Shown> {
    let now = timeline.now.get(wanted.kind);
    let sure = |p: f64| p.max(1.0 - p) >= SHOWN;
    let by_groups = wanted.earlier.iter().rev().find(|r| r.place != now);
    if let Some(run) = by_groups {
        let moved = now - run.place;
        let gain = (wanted.offset - run.offset) / moved;
        let se = (wanted.se.hypot(run.se) / moved).abs().max(1e-9);
        let follows = normal::below(gain / se);
        if sure(follows) {
            return Some(Shown {
                follows,
                by: By::Groups,
            });
        }
    }
    let planes = matches!(wanted.stage, Stage::BareShaft | Stage::Broadhead);
    let gain = analysis.advice.estimate.gain.get(&wanted.kind)?;
    let negative = gain.probability_negative;
    (planes && moved_on_paper(timeline, wanted.kind) && sure(negative)).then_some(Shown {
        follows: PAPER_HOLDS * negative + (1.0 - PAPER_HOLDS) * (1.0 - negative),
        by: By::Paper,
    })
}

/// Whether shots that count were shot through paper with the adjuster at two
/// places, with these arrows: a prior is no answer of this bow.
fn moved_on_paper(timeline: &Timeline, kind: AdjusterKind) -> bool {
    let mut places = timeline
        .shots
        .iter()
        .filter(|s| !s.shot.called_bad && s.arrow_epoch == timeline.arrow_epoch)
        .map(|s| s.positions.get(kind));
    let first = places.next();
    places.any(|place| Some(place) != first)
}

/// Which way, and what that rests on.
struct Way {
    sign: f64,
    rests: Rests,
}

fn way(shown: Option<&Shown>, rule: Option<Rule>, hand: Hand, offset: f64) -> Way {
    let against = |follows: bool| -offset.signum() * if follows { 1.0 } else { -1.0 };
    match (shown, rule) {
        (Some(shown), rule) => {
            let follows = shown.follows >= 0.5;
            Way {
                sign: against(follows),
                rests: Rests::Shown {
                    by: shown.by,
                    odds: shown.follows.max(1.0 - shown.follows),
                    rule: rule.map(|rule| (rule, rule.follows(hand) == follows)),
                },
            }
        }
        (None, Some(rule)) => Way {
            sign: against(rule.follows(hand)),
            rests: Rests::OnRule(rule),
        },
        (None, None) => Way {
            sign: 1.0,
            rests: Rests::Nothing,
        },
    }
}

/// The suggested move, or why there is none.
pub(super) fn suggest(
    timeline: &Timeline,
    analysis: &Analysis,
    wanted: &Wanted<'_>,
) -> Result<Suggestion, NoMove> {
    let (kind, card) = (wanted.kind, &timeline.card);
    let adjuster = card.adjuster(kind).ok_or(NoMove::NotOnCard(kind))?;
    let rule = wanted.rule.then(|| rule_of(wanted.stage, kind)).flatten();
    let shown = shown(timeline, analysis, wanted);
    let way = way(shown.as_ref(), rule, card.bow.hand, wanted.offset);
    let size = match kind.unit() {
        AdjusterUnit::Mm => wanted.size_mm,
        // An eighth of a turn, half a twist: one of the trade's small steps.
        _ => adjuster.step,
    };
    let amount = way.sign * adjuster.rounded(size).max(adjuster.step);
    if (timeline.now.get(kind) + amount).abs() > adjuster.range + 1e-9 {
        return Err(NoMove::NoTravel(kind));
    }
    let step = Step {
        adjuster: kind,
        amount,
    };
    match past_a_limit(timeline, &step) {
        Some(limit) => Err(limit),
        None => Ok(Suggestion {
            bench: BenchStep::of(step, card, &timeline.now),
            rests: way.rests,
        }),
    }
}

/// Limits that a suggested move never passes: with fingers the point never
/// inside the string's line, the nocking point never below square, each where
/// it was measured.
fn past_a_limit(timeline: &Timeline, step: &Step) -> Option<NoMove> {
    let measured = setup::measured_now(timeline, step.adjuster)?;
    let outward = -timeline.card.bow.hand.in_sign() * step.amount;
    match step.adjuster {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot
            if timeline.card.bow.release == Release::Fingers
                && outward < 0.0
                && measured + outward < -1e-9 =>
        {
            Some(NoMove::InsideTheString)
        }
        AdjusterKind::NockingPoint if step.amount < 0.0 && measured + step.amount < -1e-9 => {
            Some(NoMove::BelowSquare)
        }
        _ => None,
    }
}

#[cfg(test)]
mod shown_tests;
#[cfg(test)]
mod tests {
    use super::super::found::{Distances, Found};
    use super::super::tests::{command, group};
    use super::super::{StageVerdict, assess};
    use super::*;
    use crate::advice;
    use crate::range::Today;
    use crate::session::{Event, PriorGain, PriorRecord, Shot, told};
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::step::State;

    const TIGHT: [(f64, f64); 3] = [(0.0, 8.0), (-9.0, -5.0), (9.0, -3.0)];

    fn shifted(right: f64) -> Vec<(f64, f64)> {
        TIGHT.iter().map(|(r, u)| (r + right, *u)).collect()
    }

    /// 2 mm out, 3 mm high: 2 mm in and 3 mm down are the furthest.
    #[test]
    fn no_step_passes_the_strings_line_or_square_for_either_hand() {
        use AdjusterKind::{NockingPoint, RestSideways};
        let measured = |item: &str, value: &str| Event::Setup {
            item: item.into(),
            value: Some(value.into()),
            result: "ok".into(),
        };
        for (hand, inward) in [("right", 1.0), ("left", -1.0)] {
            let passes = |point, nock, adjuster, amount| {
                let card = RECURVE.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
                let at = |item, mm| measured(item, mm);
                let said = [at("centre-shot", point), at("nocking-point", nock)];
                past_a_limit(&timeline(&card, said.to_vec()), &Step { adjuster, amount }).is_some()
            };
            let rest = |mm: f64| passes("2 mm out", "3 mm high", RestSideways, mm * inward);
            assert_eq!([2.0, 2.1, -2.1].map(rest), [false, true, false], "{hand}");
            let nock = |mm| passes("2 mm out", "3 mm high", NockingPoint, mm);
            assert_eq!([-3.0, -3.1, 3.1].map(nock), [false, true, false], "{hand}");
            // Past it already: back is allowed, further is not.
            let rest = |mm: f64| passes("1 mm in", "1 mm low", RestSideways, mm * inward);
            assert_eq!([-0.5, 0.5].map(rest), [false, true], "{hand}");
            let nock = |mm| passes("1 mm in", "1 mm low", NockingPoint, mm);
            assert_eq!([0.5, -0.5].map(nock), [false, true], "{hand}");
        }
    }

    fn bare(right: f64) -> Vec<Event> {
        vec![
            group("bare-shaft", "fletched", "18 m", &TIGHT),
            group("bare-shaft", "bare", "18 m", &shifted(right)),
        ]
    }

    fn shots(rights: [f64; 3]) -> Vec<Event> {
        let shot = |right| {
            Event::Shot(Shot {
                right,
                ..Shot::default()
            })
        };
        rights.map(shot).to_vec()
    }

    fn moved(amount: f64) -> Event {
        told::moved(AdjusterKind::RestSideways, amount)
    }

    fn verdict(card: &str, events: Vec<Event>, stage: Stage) -> StageVerdict {
        let t = timeline(card, events);
        assess(&t, &advice::analyse(&t, Today::now()), stage)
    }

    /// Tears that go so many mm with each mm of rest, from 12 mm left.
    fn on_paper(gain: f64) -> Vec<Event> {
        let mut events = shots([-12.0, -11.0, -13.0]);
        events.push(moved(3.0));
        let there = -12.0 + 3.0 * gain;
        events.extend(shots([there, there + 1.0, there - 1.0]));
        events
    }

    #[test]
    fn a_prior_is_no_answer_of_this_bow() {
        let sure = Event::Prior(PriorRecord {
            model: 1,
            seed: 1,
            draws: 128,
            gains: vec![PriorGain {
                adjuster: AdjusterKind::RestSideways,
                mean: 9.0,
                sd: 0.1,
                wander: 0.1,
                negative: 0.0,
            }],
            learned: None,
        });
        let mut called_bad = on_paper(-3.0);
        for event in called_bad.iter_mut().skip(4) {
            if let Event::Shot(shot) = event {
                shot.called_bad = true;
            }
        }
        for before in [vec![], vec![sure], shots([-12.0, -11.0, -13.0]), called_bad] {
            let found = verdict(COMPOUND, [before, bare(-140.0)].concat(), Stage::BareShaft);
            let found = *found.suggestion().unwrap();
            assert_eq!(command(&found), "rest right 0.75 mm");
            assert_eq!((found.odds(), found.test()), (None, true));
            assert_eq!(found.rests, Rests::OnRule(Rule::TowardFletched));
        }
    }

    #[test]
    fn what_own_moves_on_paper_have_shown_is_named_beside_the_rule() {
        for (gain, moved, same) in [
            (-3.0, "rest right 0.75 mm", true),
            (3.0, "rest left 0.75 mm", false),
        ] {
            for hand in ["right", "left"] {
                let card = COMPOUND.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
                let events = [on_paper(gain), bare(-140.0)].concat();
                let found = verdict(&card, events, Stage::BareShaft);
                let found = *found.suggestion().unwrap();
                assert_eq!(command(&found), moved, "{found:?}");
                let Rests::Shown { by, odds, rule } = found.rests else {
                    panic!("{found:?}")
                };
                assert_eq!((by, rule), (By::Paper, Some((Rule::TowardFletched, same))));
                // Four times in five at most: a test, no correction.
                assert!(found.test() && odds <= 0.8, "{found:?}");
            }
        }
    }

    fn line(per_m: f64, metres: &[f64]) -> Vec<Event> {
        let mut events = vec![Event::answer("levels", "ok")];
        events.extend(metres.iter().map(|m| {
            group(
                "walk-back",
                "fletched",
                &format!("{m} m"),
                &shifted(per_m * (m - 18.0)),
            )
        }));
        events
    }

    #[test]
    fn a_suggestion_waits_for_all_the_distances() {
        for (card, metres, shot) in [
            (COMPOUND, &[18.0, 27.0, 32.0][..], 3),
            (COMPOUND, &[18.0, 36.0], 2),
            (RECURVE, &[18.0, 27.0, 36.0], 3),
            // Four that hardly differ are no walk back.
            (RECURVE, &[18.0, 20.0, 22.0, 24.5], 4),
        ] {
            let found = verdict(card, line(8.0, metres), Stage::WalkBack);
            assert_eq!(found.status, State::ShootMore, "{:?}", found.found);
            let Found::Line(seen) = &found.found else {
                panic!("{found:?}")
            };
            assert_eq!(seen.waits, Some(Distances { shot, asked: 4 }));
            assert!(found.correction.is_none() && found.shots_wanted > 0);
        }
        let all = verdict(
            COMPOUND,
            line(8.0, &[18.0, 27.0, 32.0, 36.0]),
            Stage::WalkBack,
        );
        assert_eq!(all.status, State::Off, "{:?}", all.found);
        assert!(all.suggestion().is_some());
    }

    #[test]
    fn no_finger_bow_is_sent_inside_the_string_line() {
        let whole = [18.0, 27.0, 32.0, 36.0];
        for (hand, drift) in [("right", -8.0), ("left", 8.0)] {
            let card = RECURVE.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
            for (out, goes) in [
                ("1 mm out", false),
                ("1.5 mm out", true),
                ("3 mm out", true),
            ] {
                let mut events = line(drift, &whole);
                events.push(Event::Setup {
                    item: "centre-shot".into(),
                    value: Some(out.into()),
                    result: "ok".into(),
                });
                let found = verdict(&card, events, Stage::WalkBack);
                let found = found.correction.unwrap();
                assert_eq!(found.is_ok(), goes, "{hand} {out}: {found:?}");
                if !goes {
                    assert_eq!(found, Err(NoMove::InsideTheString));
                }
            }
        }
    }
}
