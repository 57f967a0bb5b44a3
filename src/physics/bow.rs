//! The bow along the arrow: force-draw curve, stored energy, speed, time.
//!
//! The force-draw curves are idealised. The arrow leaves the string at brace
//! height; that the string goes on an inch or two (Hodgson) is left out.

use super::kinds::BowKind;
use super::si::{GRAIN_KG, INCH_M};

/// What the trade adds to the pivot-point draw length (ATA; ASTM F1880), m.
pub(crate) const ATA_ADDITION_M: f64 = 1.75 * INCH_M;
/// Share of a compound's draw over which the force rises, and falls again.
const RAMP: f64 = 0.2;
/// How much a recurve's curve bulges above the straight line: gives 43.0 J
/// at 35 lb over 0.48 m, as measured by B. Olsen.
const RECURVE_BULGE: f64 = 0.45;

/// A bow in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowSpec {
    /// Shape of the force-draw curve.
    pub kind: BowKind,
    /// Greatest draw force, N; of a recurve or longbow at this archer's draw.
    pub peak_force_n: f64,
    /// The trade's draw length: pivot to string plus 1 3/4 in, m.
    pub draw_length_m: f64,
    /// Brace height, pivot to string undrawn, m.
    pub brace_height_m: f64,
    /// Let-off as a share of the peak, 0 to 1; only used for a compound.
    pub let_off: f64,
    /// A chronograph reading with the arrow at hand, m/s, if there is one.
    pub chronograph_m_s: Option<f64>,
    /// How far the rest touches ahead of the grip pivot, m; behind negative.
    pub rest_ahead_m: f64,
}

/// What the bow keeps for itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// Mass of limbs, string and cams as felt at the nock, kg.
    pub virtual_mass_kg: f64,
    /// Share of the drawn energy lost between drawing and letting down.
    pub hysteresis: f64,
}

impl Losses {
    /// Middling values: for a compound 75 gr (a middling choice, no source)
    /// and 10 % (10 to 20 % is reported); for the others the measured
    /// `5.77 g + 0.0583 m` (B. Olsen, a 35 lb recurve).
    #[must_use]
    pub fn middling(kind: BowKind, arrow_kg: f64) -> Self {
        match kind {
            BowKind::Compound => Self {
                virtual_mass_kg: 75.0 * GRAIN_KG,
                hysteresis: 0.10,
            },
            BowKind::Recurve | BowKind::Longbow => Self {
                virtual_mass_kg: 5.77e-3 + 0.0583 * arrow_kg,
                hysteresis: 0.0,
            },
        }
    }
}

impl BowSpec {
    /// Length of the power stroke, full draw to brace, m.
    #[must_use]
    pub fn stroke_m(&self) -> f64 {
        self.draw_length_m - ATA_ADDITION_M - self.brace_height_m
    }

    /// Nock throat to grip pivot at full draw, m.
    #[must_use]
    pub fn pivot_m(&self) -> f64 {
        self.draw_length_m - ATA_ADDITION_M
    }

    /// Nock throat to the rest's contact at full draw, m.
    #[must_use]
    pub fn rest_m(&self) -> f64 {
        self.pivot_m() + self.rest_ahead_m
    }

    /// Draw force, N, at a share of the stroke: 0 at brace, 1 at full draw.
    #[must_use]
    pub fn force_n(&self, drawn: f64) -> f64 {
        let d = drawn.clamp(0.0, 1.0);
        let share = match self.kind {
            BowKind::Compound if d < RAMP => d / RAMP,
            BowKind::Compound if d > 1.0 - RAMP => 1.0 - self.let_off * (d - 1.0 + RAMP) / RAMP,
            BowKind::Compound => 1.0,
            BowKind::Recurve => d * (1.0 + RECURVE_BULGE - RECURVE_BULGE * d),
            BowKind::Longbow => d,
        };
        self.peak_force_n * share
    }

    /// Energy stored up to a share of the stroke, J.
    #[must_use]
    pub fn energy_j(&self, drawn: f64) -> f64 {
        let d = drawn.clamp(0.0, 1.0);
        let share = match self.kind {
            BowKind::Compound if d < RAMP => 0.5 * d * d / RAMP,
            BowKind::Compound => {
                let past = (d - 1.0 + RAMP).max(0.0);
                d - 0.5 * RAMP - 0.5 * self.let_off * past * past / RAMP
            }
            BowKind::Recurve => d * d * (0.5 * (1.0 + RECURVE_BULGE) - RECURVE_BULGE * d / 3.0),
            BowKind::Longbow => 0.5 * d * d,
        };
        self.peak_force_n * self.stroke_m() * share
    }

    /// The same losses, fitted to the chronograph reading if there is one.
    ///
    /// Returns the virtual mass and the share of the drawn energy that is
    /// delivered. The virtual mass takes up the difference as far as 2 to
    /// 20 g allow, the energy the rest.
    #[must_use]
    pub fn fitted(&self, arrow_kg: f64, losses: &Losses) -> (f64, f64) {
        let delivered = 1.0 - losses.hysteresis;
        let Some(speed) = self.chronograph_m_s else {
            return (losses.virtual_mass_kg, delivered);
        };
        let wanted = 2.0 * delivered * self.energy_j(1.0) / (speed * speed) - arrow_kg;
        let virtual_mass = wanted.clamp(2e-3, 20e-3);
        let energy = 0.5 * (arrow_kg + virtual_mass) * speed * speed;
        (virtual_mass, energy / self.energy_j(1.0))
    }

    /// Speed at which an arrow of this mass leaves the string, m/s: the
    /// chronograph's if there is one, else `W = (m + m_v) v^2 / 2`.
    #[must_use]
    pub fn speed_m_s(&self, arrow_kg: f64, losses: &Losses) -> f64 {
        let (virtual_mass, delivered) = self.fitted(arrow_kg, losses);
        (2.0 * delivered * self.energy_j(1.0) / (arrow_kg + virtual_mass)).sqrt()
    }
}

const CELLS: usize = 96;

/// The arrow's motion along itself, from release to leaving the string.
#[derive(Debug, Clone)]
pub struct PowerStroke {
    bow: BowSpec,
    moved_kg: f64,
    delivered: f64,
    /// Times at which the square root of the travelled share is `i / CELLS`.
    times: [f64; CELLS + 1],
}

/// The motion at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialState {
    /// Travel from full draw, m.
    pub travel_m: f64,
    /// Speed, m/s.
    pub speed_m_s: f64,
    /// Acceleration, m/s^2.
    pub acceleration: f64,
}

impl PowerStroke {
    /// Follows the stroke by the energy equation, `t = integral ds / v`.
    #[must_use]
    pub fn new(bow: &BowSpec, arrow_kg: f64, losses: &Losses) -> Self {
        let (virtual_mass, delivered) = bow.fitted(arrow_kg, losses);
        let mut run = Self {
            bow: *bow,
            moved_kg: arrow_kg + virtual_mass,
            delivered,
            times: [0.0; CELLS + 1],
        };
        // With travel = stroke * r^2 the integrand stays finite at r = 0.
        let cell = 1.0 / CELLS as f64;
        let gauss = 0.5 * cell / 3.0_f64.sqrt();
        for i in 0..CELLS {
            let middle = (i as f64 + 0.5) * cell;
            let sum = run.time_slope(middle - gauss) + run.time_slope(middle + gauss);
            run.times[i + 1] = run.times[i] + 0.5 * cell * sum;
        }
        run
    }

    /// dt/dr at r, the square root of the travelled share.
    fn time_slope(&self, r: f64) -> f64 {
        2.0 * self.bow.stroke_m() * r.max(1e-6) / self.speed_after(r.max(1e-6))
    }

    fn speed_after(&self, r: f64) -> f64 {
        let energy = self.bow.energy_j(1.0) - self.bow.energy_j(1.0 - r * r);
        (2.0 * self.delivered * energy / self.moved_kg).sqrt()
    }

    /// Release to string exit, s.
    #[must_use]
    pub fn duration_s(&self) -> f64 {
        self.times[CELLS]
    }

    /// Speed at string exit, m/s.
    #[must_use]
    pub fn exit_speed_m_s(&self) -> f64 {
        self.speed_after(1.0)
    }

    /// The motion at `time_s` after release; beyond the exit, as at the exit.
    #[must_use]
    pub fn at(&self, time_s: f64) -> AxialState {
        let time = time_s.clamp(0.0, self.duration_s());
        let i = self.times.partition_point(|t| *t <= time).clamp(1, CELLS) - 1;
        let cell = 1.0 / CELLS as f64;
        let width = self.times[i + 1] - self.times[i];
        let u = (time - self.times[i]) / width;
        // Cubic Hermite for r(t): the slopes are known exactly.
        let (r0, r1) = (i as f64 * cell, (i + 1) as f64 * cell);
        let (d0, d1) = (width / self.time_slope(r0), width / self.time_slope(r1));
        let (u2, u3) = (u * u, u * u * u);
        let r = r0 * (2.0 * u3 - 3.0 * u2 + 1.0)
            + d0 * (u3 - 2.0 * u2 + u)
            + r1 * (3.0 * u2 - 2.0 * u3)
            + d1 * (u3 - u2);
        let share = (r * r).clamp(0.0, 1.0);
        AxialState {
            travel_m: self.bow.stroke_m() * share,
            speed_m_s: self.speed_after(share.sqrt()),
            acceleration: self.delivered * self.bow.force_n(1.0 - share) / self.moved_kg,
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::super::si::POUND_N;
    use super::*;
    use approx::assert_relative_eq;

    pub(crate) fn compound(pounds: f64, stroke_in: f64) -> BowSpec {
        BowSpec {
            kind: BowKind::Compound,
            peak_force_n: pounds * POUND_N,
            draw_length_m: (stroke_in + 1.75 + 7.0) * INCH_M,
            brace_height_m: 7.0 * INCH_M,
            let_off: 0.8,
            chronograph_m_s: None,
            rest_ahead_m: 0.0,
        }
    }

    #[test]
    fn energy_is_the_area_under_the_force_curve() {
        for kind in [BowKind::Compound, BowKind::Recurve, BowKind::Longbow] {
            let bow = BowSpec {
                kind,
                ..compound(60.0, 20.0)
            };
            let n = 20_000;
            let area: f64 = (0..n)
                .map(|i| bow.force_n((f64::from(i) + 0.5) / f64::from(n)))
                .sum::<f64>()
                * bow.stroke_m()
                / f64::from(n);
            assert_relative_eq!(area, bow.energy_j(1.0), max_relative = 1e-6);
        }
    }

    #[test]
    fn a_chronograph_reading_is_what_the_arrow_does() {
        for speed in [60.0, 86.0, 110.0] {
            let bow = BowSpec {
                chronograph_m_s: Some(speed),
                ..compound(60.0, 19.25)
            };
            let losses = Losses::middling(bow.kind, 0.024);
            assert_relative_eq!(bow.speed_m_s(0.024, &losses), speed, max_relative = 1e-9);
            let run = PowerStroke::new(&bow, 0.024, &losses);
            assert_relative_eq!(run.exit_speed_m_s(), speed, max_relative = 1e-9);
        }
    }

    #[test]
    fn the_motion_agrees_with_itself() {
        let bow = compound(60.0, 19.25);
        let run = PowerStroke::new(&bow, 0.0241, &Losses::middling(bow.kind, 0.0241));
        let (t, h) = (0.6 * run.duration_s(), 1e-5);
        let slope = (run.at(t + h).travel_m - run.at(t - h).travel_m) / (2.0 * h);
        assert_relative_eq!(slope, run.at(t).speed_m_s, max_relative = 1e-3);
        let change = (run.at(t + h).speed_m_s - run.at(t - h).speed_m_s) / (2.0 * h);
        assert_relative_eq!(change, run.at(t).acceleration, max_relative = 1e-2);
        assert_relative_eq!(run.at(1.0).travel_m, bow.stroke_m(), max_relative = 1e-9);
    }

    #[test]
    fn stroke_pivot_and_rest_are_counted_from_the_trades_draw_length() {
        // 29 in of draw: pivot 27.25 in, 20.25 in of stroke over a 7 in brace.
        let bow = BowSpec {
            rest_ahead_m: 0.0254,
            ..compound(60.0, 20.25)
        };
        assert_relative_eq!(bow.draw_length_m, 0.7366, max_relative = 1e-9);
        assert_relative_eq!(bow.pivot_m(), 0.692_15, max_relative = 1e-9);
        assert_relative_eq!(bow.stroke_m(), 0.514_35, max_relative = 1e-9);
        assert_relative_eq!(bow.rest_m(), 0.717_55, max_relative = 1e-9);
    }

    #[test]
    fn default_losses_are_written_out() {
        let compound = Losses::middling(BowKind::Compound, 0.020);
        assert_relative_eq!(compound.virtual_mass_kg, 4.859_918e-3, max_relative = 1e-6);
        assert_relative_eq!(compound.hysteresis, 0.10);
        for kind in [BowKind::Recurve, BowKind::Longbow] {
            let other = Losses::middling(kind, 0.020);
            assert_relative_eq!(other.virtual_mass_kg, 6.936e-3, max_relative = 1e-9);
            assert_relative_eq!(other.hysteresis, 0.0);
        }
    }
}
