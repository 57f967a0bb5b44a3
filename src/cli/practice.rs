//! `tearbench practice`: the console on a virtual bow with something wrong.

use clap::Args;

use super::outcome::{Failure, Outcome, say};
use crate::practice::{Practice, Standing, play};
use crate::tui::Source;
use crate::units::System;
use crate::words::practice as words;

/// Arguments of `practice`.
#[derive(Debug, Args)]
pub(crate) struct PracticeArgs {
    /// Which bow: the same number always gives the same one; by the clock where absent
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// How hard, 1 to 5
    #[arg(long, value_name = "L", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=5))]
    pub level: u8,
    /// Let the program's own advice play, and print the story line by line
    #[arg(long)]
    pub(crate) play_advice: bool,
    /// How practice went so far, level by level, and leave
    #[arg(long, conflicts_with = "play_advice")]
    pub(crate) so_far: bool,
    /// How the console looks
    #[command(flatten)]
    pub(crate) look: super::console::LookArgs,
}

/// Opens the console on the bow, or tells how the advice fares on it.
pub(crate) fn run(args: &PracticeArgs) -> Outcome {
    if args.so_far {
        return so_far();
    }
    let seed = args.seed.unwrap_or_else(crate::tui::practice_seed);
    if args.play_advice {
        return tell(seed, args.level);
    }
    let source = Source::Practice {
        seed,
        level: args.level,
    };
    super::console::open(source, &args.look)
}

/// The counts of the state folder, a line a level.
fn so_far() -> Outcome {
    let recent = crate::tui::recent::Recent::of_user();
    let (standing, damaged) = Standing::read(recent.folder());
    if damaged {
        super::outcome::warn(words::COUNTS_LOST);
    }
    let lines: Vec<String> = standing
        .practised()
        .map(|(level, counts)| words::level_counts(level, counts))
        .collect();
    if lines.is_empty() {
        say(words::NOTHING_COUNTED);
    }
    lines.iter().for_each(|line| say(line));
    Ok(0)
}

/// Exit 0 when the advice ended rightly, 1 when it did not.
fn tell(seed: u64, level: u8) -> Outcome {
    let mut practice = Practice::new(seed, level);
    let mut session = practice.session();
    let card = session.timeline().card.clone();
    say(&format!(
        "practice, level {level}, seed {seed}: {}",
        card.title()
    ));
    let played = play(&mut practice, &mut session);
    let system = System::Mm;
    let story = played.story.iter();
    story.for_each(|event| say(&words::told(event, system)));
    for found in practice.was_wrong(session.timeline()) {
        say(&format!(
            "what was wrong: {}",
            words::was_wrong(&found, system)
        ));
        say(words::tell_tale(found.fault()));
    }
    let [right, up] = practice.mean_tear(session.timeline());
    let tear = crate::tear::Tear::new(right, up);
    say(&format!(
        "true tear at the end: {}; {}, {}",
        crate::words::tear_with_unit(tear, system),
        crate::words::count(played.shots as usize, "shot"),
        crate::words::count(played.moves, "move")
    ));
    if played.right {
        say("it ended rightly");
        return Ok(0);
    }
    Err(Failure::Other("it ended wrongly".into()))
}
