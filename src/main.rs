//! The `tearbench` program: thin, everything is in the library.
fn main() {}
