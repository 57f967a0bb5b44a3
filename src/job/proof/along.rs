//! Two ways of shooting one arrow, compared on one axis only: held as always
//! against pulled hard (up and down), the bow turned left against right
//! (sideways).
//!
//! Student's two-sample test with pooled variance: t = d / se with
//! n1 + n2 - 2 degrees of freedom. Where impacts are few the scatter is taken
//! as round, pooled over both axes, with twice the degrees.

use super::found::MOST_MORE;
use super::found::{AlongFound, Found};
use super::judge::{Context, StageVerdict, status_of};
use super::one_axis::Along;
use super::pair::pair_at;
use super::stage::Stage;
use crate::gear::Axis;
use crate::step::State;

impl Context<'_> {
    /// Creep and torque.
    pub(super) fn along(&self) -> StageVerdict {
        let here = self.at(self.timeline.now);
        let [first, second] = self.stage.whats() else {
            return self.open();
        };
        let Some(found) = pair_at(&here, *first, *second) else {
            return self.both_wanted(!here.is_empty());
        };
        let axis = if self.stage == Stage::Creep {
            Axis::Vertical
        } else {
            Axis::Sideways
        };
        let one = Along::of(&found.difference, axis);
        let limit = self
            .stage
            .tolerance_mm(&self.timeline.card, found.distance.m());
        let odds = one.odds_within(limit);
        let status = status_of(odds, one.is_real());
        let what = AlongFound {
            distance: found.distance,
            difference: found.difference,
            along: one,
            limit,
            odds,
        };
        let mut verdict = StageVerdict::new(self.stage, status, Found::Along(what));
        if status == State::ShootMore {
            verdict.shots_wanted = more_shots(&one, found.least, limit);
        }
        verdict
    }
}

/// How many more of each may tell, if the difference stays as it is.
fn more_shots(one: &Along, least: usize, limit: f64) -> u32 {
    let n = least.max(1) as f64;
    (1..=MOST_MORE)
        .find(|more| {
            let more = f64::from(*more);
            let then = Along {
                se: one.se * (n / (n + more)).sqrt(),
                df: one.df + 2.0 * more,
                ..*one
            };
            status_of(then.odds_within(limit), then.is_real()) != State::ShootMore
        })
        .unwrap_or(MOST_MORE)
}

#[cfg(test)]
mod tests {
    use super::super::compare::Difference;
    use super::super::tests::group;
    use super::super::{assess, paper_check_due, record_done};
    use super::*;
    use crate::advice;
    use crate::range::Today;
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::units::Length;

    const TIGHT: [(f64, f64); 4] = [(0.0, 8.0), (-9.0, -5.0), (9.0, -3.0), (2.0, 1.0)];

    fn shifted(by: (f64, f64)) -> Vec<(f64, f64)> {
        TIGHT.iter().map(|(r, u)| (r + by.0, u + by.1)).collect()
    }

    fn verdict(events: Vec<Event>, stage: Stage) -> StageVerdict {
        let t = timeline(COMPOUND, events);
        assess(&t, &advice::analyse(&t, Today::now()), stage)
    }

    fn creep(by: (f64, f64)) -> Vec<Event> {
        vec![
            group("creep", "normal", "18 m", &TIGHT),
            group("creep", "hard", "18 m", &shifted(by)),
        ]
    }

    #[test]
    fn creep_judges_up_and_down_alone_and_torque_left_and_right_alone() {
        // Far off sideways is no sign of the cams.
        assert_eq!(verdict(creep((90.0, 0.0)), Stage::Creep).status, State::Ok);
        let apart = |v: &StageVerdict| match &v.found {
            Found::Along(found) => found.along.mm.round(),
            other => panic!("{other:?}"),
        };
        for side in [1.0, -1.0] {
            let off = verdict(creep((0.0, 90.0 * side)), Stage::Creep);
            assert_eq!((off.status, apart(&off)), (State::Off, 90.0 * side));
            assert_eq!(off.distance().map(Length::m), Some(18.0));
            assert!(off.correction.is_none());
        }
        let torque = |by| {
            vec![
                group("torque", "turned-left", "18 m", &TIGHT),
                group("torque", "turned-right", "18 m", &shifted(by)),
            ]
        };
        assert_eq!(
            verdict(torque((0.0, 90.0)), Stage::Torque).status,
            State::Ok
        );
        for side in [1.0, -1.0] {
            let off = verdict(torque((120.0 * side, 0.0)), Stage::Torque);
            assert_eq!((off.status, apart(&off)), (State::Off, 120.0 * side));
        }
    }

    #[test]
    fn one_kind_alone_or_wide_groups_ask_for_more() {
        let one = vec![group("creep", "normal", "18 m", &TIGHT)];
        let found = verdict(one, Stage::Creep);
        assert_eq!(found.status, State::ShootMore);
        assert_eq!(found.found, Found::OneKind);
        let wide = [(0.0, 70.0), (10.0, -60.0), (-10.0, -20.0)];
        let found = verdict(
            vec![
                group("creep", "normal", "18 m", &wide),
                group("creep", "hard", "18 m", &wide),
            ],
            Stage::Creep,
        );
        assert_eq!(found.status, State::ShootMore, "{:?}", found.found);
        assert!(found.shots_wanted > 0);
    }

    #[test]
    fn once_the_cable_is_twisted_the_groups_begin_anew_and_paper_is_asked_once() {
        let mut events = creep((0.0, 90.0));
        events.extend(record_done(Stage::Creep).unwrap());
        let t = timeline(COMPOUND, events.clone());
        assert!(paper_check_due(&t));
        let found = assess(&t, &advice::analyse(&t, Today::now()), Stage::Creep);
        assert_eq!(found.status, State::Open);
        events.extend(creep((0.0, 2.0)));
        assert_eq!(verdict(events, Stage::Creep).status, State::Ok);
        assert!(record_done(Stage::WalkBack).is_err());
    }

    #[test]
    fn both_are_optional_for_a_compound_and_not_asked_of_other_bows() {
        for (card, optional) in [(COMPOUND, true), (RECURVE, false)] {
            let card = timeline(card, vec![]).card;
            for stage in [Stage::Creep, Stage::Torque] {
                assert_eq!(
                    (stage.usual(&card), stage.optional(&card)),
                    (false, optional)
                );
            }
        }
    }

    #[test]
    fn agreeing_groups_are_rarely_called_apart() {
        // Scatter 15 mm, limit 25 mm: the rate of wrong OFF over a grid of draws.
        let mut state = 9u64;
        let mut normal = || {
            let mut uniform = || {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1_442_695_040_888_963_407);
                ((state >> 11) as f64 + 0.5) / (1u64 << 53) as f64
            };
            (-2.0 * uniform().ln()).sqrt() * (std::f64::consts::TAU * uniform()).cos()
        };
        let mut draw = || -> Vec<crate::session::Impact> {
            (0..3)
                .map(|_| crate::session::Impact {
                    right: 15.0 * normal(),
                    up: 15.0 * normal(),
                })
                .collect()
        };
        let trials = 1000;
        let wrong = (0..trials)
            .filter(|_| {
                let d = super::super::compare(&draw(), &draw()).unwrap();
                let one = Along::of(&d, Axis::Vertical);
                status_of(one.odds_within(25.0), one.is_real()) == State::Off
            })
            .count();
        assert!(wrong <= 60, "{wrong} of {trials}");
    }

    /// Student's t passes 0.975 at 2.228139 with 10 degrees, 0.95 lies within
    /// it either way (printed tables of t).
    #[test]
    fn one_axis_is_judged_by_students_t_to_the_very_limit() {
        let one = |mm: f64| Along {
            mm,
            se: 1.0,
            df: 10.0,
        };
        for sign in [1.0, -1.0] {
            assert!((one(2.228_139 * sign).chance() - 0.05).abs() < 1e-6);
            assert!(one(2.228_140 * sign).is_real());
            assert!(!one(2.228_138 * sign).is_real());
            // On the limit: half, less the 0.0006 beyond the other limit.
            let on = one(2.228_139 * sign).odds_within(2.228_139);
            assert!((on - 0.4994).abs() < 2e-4, "{on}");
        }
        assert!((one(0.0).odds_within(2.228_139) - 0.95).abs() < 1e-6);
        assert!((one(0.0).chance() - 1.0).abs() < 1e-12);
    }

    /// Few impacts: the scatter is round, the mean of both variances, with
    /// twice the degrees; from 8 degrees on each axis has its own.
    #[test]
    fn few_impacts_share_their_scatter_and_eight_degrees_do_not() {
        let parted = |df| Difference::new(3.0, -4.0, (4.0, 1.0, 16.0), df);
        let at = |df, axis| Along::of(&parted(df), axis);
        let few = at(7.9, Axis::Vertical);
        assert_eq!((few.mm, few.df), (-4.0, 15.8));
        assert!((few.se - 10_f64.sqrt()).abs() < 1e-12);
        let own = at(8.0, Axis::Vertical);
        assert_eq!((own.mm, own.se, own.df), (-4.0, 4.0, 8.0));
        let aside = at(8.0, Axis::Sideways);
        assert_eq!((aside.mm, aside.se, aside.df), (3.0, 2.0, 8.0));
    }

    /// Three of each so far, 4 degrees. With m more of each the error shrinks
    /// by the root of 3/(3+m) and 2m degrees are added; t passes 0.9 at 1.3830
    /// with 9 degrees and at 1.3722 with 10 (printed tables of t).
    #[test]
    fn the_forecast_is_the_first_number_of_arrows_that_settles_it() {
        let forecast = |mm, se, limit| more_shots(&Along { mm, se, df: 4.0 }, 3, limit);
        // 0.974 x sqrt(5/3) = 1.257; 0.974 x sqrt 2 = 1.3775, of 10 degrees.
        assert_eq!(forecast(0.0, 1.0, 0.974_04), 3);
        // 1.27 x sqrt(4/3) = 1.466, over 1.440, the point of 6 degrees.
        assert_eq!(forecast(0.0, 1.0, 1.27), 1);
        // Off as well: 10 mm at 3.46 mm, of 6 degrees, is past 2.447.
        assert_eq!(forecast(10.0, 4.0, 1.0), 1);
        assert_eq!(forecast(-10.0, 4.0, 1.0), 1);
        // Never told within the most that is forecast.
        assert_eq!(forecast(1.0, 1.0, 1.0), MOST_MORE);
        assert_eq!(
            more_shots(
                &Along {
                    mm: 0.0,
                    se: 1.0,
                    df: 0.5
                },
                0,
                100.0
            ),
            1
        );
    }
}
