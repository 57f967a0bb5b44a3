//! The four checks: safety, spine match, consistency, response.
