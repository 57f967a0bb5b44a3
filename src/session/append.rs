//! Appending to a session file: compare, set a torn tail aside, write, sync.

use std::hash::{DefaultHasher, Hasher as _};
use std::io;

use super::disk::Disk;

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
    pub const fn length(&self) -> u64 {
        self.len
    }
    fn add(&mut self, bytes: &[u8]) {
        self.len += bytes.len() as u64;
        self.hasher.write(bytes);
    }
    pub(super) fn fits(&self, bytes: &[u8]) -> bool {
        self.len == bytes.len() as u64 && self.hasher.finish() == Self::of(bytes).hasher.finish()
    }
}

/// Why a block was not appended; said in [`crate::words`].
#[derive(Debug)]
pub enum NotWritten {
    /// The file is not as it was read: an editor, another program, a rename.
    Changed,
    /// The disk refuses; the file is as it was, but for a torn tail set aside.
    Refused(io::Error),
    /// The disk refused to take the block and to let go of it again.
    Unsure(io::Error),
}

impl From<io::Error> for NotWritten {
    fn from(error: io::Error) -> Self {
        Self::Refused(error)
    }
}

/// Appends a block of entries in one write and puts it on the disk. A torn
/// tail beyond `sound_len` is set aside first. Returns the print of the file
/// as it is then.
///
/// # Errors
/// When the file changed meanwhile, or cannot be written.
pub fn append(
    disk: &mut dyn Disk,
    block: &str,
    sound_len: u64,
    print: &Print,
) -> Result<Print, NotWritten> {
    let bytes = disk.read()?;
    if !disk.is_current() || !print.fits(&bytes) {
        return Err(NotWritten::Changed);
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
        // The shorter file is the sound one, and a tail left behind is recognised as torn.
        if disk.cut(sound_len).is_err() {
            return Err(NotWritten::Unsure(error));
        }
        let _ = disk.sync();
        return Err(NotWritten::Refused(error));
    }
    if !disk.is_current() {
        // Written into a file that has lost its name meanwhile.
        return Err(NotWritten::Changed);
    }
    let mut after = Print::of(sound);
    after.add(block.as_bytes());
    Ok(after)
}
