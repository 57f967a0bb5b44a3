//! Two kinds of arrow at one distance: bare against fletched, broadhead
//! against field point.

use super::compare::{Difference, compare, odds_within};
use super::found::{Acts, Found, MOST_MORE, PairFound};
use super::judge::{Context, StageVerdict, status_of};
use super::stage::{GroupKind, Stage};
use super::suggest::{NoMove, Run, SMALL_MM, Suggestion, Wanted, adjuster_for, suggest};
use crate::gear::{AdjusterKind, Axis, Release};
use crate::question::Said;
use crate::session::{GroupAt, Impact};
use crate::step::State;
use crate::units::Length;

/// Arrows that make a comparison: three of the one kind and two of the other.
const FULL: (usize, usize) = (3, 2);

impl Context<'_> {
    /// Two kinds of arrow at one distance.
    pub(super) fn pair(&self) -> StageVerdict {
        let [first, second] = self.stage.whats() else {
            return self.open();
        };
        let here = self.at(self.timeline.now);
        let Some(found) = pair_at(&here, *first, *second) else {
            return self.both_wanted(!here.is_empty());
        };
        let metres = found.distance.m();
        let limit = self.stage.tolerance_mm(&self.timeline.card, metres);
        let odds = odds_within(&found.difference, limit);
        let status = status_of(odds, found.difference.is_real());
        let off = status == State::Off;
        let axis = first_axis(&found.difference, limit);
        let contact = self.timeline.answer(crate::question::Test::Contact);
        let what = PairFound {
            distance: found.distance,
            difference: found.difference,
            limit,
            odds,
            powder_first: off && contact.is_none(),
            acts: self.acts(axis, found.difference.right).filter(|_| off),
        };
        let mut verdict = StageVerdict::new(self.stage, status, Found::Pair(what));
        match status {
            State::ShootMore => {
                verdict.shots_wanted = more_shots(&found.difference, found.least, limit);
            }
            State::Off => verdict.correction = Some(self.correct(&found, axis)),
            _ => {}
        }
        verdict
    }

    /// What is said while one of the two kinds is missing.
    pub(super) fn both_wanted(&self, begun: bool) -> StageVerdict {
        let mut verdict = self.open();
        if begun && self.stage.whats().len() == 2 {
            verdict.status = State::ShootMore;
            verdict.found = Found::OneKind;
            verdict.shots_wanted = 3;
        }
        verdict
    }

    /// With fingers a bare shaft tells by its side how the arrow acts.
    fn acts(&self, axis: Axis, right: f64) -> Option<Acts> {
        let bow = &self.timeline.card.bow;
        let tells = axis == Axis::Sideways
            && bow.release == Release::Fingers
            && self.stage == Stage::BareShaft;
        let toward_the_riser = right * bow.hand.in_sign();
        // On neither side it tells nothing.
        (tells && toward_the_riser != 0.0).then_some(if toward_the_riser > 0.0 {
            Acts::Weak
        } else {
            Acts::Stiff
        })
    }

    /// What to do about a difference that is real.
    fn correct(&self, found: &Pair, axis: Axis) -> Result<Suggestion, NoMove> {
        let d = &found.difference;
        let (offset, se) = match axis {
            Axis::Vertical => (d.up, d.se_up()),
            _ => (d.right, d.se_right()),
        };
        let kind = adjuster_for(self.timeline, self.stage, axis).ok_or(NoMove::NothingMovesIt)?;
        let earlier = self.earlier_pairs(found, axis, kind);
        let wanted = Wanted {
            stage: self.stage,
            kind,
            offset,
            se,
            earlier: &earlier,
            size_mm: SMALL_MM,
            rule: true,
        };
        suggest(self.timeline, self.analysis, &wanted)
    }

    /// The same comparison at other settings that differ in one adjuster only.
    fn earlier_pairs(&self, now: &Pair, axis: Axis, kind: AdjusterKind) -> Vec<Run> {
        let [first, second] = self.stage.whats() else {
            return Vec::new();
        };
        self.others(kind)
            .into_iter()
            .filter_map(|(place, positions)| {
                let found = pair_at(&self.at(positions), *first, *second)?;
                let same = (found.distance.mm() / now.distance.mm() - 1.0).abs() < 0.05;
                let d = found.difference;
                let (offset, se) = match axis {
                    Axis::Vertical => (d.up, d.se_up()),
                    _ => (d.right, d.se_right()),
                };
                same.then_some(Run { place, offset, se })
            })
            .collect()
    }
}

/// The axis that is put right first: the vertical, where it stands out.
fn first_axis(d: &Difference, limit: f64) -> Axis {
    if d.up.abs() > 0.5 * limit && d.up.abs() > 1.5 * d.se_up() {
        Axis::Vertical
    } else {
        Axis::Sideways
    }
}

/// Two kinds of arrow shot at one distance.
pub(super) struct Pair {
    pub distance: Length,
    pub(crate) difference: Difference,
    pub(crate) least: usize,
}

/// The farthest distance at which both kinds were shot in full, as the stage
/// asks for going back; otherwise the one at which they were shot most. With
/// it their difference (second less first).
pub(super) fn pair_at(groups: &[&GroupAt], first: GroupKind, second: GroupKind) -> Option<Pair> {
    let gather = |what: GroupKind, at: Length| -> Vec<Impact> {
        groups
            .iter()
            .filter(|g| is(what, &g.what))
            .filter(|g| {
                g.distance
                    .is_some_and(|d| (d.mm() / at.mm() - 1.0).abs() < 0.05)
            })
            .flat_map(|g| g.impacts.iter().copied())
            .collect()
    };
    groups
        .iter()
        .filter_map(|g| g.distance)
        .filter_map(|distance| {
            let (a, b) = (gather(first, distance), gather(second, distance));
            Some(Pair {
                distance,
                difference: compare(&b, &a)?,
                least: a.len().min(b.len()),
            })
        })
        .max_by(|a, b| {
            let weight = |p: &Pair| {
                let (df, mm) = (p.difference.df, p.distance.mm());
                let full = p.least >= FULL.1 && df >= (FULL.0 + FULL.1) as f64 - 2.0;
                if full { (1, mm, df) } else { (0, df, mm) }
            };
            weight(a)
                .partial_cmp(&weight(b))
                .unwrap_or(std::cmp::Ordering::Equal)
        })
}

/// Field points are fletched arrows.
fn is(wanted: GroupKind, what: &Said<GroupKind>) -> bool {
    let fletched = |kind| matches!(kind, GroupKind::Field | GroupKind::Fletched);
    let alike = |kind| kind == wanted || (fletched(kind) && fletched(wanted));
    what.known().is_some_and(alike)
}

/// How many more of each kind may tell, if the difference stays as it is.
fn more_shots(difference: &Difference, least: usize, limit: f64) -> u32 {
    let n = least.max(1) as f64;
    (1..=MOST_MORE)
        .find(|more| {
            let more = f64::from(*more);
            let shrink = n / (n + more);
            let c = difference.covariance;
            let c = (c.0 * shrink, c.1 * shrink, c.2 * shrink);
            let df = difference.df + 2.0 * more;
            let then = Difference::new(difference.right, difference.up, c, df);
            let odds = odds_within(&then, limit);
            status_of(odds, then.is_real()) != State::ShootMore
        })
        .unwrap_or(MOST_MORE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::Positions;

    fn group(what: &str, metres: f64, arrows: usize) -> GroupAt {
        GroupAt {
            entry: 1,
            proof: "bare-shaft".into(),
            what: what.into(),
            distance: Some(Length::from_mm(metres * 1000.0)),
            impacts: (0..arrows)
                .map(|i| Impact {
                    right: i as f64,
                    up: (i * i) as f64,
                })
                .collect(),
            setting: 0,
            positions: Positions::default(),
            arrow_epoch: 0,
        }
    }

    fn judged_at(groups: &[GroupAt]) -> f64 {
        let all: Vec<&GroupAt> = groups.iter().collect();
        let found = pair_at(&all, GroupKind::Fletched, GroupKind::Bare).unwrap();
        found.distance.m().round()
    }

    #[test]
    fn the_farther_distance_is_judged_once_both_kinds_are_shot_there_in_full() {
        let mut groups = vec![group("fletched", 5.0, 3), group("bare", 5.0, 3)];
        assert_eq!(judged_at(&groups), 5.0);
        groups.push(group("fletched", 18.0, 3));
        groups.push(group("bare", 18.0, 1));
        assert_eq!(judged_at(&groups), 5.0);
        groups.push(group("bare", 18.0, 1));
        assert_eq!(judged_at(&groups), 18.0);
    }

    /// Toward the riser weak, away from it stiff, on neither side neither; only
    /// with fingers, of bare shafts, and sideways.
    #[test]
    fn a_bare_shaft_tells_by_its_side_how_the_arrow_acts_for_either_hand() {
        use crate::fixtures::{COMPOUND, RECURVE, with_hand};
        let acts = |card: &str, hand: &str, stage, axis, right| {
            let timeline = crate::setup::tests::timeline(&with_hand(card, hand), vec![]);
            let analysis = crate::advice::analyse(&timeline, crate::range::Today::now());
            let context = Context {
                timeline: &timeline,
                analysis: &analysis,
                stage,
            };
            context.acts(axis, right)
        };
        let bare = |hand, right| acts(RECURVE, hand, Stage::BareShaft, Axis::Sideways, right);
        for (hand, toward) in [("right", 1.0), ("left", -1.0)] {
            assert_eq!(bare(hand, 0.1 * toward), Some(Acts::Weak), "{hand}");
            assert_eq!(bare(hand, -0.1 * toward), Some(Acts::Stiff), "{hand}");
            assert_eq!(bare(hand, 0.0), None, "{hand}");
        }
        let other = |card, stage, axis| acts(card, "right", stage, axis, 50.0);
        assert_eq!(other(COMPOUND, Stage::BareShaft, Axis::Sideways), None);
        assert_eq!(other(RECURVE, Stage::Broadhead, Axis::Sideways), None);
        assert_eq!(other(RECURVE, Stage::BareShaft, Axis::Vertical), None);
    }

    fn round_at(df: f64, variance: f64) -> Difference {
        Difference::new(0.0, 0.0, (variance, 0.0, variance), df)
    }

    /// Round scatter about nothing: within R with chance 1 - exp(-R^2 / 2 s^2),
    /// which is 0.8 at R^2 = 3.2189 s^2. Of 3 and 3 arrows, 4 degrees; with m
    /// more the variance is times 3/(3+m), and Student's widening f/(f-2)
    /// makes it 0.9, 0.8 and 0.625 of what it was with 1, 2 and 3 more
    /// (12/10 of 3/4, 8/6 of 3/5, 10/8 of 1/2).
    #[test]
    fn the_forecast_of_a_pair_is_the_first_number_that_settles_it() {
        let forecast = |variance| more_shots(&round_at(4.0, variance), 3, 10.0);
        // R^2 / 3.2189 = 31.067.
        assert_eq!(forecast(34.0), 1); // 30.6
        assert_eq!(forecast(35.0), 2); // 31.5, then 28.0
        assert_eq!(forecast(38.0), 2); // 30.4
        assert_eq!(forecast(39.5), 3); // 31.6, then 24.7
        assert_eq!(forecast(49.0), 3); // 30.6
        assert_eq!(forecast(50.0), 4); // 31.25
        assert_eq!(forecast(10_000.0), MOST_MORE);
        // One arrow counts as one where there is none.
        assert_eq!(more_shots(&round_at(4.0, 30.0), 0, 10.0), 1);
    }

    /// The axis and the way of a pair's correction at a limit of 50 mm.
    fn corrected(right: f64, up: f64, variance_up: f64) -> (Axis, f64) {
        let t = crate::setup::tests::timeline(crate::fixtures::MEASURED_COMPOUND, vec![]);
        let analysis = crate::advice::analyse(&t, crate::range::Today::now());
        let context = Context {
            timeline: &t,
            analysis: &analysis,
            stage: Stage::BareShaft,
        };
        let found = Pair {
            distance: Length::from_mm(18_000.0),
            difference: Difference::new(right, up, (1.0, 0.0, variance_up), 10.0),
            least: 3,
        };
        let axis = first_axis(&found.difference, 50.0);
        let step = context.correct(&found, axis).unwrap().step();
        (step.adjuster.axis(), step.amount.signum())
    }

    #[test]
    fn the_vertical_goes_first_past_half_the_limit_and_one_and_a_half_errors() {
        for way in [1.0, -1.0] {
            // Bare shafts to the right: the rest goes left. Bare shafts high:
            // the rest goes down (the usual rule).
            let (aside, height) = ((Axis::Sideways, -1.0), (Axis::Vertical, -way));
            assert_eq!(corrected(200.0, 25.0 * way, 1.0), aside);
            assert_eq!(corrected(200.0, 25.01 * way, 1.0), height);
            // 1.5 x 20 mm is 30 mm.
            assert_eq!(corrected(200.0, 30.0 * way, 400.0), aside);
            assert_eq!(corrected(200.0, 30.01 * way, 400.0), height);
        }
    }

    #[test]
    fn three_and_two_are_a_full_pair_and_one_distance_is_within_a_twentieth() {
        let full = |bare| {
            judged_at(&[
                group("fletched", 5.0, 3),
                group("bare", 5.0, 3),
                group("fletched", 18.0, 3),
                group("bare", 18.0, bare),
            ])
        };
        assert_eq!((full(2), full(3)), (18.0, 18.0));
        // Two and two are not: the one shot most is judged.
        let mut two = vec![group("fletched", 5.0, 3), group("bare", 5.0, 3)];
        two.extend([group("fletched", 18.0, 2), group("bare", 18.0, 2)]);
        assert_eq!(judged_at(&two), 5.0);
        let apart = |metres| {
            let all = [group("fletched", 18.0, 3), group("bare", metres, 3)];
            pair_at(&[&all[0], &all[1]], GroupKind::Fletched, GroupKind::Bare).map(|p| p.least)
        };
        assert_eq!(
            [18.8, 17.2, 19.0, 17.0].map(apart),
            [Some(3), Some(3), None, None]
        );
        // Field points are fletched arrows; bare shafts are not.
        let field = [group("field", 18.0, 3), group("broadhead", 18.0, 3)];
        let field: Vec<&GroupAt> = field.iter().collect();
        assert!(pair_at(&field, GroupKind::Fletched, GroupKind::Broadhead).is_some());
        assert!(pair_at(&field, GroupKind::Field, GroupKind::Broadhead).is_some());
        assert!(pair_at(&field, GroupKind::Bare, GroupKind::Broadhead).is_none());
        let fletched = [group("fletched", 18.0, 3), group("broadhead", 18.0, 3)];
        let fletched: Vec<&GroupAt> = fletched.iter().collect();
        assert!(pair_at(&fletched, GroupKind::Field, GroupKind::Broadhead).is_some());
        // Second less first: the impacts of three arrows lie about (1, 5/3).
        let moved = [group("fletched", 18.0, 3), group("bare", 18.0, 2)];
        let found = pair_at(
            &[&moved[0], &moved[1]],
            GroupKind::Fletched,
            GroupKind::Bare,
        )
        .unwrap();
        assert!((found.difference.right + 0.5).abs() < 1e-12);
        assert!((found.difference.up + 7.0 / 6.0).abs() < 1e-12);
        assert_eq!((found.least, found.difference.df), (2, 3.0));
    }
}
