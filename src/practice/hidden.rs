//! What the player does not see: the bow's mechanics, where its adjusters
//! stand from where they should be, and who shoots it.

use super::cards::LABEL_OUT;
use super::fault::{Fault, Plan};
use crate::gear::{AdjusterKind, Card, Positions};
use crate::physics::card::{arrow_spec, case};
use crate::physics::launch::STEP_S;
use crate::physics::paper::Cut;
use crate::physics::prior::Case;
use crate::physics::rng::Rng;
use crate::physics::{Disturbance, FreeModes, Settings, Steadiness, Unknowns, VirtualBow};
use crate::question::Answer;
use crate::units::Spine;

/// Draws of the mechanics tried before a plan is given up.
const TRIES: usize = 400;
/// Length of the tear at the start, in tolerances: worth tuning, and paper
/// still shows it.
const START: (f64, f64) = (1.7, 5.5);
/// Shots behind the true mean tear.
const MEAN_SHOTS: usize = 200;

/// What the vanes strike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Struck {
    /// The rest.
    Rest,
    /// A cable or its guard.
    Cable,
    /// Something else: riser, shelf, clothing.
    Other,
}

impl Struck {
    /// The answer of the powder test.
    pub(crate) const fn answer(self) -> Answer {
        match self {
            Self::Rest => Answer::Rest,
            Self::Cable => Answer::Cable,
            Self::Other => Answer::Other,
        }
    }
}

/// Vanes that strike something on most shots.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Touch {
    pub(crate) what: Struck,
    /// Mean knock on the vanes, N s right and up; each differs by about half.
    pub(crate) knock_ns: [f64; 2],
}

/// The hidden side of a practice bow.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Hidden {
    pub(crate) unknowns: Unknowns,
    /// Where the adjusters stand when they read zero.
    pub(crate) base: Settings,
    /// How far the player must go: sideways and the vertical adjuster, mm.
    pub(crate) way_mm: [f64; 2],
    pub(crate) steadiness: Steadiness,
    pub(crate) touch: Option<Touch>,
    /// True draw weight over the card's, until the bow is weighed.
    pub(crate) weight_share: f64,
}

/// The card with a shaft that suits the bow.
fn with_right_arrow(card: &Card) -> Card {
    let ratio = crate::checks::spine::of_card(card).load_ratio;
    let mut card = card.clone();
    card.arrow.spine = Spine::from_deflection(card.arrow.spine.deflection() / ratio);
    card
}

/// The adjusters' positions as the launch wants them.
fn settings(base: &Settings, now: &Positions) -> Settings {
    Settings {
        rest_side_mm: base.rest_side_mm
            + now.get(AdjusterKind::RestSideways)
            + now.get(AdjusterKind::CentreShot),
        rest_up_mm: base.rest_up_mm + now.get(AdjusterKind::RestHeight),
        nock_up_mm: base.nock_up_mm + now.get(AdjusterKind::NockingPoint),
        plunger_turns: base.plunger_turns + now.get(AdjusterKind::PlungerTension),
    }
}

/// Sideways and the vertical adjuster of this card moved from a base.
fn moved(card: &Card, base: &Settings, by: [f64; 2]) -> Settings {
    let mut now = Positions::default();
    if let Some(sideways) = card.sideways() {
        now.set(sideways.kind, by[0]);
    }
    if let Some(vertical) = card.vertical() {
        now.set(vertical.kind, by[1]);
    }
    settings(base, &now)
}

impl Hidden {
    /// A bow that answers to this plan, if one is found.
    pub fn draw(plan: &Plan, card: &Card, rng: &mut Rng) -> Option<Self> {
        let wrong_arrow = plan.has(Fault::Weak) || plan.has(Fault::Stiff);
        // With the wrong arrow nothing need fit; with the right one it must.
        let right = if wrong_arrow {
            with_right_arrow(card)
        } else {
            card.clone()
        };
        let modes = FreeModes::of(&arrow_spec(&right));
        (0..TRIES)
            .find_map(|_| Self::try_draw(plan, &right, &modes, rng))
            .filter(|hidden| !wrong_arrow || hidden.start_share(card) < START.1)
    }

    /// Length of an undisturbed tear at the start, in tolerances.
    fn start_share(&self, card: &Card) -> f64 {
        let cut = self.shoot(
            card,
            &Positions::default(),
            false,
            distance(card),
            &Disturbance::default(),
        );
        cut.tear_mm()[0].hypot(cut.tear_mm()[1]) / card.paper.tolerance
    }

    fn try_draw(plan: &Plan, card: &Card, modes: &FreeModes, rng: &mut Rng) -> Option<Self> {
        let setup = crate::physics::card::setup(card);
        let weight_share = if plan.has(Fault::Label) {
            1.0 / (1.0 + LABEL_OUT)
        } else {
            1.0
        };
        let mut hidden = Self {
            unknowns: Unknowns::draw(&setup, rng),
            base: Settings::default(),
            way_mm: way(plan, rng),
            steadiness: Steadiness::average(card.bow.release),
            touch: None,
            weight_share,
        };
        let case = hidden.case(card);
        let bow = VirtualBow::with_modes(
            &case.arrow,
            &case.bow,
            &case.setup,
            &hidden.unknowns,
            STEP_S,
            modes,
        );
        // Most bows answer some other way; that shows at the start already.
        let start = Straight::gains(&bow, card, [0.0; 2]);
        if !answers_as(start, plan, card, 0.5) {
            return None;
        }
        let straight = Straight::find(&bow, card)?;
        if !answers_as(straight.gains, plan, card, 1.0) {
            return None;
        }
        let [side, up] = [0, 1].map(|i| straight.at[i] - hidden.way_mm[i]);
        hidden.base = moved(card, &Settings::default(), [side, up]);
        let size = hidden.start_share(card);
        let rest_is_wrong = plan.faults.iter().any(|f| f.is_of_the_rest());
        if size > START.1 || (rest_is_wrong && size < START.0) {
            return None;
        }
        let zero = moved(card, &Settings::default(), straight.at);
        hidden.steadiness = steadiness(&bow, card, &zero, plan.spread, rng);
        if plan.has(Fault::Contact) {
            hidden.touch = Some(touch(&bow, card, &zero, rng));
        }
        Some(hidden)
    }

    /// The bow as it truly is, with the arrow of the card.
    pub fn bow(&self, card: &Card, bare: bool) -> VirtualBow {
        let mut case = self.case(card);
        case.arrow.bare = bare;
        VirtualBow::new(&case.arrow, &case.bow, &case.setup, &self.unknowns)
    }

    /// The mechanics behind the card, at the true weight.
    fn case(&self, card: &Card) -> Case {
        let mut case = case(card);
        if !card.bow.weighed {
            case.bow.peak_force_n *= self.weight_share;
        }
        case
    }

    /// What a scale shows, lb to one decimal.
    pub(crate) fn weighed_lb(&self, card: &Card) -> f64 {
        let share = if card.bow.weighed {
            1.0
        } else {
            self.weight_share
        };
        (card.bow.peak_weight.pounds() * share * 10.0).round() / 10.0
    }

    /// One shot's own disturbance, and whether the vanes struck.
    pub(crate) fn disturbance(&self, share: f64, rng: &mut Rng) -> (Disturbance, bool) {
        let mut shot = self.steadiness.scaled(share).draw(rng);
        let strikes = rng.share() < 0.85;
        let size = 1.0 + 0.5 * rng.normal();
        match self.touch {
            Some(touch) if strikes => {
                shot.vane_knock_ns = touch.knock_ns.map(|k| k * size);
                (shot, true)
            }
            _ => (shot, false),
        }
    }

    /// A shot with everything that happens to it.
    pub fn shoot(
        &self,
        card: &Card,
        now: &Positions,
        bare: bool,
        distance_m: f64,
        shot: &Disturbance,
    ) -> Cut {
        self.bow(card, bare)
            .shoot(&settings(&self.base, now), shot, distance_m)
    }

    /// Whether an undisturbed shot slaps a one-sided rest late, with fingers.
    pub(crate) fn slaps(&self, card: &Card, now: &Positions) -> bool {
        if !self.case(card).one_sided() {
            return false;
        }
        let bow = self.bow(card, false);
        let input = bow.input(&settings(&self.base, now), &Disturbance::default());
        bow.launch().touches(&input).late()
    }

    /// The true mean tear at these positions, mm: many shots by the owner.
    pub(crate) fn mean_tear(&self, card: &Card, now: &Positions) -> [f64; 2] {
        let bow = self.bow(card, false);
        let paper = bow.paper(distance(card));
        let settings = settings(&self.base, now);
        let mut rng = Rng::new(0x3ea5);
        let mut sum = [0.0; 2];
        for _ in 0..MEAN_SHOTS {
            let (shot, _) = self.disturbance(1.0, &mut rng);
            let tear = bow.tear_mm(&settings, &shot, &paper);
            sum = [sum[0] + tear[0], sum[1] + tear[1]];
        }
        sum.map(|s| s / MEAN_SHOTS as f64)
    }
}

fn distance(card: &Card) -> f64 {
    card.paper.distance.m()
}

/// How far from right the adjusters stand, as moves the player must make.
fn way(plan: &Plan, rng: &mut Rng) -> [f64; 2] {
    let mut far = |fault: bool, low: f64, high: f64| {
        let side = if rng.share() < 0.5 { -1.0 } else { 1.0 };
        let size = if fault {
            rng.between(low, high)
        } else {
            rng.between(0.0, 0.4)
        };
        side * size
    };
    let sideways = if plan.fingers { (0.8, 3.0) } else { (2.0, 5.5) };
    [
        far(plan.has(Fault::OffCentre), sideways.0, sideways.1),
        far(plan.has(Fault::Height), 2.0, 5.0),
    ]
}

/// The place where an undisturbed arrow leaves a clean hole, and what the
/// adjusters do there.
struct Straight {
    at: [f64; 2],
    /// Mm of tear for 1 mm on each adjuster's own axis, either side of it.
    gains: [[f64; 2]; 2],
}

impl Straight {
    /// The tear at a place, mm right and up, undisturbed.
    fn tear(bow: &VirtualBow, card: &Card, at: [f64; 2]) -> [f64; 2] {
        bow.tear_mm(
            &moved(card, &Settings::default(), at),
            &Disturbance::default(),
            &bow.paper(distance(card)),
        )
    }

    /// Mm of tear for 1 mm, either side of a place.
    fn gains(bow: &VirtualBow, card: &Card, at: [f64; 2]) -> [[f64; 2]; 2] {
        let here = Self::tear(bow, card, at);
        std::array::from_fn(|axis| {
            [-1.0, 1.0].map(|by: f64| {
                let mut there = at;
                there[axis] += by;
                (Self::tear(bow, card, there)[axis] - here[axis]) / by
            })
        })
    }

    /// Newton's method from the start; `None` where it does not settle
    /// within 6 mm.
    fn find(bow: &VirtualBow, card: &Card) -> Option<Self> {
        const STEPS: usize = 16;
        let mut at = [0.0; 2];
        for _ in 0..STEPS {
            let here = Self::tear(bow, card, at);
            if here[0].hypot(here[1]) < 0.2 {
                let gains = Self::gains(bow, card, at);
                return Some(Self { at, gains });
            }
            for axis in 0..2 {
                let mut there = at;
                there[axis] += 0.25;
                let slope = (Self::tear(bow, card, there)[axis] - here[axis]) / 0.25;
                if slope.abs() < 0.2 {
                    return None;
                }
                at[axis] -= (0.9 * here[axis] / slope).clamp(-1.5, 1.5);
            }
            if at.iter().any(|a| a.abs() > 6.0) {
                return None;
            }
        }
        None
    }
}

/// Whether a bow answers as its plan says, strongly enough to be tuned in
/// clicks and not so strongly that a click jumps over it. `strictness` is 1
/// where the arrow flies straight, less where that is not known yet.
fn answers_as(gains: [[f64; 2]; 2], plan: &Plan, card: &Card, strictness: f64) -> bool {
    let [side, up] = gains;
    let within = |gains: [f64; 2], low: f64, high: f64| {
        let range = low * strictness..=high / strictness;
        gains.iter().all(|g| range.contains(&g.abs())) && gains[0].signum() == gains[1].signum()
    };
    let (low, high) = if plan.fingers {
        (1.5, 16.0)
    } else {
        (0.9, 4.5)
    };
    // A tail that goes against the rest is what most guides suppose.
    let way = if plan.has(Fault::Backwards) {
        1.0
    } else {
        -1.0
    };
    let side_fits = within(side, low, high) && (plan.fingers || side[0] * way > 0.0);
    // Up and down the trade agrees: rest up or nocking point down, tail down.
    let by_rest = card.vertical().map(|a| a.kind) == Some(AdjusterKind::RestHeight);
    let way = if by_rest { -1.0 } else { 1.0 };
    side_fits && within(up, 0.8, 4.5) && up[0] * way > 0.0
}

/// An archer whose shots spread over this share of the tolerance (standard
/// deviation of the wider way).
fn steadiness(
    bow: &VirtualBow,
    card: &Card,
    at: &Settings,
    spread: f64,
    rng: &mut Rng,
) -> Steadiness {
    const SHOTS: usize = 60;
    let average = Steadiness::average(card.bow.release);
    let paper = bow.paper(distance(card));
    let tears: Vec<[f64; 2]> = (0..SHOTS)
        .map(|_| bow.tear_mm(at, &average.draw(rng), &paper))
        .collect();
    let sd = [0, 1].map(|axis| {
        let mean = tears.iter().map(|t| t[axis]).sum::<f64>() / SHOTS as f64;
        let square: f64 = tears.iter().map(|t| (t[axis] - mean).powi(2)).sum();
        (square / (SHOTS - 1) as f64).sqrt()
    });
    average.scaled(spread * card.paper.tolerance / sd[0].max(sd[1]))
}

/// Contact that throws the tail by 1.5 to 2.5 tolerances.
fn touch(bow: &VirtualBow, card: &Card, at: &Settings, rng: &mut Rng) -> Touch {
    let kinds: &[Struck] = if card.bow.kind == crate::gear::BowKind::Compound {
        &[Struck::Rest, Struck::Cable, Struck::Other]
    } else {
        &[Struck::Rest, Struck::Other]
    };
    let what = kinds[rng.below(kinds.len())];
    let angle = rng.between(0.0, std::f64::consts::TAU);
    let way = [angle.cos(), angle.sin()];
    let paper = bow.paper(distance(card));
    let knocked = |vane_knock_ns: [f64; 2]| {
        let shot = Disturbance {
            vane_knock_ns,
            ..Disturbance::default()
        };
        bow.tear_mm(at, &shot, &paper)
    };
    let (still, struck) = (knocked([0.0; 2]), knocked(way.map(|w| 1e-3 * w)));
    let each = (struck[0] - still[0]).hypot(struck[1] - still[1]);
    let wanted = rng.between(1.5, 2.5) * card.paper.tolerance;
    let size = 1e-3 * wanted / each.max(0.05);
    Touch {
        what,
        knock_ns: way.map(|w| size * w),
    }
}
