//! `tearbench check`: whether a session file is sound, and saving what can be saved.

use std::path::{Path, PathBuf};

use clap::Args;

use super::outcome::{Failure, Outcome, say};
use crate::session::files::{self, Fault};
use crate::session::journal::LARGEST_FILE;
use crate::session::{Journal, Remark, Session, SessionError, repair};
use crate::words;

/// Arguments of `check`.
#[derive(Debug, Args)]
pub(crate) struct CheckArgs {
    /// Session file
    pub(crate) file: PathBuf,
    /// Save every entry that counts to this new file, and the rest beside it in NEW.lost
    #[arg(long, value_name = "NEW")]
    pub(crate) repair: Option<PathBuf>,
}

/// Says what was read and what was lost: exit 0 when sound, 1 otherwise.
pub(crate) fn run(args: &CheckArgs) -> Outcome {
    if let Some(new) = &args.repair {
        return save(&args.file, new);
    }
    match Session::open_to_mend(&args.file) {
        Ok(session) => Ok(report(&args.file, &session)),
        // Nothing of the card can be read; what is there besides is said.
        Err(error @ SessionError::Card { .. }) => {
            let journal = Journal::from_bytes(&read(&args.file)?);
            if journal.entries.is_empty() {
                return Err(error.into());
            }
            say(&format!(
                "{}: {}",
                args.file.display(),
                entries(journal.entries.len())
            ));
            error.to_string().lines().for_each(say);
            say(REPAIR);
            Ok(1)
        }
        Err(error) => Err(error.into()),
    }
}

const REPAIR: &str =
    "nothing was changed. To save what is whole: tearbench check FILE --repair NEW";

fn entries(n: usize) -> String {
    words::counted(n, "entry", "entries")
}

/// Says how the file stands; the exit code.
fn report(file: &Path, session: &Session) -> u8 {
    let timeline = session.timeline();
    say(&format!(
        "{}: {}, {} that count, {}",
        file.display(),
        entries(session.entries().len()),
        words::count(timeline.shots.len(), "shot"),
        words::count(timeline.settings.len(), "setting")
    ));
    for problem in session.lost_card_lines() {
        say(&format!("lost: {problem}"));
    }
    for problem in timeline.unread.values() {
        say(&format!("a change of the card does not count: {problem}"));
    }
    for problem in session.missing_on_card() {
        say(&format!("the card cannot be used without {problem}"));
    }
    for damage in session.damage() {
        say(&format!("line {}: lost: {}", damage.line, damage.problem));
    }
    for remark in session.remarks() {
        say(&remark.to_string());
    }
    let newer = |r: &Remark| matches!(r, Remark::Newer { .. });
    let sound = session.damage().is_empty()
        && session.lost_card_lines().is_empty()
        && timeline.unread.is_empty()
        && session.missing_on_card().is_empty()
        && session.remarks().iter().all(newer);
    if sound {
        say("sound");
        return 0;
    }
    say(REPAIR);
    1
}

fn fault(path: &Path) -> impl Fn(Fault) -> SessionError + '_ {
    move |fault| SessionError::File {
        path: path.into(),
        fault,
    }
}

fn read(path: &Path) -> Result<Vec<u8>, SessionError> {
    files::read(path, LARGEST_FILE).map_err(fault(path))
}

fn save(file: &Path, new: &Path) -> Outcome {
    let found = repair::repair(&read(file)?);
    write(new, &found.sound)?;
    say(&format!(
        "saved {} to {}",
        entries(found.saved),
        new.display()
    ));
    if found.renumbered > 0 {
        say(&format!(
            "{} had a wrong number and have their own again",
            entries(found.renumbered)
        ));
    }
    if found.pieces_lost == 0 {
        return Ok(0);
    }
    let mut lost = new.as_os_str().to_owned();
    lost.push(".lost");
    let lost = PathBuf::from(lost);
    write(&lost, &found.lost)?;
    say(&format!(
        "{} kept as they stood in {}",
        words::count(found.pieces_lost, "damaged piece"),
        lost.display()
    ));
    if let Ok(session) = Session::open_to_mend(new) {
        for problem in session.missing_on_card() {
            say(&format!("the card cannot be used without {problem}"));
        }
        if !session.missing_on_card().is_empty() {
            say(&format!(
                "give it: tearbench card {} KEY=VALUE",
                new.display()
            ));
        }
    }
    Ok(1)
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    files::create(path, bytes).map_err(|e| fault(path)(e.into()).into())
}
