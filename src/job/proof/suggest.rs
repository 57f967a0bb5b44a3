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
use crate::gear::{AdjusterKind, AdjusterUnit, Axis, Release, Step};
use crate::session::Timeline;
use crate::setup;
use crate::stats::normal;
use crate::units::{MM_PER_INCH, System};
use crate::words;

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
#[derive(Debug, Clone, PartialEq)]
pub struct Suggestion {
    /// The move.
    pub step: Step,
    /// As `tearbench move` takes it.
    pub command: String,
    /// For the bench.
    pub bench: String,
    /// Chance that this is the right way, 0.5 to 1; `None` where this bow has
    /// not shown it by its own moves.
    pub odds: Option<f64>,
    /// A test move, to see which way this bow answers: the side is under 90 % sure.
    pub test: bool,
    /// What it rests on: this bow's own moves, the rule of the trade, both or neither.
    pub why: String,
}

/// How impacts stood with an adjuster at an earlier place in this stage:
/// place, offset and its standard error, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Run {
    pub place: f64,
    pub offset: f64,
    pub se: f64,
}

/// What is to be brought to nothing, and with what.
pub(super) struct Wanted<'a> {
    pub stage: Stage,
    pub kind: AdjusterKind,
    /// Offset now (bare less fletched, broadhead less field, far less near, the
    /// middle off the straight line), right or up positive, mm.
    pub offset: f64,
    /// Its standard error, mm.
    pub se: f64,
    /// Runs of this stage at other places of the adjuster, latest last.
    pub earlier: &'a [Run],
    /// Size of a first move, mm.
    pub size_mm: f64,
    /// Whether the trade has a rule for this offset.
    pub rule: bool,
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
    by: &'static str,
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
                by: "by how these groups answered to this bow's own move",
            });
        }
    }
    let planes = matches!(wanted.stage, Stage::BareShaft | Stage::Broadhead);
    let gain = analysis.advice.estimate.gain.get(wanted.kind.id())?;
    let negative = gain.probability_negative;
    (planes && moved_on_paper(timeline, wanted.kind) && sure(negative)).then_some(Shown {
        follows: PAPER_HOLDS * negative + (1.0 - PAPER_HOLDS) * (1.0 - negative),
        by: "by this bow's own moves on paper, taken to hold at distance 4 times in 5 (an assumption)",
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

/// Which way, how sure, and why.
struct Way {
    sign: f64,
    odds: Option<f64>,
    why: String,
}

fn way(shown: Option<&Shown>, rule: Option<&Rule>, offset: f64) -> Way {
    let against = |follows: bool| -offset.signum() * if follows { 1.0 } else { -1.0 };
    match (shown, rule) {
        (Some(shown), rule) => {
            let follows = shown.follows >= 0.5;
            let odds = shown.follows.max(1.0 - shown.follows);
            let mut why = format!(
                "chance {} that this way helps, {}",
                words::odds(odds),
                shown.by
            );
            if let Some(rule) = rule {
                let verdict = if rule.follows == follows {
                    "says the same"
                } else {
                    "says the other way; this bow's own moves decide"
                };
                why.push_str(&format!("; the usual rule, {}, {verdict}", rule.says));
            }
            Way {
                sign: against(follows),
                odds: Some(odds),
                why,
            }
        }
        (None, Some(rule)) => Way {
            sign: against(rule.follows),
            odds: None,
            why: format!(
                "by the usual rule, {}; not shown by this bow yet",
                rule.says
            ),
        },
        (None, None) => Way {
            sign: 1.0,
            odds: None,
            why: "no rule of the trade says which way, and this bow has not shown it yet".into(),
        },
    }
}

/// The suggested move, or why there is none.
pub(super) fn suggest(
    timeline: &Timeline,
    analysis: &Analysis,
    wanted: &Wanted<'_>,
    system: System,
) -> Result<Suggestion, String> {
    let kind = wanted.kind;
    let Some(adjuster) = timeline.card.adjuster(kind) else {
        return Err(format!("the card has no {}", kind.spoken()));
    };
    let rule = wanted
        .rule
        .then(|| rule_of(wanted.stage, kind, timeline.card.bow.hand))
        .flatten();
    let mut way = way(
        shown(timeline, analysis, wanted).as_ref(),
        rule.as_ref(),
        wanted.offset,
    );
    let test = way.odds.is_none_or(|odds| odds < SHOWN);
    if test {
        way.why.insert_str(0, "a test move, ");
        way.why
            .push_str(". Keep it if it helps, go back and the other way if not");
    }
    let size = match kind.unit() {
        AdjusterUnit::Mm => wanted.size_mm,
        // An eighth of a turn, half a twist: one of the trade's small steps.
        _ => adjuster.step,
    };
    let amount = way.sign * adjuster.rounded(size).max(adjuster.step);
    if (timeline.now.get(kind) + amount).abs() > adjuster.range + 1e-9 {
        return Err(format!("the {} has no more travel that way", kind.spoken()));
    }
    let step = Step {
        adjuster: kind,
        amount,
    };
    if let Some(limit) = past_a_limit(timeline, &step) {
        return Err(limit.into());
    }
    Ok(Suggestion {
        command: words::step_command(&step),
        bench: words::step_bench(&step, &timeline.card, &timeline.now, system),
        odds: way.odds,
        test,
        why: way.why,
        step,
    })
}

/// Limits that a suggested move never passes: with fingers the point never
/// inside the string's line, the nocking point never below square, each where
/// it was measured.
fn past_a_limit(timeline: &Timeline, step: &Step) -> Option<&'static str> {
    let measured = setup::measured_now(timeline, step.adjuster)?;
    let outward = -timeline.card.bow.hand.in_sign() * step.amount;
    match step.adjuster {
        AdjusterKind::RestSideways | AdjusterKind::CentreShot
            if timeline.card.bow.release == Release::Fingers
                && outward < 0.0
                && measured + outward < -1e-9 =>
        {
            Some(
                "the point would stand inside the string's line, which no finger bow wants: look elsewhere",
            )
        }
        AdjusterKind::NockingPoint if step.amount < 0.0 && measured + step.amount < -1e-9 => {
            Some("the nocking point would stand below square: look elsewhere")
        }
        _ => None,
    }
}

#[cfg(test)]
mod shown_tests;
#[cfg(test)]
mod tests {
    use super::super::tests::group;
    use super::super::{Status, Verdict, assess};
    use super::*;
    use crate::advice;
    use crate::range::Today;
    use crate::session::{Event, PriorGain, PriorRecord, Shot};
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};

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
        Event::Move {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount,
            }],
            said: None,
            confirms: None,
        }
    }

    fn verdict(card: &str, events: Vec<Event>, stage: Stage) -> Verdict {
        let t = timeline(card, events);
        assess(&t, &advice::analyse(&t, Today::now()), stage, System::Mm)
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
            let found = found.suggestion.unwrap();
            assert_eq!(found.command, "rest right 0.75 mm", "{}", found.why);
            assert_eq!((found.odds, found.test), (None, true));
            assert!(
                found.why.starts_with("a test move, by the usual rule")
                    && found.why.contains("not shown by this bow yet"),
                "{}",
                found.why
            );
        }
    }

    #[test]
    fn what_own_moves_on_paper_have_shown_is_named_beside_the_rule() {
        for (gain, command, says) in [
            (-3.0, "rest right 0.75 mm", "says the same"),
            (
                3.0,
                "rest left 0.75 mm",
                "says the other way; this bow's own moves decide",
            ),
        ] {
            for hand in ["right", "left"] {
                let card = COMPOUND.replace("hand=\"right\"", &format!("hand=\"{hand}\""));
                let events = [on_paper(gain), bare(-140.0)].concat();
                let found = verdict(&card, events, Stage::BareShaft).suggestion.unwrap();
                assert_eq!(found.command, command, "{}", found.why);
                assert!(
                    found.why.contains("by this bow's own moves on paper")
                        && found.why.contains("an assumption")
                        && found.why.contains(says),
                    "{}",
                    found.why
                );
                // Four times in five at most: a test, no correction.
                assert!(
                    found.test && found.odds.is_some_and(|p| p <= 0.8),
                    "{found:?}"
                );
            }
        }
    }

    fn line(per_m: f64, metres: &[f64]) -> Vec<Event> {
        let mut events = vec![Event::Answer {
            test: "levels".into(),
            result: "ok".into(),
            detail: None,
        }];
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
        for (card, metres, waits) in [
            (COMPOUND, &[18.0, 27.0, 32.0][..], "3 of 4 distances shot"),
            (COMPOUND, &[18.0, 36.0], "2 of 4 distances shot"),
            (RECURVE, &[18.0, 27.0, 36.0], "3 of 4 distances shot"),
            // Four that hardly differ are no walk back.
            (RECURVE, &[18.0, 20.0, 22.0, 24.5], "4 of 4 distances shot"),
        ] {
            let found = verdict(card, line(8.0, metres), Stage::WalkBack);
            assert_eq!(found.status, Status::ShootMore, "{}", found.text);
            assert!(found.text.contains(waits), "{}", found.text);
            assert!(found.suggestion.is_none() && found.shots_wanted > 0);
        }
        let all = verdict(
            COMPOUND,
            line(8.0, &[18.0, 27.0, 32.0, 36.0]),
            Stage::WalkBack,
        );
        assert_eq!(all.status, Status::Off, "{}", all.text);
        assert!(all.suggestion.is_some());
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
                assert_eq!(
                    found.suggestion.is_some(),
                    goes,
                    "{hand} {out}: {}",
                    found.text
                );
                assert_eq!(
                    found.text.contains("inside the string's line"),
                    !goes,
                    "{}",
                    found.text
                );
            }
        }
    }
}
