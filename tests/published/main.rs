//! Checks against something outside the program: standards, handbooks,
//! papers, measurements, another library. The line above each check names its
//! source. What the program holds against itself is in `tests/properties`.

mod belief_batch;
mod directions;
mod directions_paper;
#[path = "../fixtures/mod.rs"]
mod fixtures;
mod job_proof;
mod job_setup;
mod measured;
mod measured_builds;
mod measured_launch;
mod measured_scatter;
mod physics_beam;
mod physics_bow;
mod physics_flight;
mod physics_reference;
mod physics_support;
mod rules;
mod scaling;
mod set_up_starts;
mod spine_rows;
mod stats_distributions;
mod stats_strd;
mod stop_load;
