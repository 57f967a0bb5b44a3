//! What the console's pages say beside their figures: a module a page.

pub(crate) mod adjusters;
pub(crate) mod column;
pub(crate) mod distances;
pub(crate) mod go_on;
pub(crate) mod incident;
pub(crate) mod taught;

#[cfg(test)]
mod tests;
