//! The set-up card: bow, rest and adjusters, arrow, archer, paper.
