//! All wording of tears and moves.
