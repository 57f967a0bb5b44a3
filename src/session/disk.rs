//! What appending needs of a disk, so that every power cut can be tried.

use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::files::{folder_of, leads_to, sync_folder};
use super::journal::LARGEST_FILE;

/// One session file as appending sees it.
pub trait Disk {
    /// All of its bytes.
    ///
    /// # Errors
    /// When it cannot be read.
    fn read(&mut self) -> io::Result<Vec<u8>>;
    /// Writes bytes at an offset, growing the file.
    ///
    /// # Errors
    /// When the disk refuses; some of the bytes may be written.
    fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()>;
    /// Cuts the file to a length.
    ///
    /// # Errors
    /// When the disk refuses.
    fn cut(&mut self, len: u64) -> io::Result<()>;
    /// Puts what was written on the disk for good.
    ///
    /// # Errors
    /// When the disk refuses.
    fn sync(&mut self) -> io::Result<()>;
    /// Keeps bytes in a new file beside it, for good when this returns.
    ///
    /// # Errors
    /// When they cannot be kept.
    fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()>;
    /// Whether the name it was opened by still leads to it.
    fn is_current(&mut self) -> bool {
        true
    }
}

/// A real file, held open by whoever holds its lock.
#[derive(Debug)]
pub(crate) struct FileDisk<'a> {
    file: &'a File,
    path: &'a Path,
}

impl<'a> FileDisk<'a> {
    /// On a file opened for reading and writing, and the name it has.
    pub const fn new(file: &'a File, path: &'a Path) -> Self {
        Self { file, path }
    }
}

impl Disk for FileDisk<'_> {
    fn read(&mut self) -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        self.file.rewind()?;
        self.file.take(LARGEST_FILE + 1).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
        self.file.seek(SeekFrom::Start(at))?;
        self.file.write_all(bytes)
    }

    fn cut(&mut self, len: u64) -> io::Result<()> {
        self.file.set_len(len)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.file.sync_all()
    }

    fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()> {
        let folder = folder_of(self.path);
        let name = self
            .path
            .file_name()
            .map_or_else(|| "session".into(), |n| n.to_string_lossy().into_owned());
        for n in 1..1000 {
            let aside = folder.join(format!("{name}.torn-{n}"));
            // Made anew, so never through a link.
            match OpenOptions::new().write(true).create_new(true).open(&aside) {
                Ok(mut kept) => {
                    kept.write_all(bytes)?;
                    kept.sync_all()?;
                    return sync_folder(&folder);
                }
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(e),
            }
        }
        Err(io::Error::other(
            "too many torn tails are set aside beside this file",
        ))
    }

    fn is_current(&mut self) -> bool {
        leads_to(self.path, self.file)
    }
}
