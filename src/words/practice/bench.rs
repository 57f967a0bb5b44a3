//! Guesses, tests and cures on a practice bow, and what is seen of them.

use super::ends::conclusion;
use crate::practice::{Guess, Job, Seen, Struck};
use crate::units::trim_number;

/// A guess, as the line of a list: `rest left`, `something touches the
/// arrow`.
pub(crate) fn guess(guess: Guess) -> String {
    match guess {
        Guess::Move(kind, plus) => {
            let (minus, other) = kind.directions();
            let way = if plus { other } else { minus };
            format!("{} {way}", kind.noun())
        }
        Guess::Cause(cause) => conclusion(cause).to_owned(),
    }
}

/// A guess beside the advice, whose headline is given where it differs, and
/// why it is that.
pub(crate) fn guessed(made: Guess, advice: Option<&str>, why: Option<&str>) -> String {
    let advice = match advice {
        None => "The advice says the same.".to_owned(),
        Some(headline) => format!("The advice: {headline}."),
    };
    let why = why.map_or_else(String::new, |why| format!(" {why}"));
    format!("You: {}. {advice}{why}", guess(made))
}

/// A test or cure, as the line of a list.
pub(crate) const fn job(job: Job) -> &'static str {
    match job {
        Job::Weigh => "weigh the bow on a scale",
        Job::Powder => "powder test: does anything touch the arrow?",
        Job::Clear => "turn the nocks and clear what touches",
        Job::RightArrows => "take other shafts, as the spine check sizes them",
    }
}

/// What was seen or done at the bench.
pub(crate) fn seen(seen: &Seen) -> String {
    match seen {
        Seen::ScaleAgrees(pounds) => format!(
            "The scale agrees with the card: {} lb.",
            trim_number(*pounds, 1)
        ),
        Seen::ScaleShows { shows, said } => format!(
            "The scale shows {shows:.1} lb, and the card said {} lb. The card now has the scale's figure.",
            trim_number(*said, 1)
        ),
        Seen::Wiped(struck) => format!("Powder test: the vanes wipe {}.", wiped(*struck)),
        Seen::Slap => "Powder test: the rear of the shaft slaps the plunger.".into(),
        Seen::Clean => "Powder test: nothing but the rest's own track.".into(),
        Seen::Cleared => {
            "The nocks are turned and clearance is made. Powder test again: clean. The likely tear is forgotten.".into()
        }
        Seen::SlapStays => {
            "The nock is turned and the rest arm looked at. The mark on the plunger stays.".into()
        }
        Seen::NothingTouched => {
            "Nothing touched, so nothing was changed. Powder test: clean.".into()
        }
        Seen::Shafts(spine) => format!(
            "Six shafts of static spine {spine}, same length and point, are on the card."
        ),
        Seen::NoBetterShafts => {
            "By the card these arrows suit the bow. The shelf has none better.".into()
        }
    }
}

const fn wiped(struck: Struck) -> &'static str {
    match struck {
        Struck::Rest => "the rest",
        Struck::Cable => "a cable",
        Struck::Other => "the riser",
    }
}
