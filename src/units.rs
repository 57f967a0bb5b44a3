//! Lengths, masses, forces: types, reading, writing.
