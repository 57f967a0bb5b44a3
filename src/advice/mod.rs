//! The order of the checks, the verdict, and its JSON form.

mod types;
pub mod view;

pub use types::{
    Advice, Analysis, Estimate, GainEstimate, MoveAdvice, NextShot, Probe, ProbeKind, Reason,
    SCHEMA, StepAdvice, TearEstimate, TrackPoint, Verdict,
};
