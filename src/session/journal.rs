//! The session file: reading whole entries, finding damage, appending.

use std::fs::File;
use std::hash::{DefaultHasher, Hasher as _};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use super::disk::Disk;
use super::entry::Entry;

/// The largest session file that is read, bytes. Ten thousand shots take
/// about two megabytes.
pub const LARGEST_FILE: u64 = 32 * 1024 * 1024;

/// Something in the file that could not be read as an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Damage {
    /// First line of the damaged piece, from 1.
    pub line: usize,
    /// What is wrong.
    pub problem: String,
    /// Whether it is the torn end of the file, as a power cut leaves it.
    pub torn_tail: bool,
}

/// A session file as read: the card's text, the whole entries, the damage.
#[derive(Debug, Clone, PartialEq)]
pub struct Journal {
    /// Everything before the first entry.
    pub header: String,
    /// The whole entries, in file order.
    pub entries: Vec<Entry>,
    /// What could not be read.
    pub damage: Vec<Damage>,
    /// Bytes up to the end of the last whole entry; what follows is a torn tail.
    pub sound_len: u64,
}

impl Journal {
    /// Reads a session's text.
    pub fn from_text(text: &str) -> Self {
        let starts = block_starts(text);
        let header_end = starts.first().copied().unwrap_or(text.len());
        let mut journal = Self {
            header: text[..header_end].to_owned(),
            entries: Vec::new(),
            damage: Vec::new(),
            sound_len: text.len() as u64,
        };
        // Lines are counted block by block, so that reading stays linear.
        let mut line = newlines(&text[..header_end]) + 1;
        for (i, start) in starts.iter().enumerate() {
            let end = starts.get(i + 1).copied().unwrap_or(text.len());
            let block = &text[*start..end];
            journal.take_block(
                block,
                line,
                (i + 1 == starts.len()).then_some(*start as u64),
            );
            line += newlines(block);
        }
        journal
    }

    fn take_block(&mut self, block: &str, line: usize, last_start: Option<u64>) {
        if !is_whole(block) {
            let torn_tail = last_start.is_some();
            if let Some(start) = last_start {
                self.sound_len = start;
            }
            let problem =
                "this entry has no closing 'end = N' line; it was cut off while being written"
                    .into();
            self.damage.push(Damage {
                line,
                problem,
                torn_tail,
            });
            return;
        }
        match Entry::from_toml(block) {
            Ok(entry) => {
                let expected = self.entries.last().map_or(0, |e| e.number);
                if entry.number <= expected {
                    let problem = format!(
                        "entry {} comes after entry {expected}; numbers must rise",
                        entry.number
                    );
                    self.damage.push(Damage {
                        line,
                        problem,
                        torn_tail: false,
                    });
                } else {
                    self.entries.push(entry);
                }
            }
            Err((at, problem)) => self.damage.push(Damage {
                line: line + at - 1,
                problem,
                torn_tail: false,
            }),
        }
    }

    /// The number the next entry gets: past everything in the file, readable or not.
    pub fn next_number(&self) -> u32 {
        let last = self.entries.last().map_or(0, |e| e.number);
        last + 1 + self.damage.iter().filter(|d| !d.torn_tail).count() as u32
    }
}

/// Byte offsets of lines that are exactly `[[entry]]`.
pub(super) fn block_starts(text: &str) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut offset = 0;
    for line in text.split_inclusive('\n') {
        if line.trim_end() == "[[entry]]" {
            starts.push(offset);
        }
        offset += line.len();
    }
    // A heading cut short is a torn tail too: "[[ent" at the very end.
    if let Some(last) = text.rfind('\n').map(|i| i + 1)
        && last < text.len()
        && text[last..].starts_with('[')
        && "[[entry]]".starts_with(&text[last..])
        && starts.last() != Some(&last)
    {
        starts.push(last);
    }
    starts
}

fn newlines(text: &str) -> usize {
    newline_bytes(text.as_bytes())
}

fn newline_bytes(bytes: &[u8]) -> usize {
    bytes.iter().filter(|b| **b == b'\n').count()
}

/// Whether a block ends in a whole `end = N` line with its newline; blank and
/// comment lines may follow.
pub(super) fn is_whole(block: &str) -> bool {
    let mut rest = block;
    loop {
        let Some(body) = rest.strip_suffix('\n') else {
            // An unfinished last line is only harmless when it is blank.
            let start = rest.rfind('\n').map_or(0, |i| i + 1);
            if start == 0 || !rest[start..].trim().is_empty() {
                return false;
            }
            rest = &rest[..start];
            continue;
        };
        let start = body.rfind('\n').map_or(0, |i| i + 1);
        let line = body[start..].trim();
        if line.is_empty() || line.starts_with('#') {
            if start == 0 {
                return false;
            }
            rest = &rest[..start];
            continue;
        }
        return line
            .strip_prefix("end")
            .and_then(|r| r.trim_start().strip_prefix('='))
            .is_some_and(|r| r.trim().parse::<u32>().is_ok());
    }
}

/// Reads a file as text, bounded in size.
///
/// # Errors
/// In words: no such file, a directory, no permission, too large, not UTF-8.
pub fn read_text(path: &Path) -> Result<String, String> {
    String::from_utf8(read_bytes(path)?).map_err(|e| {
        let line = newline_bytes(&e.as_bytes()[..e.utf8_error().valid_up_to()]) + 1;
        format!("line {line}: is not UTF-8 text; save it as UTF-8, or save its whole entries: tearbench check FILE --repair NEW")
    })
}

/// Reads a file's bytes, bounded in size.
///
/// # Errors
/// As [`read_text`], but for text.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, String> {
    let meta = std::fs::metadata(path).map_err(|e| explain(&e))?;
    if meta.is_dir() {
        return Err("is a folder; name a session file in it".into());
    }
    if !meta.is_file() {
        return Err("is not an ordinary file".into());
    }
    if meta.len() > LARGEST_FILE {
        return Err(format!(
            "is {} MB; no session is larger than {} MB",
            meta.len() / 1_000_000,
            LARGEST_FILE / 1_000_000
        ));
    }
    let mut bytes = Vec::with_capacity(meta.len() as usize);
    File::open(path)
        .and_then(|file| file.take(LARGEST_FILE).read_to_end(&mut bytes))
        .map_err(|e| explain(&e))?;
    Ok(bytes)
}

/// An I/O error in words.
pub fn explain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".into(),
        io::ErrorKind::PermissionDenied => {
            "permission denied; check who owns the file and its folder".into()
        }
        io::ErrorKind::StorageFull => {
            "the disk is full; free some space, nothing already recorded is lost".into()
        }
        io::ErrorKind::FileTooLarge => {
            "the file may not grow further (disk or user limit); nothing already recorded is lost"
                .into()
        }
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".into(),
        _ => error.to_string(),
    }
}

/// Writes a new file whole: temporary file beside it, fsync, rename without
/// replacing, fsync of the folder. A crash leaves either nothing or all of it.
///
/// # Errors
/// When the file exists already or cannot be written.
pub fn create(path: &Path, text: &str) -> io::Result<()> {
    let folder = folder_of(path);
    let mut builder = tempfile::Builder::new();
    builder.prefix(".tearbench-");
    // A session is an ordinary document: readable as the user's umask says,
    // not private as temporary files are.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(&folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    file.persist_noclobber(path).map_err(|e| e.error)?;
    sync_folder(&folder)
}

/// The content a file is believed to have, so that a change by another
/// program is noticed before anything is written over it.
#[derive(Debug, Clone)]
pub struct Print {
    len: u64,
    hasher: DefaultHasher,
}

impl Print {
    /// The print of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        let mut print = Self {
            len: 0,
            hasher: DefaultHasher::new(),
        };
        print.add(bytes);
        print
    }
    /// How long the file is believed to be.
    pub const fn len(&self) -> u64 {
        self.len
    }
    /// Whether it is believed to be empty.
    pub const fn is_empty(&self) -> bool {
        self.len == 0
    }
    fn add(&mut self, bytes: &[u8]) {
        self.len += bytes.len() as u64;
        self.hasher.write(bytes);
    }
    pub(super) fn fits(&self, bytes: &[u8]) -> bool {
        self.len == bytes.len() as u64 && self.hasher.finish() == Self::of(bytes).hasher.finish()
    }
}

/// Appends one block and puts it on the disk. A torn tail beyond `sound_len`
/// is set aside first. Returns the print of the file as it is then.
///
/// # Errors
/// When the file changed meanwhile, or cannot be written; the file is then as
/// it was before, but for a torn tail already set aside.
pub fn append(
    disk: &mut dyn Disk,
    block: &str,
    sound_len: u64,
    print: &Print,
) -> io::Result<Print> {
    let bytes = disk.read()?;
    if !print.fits(&bytes) {
        return Err(io::Error::other(
            "the file was changed by another program and is not written over; open it again",
        ));
    }
    let (sound, tail) = bytes.split_at((sound_len as usize).min(bytes.len()));
    if !tail.is_empty() {
        disk.keep_aside(tail)?;
        disk.cut(sound_len)?;
    }
    // A file mended by hand may lack its last newline.
    let joint = if sound.is_empty() || sound.ends_with(b"\n") {
        ""
    } else {
        "\n"
    };
    let block = format!("{joint}{block}");
    let written = disk
        .write_at(sound_len, block.as_bytes())
        .and_then(|()| disk.sync());
    if let Err(error) = written {
        // Best effort: the shorter file is the sound one, and a tail left behind is recognised as torn.
        let _ = disk.cut(sound_len);
        let _ = disk.sync();
        return Err(error);
    }
    let mut after = Print::of(sound);
    after.add(block.as_bytes());
    Ok(after)
}

pub(super) fn folder_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}

pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    // Some file systems cannot sync a folder; the rename is then as durable as they make it.
    match File::open(folder).and_then(|f| f.sync_all()) {
        Err(e) if e.kind() == io::ErrorKind::PermissionDenied => Ok(()),
        Err(e) if e.raw_os_error() == Some(22) => Ok(()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::disk::FileDisk;
    use crate::session::entry::{Event, Shot};

    fn sample() -> String {
        let mut text = String::from("format = 1\n\n[bow]\nkind = \"compound\"\n");
        for n in 1..=3 {
            text.push_str(
                &Entry::now(
                    n,
                    Event::Shot(Shot {
                        right: f64::from(n),
                        ..Shot::default()
                    }),
                )
                .to_toml(),
            );
        }
        text
    }

    #[test]
    fn a_file_cut_at_any_byte_keeps_every_whole_entry() {
        let text = sample();
        let header = text.find("[[entry]]").unwrap();
        let ends: Vec<usize> = text
            .match_indices("\nend = ")
            .map(|(i, m)| i + m.len() + 2)
            .collect();
        for cut in header..=text.len() {
            let journal = Journal::from_text(&text[..cut]);
            let whole = ends.iter().filter(|end| **end <= cut).count();
            assert_eq!(
                journal.entries.len(),
                whole,
                "cut at {cut}: {:?}",
                &text[cut.saturating_sub(20)..cut]
            );
            assert!(journal.damage.iter().all(|d| d.torn_tail));
            assert!(journal.sound_len <= cut as u64);
        }
    }

    #[test]
    fn a_torn_last_entry_is_set_aside_by_the_next_append_and_the_rest_loads() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        let text = sample();
        create(&path, &text[..text.len() - 3]).unwrap();
        let journal = Journal::from_text(&read_text(&path).unwrap());
        assert_eq!((journal.entries.len(), journal.next_number()), (2, 3));
        let entry = Entry::now(
            3,
            Event::Note {
                text: "after".into(),
            },
        );
        let print = Print::of(read_text(&path).unwrap().as_bytes());
        append(
            &mut FileDisk::open(&path).unwrap(),
            &entry.to_toml(),
            journal.sound_len,
            &print,
        )
        .unwrap();
        let again = Journal::from_text(&read_text(&path).unwrap());
        assert_eq!((again.entries.len(), again.damage.len()), (3, 0));
        let aside = std::fs::read_to_string(folder.path().join("bow.toml.torn-1")).unwrap();
        assert!(aside.contains("right = 3.0"), "{aside}");
    }

    #[test]
    fn creating_never_replaces_a_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        create(&path, "one").unwrap();
        assert_eq!(
            create(&path, "two").unwrap_err().kind(),
            io::ErrorKind::AlreadyExists
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "one");
    }

    #[test]
    fn a_file_changed_by_another_program_is_not_written_to() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        create(&path, &sample()).unwrap();
        let journal = Journal::from_text(&read_text(&path).unwrap());
        let print = Print::of(sample().as_bytes());
        // As long as before, but for one digit: only the content tells.
        let changed = sample().replacen("right = 1.0", "right = 7.0", 1);
        assert_eq!(changed.len(), sample().len());
        std::fs::write(&path, &changed).unwrap();
        let mut disk = FileDisk::open(&path).unwrap();
        assert!(append(&mut disk, "x", journal.sound_len, &print).is_err());
        assert_eq!(std::fs::read_to_string(&path).unwrap(), changed);
    }

    #[test]
    fn a_bad_entry_in_the_middle_is_named_by_line_and_the_rest_loads() {
        let text = sample().replacen("right = 2.0", "right = two", 1);
        let journal = Journal::from_text(&text);
        assert_eq!(journal.entries.len(), 2);
        let line = text.lines().position(|l| l == "right = two").unwrap() + 1;
        assert_eq!(journal.damage[0].line, line);
        assert_eq!(journal.next_number(), 5);
    }
}
