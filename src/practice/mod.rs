//! A virtual bow to tune, with something hidden wrong with it.
//!
//! The mechanics are those of [`crate::physics`]; the customer, the bow and
//! the fault are drawn from a seed and a level, and the same seed and level
//! always give the same bow and the same shots. The player works on an
//! ordinary session in memory with the ordinary advice. What is hidden stays
//! in [`Practice`]: it shoots, answers the tests of the bench truthfully, and
//! at the end tells what was wrong. All of it is facts; what they say stands in
//! [`crate::words::practice`].
//!
//! - [`fault`]: what can be wrong, and what each level draws.
//! - `cards`: invented customers; `hidden`: the bow behind the card.
//! - [`mod@bench`]: tests and cures, answered by the truth.
//! - [`play`](mod@play): the program's own advice on the same bow.
//! - [`guess`]: what the player would do, before the advice is shown.
//! - [`tell`]: why the advice is what it is.
//! - [`reveal`]: what was wrong, and whether the player found it.
//! - [`standing`]: how practice goes, kept as counts.

pub(crate) mod bench;
mod cards;
pub(crate) mod fault;
pub(crate) mod guess;
mod hidden;
pub mod play;
pub(crate) mod reveal;
pub(crate) mod standing;
pub mod tell;

pub use bench::{Job, Seen};
pub use fault::{Fault, LEVELS};
pub use guess::{Guess, Guessed};
pub use hidden::Struck;
pub use play::{Asked, Played, Told, play};
pub use reveal::{Conclusion, Judged, Reveal, WasWrong};
pub use standing::Standing;

use crate::advice;
use crate::gear::{Card, CardText, Positions};
use crate::physics::paper::Cut;
use crate::physics::rng::Rng;
use crate::session::{Session, Shooter, Shot, Timeline};
use fault::Plan;
use hidden::Hidden;

/// Customers tried for one seed before the level is taken to be impossible.
const CUSTOMERS: u64 = 64;
/// A shaft that strays this far, mm, from the straight line between the two
/// holes cuts paper of its own.
const STRAY_MM: f64 = 6.0;

/// A practice bow.
#[derive(Debug, Clone)]
pub struct Practice {
    seed: u64,
    level: u8,
    plan: Plan,
    card: CardText,
    hidden: Hidden,
    fired: u32,
    cleared: bool,
    guesses: Vec<Guessed>,
    /// Shots and moves that stood when the player was last asked.
    asked_at: Option<(usize, usize)>,
    counted: bool,
    asks: bool,
}

impl Practice {
    /// The bow of a seed and a level; levels outside [`LEVELS`] are brought
    /// inside.
    ///
    /// # Panics
    /// If no bow suits the level, which tests rule out.
    #[must_use]
    pub fn new(seed: u64, level: u8) -> Self {
        let level = level.clamp(*LEVELS.start(), *LEVELS.end());
        (0..CUSTOMERS)
            .find_map(|customer| Self::try_new(seed, level, customer))
            .expect("every level has bows that suit it")
    }

    fn try_new(seed: u64, level: u8, customer: u64) -> Option<Self> {
        // The plan is drawn once for a seed, so that hard ones are not rarer.
        let (plan, more) = plan_of(seed, level);
        let mut rng = Rng::new(more ^ customer);
        let (card, read) = cards::draw(&plan, &mut rng);
        let hidden = Hidden::draw(&plan, &read, &mut rng)?;
        Some(Self {
            seed,
            level,
            plan,
            card,
            hidden,
            fired: 0,
            cleared: false,
            guesses: Vec::new(),
            asked_at: None,
            counted: false,
            asks: true,
        })
    }

    /// The same bow after so many shots, as a session goes on that has them.
    #[must_use]
    pub const fn after(mut self, fired: u32) -> Self {
        self.fired = fired;
        self
    }

    /// The same bow as one whose end is not counted: it was met before.
    #[must_use]
    pub(crate) const fn met_before(mut self) -> Self {
        self.counted = true;
        self
    }

    /// Whether a guess is asked before the advice.
    #[must_use]
    pub(crate) const fn asks_guesses(&self) -> bool {
        self.asks
    }

    /// Asks guesses before the advice from now on, or does not.
    pub(crate) const fn ask_guesses(&mut self, on: bool) {
        self.asks = on;
    }

    /// Whether its end is still to be counted; from now on it is not.
    pub(crate) const fn counts(&mut self) -> bool {
        !std::mem::replace(&mut self.counted, true)
    }

    /// The seed it was drawn from.
    #[must_use]
    pub const fn seed(&self) -> u64 {
        self.seed
    }

    /// The level it was drawn for.
    #[must_use]
    pub const fn level(&self) -> u8 {
        self.level
    }

    /// The card as the customer hands it over; every adjuster stands at its
    /// start.
    #[must_use]
    pub const fn card(&self) -> &CardText {
        &self.card
    }

    /// What is wrong with it.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        &self.plan.faults
    }

    /// Arrows shot so far.
    #[must_use]
    pub(crate) const fn fired(&self) -> u32 {
        self.fired
    }

    /// A session on this bow, in memory, with nothing shot.
    ///
    /// # Panics
    /// If its own card cannot be read, which tests rule out.
    #[must_use]
    pub fn session(&self) -> Session {
        let mut session = Session::from_text(&self.card.to_toml()).expect("its own card is sound");
        // Without the prior the advice still works, from the kind's figures.
        let _ = advice::prior::refresh(&mut session);
        session
    }

    /// Shoots once as things stand, by the owner at the card's distance.
    pub fn shoot(&mut self, timeline: &Timeline) -> Shot {
        self.shoot_as(timeline, Shot::default())
    }

    /// Shoots once with what the next shot is recorded with: who, how far,
    /// bare or fletched. The tear is what a person would read off the paper,
    /// to the millimetre.
    pub(crate) fn shoot_as(&mut self, timeline: &Timeline, asked: Shot) -> Shot {
        self.fired += 1;
        let mut rng = Rng::new(self.seed ^ (u64::from(self.level) << 56) ^ shot_seed(self.fired));
        let (disturbance, struck) = self.disturbance(asked.by, asked.bare, &mut rng);
        let card = &timeline.card;
        let distance = asked.distance().unwrap_or(card.paper.distance).m();
        let cut = self
            .hidden
            .shoot(card, &timeline.now, asked.bare, distance, &disturbance);
        let [right, up] = cut.tear_mm().map(read);
        Shot {
            right,
            up,
            ragged: struck && rng.share() < 0.9,
            slit_extra: cuts_more(&cut),
            said: None,
            ..asked
        }
    }

    fn disturbance(
        &self,
        by: Shooter,
        bare: bool,
        rng: &mut Rng,
    ) -> (crate::physics::Disturbance, bool) {
        // A technician holds steadier than most owners, a machine steadier still.
        let share = match by {
            Shooter::Owner => 1.0,
            Shooter::Technician => self.plan.steady_share(),
            Shooter::Machine => 0.4 * self.plan.steady_share(),
        };
        let (mut shot, struck) = self.hidden.disturbance(share, rng);
        // A bare shaft has no vanes to strike with.
        let struck = struck && !self.cleared && !bare;
        if !struck {
            shot.vane_knock_ns = [0.0; 2];
        }
        (shot, struck)
    }

    /// The true mean tear where the bow stands, mm right and up: what the
    /// owner's shots would come to, if there were enough of them.
    #[must_use]
    pub(crate) fn mean_tear(&self, timeline: &Timeline) -> [f64; 2] {
        self.tear_at(timeline, &timeline.now)
    }

    /// The true mean tear with the adjusters at these positions.
    fn tear_at(&self, timeline: &Timeline, at: &Positions) -> [f64; 2] {
        let hidden = Hidden {
            touch: self.hidden.touch.filter(|_| !self.cleared),
            ..self.hidden.clone()
        };
        hidden.mean_tear(&timeline.card, at)
    }

    /// Whether that lies within the card's tolerance of its aim.
    #[must_use]
    pub(crate) fn is_inside(&self, timeline: &Timeline) -> bool {
        let paper = &timeline.card.paper;
        let [right, up] = self.mean_tear(timeline);
        (right - paper.aim.0).hypot(up - paper.aim.1) <= paper.tolerance
    }

    /// Whether the arrow on the card fails this bow at its true weight.
    fn arrow_is_wrong(&self, card: &Card) -> bool {
        let mut card = card.clone();
        card.bow.peak_weight = crate::units::Force::from_pounds(self.hidden.weighed_lb(&card));
        crate::checks::spine::of_card(&card).grade.refuses()
    }

    /// Whether the rear of the shaft slaps the plunger where the bow stands.
    fn slaps(&self, timeline: &Timeline) -> bool {
        self.hidden.slaps(&timeline.card, &timeline.now)
    }

    /// Whether vanes strike something that was not cleared yet.
    fn touches(&self) -> Option<Struck> {
        self.hidden
            .touch
            .filter(|_| !self.cleared)
            .map(|touch| touch.what)
    }
}

/// What a seed and a level draw, and a seed for all the rest.
fn plan_of(seed: u64, level: u8) -> (Plan, u64) {
    let mut rng = Rng::new(seed ^ (u64::from(level) << 56));
    (Plan::draw(level, &mut rng), rng.bits())
}

/// Shots of one bow draw from unrelated streams, whatever was moved between.
const fn shot_seed(number: u32) -> u64 {
    (number as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15)
}

/// To the millimetre, without a negative zero.
fn read(mm: f64) -> f64 {
    mm.round() + 0.0
}

/// Whether the shaft cut well away from the line between its two holes.
fn cuts_more(cut: &Cut) -> bool {
    let [right, up] = cut.tear_mm();
    let length = right.hypot(up).max(1e-9);
    let stray = cut.slit_mm().into_iter().map(|[x, y]| {
        let along = ((x * right + y * up) / length).clamp(0.0, length);
        (x - along * right / length).hypot(y - along * up / length)
    });
    stray.fold(0.0, f64::max) > STRAY_MM
}

/// The first bow of a level with a fault, for tests.
#[cfg(test)]
fn bow_with(fault: Fault, level: u8) -> Practice {
    let seed = (0..)
        .find(|seed| plan_of(*seed, level).0.has(fault))
        .expect("a fault this level draws");
    Practice::new(seed, level)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Event;

    #[test]
    fn the_same_seed_and_level_give_the_same_bow_and_shots() {
        for level in LEVELS {
            let (mut one, mut other) = (Practice::new(7, level), Practice::new(7, level));
            assert_eq!(one.card().to_toml(), other.card().to_toml());
            let session = one.session();
            for _ in 0..5 {
                assert_eq!(
                    one.shoot(session.timeline()),
                    other.shoot(session.timeline())
                );
            }
            assert_eq!(one.fired(), 5);
        }
        assert_ne!(
            Practice::new(1, 1).card().to_toml(),
            Practice::new(2, 1).card().to_toml()
        );
    }

    #[test]
    fn a_tear_is_read_to_the_millimetre_and_can_be_recorded() {
        let mut practice = Practice::new(3, 3);
        let mut session = practice.session();
        let shot = practice.shoot(session.timeline());
        assert!(shot.right.fract() == 0.0 && shot.up.fract() == 0.0);
        session.record(Event::Shot(shot)).unwrap();
        assert_eq!(session.timeline().shots.len(), 1);
    }

    #[test]
    fn what_is_wrong_with_the_rest_is_cured_by_whole_clicks_within_its_travel() {
        for level in LEVELS {
            for seed in 0..10 {
                let faults = plan_of(seed, level).0.faults;
                if !faults.iter().all(|f| f.is_of_the_rest()) {
                    continue;
                }
                let practice = Practice::new(seed, level);
                let mut session = practice.session();
                let card = session.timeline().card.clone();
                assert!(!practice.is_inside(session.timeline()), "{level} {seed}");
                let steps: Vec<_> = [card.sideways(), card.vertical()]
                    .into_iter()
                    .zip(practice.hidden.way_mm)
                    .filter_map(|(adjuster, way)| {
                        let adjuster = adjuster?;
                        assert!(way.abs() < adjuster.range);
                        let amount = adjuster.rounded(way);
                        (amount != 0.0).then_some(crate::gear::Step {
                            adjuster: adjuster.kind,
                            amount,
                        })
                    })
                    .collect();
                let said = None;
                let event = Event::Move {
                    steps,
                    said,
                    confirms: None,
                };
                session.record(event).unwrap();
                let [right, up] = practice.mean_tear(session.timeline());
                assert!(
                    right.hypot(up) < 0.7 * card.paper.tolerance,
                    "level {level} seed {seed} {:?}: {right:.1} {up:.1}",
                    practice.faults()
                );
            }
        }
    }

    #[test]
    fn contact_shows_as_ragged_holes_and_a_bare_shaft_has_none() {
        let mut practice = bow_with(Fault::Contact, 3);
        let session = practice.session();
        let shots: Vec<Shot> = (0..20)
            .map(|_| practice.shoot(session.timeline()))
            .collect();
        assert!(shots.iter().filter(|s| s.ragged).count() > 10);
        let bare = Shot {
            bare: true,
            ..Shot::default()
        };
        assert!(!practice.shoot_as(session.timeline(), bare).ragged);
    }
}
