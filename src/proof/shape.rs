//! One kind of arrow: group size, and the spot.

use super::compare::{Difference, odds_within, spot};
use super::impacts::impact_words;
use super::judge::{Context, Status, Verdict, status_of};
use super::sight::{SightMove, sight_move};
use crate::question::SetupItem;
use crate::restore::{Target, put_back};
use crate::session::{GroupAt, Impact};
use crate::stats::quantile;
use crate::units::Length;
use crate::words;

impl Context<'_> {
    /// Group size here against the last other setting it was shot at.
    pub(super) fn groups(&self) -> Verdict {
        let here = self.at(self.timeline.now);
        let Some((now, distance)) = pooled(&here, None) else {
            return self.open();
        };
        let radius = self.face.length(now.sd());
        let other = self
            .all()
            .filter(|g| g.positions != self.timeline.now)
            .last()
            .and_then(|g| Some((pooled(&self.at(g.positions), Some(distance))?.0, g)));
        let Some((before, group)) = other else {
            let enough = now.df >= 10.0;
            let status = if enough {
                Status::Passed
            } else {
                Status::ShootMore
            };
            let text = format!(
                "single arrows scatter about {radius} each way at {}; shoot the same at another setting to compare",
                self.system.distance(distance)
            );
            let mut verdict = Verdict::new(self.stage, status, text);
            verdict.distance = Some(distance);
            verdict.shots_wanted = if enough { 0 } else { 3 };
            return verdict;
        };
        let odds = quantile::f_ratio_below(before.variance / now.variance, now.df, before.df);
        let setting = self.timeline.settings[group.setting].number;
        let mut text = format!(
            "here arrows scatter {radius} each way, at setting {setting} {}. Odds that here is the narrower: {}",
            self.face.length(before.sd()),
            words::odds(odds)
        );
        let status = status_of(odds, true);
        if status == Status::ShootMore {
            text.push_str(". Too near to call: 6 more at each, or keep either");
        }
        let mut verdict = Verdict::new(self.stage, status, text);
        verdict.distance = Some(distance);
        verdict.odds = Some(odds);
        if status == Status::Off {
            verdict.put_back = put_back(self.timeline, Target::Setting(setting), self.system).ok();
        }
        if status == Status::ShootMore {
            verdict.shots_wanted = 6;
        }
        verdict
    }

    /// A group against the spot: the sight follows.
    pub(super) fn aim(&self) -> Verdict {
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
        let landed = match impact_words(
            Impact {
                right: centre.right,
                up: centre.up,
            },
            self.face,
        ) {
            on if on.starts_with("on ") => on,
            away => format!("{away} of the spot"),
        };
        let found = spread_of_mean(&group.impacts);
        let odds = found.map(|d| odds_within(&d, limit));
        let status = match (odds, found) {
            (Some(odds), Some(found)) => status_of(odds, found.is_real()),
            _ if off <= 0.5 * limit => Status::ShootMore,
            _ => Status::Off,
        };
        let mut text = format!(
            "the group's centre is {landed} at {}",
            self.system.distance(distance)
        );
        if let Some(odds) = odds {
            text.push_str(&format!(
                "; odds that it truly lies within {}: {}",
                self.face.length(limit),
                words::odds(odds)
            ));
        }
        let mut verdict = Verdict::new(self.stage, status, text);
        verdict.distance = Some(distance);
        verdict.limit_mm = Some(limit);
        verdict.odds = odds;
        verdict.shots_wanted = if status == Status::ShootMore { 3 } else { 0 };
        if status != Status::Passed {
            verdict.sight = self.sight((centre.right, centre.up), distance);
            verdict.text.push_str(&match verdict.sight {
                Some(found) => format!(". {}", found.words(self.system)),
                None => ". Move the pin toward the miss; with eye to pin measured (setup) it is worked out in mm and clicks".into(),
            });
        }
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
