//! What appending needs of a disk, so that every power cut can be tried.

use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::journal::{LARGEST_FILE, folder_of, sync_folder};

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
}

/// A real file.
#[derive(Debug)]
pub struct FileDisk {
    file: File,
    path: PathBuf,
}

impl FileDisk {
    /// Opens an existing file for appending.
    ///
    /// # Errors
    /// When it is not there or may not be written.
    pub fn open(path: &Path) -> io::Result<Self> {
        let file = OpenOptions::new().read(true).write(true).open(path)?;
        Ok(Self {
            file,
            path: path.to_owned(),
        })
    }
}

impl Disk for FileDisk {
    fn read(&mut self) -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        self.file.rewind()?;
        (&self.file).take(LARGEST_FILE).read_to_end(&mut bytes)?;
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
        let folder = folder_of(&self.path);
        let name = self
            .path
            .file_name()
            .map_or_else(|| "session".into(), |n| n.to_string_lossy().into_owned());
        for n in 1..1000 {
            let aside = folder.join(format!("{name}.torn-{n}"));
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
            "too many torn tails set aside beside this file",
        ))
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::session::entry::{Entry, Event, Shot};
    use crate::session::journal::{Journal, Print, append};

    /// A disk that loses power after a number of steps. What was not synced
    /// may be there in part: the first `kept` bytes of the unsynced writes.
    #[derive(Default, Clone)]
    struct Failing {
        live: Vec<u8>,
        durable: Vec<u8>,
        aside: Vec<Vec<u8>>,
        steps_left: usize,
        kept: usize,
    }

    impl Failing {
        fn step(&mut self) -> io::Result<()> {
            if self.steps_left == 0 {
                return Err(io::Error::other("power cut"));
            }
            self.steps_left -= 1;
            Ok(())
        }

        /// The file as found after the power cut.
        fn after_the_cut(&self) -> Vec<u8> {
            let common = self
                .durable
                .iter()
                .zip(&self.live)
                .take_while(|(a, b)| a == b)
                .count();
            if self.live.len() < self.durable.len() {
                // A cut that was not synced happened or did not.
                return if self.kept.is_multiple_of(2) {
                    self.durable.clone()
                } else {
                    self.live.clone()
                };
            }
            self.live[..(common + self.kept).min(self.live.len())].to_vec()
        }
    }

    impl Disk for Failing {
        fn read(&mut self) -> io::Result<Vec<u8>> {
            self.step()?;
            Ok(self.live.clone())
        }
        fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
            self.live.truncate(at as usize);
            self.live.extend(bytes);
            self.step()
        }
        fn cut(&mut self, len: u64) -> io::Result<()> {
            self.step()?;
            self.live.truncate(len as usize);
            Ok(())
        }
        fn sync(&mut self) -> io::Result<()> {
            self.step()?;
            self.durable.clone_from(&self.live);
            Ok(())
        }
        fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()> {
            self.step()?;
            self.aside.push(bytes.to_vec());
            Ok(())
        }
    }

    fn note(number: u32) -> Entry {
        Entry::now(
            number,
            Event::Note {
                text: format!("note {number}"),
            },
        )
    }

    fn read(bytes: &[u8]) -> Journal {
        Journal::from_text(std::str::from_utf8(bytes).unwrap())
    }

    /// Appends entries one by one until the power goes; returns how many were
    /// reported recorded.
    fn write_until_the_cut(disk: &mut Failing, first: u32, count: u32) -> u32 {
        let journal = read(&disk.live);
        let (mut print, mut sound) = (Print::of(&disk.live), journal.sound_len);
        for n in 0..count {
            match append(disk, &note(first + n).to_toml(), sound, &print) {
                Ok(next) => {
                    sound = next.len();
                    print = next;
                }
                Err(_) => return n,
            }
        }
        count
    }

    #[test]
    fn what_was_reported_recorded_is_there_after_a_power_cut_at_any_step_and_byte() {
        let mut start = b"format = 1\n[bow]\nkind = \"compound\"\n".to_vec();
        for n in 1..=2 {
            start.extend(
                Entry::now(n, Event::Shot(Shot::default()))
                    .to_toml()
                    .bytes(),
            );
        }
        let sound = start.len();
        let mut tried = 0;
        for torn in [0, 1, 9, 40] {
            let mut begun = start.clone();
            begun.extend(&note(3).to_toml().as_bytes()[..torn]);
            for steps_left in 0..30 {
                for kept in 0..130 {
                    let mut disk = Failing {
                        live: begun.clone(),
                        durable: begun.clone(),
                        steps_left,
                        kept,
                        ..Failing::default()
                    };
                    let reported = write_until_the_cut(&mut disk, 3, 4);
                    let found = read(&disk.after_the_cut());
                    let numbers: Vec<u32> = found.entries.iter().map(|e| e.number).collect();
                    assert!(
                        numbers.len() >= 2 + reported as usize,
                        "torn {torn}, steps {steps_left}, kept {kept}: {numbers:?}"
                    );
                    assert!(found.damage.iter().all(|d| d.torn_tail));
                    // The torn tail is still in the file, or kept aside.
                    let tail = begun[sound..]
                        .strip_prefix(b"\n")
                        .unwrap_or(&begun[sound..]);
                    let after = disk.after_the_cut();
                    assert!(
                        tail.is_empty()
                            || after.windows(tail.len()).any(|w| w == tail)
                            || disk.aside.iter().any(|a| a == tail)
                    );
                    tried += 1;
                }
            }
        }
        assert_eq!(tried, 4 * 30 * 130);
    }

    #[test]
    fn a_disk_that_refuses_leaves_the_file_as_it_was() {
        struct Full(Failing);
        impl Disk for Full {
            fn read(&mut self) -> io::Result<Vec<u8>> {
                self.0.read()
            }
            fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
                self.0.write_at(at, &bytes[..bytes.len() / 2])?;
                Err(io::Error::from(io::ErrorKind::StorageFull))
            }
            fn cut(&mut self, len: u64) -> io::Result<()> {
                self.0.cut(len)
            }
            fn sync(&mut self) -> io::Result<()> {
                self.0.sync()
            }
            fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()> {
                self.0.keep_aside(bytes)
            }
        }
        let before = b"format = 1\n".to_vec();
        let mut disk = Full(Failing {
            live: before.clone(),
            durable: before.clone(),
            steps_left: 100,
            ..Failing::default()
        });
        let error = append(
            &mut disk,
            &note(1).to_toml(),
            before.len() as u64,
            &Print::of(&before),
        )
        .unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::StorageFull);
        assert_eq!(disk.0.live, before);
    }
}
