//! The sessions of a folder as a list.

use std::io;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};

use crate::advice::{self, Verdict};
use crate::range::Today;
use crate::report::{Block, Cell, Document};
use crate::session::{Session, Timeline};
use crate::units::clean;
use crate::units::visible;
use crate::words;

/// Most files of a folder that are looked into.
const MOST: usize = 2000;
/// What is said of a card with nothing recorded on it.
const ONLY_A_CARD: &str = "only a card so far";
/// Bytes of a file that show whether it is a session.
const HEAD: u64 = 4096;

/// One session of a folder.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its file.
    pub path: PathBuf,
    /// Whose bow it is, where the card says.
    pub(crate) owner: Option<String>,
    /// What the bow is called; empty when the file cannot be read.
    pub bow: String,
    /// When something was last recorded.
    pub(crate) date: Option<DateTime<FixedOffset>>,
    /// What the advice says now; none of a card with nothing recorded on it.
    pub verdict: Option<Verdict>,
    /// How it was closed, if it is.
    pub(crate) closed: Option<String>,
    /// A move taken to the bench and not confirmed.
    pub pending: Option<String>,
    /// Shots that count.
    pub shots: usize,
    /// Why it cannot be read, or what was lost in it.
    pub problem: Option<String>,
}

/// Lists the sessions of a folder, latest first; a file that cannot be read
/// is a row with its problem. Files that are no sessions are left out. Only
/// reads; takes no lock.
///
/// # Errors
/// When the folder itself cannot be read.
pub(crate) fn scan(folder: &Path) -> io::Result<Vec<Row>> {
    let mut paths = files(folder)?;
    paths.retain(|p| looks_like_one(p));
    paths.sort();
    let mut rows: Vec<Row> = paths.into_iter().map(row).collect();
    rows.sort_by(|a, b| b.date.cmp(&a.date).then_with(|| a.path.cmp(&b.path)));
    Ok(rows)
}

/// The files of a folder that may be sessions, by their name, in no order.
pub(super) fn files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let named = |p: &PathBuf| {
        let ending = p.extension();
        ending.is_some_and(|e| e.eq_ignore_ascii_case("toml"))
    };
    let all = std::fs::read_dir(folder)?.flatten().map(|e| e.path());
    Ok(all
        .filter(named)
        // Following a link to a pipe or device would never end.
        .filter(|p| std::fs::metadata(p).is_ok_and(|m| m.is_file()))
        .take(MOST)
        .collect())
}

/// A file that cannot be opened may well be a session: it is listed with its problem.
pub(super) fn looks_like_one(path: &Path) -> bool {
    match crate::session::files::read_head(path, HEAD) {
        Ok(head) => {
            let text = String::from_utf8_lossy(&head);
            text.contains("[bow]") || text.contains("[[entry]]")
        }
        _ => true,
    }
}

fn row(path: PathBuf) -> Row {
    match Session::open(&path) {
        Ok(session) => of_session(path, &session),
        Err(error) => Row {
            problem: Some(error.to_string()),
            path,
            owner: None,
            bow: String::new(),
            date: None,
            verdict: None,
            closed: None,
            pending: None,
            shots: 0,
        },
    }
}

fn of_session(path: PathBuf, session: &Session) -> Row {
    let timeline = session.timeline();
    let lost = session.damage().len();
    Row {
        path,
        owner: timeline.card.job.owner.clone(),
        bow: bow_name(timeline),
        // The latest, not the last: a clock may have jumped back since.
        date: session.entries().iter().map(|e| e.at).max(),
        verdict: verdict(session),
        closed: timeline.closed.clone(),
        pending: pending(timeline),
        shots: timeline.shots.len(),
        problem: (lost > 0).then(|| {
            format!(
                "{} could not be read; tearbench check says which",
                words::count(lost, "piece")
            )
        }),
    }
}

/// What the advice says now. A card with nothing recorded on it has no verdict
/// yet, but it may forbid the first shot.
fn verdict(session: &Session) -> Option<Verdict> {
    let timeline = session.timeline();
    if session.entries().is_empty() {
        return advice::stopped(timeline).map(|_| Verdict::Stop);
    }
    Some(advice::advise(timeline, Today::now()).verdict)
}

impl Row {
    /// How it stands, in a few words: a stop before how it was closed.
    pub(crate) fn stands(&self) -> String {
        let closed = self.closed.as_ref().map(|how| closed(how));
        match (closed, self.verdict) {
            (Some(closed), Some(Verdict::Stop)) => {
                format!("{} ({closed})", words::verdict_title(Verdict::Stop))
            }
            (Some(closed), _) => closed,
            (None, Some(verdict)) => words::verdict_title(verdict).into(),
            (None, None) if self.problem.is_none() => ONLY_A_CARD.into(),
            (None, None) => "CANNOT BE READ".into(),
        }
    }
}

fn closed(how: &str) -> String {
    format!("closed: {}", clean(how))
}

pub(super) fn bow_name(timeline: &Timeline) -> String {
    timeline
        .card
        .bow
        .name
        .clone()
        .unwrap_or_else(|| timeline.card.bow.kind.id().to_owned())
}

/// The pending move in words.
pub(super) fn pending(timeline: &Timeline) -> Option<String> {
    timeline.pending.as_ref().map(|p| {
        let all: Vec<String> = p.steps.iter().map(words::step_command).collect();
        all.join(", ")
    })
}

/// The list as a page: one session a row, then what waits or was lost.
pub(crate) fn list_page(rows: &[Row]) -> Document {
    let page = Document::new("Sessions");
    if rows.is_empty() {
        let none = "No sessions here. Make one with: tearbench new FILE --card CARD.toml";
        return page.with("", vec![Block::Text(none.into())]);
    }
    let head = ["Latest", "Owner", "Bow", "Shots", "Verdict", "File"];
    let table = Block::table(&head, rows.iter().map(cells).collect());
    let notes: Vec<String> = rows.iter().flat_map(notes).collect();
    let notes = (!notes.is_empty()).then_some(Block::Lines(notes));
    page.with("", vec![table])
        .with("To look at", notes.into_iter().collect())
}

fn file_name(row: &Row) -> String {
    let name = row.path.file_name();
    name.map_or(String::new(), |n| clean(&n.to_string_lossy()))
}

/// A move that waits, and what cannot be read, line by line.
fn notes(row: &Row) -> Vec<String> {
    let pending = row.pending.as_ref().map(|p| format!("pending: {p}"));
    let problem = row.problem.iter().flat_map(|p| p.lines());
    let all = pending.into_iter().chain(problem.map(str::to_owned));
    all.map(|note| format!("{}: {}", file_name(row), visible(&note)))
        .collect()
}

fn cells(row: &Row) -> Vec<Cell> {
    let latest = row
        .date
        .map_or("-".into(), |d| d.format("%Y-%m-%d %H:%M").to_string());
    vec![
        latest.into(),
        row.owner.as_deref().map_or("-".into(), clean).into(),
        clean(&row.bow).into(),
        row.shots.to_string().into(),
        Cell::state(row.stands(), row.problem.is_some()),
        file_name(row).into(),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::{AdjusterKind, CardText, Step};
    use crate::report::Format;
    use crate::session::{Event, Shot};
    use crate::setup::tests::COMPOUND;
    use std::time::Duration;

    fn make(folder: &Path, name: &str, events: Vec<Event>) {
        let path = folder.join(name);
        let card = format!("{COMPOUND}[job]\nowner=\"Ann\"\n");
        Session::create(&path, &CardText::from_toml(&card).unwrap()).unwrap();
        let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
        for event in events {
            session.record(event).unwrap();
        }
    }

    #[test]
    fn a_folder_is_listed_whatever_else_lies_in_it() {
        let folder = tempfile::tempdir().unwrap();
        let at = folder.path();
        let pending = Event::Pending {
            steps: vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: -0.5,
            }],
        };
        make(at, "blue.toml", vec![Event::Shot(Shot::default()), pending]);
        make(at, "empty.toml", vec![]);
        std::fs::write(at.join("notes.toml"), "[shopping]\nmilk = 1\n").unwrap();
        std::fs::write(at.join("readme.md"), "[bow]").unwrap();
        std::fs::write(at.join("broken.toml"), "[bow]\nkind = \"zeppelin\"\n").unwrap();
        std::fs::create_dir(at.join("folder.toml")).unwrap();
        let rows = scan(at).unwrap();
        let names: Vec<String> = rows
            .iter()
            .map(|r| r.path.file_name().unwrap().to_string_lossy().into_owned())
            .collect();
        assert_eq!(names, ["blue.toml", "broken.toml", "empty.toml"]);
        assert_eq!(rows[0].owner.as_deref(), Some("Ann"));
        assert_eq!(
            (rows[0].shots, rows[0].pending.as_deref()),
            (1, Some("rest left 0.5 mm"))
        );
        assert!(rows[1].problem.as_ref().unwrap().contains("zeppelin"));
        assert!(rows[2].verdict.is_none() && rows[2].problem.is_none());
        let text = crate::report::print(&list_page(&rows), Format::Text);
        assert!(
            text.contains("CANNOT BE READ")
                && text.contains(ONLY_A_CARD)
                && text.contains("pending: rest left"),
            "{text}"
        );
    }

    #[test]
    fn a_torn_session_is_listed_with_what_was_lost() {
        let folder = tempfile::tempdir().unwrap();
        make(folder.path(), "a.toml", vec![Event::Shot(Shot::default())]);
        let path = folder.path().join("a.toml");
        let mut text = std::fs::read_to_string(&path).unwrap();
        text.push_str("\n[[entry]]\nkind = \"shot\"\nat = ");
        std::fs::write(&path, text).unwrap();
        let rows = scan(folder.path()).unwrap();
        assert_eq!(rows[0].shots, 1);
        assert!(rows[0].problem.is_some());
    }

    #[test]
    fn an_empty_folder_says_how_to_begin_and_a_missing_one_is_an_error() {
        let none = crate::report::print(&list_page(&[]), Format::Text);
        assert!(none.contains("tearbench new"), "{none}");
        assert!(scan(Path::new("/nowhere/at/all")).is_err());
    }
}
