//! Checks against published standards, handbook values and worked examples,
//! one module a topic; the source is named beside each check.

mod physics_beam;
mod physics_bow;
mod physics_fine;
mod physics_flight;
mod physics_launch;
mod physics_support;
