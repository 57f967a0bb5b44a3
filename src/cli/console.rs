//! The console itself.

use super::{Cli, Failure, Outcome};

/// Opens the console.
pub fn run(_cli: &Cli) -> Outcome {
    Err(Failure::Other("the console needs a terminal; without one use: tearbench advise, shot, move (tearbench --help)".into()))
}
