//! One kind of arrow: group size, and the spot.

use super::compare::{Difference, odds_within, spot};
use super::found::{AimFound, Found};
use super::judge::{Context, StageVerdict, status_of};
use super::sight::{SightMove, sight_move};
use crate::question::SetupItem;
use crate::restore::{Target, put_back};
use crate::session::{GroupAt, Impact};
use crate::stats::quantile;
use crate::step::State;
use crate::units::Length;

impl Context<'_> {
    /// Group size here against the last other setting it was shot at.
    pub(super) fn groups(&self) -> StageVerdict {
        let here = self.at(self.timeline.now);
        let Some((now, distance)) = pooled(&here, None) else {
            return self.open();
        };
        let other = self
            .all()
            .filter(|g| g.positions != self.timeline.now)
            .last()
            .and_then(|g| Some((pooled(&self.at(g.positions), Some(distance))?.0, g)));
        let Some((before, group)) = other else {
            let enough = now.df >= 10.0;
            let status = if enough { State::Ok } else { State::ShootMore };
            let found = Found::OneSetting {
                distance,
                sd: now.sd(),
            };
            let mut verdict = StageVerdict::new(self.stage, status, found);
            verdict.shots_wanted = if enough { 0 } else { 3 };
            return verdict;
        };
        let odds = quantile::f_ratio_below(before.variance / now.variance, before.df, now.df);
        let setting = self.timeline.settings[group.setting].number;
        let status = status_of(odds, true);
        let found = Found::TwoSettings {
            distance,
            here: now.sd(),
            there: before.sd(),
            setting,
            odds,
        };
        let mut verdict = StageVerdict::new(self.stage, status, found);
        if status == State::Off {
            verdict.put_back = put_back(self.timeline, Target::Setting(setting)).ok();
        }
        if status == State::ShootMore {
            verdict.shots_wanted = 6;
        }
        verdict
    }

    /// A group against the spot: the sight follows.
    pub(super) fn aim(&self) -> StageVerdict {
        let here = self.at(self.timeline.now);
        // The sight moves between groups, so only the last one says where it stands.
        let Some(group) = here.last() else {
            return self.open();
        };
        let (Some(distance), Some(centre)) = (group.distance, spot(&group.impacts)) else {
            return self.open();
        };
        let limit = self.stage.tolerance_mm(&self.timeline.card, distance.m());
        let off = centre.right.hypot(centre.up);
        let found = spread_of_mean(&group.impacts);
        let odds = found.map(|d| odds_within(&d, limit));
        let status = match (odds, found) {
            (Some(odds), Some(found)) => status_of(odds, found.is_real()),
            _ if off <= 0.5 * limit => State::ShootMore,
            _ => State::Off,
        };
        let moves = status != State::Ok;
        let miss = (centre.right, centre.up);
        let what = AimFound {
            distance,
            centre: Impact {
                right: centre.right,
                up: centre.up,
            },
            limit,
            odds,
            sight: moves.then(|| self.sight(miss, distance)).flatten(),
        };
        let mut verdict = StageVerdict::new(self.stage, status, Found::Aim(what));
        verdict.shots_wanted = if status == State::ShootMore { 3 } else { 0 };
        verdict
    }

    fn sight(&self, miss: (f64, f64), distance: Length) -> Option<SightMove> {
        let measured = |id: SetupItem| {
            let item = self.timeline.setup.iter().rev().find(|s| s.item == id)?;
            Length::parse(item.value.as_deref()?).ok().map(Length::mm)
        };
        sight_move(
            miss,
            measured(SetupItem::EyeToPin)?,
            distance.mm(),
            measured(SetupItem::SightClick),
        )
    }
}

/// Scatter of single arrows about their own groups' centres, both axes together.
struct Pooled {
    variance: f64,
    df: f64,
}

impl Pooled {
    fn sd(&self) -> f64 {
        self.variance.sqrt()
    }
}

fn pooled(groups: &[&GroupAt], at: Option<Length>) -> Option<(Pooled, Length)> {
    let distance = at.or_else(|| groups.last()?.distance)?;
    let same = |g: &&&GroupAt| {
        g.distance
            .is_some_and(|d| (d.mm() / distance.mm() - 1.0).abs() < 0.05)
    };
    let (squares, df) = groups
        .iter()
        .filter(same)
        .filter_map(|g| spot(&g.impacts))
        .fold((0.0, 0.0), |(squares, df), s| {
            (
                squares + s.squares.0 + s.squares.2,
                df + 2.0 * (s.count as f64 - 1.0),
            )
        });
    (df >= 4.0 && squares > 0.0).then_some((
        Pooled {
            variance: squares / df,
            df,
        },
        distance,
    ))
}

/// A group's centre as a difference from the spot; `None` below three impacts.
fn spread_of_mean(impacts: &[Impact]) -> Option<Difference> {
    let found = spot(impacts)?;
    if found.count < 3 {
        return None;
    }
    let n = found.count as f64;
    let share = 1.0 / (n * (n - 1.0));
    let squares = found.squares;
    let covariance = (squares.0 * share, squares.1 * share, squares.2 * share);
    Some(Difference::new(found.right, found.up, covariance, n - 1.0))
}

#[cfg(test)]
mod tests {
    use super::super::tests::group;
    use super::super::{assess, stage::Stage};
    use super::*;
    use crate::advice;
    use crate::gear::{AdjusterKind, Positions, Step};
    use crate::range::Today;
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, timeline};

    fn verdict(events: Vec<Event>, stage: Stage) -> StageVerdict {
        let t = timeline(COMPOUND, events);
        let analysis = advice::analyse(&t, Today::now());
        assess(&t, &analysis, stage)
    }

    fn hits(all: &[(f64, f64)]) -> Vec<Impact> {
        let impact = |(right, up): &(f64, f64)| Impact {
            right: *right,
            up: *up,
        };
        all.iter().map(impact).collect()
    }

    fn at(metres: f64, all: &[(f64, f64)]) -> GroupAt {
        GroupAt {
            entry: 1,
            proof: "groups".into(),
            what: "fletched".into(),
            distance: Some(Length::from_mm(1000.0 * metres)),
            impacts: hits(all),
            setting: 0,
            positions: Positions::default(),
            arrow_epoch: 0,
        }
    }

    /// Sums of squares 2 right and 24 up, 4 degrees: worked by hand.
    const THREE: [(f64, f64); 3] = [(-1.0, 10.0), (0.0, 16.0), (1.0, 16.0)];

    #[test]
    fn groups_pool_their_squares_about_their_own_centres() {
        let of = |groups: &[GroupAt], metres: Option<f64>| {
            let all: Vec<&GroupAt> = groups.iter().collect();
            pooled(&all, metres.map(|m| Length::from_mm(1000.0 * m)))
        };
        let (one, distance) = of(&[at(18.0, &THREE)], None).unwrap();
        assert_eq!((one.df, one.variance), (4.0, 6.5));
        assert!((one.sd() - 2.549_510).abs() < 1e-6);
        assert_eq!(distance.m(), 18.0);
        // Two arrows add 8 squares and 2 degrees: 34 over 6.
        let pair = [(0.0, 0.0), (0.0, 4.0)];
        let (two, _) = of(&[at(18.0, &THREE), at(18.5, &pair)], Some(18.0)).unwrap();
        assert_eq!((two.df, two.variance), (6.0, 34.0 / 6.0));
        // Another distance does not count; the last one's is the default.
        let (far, _) = of(&[at(18.0, &THREE), at(19.0, &pair)], Some(18.0)).unwrap();
        assert_eq!(far.df, 4.0);
        assert!(of(&[at(18.0, &THREE), at(19.0, &pair)], None).is_none());
        assert!(of(&[at(18.0, &[(1.0, 1.0); 3])], None).is_none());
    }

    /// Corners of a square of 2 mm: squares 4 and 4 about the centre, so each
    /// variance of the centre is 4 / (4 x 3).
    #[test]
    fn a_centre_is_known_to_its_spread_over_the_root_of_its_arrows() {
        let square = hits(&[(0.0, 0.0), (2.0, 0.0), (0.0, 2.0), (2.0, 2.0)]);
        let found = spread_of_mean(&square).unwrap();
        assert_eq!((found.right, found.up, found.df), (1.0, 1.0, 3.0));
        let (right, mixed, up) = found.covariance;
        assert!((right - 1.0 / 3.0).abs() < 1e-12 && (up - 1.0 / 3.0).abs() < 1e-12);
        assert_eq!(mixed, 0.0);
        assert!(spread_of_mean(&square[..3]).is_some());
        assert!(spread_of_mean(&square[..2]).is_none());
        // A diagonal: 2, 2 and 2 over 3 x 2.
        let line = spread_of_mean(&hits(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)])).unwrap();
        let (right, mixed, up) = line.covariance;
        for part in [right, mixed, up] {
            assert!((part - 1.0 / 3.0).abs() < 1e-12);
        }
    }

    const LEFT: Step = Step {
        adjuster: AdjusterKind::RestSideways,
        amount: -1.0,
    };

    fn moved() -> Event {
        Event::Move {
            steps: vec![LEFT],
            said: None,
            confirms: None,
        }
    }

    /// Variance 0.5 of 4 degrees, and 2 of 8 degrees.
    const NARROW: [(f64, f64); 3] = [(-1.0, 0.0), (0.0, 0.0), (1.0, 0.0)];
    const WIDE: [(f64, f64); 5] = [(-2.0, 0.0), (2.0, 0.0), (0.0, -2.0), (0.0, 2.0), (0.0, 0.0)];

    /// Four times the variance: the wider one's degrees come first, and F with
    /// 8 and 4 degrees is under 4 with chance 5 y^4 (1 - y) + y^5, y = 8/9:
    /// 0.9018. The other way round it would be F with 4 and 8: 0.9547.
    #[test]
    fn the_odds_of_the_narrower_group_are_those_of_the_f_distribution() {
        let group = |hits: &[(f64, f64)]| group("groups", "fletched", "18 m", hits);
        let here = verdict(vec![group(&WIDE), moved(), group(&NARROW)], Stage::Groups);
        assert!(
            (here.odds().unwrap() - 0.901_8).abs() < 1e-4,
            "{:?}",
            here.odds()
        );
        assert_eq!(here.status, State::Ok);
        assert!(here.put_back.is_none());
        let there = verdict(vec![group(&NARROW), moved(), group(&WIDE)], Stage::Groups);
        assert!(
            (there.odds().unwrap() - 0.098_2).abs() < 1e-4,
            "{:?}",
            there.odds()
        );
        assert_eq!(there.status, State::Off);
        assert!(there.put_back.is_some());
        let same = verdict(vec![group(&WIDE), moved(), group(&WIDE)], Stage::Groups);
        assert!((same.odds().unwrap() - 0.5).abs() < 1e-9);
        assert_eq!((same.status, same.shots_wanted), (State::ShootMore, 6));
    }

    #[test]
    fn six_arrows_at_one_setting_are_enough_and_five_are_not() {
        let of = |n: usize| {
            let hits: Vec<(f64, f64)> = (0..n).map(|i| (i as f64, 0.0)).collect();
            let found = verdict(
                vec![group("groups", "fletched", "18 m", &hits)],
                Stage::Groups,
            );
            (found.status, found.shots_wanted)
        };
        assert_eq!(of(5), (State::ShootMore, 3));
        assert_eq!(of(6), (State::Ok, 0));
    }

    /// At 18 m the last sight allows 25 mm: two arrows within half of it ask
    /// for more, beyond it the sight is moved.
    #[test]
    fn two_arrows_within_half_the_limit_ask_for_more() {
        let of = |off: (f64, f64)| {
            let hits = [off, off];
            let found = verdict(
                vec![group("final-sight", "fletched", "18 m", &hits)],
                Stage::FinalSight,
            );
            (found.status, found.shots_wanted)
        };
        for side in [1.0, -1.0] {
            assert_eq!(of((12.5 * side, 0.0)), (State::ShootMore, 3));
            assert_eq!(of((12.6 * side, 0.0)).0, State::Off);
            assert_eq!(of((0.0, 12.6 * side)).0, State::Off);
        }
    }
}
