//! Checks against published values; the source is named beside each.

mod job_proof;
mod job_setup;
mod stats_distributions;
mod stats_strd;
