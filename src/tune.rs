#![allow(missing_docs)]
use std::sync::OnceLock;
static V: OnceLock<Vec<Option<f64>>> = OnceLock::new();
pub fn tune(i: usize, d: f64) -> f64 {
    V.get_or_init(|| {
        (0..40)
            .map(|k| {
                std::env::var(format!("T{k}"))
                    .ok()
                    .and_then(|v| v.parse().ok())
            })
            .collect()
    })[i]
        .unwrap_or(d)
}
