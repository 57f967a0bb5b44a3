//! `tearbench check`: whether a session file is sound, and saving what can be saved.

use std::path::{Path, PathBuf};

use clap::Args;

use super::{Failure, Outcome, open, say};
use crate::session::{SessionError, journal, repair};

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// Session file
    pub file: PathBuf,
    /// Save every whole entry to this new file, and the rest beside it in NEW.lost
    #[arg(long, value_name = "NEW")]
    pub repair: Option<PathBuf>,
}

/// Says what was read and what was lost: exit 0 when sound, 1 otherwise.
pub fn run(args: &CheckArgs) -> Outcome {
    if let Some(new) = &args.repair {
        return save(&args.file, new);
    }
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
    say(
        "every other entry is whole; nothing was changed. To save them: tearbench check FILE --repair NEW",
    );
    Ok(1)
}

fn save(file: &Path, new: &Path) -> Outcome {
    let bytes = journal::read_bytes(file).map_err(|problem| SessionError::File {
        path: file.into(),
        problem,
    })?;
    let found = repair::repair(&bytes);
    write(new, &found.sound)?;
    say(&format!(
        "saved {} entries to {}",
        found.saved,
        new.display()
    ));
    if found.pieces_lost == 0 {
        return Ok(0);
    }
    let mut lost = new.as_os_str().to_owned();
    lost.push(".lost");
    let lost = PathBuf::from(lost);
    write(&lost, &found.lost)?;
    say(&format!(
        "{} damaged pieces are kept in {}",
        found.pieces_lost,
        lost.display()
    ));
    Ok(1)
}

fn write(path: &Path, text: &str) -> Result<(), Failure> {
    journal::create(path, text).map_err(|e| {
        let problem = match e.kind() {
            std::io::ErrorKind::AlreadyExists => {
                "exists already and is never replaced; choose another name".into()
            }
            _ => journal::explain(&e),
        };
        SessionError::File {
            path: path.into(),
            problem,
        }
        .into()
    })
}
