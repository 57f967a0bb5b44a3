//! What the console says beside its figures: a module a page; `typing` for the
//! key line, `file` for the session's file, `plain` for the console as lines.

pub(crate) mod adjusters;
pub(crate) mod card;
pub(crate) mod column;
pub(crate) mod distances;
pub(crate) mod file;
pub(crate) mod go_on;
pub(crate) mod incident;
pub(crate) mod log;
pub(crate) mod panes;
pub(crate) mod plain;
pub(crate) mod practice;
pub(crate) mod proof;
pub(crate) mod setup;
pub(crate) mod sheet;
pub(crate) mod shots;
pub(crate) mod taught;
pub(crate) mod trouble;
pub(crate) mod typed;
pub(crate) mod typing;

#[cfg(test)]
mod tests;
