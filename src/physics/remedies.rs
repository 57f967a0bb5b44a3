//! Sizes of remedies for an arrow too weak or too stiff, by solving the
//! spine-match equations themselves, each with its side effects.
//!
//! Numbers only; the order in which they are offered and the words are made
//! elsewhere. Nothing here goes under the mass floor it is given.

use super::bow::{BowSpec, Losses};
use super::column::ArrowSpec;
use super::si::{GRAIN_KG, POUND_N};
use super::spine::{SpineBow, ei_from_spine, spine_from_ei, spine_match};

/// Lightest arrow the trade allows, grains per pound of peak draw force.
pub(crate) const FLOOR_GRAINS_PER_POUND: f64 = 5.0;

/// What a remedy may not pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemedyLimits {
    /// Lightest arrow allowed whatever the draw weight, kg: the bow maker's
    /// figure, or zero; five grains per pound always holds as well.
    pub maker_min_arrow_kg: f64,
    /// How much lighter than the arrow at hand the lightest build is that may
    /// be shot, kg: without its vanes, with a lighter point.
    pub lighter_kg: f64,
    /// Shortest shaft allowed, nock throat to end, m; `None` where nothing
    /// is to be cut.
    pub min_length_m: Option<f64>,
    /// Lightest and heaviest point to be had, kg.
    pub point_kg: (f64, f64),
    /// Lowest and highest peak force the limb bolts allow, N.
    pub peak_force_n: (f64, f64),
}

impl RemedyLimits {
    /// Points of 50 to 250 gr (from memory). No limb bolt is turned and no
    /// shaft is cut: what allows that is not known of every bow.
    #[must_use]
    pub fn usual(bow: &BowSpec) -> Self {
        Self {
            maker_min_arrow_kg: 0.0,
            lighter_kg: 0.0,
            min_length_m: None,
            point_kg: (50.0 * GRAIN_KG, 250.0 * GRAIN_KG),
            peak_force_n: (bow.peak_force_n, bow.peak_force_n),
        }
    }

    /// Lightest arrow allowed at a peak force, kg.
    #[must_use]
    pub fn floor_kg(&self, peak_force_n: f64) -> f64 {
        (FLOOR_GRAINS_PER_POUND * GRAIN_KG * peak_force_n / POUND_N).max(self.maker_min_arrow_kg)
    }

    /// How much lighter the arrow may become at a peak force, kg; negative
    /// where the lightest build is under the floor already.
    #[must_use]
    pub fn room_kg(&self, arrow: &ArrowSpec, peak_force_n: f64) -> f64 {
        arrow.mass_kg() - self.lighter_kg - self.floor_kg(peak_force_n)
    }
}

/// What is changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RemedyKind {
    /// Another point; values are its mass in kg.
    Point,
    /// Limb bolts; values are the peak force in N.
    DrawWeight,
    /// Another shaft; values are static spines in inches (ASTM F2031), mass
    /// per length taken as it was.
    Shaft,
    /// Shaft cut shorter; values are its length in m.
    Cut,
}

/// What a build comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effects {
    /// Total mass, kg.
    pub mass_kg: f64,
    /// Grains per pound of peak force.
    pub grains_per_pound: f64,
    /// Front of centre, percent.
    pub foc_percent: f64,
    /// Expected speed, m/s, from the middling losses of the kind of bow.
    pub speed_m_s: f64,
    /// Load ratio; 1 is as the bow wants it.
    pub load_ratio: f64,
}

/// One remedy, sized.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Remedy {
    /// What is changed.
    pub kind: RemedyKind,
    /// Value now, in the unit of the kind.
    pub(crate) from: f64,
    /// Value to change to.
    pub(crate) to: f64,
    /// Whether the wanted load ratio is reached; if not, `to` is as far as
    /// the limits allow.
    pub reaches: bool,
    /// What the build comes to.
    pub after: Effects,
}

/// The arrow and bow a remedy is sized for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Build {
    /// The arrow as it is.
    pub arrow: ArrowSpec,
    /// The bow as it is.
    pub bow: BowSpec,
    /// Release and rest, for the reference; its peak force is taken from
    /// `bow`.
    pub spine_bow: SpineBow,
}

impl Build {
    /// What this build comes to as it stands.
    #[must_use]
    pub fn effects(&self) -> Effects {
        let mass = self.arrow.mass_kg();
        let losses = Losses::middling(self.bow.kind, mass);
        let spine_bow = SpineBow {
            peak_force_n: self.bow.peak_force_n,
            ..self.spine_bow
        };
        Effects {
            mass_kg: mass,
            grains_per_pound: self.arrow.grains_per_pound(self.bow.peak_force_n),
            foc_percent: self.arrow.foc_percent(),
            speed_m_s: self.bow.speed_m_s(mass, &losses),
            load_ratio: spine_match(&self.arrow, &spine_bow).load_ratio,
        }
    }

    /// The build with one value changed. A chronograph reading no longer
    /// holds then: its virtual mass is kept instead, as a speed.
    #[must_use]
    pub fn with(&self, kind: RemedyKind, value: f64) -> Self {
        let mut next = *self;
        match kind {
            RemedyKind::Point => next.arrow.point_mass_kg = value,
            RemedyKind::DrawWeight => next.bow.peak_force_n = value,
            RemedyKind::Shaft => next.arrow.ei = ei_from_spine(value),
            RemedyKind::Cut => next.arrow.shaft_length_m = value,
        }
        let mass = self.arrow.mass_kg();
        if self.bow.chronograph_m_s.is_some() {
            let losses = Losses::middling(self.bow.kind, mass);
            let (virtual_mass, delivered) = self.bow.fitted(mass, &losses);
            let energy = delivered * next.bow.energy_j(1.0);
            let moved = next.arrow.mass_kg() + virtual_mass;
            next.bow.chronograph_m_s = Some((2.0 * energy / moved).sqrt());
        }
        next
    }

    fn value(&self, kind: RemedyKind) -> f64 {
        match kind {
            RemedyKind::Point => self.arrow.point_mass_kg,
            RemedyKind::DrawWeight => self.bow.peak_force_n,
            RemedyKind::Shaft => spine_from_ei(self.arrow.ei),
            RemedyKind::Cut => self.arrow.shaft_length_m,
        }
    }

    /// Sizes one kind of remedy so that the load ratio becomes `target`
    /// (1 for a full match, 1.15 to come just inside the band).
    ///
    /// `None` when it cannot help: no room inside the limits, or cutting an
    /// arrow that is too stiff.
    #[must_use]
    pub fn remedy(&self, kind: RemedyKind, target: f64, limits: &RemedyLimits) -> Option<Remedy> {
        let from = self.value(kind);
        let weak = self.effects().load_ratio > target;
        let far = self.limit(kind, weak, limits)?;
        let ratio = |value: f64| self.with(kind, value).effects().load_ratio - target;
        let reaches = (ratio(far) > 0.0) != weak;
        let to = if reaches {
            bisect(ratio, from, far)
        } else {
            far
        };
        let after = self.with(kind, to).effects();
        Some(Remedy {
            kind,
            from,
            to,
            reaches,
            after,
        })
    }

    /// How far the limits let this value go in the direction that helps.
    fn limit(&self, kind: RemedyKind, weak: bool, limits: &RemedyLimits) -> Option<f64> {
        let from = self.value(kind);
        let spare = limits.room_kg(&self.arrow, self.bow.peak_force_n);
        let far = match (kind, weak) {
            (RemedyKind::Point, true) => limits.point_kg.0.max(from - spare),
            (RemedyKind::Point, false) => limits.point_kg.1,
            (RemedyKind::DrawWeight, true) => limits.peak_force_n.0,
            (RemedyKind::DrawWeight, false) => {
                let lightest = self.arrow.mass_kg() - limits.lighter_kg;
                let heaviest = lightest / (FLOOR_GRAINS_PER_POUND * GRAIN_KG) * POUND_N;
                limits.peak_force_n.1.min(heaviest)
            }
            (RemedyKind::Shaft, true) => 0.25 * from,
            (RemedyKind::Shaft, false) => 4.0 * from,
            (RemedyKind::Cut, true) => limits
                .min_length_m?
                .max(from - spare / self.arrow.shaft_mass_per_m),
            (RemedyKind::Cut, false) => return None,
        };
        let helps = match (kind, weak) {
            (RemedyKind::Shaft, _) => true,
            (_, true) => far < from,
            (_, false) => far > from,
        };
        // Under the floor already: only what adds mass or takes weight off.
        let adds = matches!(
            (kind, weak),
            (RemedyKind::Point, false) | (RemedyKind::DrawWeight, true)
        );
        // Other shafts of the same weight take nothing off: the arrow as it is
        // shot holds the floor, whatever its lightest build does.
        let same = kind == RemedyKind::Shaft && spare + limits.lighter_kg >= 0.0;
        (helps && (adds || same || spare >= 0.0)).then_some(far)
    }
}

fn bisect(f: impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let (mut near, mut far) = (from, to);
    let sign = f(near) > 0.0;
    for _ in 0..60 {
        let middle = 0.5 * (near + far);
        if (f(middle) > 0.0) == sign {
            near = middle;
        } else {
            far = middle;
        }
    }
    // The far side has reached the target.
    far
}

#[cfg(test)]
mod tests {
    use super::super::bow::tests::compound;
    use super::super::column::tests::common_arrow;
    use super::super::kinds::{BowKind, Release, RestKind};
    use super::super::si::INCH_M;
    use super::*;
    use approx::assert_relative_eq;

    fn build(pounds: f64) -> Build {
        let bow = compound(pounds, 19.25);
        Build {
            arrow: common_arrow(),
            bow,
            spine_bow: SpineBow {
                kind: BowKind::Compound,
                release: Release::Aid,
                rest: RestKind::DropAway,
                peak_force_n: bow.peak_force_n,
            },
        }
    }

    /// Bolts from 85 to 130 % of the weight, and a shaft that may be cut to 26 in.
    fn wide(build: &Build) -> RemedyLimits {
        let peak = build.bow.peak_force_n;
        RemedyLimits {
            min_length_m: Some(26.0 * INCH_M),
            peak_force_n: (0.85 * peak, 1.3 * peak),
            ..RemedyLimits::usual(&build.bow)
        }
    }

    #[test]
    fn a_weak_arrow_is_brought_back_by_weight_shaft_or_cut() {
        let weak = build(72.0);
        let limits = wide(&weak);
        let mut effects = Vec::new();
        for kind in [RemedyKind::DrawWeight, RemedyKind::Shaft, RemedyKind::Cut] {
            let remedy = weak.remedy(kind, 1.1, &limits).expect("there is room");
            assert!(remedy.reaches, "{remedy:?}");
            assert!(remedy.to < remedy.from);
            assert_relative_eq!(remedy.after.load_ratio, 1.1, max_relative = 1e-9);
            assert!(remedy.after.grains_per_pound >= 5.0);
            effects.push(remedy.after);
        }
        assert!(effects[0].speed_m_s < weak.effects().speed_m_s);
        assert!(effects[2].speed_m_s > weak.effects().speed_m_s);
    }

    #[test]
    fn a_lighter_point_stops_at_the_floor_and_says_it_falls_short() {
        let weak = build(72.0);
        let limits = wide(&weak);
        let remedy = weak
            .remedy(RemedyKind::Point, 1.0, &limits)
            .expect("a little room");
        assert!(!remedy.reaches);
        assert_relative_eq!(remedy.after.grains_per_pound, 5.0, max_relative = 1e-9);
        assert!(remedy.after.load_ratio < weak.effects().load_ratio);
    }

    #[test]
    fn below_the_floor_no_remedy_makes_it_lighter() {
        let light = build(80.0);
        let limits = wide(&light);
        assert!(light.remedy(RemedyKind::Point, 1.0, &limits).is_none());
        assert!(light.remedy(RemedyKind::Cut, 1.0, &limits).is_none());
        let less = light
            .remedy(RemedyKind::DrawWeight, 1.0, &limits)
            .expect("bolts can be let out");
        assert!(less.after.grains_per_pound > light.effects().grains_per_pound);
    }

    #[test]
    fn a_stiff_arrow_is_never_cut_and_a_heavier_point_softens_it() {
        let stiff = build(50.0);
        let limits = wide(&stiff);
        assert!(stiff.remedy(RemedyKind::Cut, 1.0, &limits).is_none());
        let point = stiff
            .remedy(RemedyKind::Point, 0.9, &limits)
            .expect("points go to 250 gr");
        assert!(point.to > point.from && point.after.foc_percent > stiff.effects().foc_percent);
    }

    /// What already stands at the wanted ratio is not weak: nothing is cut.
    /// A limit that just reaches the ratio reaches it.
    #[test]
    fn an_arrow_as_wanted_is_not_cut_and_the_very_limit_reaches() {
        let weak = build(72.0);
        let limits = wide(&weak);
        let as_it_is = weak.effects().load_ratio;
        assert!(weak.remedy(RemedyKind::Cut, as_it_is, &limits).is_none());
        let half_off = weak.arrow.shaft_length_m - 0.5 * INCH_M;
        let just = RemedyLimits {
            min_length_m: Some(half_off),
            ..limits
        };
        let shortest = weak.with(RemedyKind::Cut, half_off).effects();
        let cut = weak
            .remedy(RemedyKind::Cut, shortest.load_ratio, &just)
            .expect("room");
        assert!(cut.reaches);
        assert_relative_eq!(cut.to, half_off, max_relative = 1e-9);
        let turned = weak
            .remedy(RemedyKind::DrawWeight, as_it_is, &limits)
            .expect("room");
        assert_relative_eq!(turned.to / POUND_N, 72.0, max_relative = 1e-9);
    }

    #[test]
    fn a_chronographed_bow_keeps_its_virtual_mass() {
        let mut slow = build(72.0);
        slow.bow.chronograph_m_s = Some(80.0);
        let remedy = slow
            .remedy(RemedyKind::Cut, 1.1, &wide(&slow))
            .expect("room");
        assert!(remedy.after.speed_m_s > 80.0 && remedy.after.speed_m_s < 82.0);
    }

    #[test]
    fn without_the_makers_figures_and_a_mark_nothing_is_turned_or_cut() {
        for (build, target) in [(build(72.0), 1.1), (build(48.0), 0.9)] {
            let limits = RemedyLimits::usual(&build.bow);
            for kind in [RemedyKind::DrawWeight, RemedyKind::Cut] {
                assert!(build.remedy(kind, target, &limits).is_none(), "{kind:?}");
            }
            assert!(build.remedy(RemedyKind::Shaft, target, &limits).is_some());
        }
    }

    /// 372 gr on 50 lb; 100 gr of it may be missing: 272 gr are 54.4 lb at
    /// five grains a pound, whatever the bolts allow.
    #[test]
    fn more_draw_weight_stops_where_the_lightest_build_meets_the_floor() {
        let stiff = build(50.0);
        let limits = RemedyLimits {
            lighter_kg: 100.0 * GRAIN_KG,
            ..wide(&stiff)
        };
        let up = stiff
            .remedy(RemedyKind::DrawWeight, 1.0, &limits)
            .expect("some room");
        assert!(!up.reaches);
        assert_relative_eq!(up.to / POUND_N, 54.4, max_relative = 1e-9);
        // Under the floor: no more weight.
        let maker = RemedyLimits {
            maker_min_arrow_kg: 280.0 * GRAIN_KG,
            ..limits
        };
        assert!(stiff.remedy(RemedyKind::DrawWeight, 1.0, &maker).is_none());
    }

    /// 372 gr on 60 lb, 300 gr the floor: with 21 gr of vanes off, 51 gr of
    /// point may go.
    #[test]
    fn the_lightest_build_counts_for_a_lighter_point() {
        let weak = build(60.0);
        let limits = RemedyLimits {
            lighter_kg: 21.0 * GRAIN_KG,
            ..wide(&weak)
        };
        let found = weak
            .remedy(RemedyKind::Point, 0.5, &limits)
            .expect("some room");
        assert_relative_eq!(found.to / GRAIN_KG, 50.0, max_relative = 1e-9);
        let vaneless = RemedyLimits {
            lighter_kg: 40.0 * GRAIN_KG,
            ..limits
        };
        let found = weak
            .remedy(RemedyKind::Point, 0.5, &vaneless)
            .expect("some room");
        assert_relative_eq!(found.to / GRAIN_KG, 68.0, max_relative = 1e-9);
    }

    /// 372 gr as it is shot, 351 without its vanes: stiffer shafts of the same
    /// weight are offered as long as it may be shot as it is.
    #[test]
    fn other_shafts_are_offered_while_the_arrow_as_shot_holds_the_floor() {
        let weak = build(66.0);
        let least = |grains: f64| RemedyLimits {
            lighter_kg: 21.0 * GRAIN_KG,
            maker_min_arrow_kg: grains * GRAIN_KG,
            ..wide(&weak)
        };
        for (grains, shafts, point) in [
            (350.0, true, true),
            (360.0, true, false),
            (371.9, true, false),
            (372.1, false, false),
        ] {
            let limits = least(grains);
            let offered = |kind| weak.remedy(kind, 1.0, &limits).is_some();
            assert_eq!(offered(RemedyKind::Shaft), shafts, "{grains}");
            assert_eq!(offered(RemedyKind::Point), point, "{grains}");
        }
    }
}
