//! A virtual bow to tune.
