//! Checks against published values; the source is named beside each.

mod advice_properties;
mod belief_batch;
mod belief_epochs;
mod belief_properties;
mod job_proof;
mod job_setup;
mod physics_beam;
mod physics_bow;
mod physics_fine;
mod physics_flight;
mod physics_launch;
mod physics_reference;
mod physics_support;
mod rules;
mod stats_distributions;
mod stats_strd;
