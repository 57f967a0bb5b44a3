//! The response prior of a card, computed once and kept as an entry, so that
//! opening a session and advising on it only read it.

use crate::gear::Card;
use crate::physics::prior::response_prior;
use crate::session::{Event, PriorGain, PriorRecord, Session, SessionError};

/// Seed of the draw: fixed, so that the same card gives the same figures.
const SEED: u64 = 1;

/// The response prior of a card; `None` where its bow cannot be modelled.
pub fn of_card(card: &Card) -> Option<PriorRecord> {
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
    })
}

/// Records the prior of the card as it stands, where there is none yet or the
/// card changed since.
///
/// # Errors
/// When it cannot be recorded.
pub fn refresh(session: &mut Session) -> Result<(), SessionError> {
    if session.timeline().prior.is_some() {
        return Ok(());
    }
    match of_card(&session.timeline().card) {
        Some(prior) => session.record(Event::Prior(prior)).map(|_| ()),
        None => Ok(()),
    }
}
