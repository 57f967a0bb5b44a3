//! Files as a stranger may have left them: links, pipes, devices, endless and
//! huge ones. Everything that is read comes through [`read`], everything that
//! is written whole through [`create`] and [`replace`].

use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

/// What is wrong with a file, in words that follow its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// In words, such as `there is no such file`.
    pub problem: String,
    /// Whether typing something else mends it (another name, another
    /// content), rather than the machine: space, permission, a disk.
    pub(crate) typed: bool,
}

impl Fault {
    /// A fault of what was typed.
    pub(crate) fn typed(problem: impl Into<String>) -> Self {
        Self {
            problem: problem.into(),
            typed: true,
        }
    }

    /// A fault of the machine.
    pub(crate) fn machine(problem: impl Into<String>) -> Self {
        Self {
            problem: problem.into(),
            typed: false,
        }
    }
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.problem)
    }
}

impl From<io::Error> for Fault {
    fn from(error: io::Error) -> Self {
        let typed = matches!(
            error.kind(),
            io::ErrorKind::NotFound
                | io::ErrorKind::NotADirectory
                | io::ErrorKind::IsADirectory
                | io::ErrorKind::AlreadyExists
                | io::ErrorKind::InvalidFilename
                | io::ErrorKind::InvalidInput
        );
        Self {
            problem: explain(&error),
            typed,
        }
    }
}

/// An I/O error in words.
pub(crate) fn explain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".into(),
        io::ErrorKind::AlreadyExists => {
            "exists already and is never replaced; choose another name".into()
        }
        io::ErrorKind::NotADirectory => "a part of its path is no folder".into(),
        io::ErrorKind::PermissionDenied => {
            "permission denied; check who owns the file and its folder".into()
        }
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
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

/// Whether there is nothing at this path: also where a part of it is no folder.
pub(crate) fn is_absent(path: &Path) -> bool {
    matches!(
        std::fs::metadata(path).map_err(|e| e.kind()),
        Err(io::ErrorKind::NotFound | io::ErrorKind::NotADirectory)
    )
}

/// The bytes of an ordinary file of at most `most` bytes. A pipe, a device, a
/// folder, an endless or a larger file is refused at once.
///
/// # Errors
/// In words that follow the file's name.
pub fn read(path: &Path, most: u64) -> Result<Vec<u8>, Fault> {
    let file = open_ordinary(path, OpenOptions::new().read(true))?;
    let meta = file.metadata()?;
    if meta.len() > most {
        return Err(Fault::typed(format!(
            "is {}; at most {} is read",
            size(meta.len()),
            size(most)
        )));
    }
    let mut bytes = Vec::with_capacity(meta.len() as usize);
    file.take(most + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most {
        // What says it is empty and never ends, as the kernel's own files do.
        return Err(Fault::typed(format!(
            "is no ordinary file: it goes on past {}",
            size(most)
        )));
    }
    Ok(bytes)
}

/// As [`read`], as text.
///
/// # Errors
/// As [`read`], and where it is not UTF-8, naming the line.
pub(crate) fn read_text(path: &Path, most: u64) -> Result<String, Fault> {
    String::from_utf8(read(path, most)?).map_err(|e| {
        let before = &e.as_bytes()[..e.utf8_error().valid_up_to()];
        let line = before.iter().filter(|b| **b == b'\n').count() + 1;
        Fault::typed(format!("line {line}: is not UTF-8 text; save it as UTF-8"))
    })
}

/// The first bytes of an ordinary file, however long it is.
///
/// # Errors
/// As [`read`].
pub(crate) fn read_head(path: &Path, most: u64) -> Result<Vec<u8>, Fault> {
    let file = open_ordinary(path, OpenOptions::new().read(true))?;
    let mut bytes = Vec::new();
    file.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Bytes as people say them.
fn size(bytes: u64) -> String {
    match bytes {
        0..1_000 => format!("{bytes} bytes"),
        1_000..1_000_000 => format!("{} kB", bytes / 1_000),
        _ => format!("{} MB", bytes / 1_000_000),
    }
}

/// Opens an ordinary file without ever waiting for it: a pipe without a
/// writer is not waited for, a terminal not taken.
///
/// # Errors
/// In words, where it is a folder, a pipe, a device, not there, not allowed.
pub(super) fn open_ordinary(path: &Path, options: &mut OpenOptions) -> Result<File, Fault> {
    // Looked at before it is opened: opening some devices does something.
    ordinary(&std::fs::metadata(path)?)?;
    #[cfg(unix)]
    {
        use rustix::fs::OFlags;
        use std::os::unix::fs::OpenOptionsExt as _;
        options.custom_flags((OFlags::NONBLOCK | OFlags::NOCTTY).bits() as i32);
    }
    let file = options.open(path)?;
    ordinary(&file.metadata()?)?;
    Ok(file)
}

fn ordinary(meta: &Metadata) -> Result<(), Fault> {
    if meta.is_dir() {
        return Err(Fault::typed("is a folder; name a file in it"));
    }
    if meta.is_file() {
        return Ok(());
    }
    Err(Fault::typed("is not an ordinary file"))
}

/// Whether a path leads to this open file now.
#[cfg(unix)]
pub(super) fn leads_to(path: &Path, file: &File) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    match (file.metadata(), std::fs::metadata(path)) {
        (Ok(a), Ok(b)) => a.ino() == b.ino() && a.dev() == b.dev(),
        _ => false,
    }
}

/// Whether a path leads to this open file now.
#[cfg(not(unix))]
pub(super) fn leads_to(path: &Path, _: &File) -> bool {
    path.exists()
}

/// How many names a file has in the file system.
#[cfg(unix)]
pub(super) fn names(meta: &Metadata) -> u64 {
    std::os::unix::fs::MetadataExt::nlink(meta)
}

/// How many names a file has in the file system.
#[cfg(not(unix))]
pub(super) const fn names(_: &Metadata) -> u64 {
    1
}

/// A folder in which one file is written whole, so that every power cut can
/// be tried.
pub trait Shelf {
    /// Writes a temporary file beside the one that is meant.
    ///
    /// # Errors
    /// When the disk refuses.
    fn write_temporary(&mut self, bytes: &[u8]) -> io::Result<()>;
    /// Puts the temporary file's content on the disk for good.
    ///
    /// # Errors
    /// When the disk refuses.
    fn sync_temporary(&mut self) -> io::Result<()>;
    /// Gives the temporary file the name that is meant; where `replace` is not
    /// set, only if nothing has that name.
    ///
    /// # Errors
    /// When something has the name, or the disk refuses.
    fn put_in_place(&mut self, replace: bool) -> io::Result<()>;
    /// Puts the name on the disk for good.
    ///
    /// # Errors
    /// When the disk refuses.
    fn sync_folder(&mut self) -> io::Result<()>;
}

/// Writes a file whole. A crash at any point leaves the file that was there
/// (or none), or the new one, each whole.
///
/// # Errors
/// When the disk refuses; what was there is then still there.
pub fn write_whole(shelf: &mut dyn Shelf, bytes: &[u8], replace: bool) -> io::Result<()> {
    shelf.write_temporary(bytes)?;
    shelf.sync_temporary()?;
    shelf.put_in_place(replace)?;
    shelf.sync_folder()
}

/// The folder a file is in, on a real disk.
pub(super) struct FileShelf {
    path: PathBuf,
    temporary: Option<tempfile::NamedTempFile>,
    /// The file as it stands under its name, once it does.
    pub(super) placed: Option<File>,
}

impl FileShelf {
    pub(super) fn at(path: &Path) -> Self {
        Self {
            path: path.to_owned(),
            temporary: None,
            placed: None,
        }
    }

    /// The temporary file while there is one.
    pub(super) fn temporary(&self) -> Option<&File> {
        self.temporary
            .as_ref()
            .map(tempfile::NamedTempFile::as_file)
    }
}

impl Shelf for FileShelf {
    fn write_temporary(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut builder = tempfile::Builder::new();
        builder.prefix(".tearbench-");
        // A session is an ordinary document: readable as the user's umask says,
        // not private as temporary files are.
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            builder.permissions(std::fs::Permissions::from_mode(0o666));
        }
        let mut file = builder.tempfile_in(folder_of(&self.path))?;
        file.write_all(bytes)?;
        self.temporary = Some(file);
        Ok(())
    }

    fn sync_temporary(&mut self) -> io::Result<()> {
        self.temporary().map_or(Ok(()), File::sync_all)
    }

    fn put_in_place(&mut self, replace: bool) -> io::Result<()> {
        let Some(file) = self.temporary.take() else {
            return Err(io::Error::other("nothing was written"));
        };
        let placed = if replace {
            file.persist(&self.path)
        } else {
            file.persist_noclobber(&self.path)
        };
        self.placed = Some(placed.map_err(|e| e.error)?);
        Ok(())
    }

    fn sync_folder(&mut self) -> io::Result<()> {
        sync_folder(&folder_of(&self.path))
    }
}

/// Writes a new file whole, and never replaces one. A crash leaves either
/// nothing or all of it.
///
/// # Errors
/// When the file exists already or cannot be written.
pub fn create(path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_whole(&mut FileShelf::at(path), bytes, false)
}

/// Writes a file whole in place of the one with this name. A crash leaves
/// either of them, whole. A link is replaced, what it leads to is left alone.
///
/// # Errors
/// When it cannot be written; the old one is then still there.
pub(crate) fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_whole(&mut FileShelf::at(path), bytes, true)
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
        Err(e) if e.kind() == io::ErrorKind::InvalidInput => Ok(()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn creating_never_replaces_a_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        create(&path, b"one").unwrap();
        assert_eq!(
            create(&path, b"two").unwrap_err().kind(),
            io::ErrorKind::AlreadyExists
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "one");
        replace(&path, b"three").unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "three");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn what_is_no_ordinary_file_or_never_ends_is_refused_at_once() {
        let folder = tempfile::tempdir().unwrap();
        let pipe = folder.path().join("pipe");
        let made = std::process::Command::new("mkfifo").arg(&pipe).status();
        assert!(made.unwrap().success());
        let link = folder.path().join("link");
        std::os::unix::fs::symlink(&pipe, &link).unwrap();
        for path in [&pipe, &link, Path::new("/dev/zero")] {
            let fault = read(path, 100).unwrap_err();
            assert_eq!(fault.problem, "is not an ordinary file", "{path:?}");
            assert!(fault.typed);
        }
        let long = folder.path().join("long");
        std::fs::write(&long, [b'x'; 100]).unwrap();
        assert_eq!(read(&long, 100).unwrap().len(), 100);
        assert!(read(&long, 99).unwrap_err().problem.contains("100 bytes"));
        assert_eq!(read_head(&long, 7).unwrap().len(), 7);
        // The kernel says these are empty; they are not.
        assert!(read(Path::new("/proc/self/maps"), 10).unwrap_err().typed);
        assert!(is_absent(Path::new("/dev/null/x")) && !is_absent(&long));
    }
}
