//! The response prior of a card, computed once and kept as an entry, so that
//! opening a session and advising on it only read it.

use crate::gear::Card;
use crate::physics::prior::{MODEL_VERSION, response_prior};
use crate::session::{Event, LearnedRecord, PriorGain, PriorRecord, Session, SessionError};

/// Seed of the draw: fixed, so that the same card gives the same figures.
const SEED: u64 = 1;

/// The response prior of a card; `None` where its bow cannot be modelled.
pub(crate) fn of_card(card: &Card) -> Option<PriorRecord> {
    let found = response_prior(card, SEED)?;
    let tidy = super::tidy;
    let gains = found
        .gains
        .iter()
        .map(|g| PriorGain {
            adjuster: g.adjuster,
            mean: tidy(g.mean),
            sd: tidy(g.sd),
            wander: tidy(g.slope_walk_mean),
            negative: tidy(g.probability_negative),
        })
        .collect();
    Some(PriorRecord {
        model: found.model_version,
        seed: found.seed,
        draws: found.draws as u32,
        gains,
        learned: None,
    })
}

/// The record of a card whose bow cannot be modelled: nothing but what earlier
/// bows taught.
const fn unmodelled() -> PriorRecord {
    PriorRecord {
        model: MODEL_VERSION,
        seed: SEED,
        draws: 0,
        gains: Vec::new(),
        learned: None,
    }
}

/// Records the prior of the card as it stands, where there is none yet or the
/// card changed since. What earlier bows taught stays as it stands.
///
/// # Errors
/// When it cannot be recorded.
pub fn refresh(session: &mut Session) -> Result<(), SessionError> {
    if session.timeline().prior.is_some() {
        return Ok(());
    }
    let learned = session.timeline().learned.clone();
    begin(session, learned)
}

/// Records the prior of the card as it stands with what earlier bows taught,
/// or without.
///
/// # Errors
/// When it cannot be recorded.
pub fn begin(session: &mut Session, learned: Option<LearnedRecord>) -> Result<(), SessionError> {
    let of_card = of_card(&session.timeline().card);
    let kept = session.timeline().learned.is_some();
    let found = match of_card {
        Some(found) => found,
        // Also where what was taught is to be left out again.
        None if learned.is_some() || kept => unmodelled(),
        None => return Ok(()),
    };
    let prior = PriorRecord { learned, ..found };
    session.record(Event::Prior(prior)).map(|_| ())
}
