//! The console driven by keys and looked at on a test backend: snapshots of
//! its screens, rules that hold at every size, and what keys do.

mod adjusters;
mod bytes;
mod card;
mod card_fold;
mod clock;
mod earlier;
mod evening;
mod everywhere;
mod figures;
mod file;
mod first;
mod go_on;
mod imports;
mod inches;
mod job;
mod keys;
mod log;
mod others;
mod pages;
mod panes;
mod picture;
mod plain;
mod practice;
mod random;
mod rules;
mod same_words;
mod stopped;
mod support;
mod typing;
mod verdicts;
mod words;
