//! The console: state, input, views.
