//! The small numbers: regression, small-sample factors, distributions.
