//! What is wrong with a session, its file or its entries, and why what was
//! asked is not recorded.

use std::fmt;
use std::path::Path;

use crate::gear::CardProblem;
use crate::session::files::explain;
use crate::session::{
    FORMAT, Full, Harm, NoShot, NotWritten, ReadOnly, Refused, Remark, SessionError, TwoArrows,
};
use crate::units::clean;

impl fmt::Display for Harm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::CutOff => f.write_str(
                "this entry has no closing 'end = N' line; it was cut off while being written",
            ),
            Self::Strange => f.write_str("what stands here belongs to no entry"),
            Self::NotText => f.write_str("this entry is not UTF-8 text"),
            Self::Unreadable(why) => f.write_str(why),
            Self::Number(n) => write!(
                f,
                "'end = {n}' does not fit between its neighbours, and it cannot be told what would"
            ),
            Self::Parted(mark) => write!(
                f,
                "entries {} to {} were recorded together and not all of them are there; none of them counts",
                mark.first,
                mark.last()
            ),
        }
    }
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Renumbered {
                line,
                claimed,
                number,
            } => write!(
                f,
                "line {line}: 'end = {claimed}' does not fit; between its neighbours it is entry {number}, and is read as that"
            ),
            Self::Changed { number } => write!(
                f,
                "entry {number} was changed since it was recorded. If you changed it, delete its line 'sum = ...'"
            ),
            Self::Missing { from, to } if from == to => {
                write!(f, "entry {from} is not in this file")
            }
            Self::Missing { from, to } => {
                write!(f, "entries {from} to {to} are not in this file")
            }
            Self::Newer { line, number, kind } => write!(
                f,
                "line {line}: entry {number} is from a newer program (kind '{}'); it is kept, and the file is opened for reading only",
                clean(kind)
            ),
        }
    }
}

impl fmt::Display for ReadOnly {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Format(format) => write!(
                f,
                "the file is of format {format}, newer than this program's {FORMAT}; it is opened for reading only"
            ),
            Self::Newer(remark) => remark.fmt(f),
        }
    }
}

impl fmt::Display for SessionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File { path, fault } => write!(f, "{}: {fault}", name(path)),
            Self::Card { path, problems } => f.write_str(&card_problems(path, problems)),
            Self::Locked { path, source } => write!(f, "{}: {source}", name(path)),
            Self::NotRecorded { path, source } => {
                write!(f, "{}: not recorded: {source}", name(path))
            }
            Self::Full { path, why } => write!(f, "{}: not recorded: {why}", name(path)),
            Self::Refused(why) => why.fmt(f),
        }
    }
}

fn name(path: &Path) -> String {
    clean(&path.display().to_string())
}

fn card_problems(path: &Path, problems: &[CardProblem]) -> String {
    let name = name(path);
    let line = |p: &CardProblem| match p.line {
        Some(line) => {
            let problem = CardProblem {
                line: None,
                ..p.clone()
            };
            format!("{name}:{line}: {problem}")
        }
        None => format!("{name}: {p}"),
    };
    let lines: Vec<String> = problems.iter().map(line).collect();
    lines.join("\n")
}

impl fmt::Display for Full {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Numbers => f.write_str(
                "the entry numbers of this file are used up; begin a new one: tearbench new NEW --from FILE",
            ),
            Self::Large(bytes) => write!(
                f,
                "the file is {} MB and may not grow further; begin a new one: tearbench new NEW --from FILE",
                bytes / 1_000_000
            ),
            Self::Otherwise => f.write_str("it would not be read again as it is"),
            Self::Unreadable(problem) => write!(f, "it could not be read again: {problem}"),
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingToUndo => f.write_str("there is nothing to undo"),
            Self::NothingToRedo => f.write_str("there is nothing to redo"),
            Self::ReadOnly(why) => why.fmt(f),
            Self::OtherReadOnly(name, why) => write!(f, "{name}: {why}"),
            Self::OpenForReading => f.write_str("the session is open for reading only"),
            Self::CardDamaged => {
                f.write_str("the card is damaged; give what is missing on it first")
            }
            Self::TooLong { characters, most } => write!(
                f,
                "the text is {characters} characters; at most {most} are kept"
            ),
            Self::ClaimedTwice(n) => write!(
                f,
                "more than one entry claims number {n}, so it cannot be told which is meant; number them again: tearbench check FILE --repair NEW"
            ),
            Self::NoEntry(n) => write!(f, "there is no entry {n}; the log lists them"),
            Self::Incident(n) => write!(
                f,
                "entry {n} is an incident and is not undone; it ends when every part was looked at"
            ),
            Self::NotToUndo(n, kind) => write!(
                f,
                "entry {n} ({kind}) is no entry to undo; undo or redo what it was about"
            ),
            Self::UndoneAlready(n) => write!(f, "entry {n} is undone already"),
            Self::NotUndone(n) => write!(f, "entry {n} is not undone"),
            Self::NoSetting(n, most) => write!(f, "there is no setting {n}; there are {most}"),
            Self::NoShot(n, is, shots) => write!(f, "{}; {}", no_shot(*n, *is), named(shots)),
            Self::WithNoShot(n) => write!(
                f,
                "entry {n} was recorded together with these shots and is no shot: undo it there and type the shots again"
            ),
            Self::NoShotsNamed => f.write_str("no shots were named"),
        }
    }
}

fn no_shot(number: u32, is: NoShot) -> String {
    match is {
        NoShot::NoEntry => format!("there is no entry {number}"),
        NoShot::Undone => format!("entry {number} is a shot that is undone; redo it first"),
        NoShot::Other(kind) => format!("entry {number} is no shot ({kind})"),
    }
}

/// Shots named as examples where an entry is none.
const NAMED: usize = 6;

fn named(shots: &[u32]) -> String {
    let last = &shots[shots.len().saturating_sub(NAMED)..];
    let named: Vec<String> = last.iter().map(ToString::to_string).collect();
    match (named.as_slice(), shots.len() > NAMED) {
        ([], _) => "there is no shot yet".to_owned(),
        (all, true) => format!("the last shots are entries {}", all.join(", ")),
        (all, false) => format!("the shots are entries {}", all.join(", ")),
    }
}

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Changed => f.write_str(
                "the file was changed by another program and is not written over; open it again",
            ),
            Self::Refused(error) => f.write_str(&explain(error)),
            Self::Unsure(error) => write!(
                f,
                "{}; it may or may not be in the file; look before you type it again",
                explain(error)
            ),
        }
    }
}

impl fmt::Display for TwoArrows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "arrow {} stands in the tear and arrow {} was given beside it: leave one of them out",
            clean(&self.typed),
            clean(&self.given)
        )
    }
}

impl std::error::Error for TwoArrows {}
impl std::error::Error for NotWritten {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Refused(error) => Some(error),
            Self::Changed | Self::Unsure(_) => None,
        }
    }
}
impl std::error::Error for SessionError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Locked { source, .. } => Some(source),
            Self::NotRecorded { source, .. } => Some(source),
            _ => None,
        }
    }
}
