//! Choosing the next move or probe.
