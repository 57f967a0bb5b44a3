//! How a check stands.

/// How a check stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// In order.
    Pass,
    /// Go on, warned.
    Borderline,
    /// Not known yet.
    Pending,
    /// Not in order.
    Fail,
}
