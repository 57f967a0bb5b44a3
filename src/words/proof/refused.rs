//! Why a group of proof, or work for a stage, is not taken.

use std::fmt;

use crate::proof::{
    AsksForAMove, DISTANCES_M, GroupRefused, ImpactError, MOST, Stage, WrongImpact,
};
use crate::units::clean;

impl fmt::Display for WrongImpact {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::HowMany => write!(out, "1 to {MOST} hits are wanted, a ; between two"),
            Self::Twice => out.write_str("said twice for one hit; put a ; between two hits"),
            Self::TooFar => out.write_str("more than 2 m (79 in) from the spot"),
            Self::NoSide => out.write_str("which side? left, right, high or low"),
            Self::NotASide => out.write_str("not a side; left, right, high or low"),
            Self::NoSize => out.write_str("the size is missing"),
            Self::Minus => out.write_str("give the side in words and the size without a minus"),
        }
    }
}

impl fmt::Display for ImpactError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { word, wrong, .. } = self;
        write!(
            out,
            "'{word}': {wrong}; write for example 3 left 2 high; 1 right; spot"
        )
    }
}

impl fmt::Display for GroupRefused {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Answered(stage) => write!(
                out,
                "{stage} is answered, not shot: answer {} ok",
                Stage::Levels
            ),
            Self::NotShotHere(what, stage) => {
                let whats: Vec<&str> = stage.whats().iter().map(|w| w.id()).collect();
                let what = clean(&what.word());
                write!(out, "'{what}': at {stage} shoot {}", whats.join(" or "))
            }
            Self::Distance(problem) => problem.fmt(out),
            Self::NoSuchDistance(text) => {
                let (near, far) = (DISTANCES_M.start(), DISTANCES_M.end());
                let (text, yards) = (clean(text), |m: &f64| (m / 0.9144).round());
                write!(
                    out,
                    "'{text}': a distance between {near} and {far} m ({} and {} yd)",
                    yards(near),
                    yards(far)
                )
            }
            Self::Impact(problem) => write!(out, "hit {}: {problem}", problem.number),
            Self::NoMark => out.write_str("no arrow is marked yet"),
        }
    }
}

impl fmt::Display for AsksForAMove {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let stage = self.0;
        write!(
            out,
            "{stage} asks for a move, not for such work; record the move"
        )
    }
}

impl std::error::Error for ImpactError {}
impl std::error::Error for GroupRefused {}
