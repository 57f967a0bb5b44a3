//! Checks against published values; the source is named beside each.

mod rules;
mod stats_distributions;
mod stats_strd;
