//! The `tearbench` program: thin, everything is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    tearbench::cli::run()
}
