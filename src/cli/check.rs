//! `tearbench check`: whether a session file is sound.

use super::{FileOnly, Outcome, open, say};

/// Says what was read and what was lost: exit 0 when sound, 1 otherwise.
pub fn run(args: &FileOnly) -> Outcome {
    let session = open::reading(&args.file)?;
    let timeline = session.timeline();
    let shots = timeline.shots.len();
    say(&format!(
        "{}: {} entries, {shots} shots that count, {} settings",
        args.file.display(),
        session.entries().len(),
        timeline.settings.len()
    ));
    if session.damage().is_empty() {
        say("sound");
        return Ok(0);
    }
    for damage in session.damage() {
        say(&format!("line {}: lost: {}", damage.line, damage.problem));
    }
    say("every other entry is whole; nothing was changed");
    Ok(1)
}
