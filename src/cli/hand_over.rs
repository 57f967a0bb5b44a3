//! `tearbench hand-over`: shots that were another bow's go to its session.

use std::path::{Path, PathBuf};

use clap::Args;

use super::open;
use super::outcome::{Failure, Outcome, say};
use crate::session::hand_over::HandedOver;
use crate::session::{Event, Session};
use crate::{advice, words};

/// Arguments of `hand-over`.
#[derive(Debug, Args)]
pub(crate) struct HandOverArgs {
    /// Session file the shots are in
    pub(crate) file: PathBuf,
    /// Session file of the bow they were shot with
    #[arg(long, value_name = "OTHER")]
    pub(crate) to: PathBuf,
    /// Their entries: 5, 5-9, or 5,7-9
    #[arg(long, value_name = "ENTRIES")]
    pub entries: String,
}

/// Copies the shots, then undoes them; both files are locked meanwhile.
pub(crate) fn run(args: &HandOverArgs) -> Outcome {
    let (mut from, mut to) = both(&args.file, &args.to)?;
    let numbers = chosen(&args.entries, &from)?;
    let handed = HandedOver::of(&from, &numbers)?;
    if !handed.along.is_empty() {
        super::outcome::warn(&format!(
            "entries {} were recorded together with these and go with them",
            words::entries(&handed.along)
        ));
    }
    let done = handed.hand(&mut from, &mut to)?;
    let system = open::system(&to);
    say(&format!(
        "handed to {}: {} (entries {} here, {} there), at its setting {}: {}",
        args.to.display(),
        words::count(done.entries.len(), "shot"),
        words::entries(&done.entries),
        words::entries(&done.copies),
        to.timeline().setting().number,
        words::standing(to.timeline(), system)
    ));
    say(&format!("they no longer count in {}", args.file.display()));
    open::repeat_stop(&to);
    if let Some(stop) = advice::stopped(from.timeline()) {
        let stop = words::stop_line(&stop);
        super::outcome::warn(&format!("{}: {stop}", args.file.display()));
    }
    Ok(0)
}

/// Opens both for writing, always in one order, so that two commands which
/// hand shots to and fro never wait for one another.
fn both(from: &Path, to: &Path) -> Result<(Session, Session), Failure> {
    let real = |p: &Path| p.canonicalize().unwrap_or_else(|_| p.to_path_buf());
    let (a, b) = (real(from), real(to));
    if a == b {
        return Err(Failure::Input(
            "both names lead to one file; name the session of the other bow after --to".into(),
        ));
    }
    if a < b {
        let from = open::writing(from)?;
        Ok((from, open::writing(to)?))
    } else {
        let to = open::writing(to)?;
        Ok((open::writing(from)?, to))
    }
}

/// The shots a text names: in a range those that count, and a single entry
/// only where it is one.
fn chosen(text: &str, from: &Session) -> Result<Vec<u32>, Failure> {
    let wrong = |part: &str| {
        Failure::Input(format!(
            "--entries: '{}' is no entry or range of entries; write 5, 5-9 or 5,7-9",
            crate::units::clean(part.trim())
        ))
    };
    let mut all = Vec::new();
    for part in text.split(',') {
        let number = |t: &str| t.trim().parse::<u32>().map_err(|_| wrong(part));
        let Some((low, high)) = part.split_once('-') else {
            all.push(number(part)?);
            continue;
        };
        let (low, high) = (number(low)?, number(high)?);
        let shots = from.timeline().shots.iter().map(|s| s.entry);
        let within: Vec<u32> = shots.filter(|n| (low..=high).contains(n)).collect();
        if within.is_empty() {
            return Err(Failure::Input(format!(
                "--entries: no shot that counts stands in {low} to {high}; the log lists them: tearbench report FILE"
            )));
        }
        let stays = from.entries().iter().filter(|e| {
            (low..=high).contains(&e.number)
                && !within.contains(&e.number)
                && !matches!(e.event, Event::Undo { .. } | Event::Redo { .. })
        });
        let stays: Vec<u32> = stays.map(|e| e.number).collect();
        if !stays.is_empty() {
            super::outcome::warn(&format!(
                "entries {} are no shots that count, and stay",
                words::entries(&stays)
            ));
        }
        all.extend(within);
    }
    Ok(all)
}
