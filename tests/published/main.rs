//! Checks against published values; the source is named beside each.

mod stats_distributions;
mod stats_strd;
