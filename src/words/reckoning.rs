//! How the verdict was reached, line by line.

use super::response::{known_sentence, likelier_way};
use super::{capital, learned, percent, tear_with_unit};
use crate::advice::{LeansOn, Reckoned};
use crate::units::System;

/// One line of the reckoning.
pub fn reckoned(line: &Reckoned, system: System) -> String {
    match line {
        Reckoned::LikelyTear(tear, sd) => {
            format!(
                "Likely tear here: {}, ± {}",
                tear_with_unit(*tear, system),
                system.tear(*sd)
            )
        }
        Reckoned::Chance {
            tolerance,
            here,
            best,
        } => format!(
            "Chance within {} now: {}; at the best place within reach: {}",
            system.tear(*tolerance),
            percent(*here),
            percent(*best)
        ),
        Reckoned::BeforeLastShot(chance) => {
            format!("Before the last shot that chance was {}", percent(*chance))
        }
        Reckoned::OneMoreShot(chance) => {
            format!(
                "Chance that one more shot here makes it done: {}",
                percent(*chance)
            )
        }
        Reckoned::Response(known, shown) => {
            let rest = match shown {
                true => "",
                false => " (not shown by this bow yet: what is usual, wide)",
            };
            format!(
                "{}; {}{rest}",
                capital(&known_sentence(known, system)),
                likelier_way(known)
            )
        }
        Reckoned::LeansOn(what) => leans_on(*what),
        Reckoned::EarlierBows(record) => format!("Earlier bows: {}", learned(record)),
        Reckoned::BadShot(shot, entry, chance) => format!(
            "Shot {shot} (entry {entry}) looks like a bad one: chance {}; it counts for little",
            percent(*chance)
        ),
        Reckoned::WhySize(chance) => format!(
            "Why this size: it gives the best chance within tolerance, {}, by what is known so far",
            percent(*chance)
        ),
    }
}

fn leans_on(what: LeansOn) -> String {
    match what {
        LeansOn::EarlierModel(model) => format!(
            "The expected response kept in this file is from an earlier computation (model {model}). It held the string too stiffly: its sideways figures are not used"
        ),
        LeansOn::Load(drawn) => format!(
            "Before the first sideways move the side leans with the arrow's load: {drawn} drawn bows, a computation, never past 80 %"
        ),
        LeansOn::Guides(drawn) => format!(
            "Before the first sideways move the side leans to the printed guides and on the powder: {drawn} drawn bows, few of them slapping the plunger, never past 80 %"
        ),
    }
}
