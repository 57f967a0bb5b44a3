//! Power cuts. The promise:
//!
//! > After a power cut at any point, the file holds every entry that was said
//! > to be recorded, as it was recorded. Of what was being written there is
//! > all, nothing, or an entry that is said to be changed; a group is there
//! > whole or not at all. What stood in the way was set aside, not thrown away.
//!
//! What is assumed of a disk: bytes up to the length at the last sync are kept
//! where nothing wrote to them since. Whatever was written or cut since may be
//! old, new, NUL or garbage, in any combination of its blocks and at any
//! length; a name given by a rename is the old or the new one until its folder
//! was synced.

use std::io;

use tearbench::session::append::{Print, append};
use tearbench::session::disk::Disk;
use tearbench::session::files::{Shelf, write_whole};
use tearbench::session::{Entry, Event, Journal, Remark, Shot, Together};

const CARD: &str = "format = 2\n[bow]\nkind = \"compound\"\n\n# end of card\n";

/// What else may stand in a block that was never written whole.
const GARBAGE: [&[u8]; 4] = [
    b"\xff\xfe",
    b"right = 7.0\n",
    b"end = 2\n",
    b"lorem ipsum [[ent\n\n",
];

/// Whether every block size is tried, and not a few.
fn thoroughly() -> bool {
    std::env::var_os("TEARBENCH_CRASH").is_some()
}

/// A disk that loses power after a number of steps.
#[derive(Clone, Default)]
struct CrashDisk {
    live: Vec<u8>,
    /// As it was when it was synced last.
    durable: Vec<u8>,
    /// Bytes nothing touched since.
    untouched: usize,
    aside: Vec<Vec<u8>>,
    steps_left: usize,
    /// The power is gone: the program does nothing any more.
    off: bool,
}

impl CrashDisk {
    fn with(bytes: &[u8], steps_left: usize) -> Self {
        Self {
            live: bytes.to_vec(),
            durable: bytes.to_vec(),
            untouched: bytes.len(),
            aside: Vec::new(),
            steps_left,
            off: false,
        }
    }

    /// The power goes during a step, not before it: the step may have happened.
    fn step(&mut self) -> io::Result<()> {
        if self.steps_left == 0 {
            self.off = true;
            return Err(io::Error::other("power cut"));
        }
        self.steps_left -= 1;
        Ok(())
    }

    fn is_on(&self) -> io::Result<()> {
        if self.off {
            return Err(io::Error::other("power cut"));
        }
        Ok(())
    }

    /// Every file that may be found after the cut, its unsure part in blocks
    /// of this size.
    fn found(&self, block: usize, each: &mut dyn FnMut(&[u8])) {
        let longest = self.live.len().max(self.durable.len());
        let unsure = longest - self.untouched;
        let blocks = unsure.div_ceil(block.max(1));
        let kinds = 4_usize;
        for combination in 0..kinds.pow(blocks as u32) {
            let mut file = self.live[..self.untouched].to_vec();
            let mut rest = combination;
            for n in 0..blocks {
                let from = self.untouched + n * block;
                let to = (from + block).min(longest);
                let of = |bytes: &[u8]| -> Vec<u8> {
                    let byte = |i: usize| bytes.get(i).copied().unwrap_or(0);
                    (from..to).map(byte).collect()
                };
                let garbage = GARBAGE[combination % GARBAGE.len()];
                file.extend(match rest % kinds {
                    0 => of(&self.durable),
                    1 => of(&self.live),
                    2 => vec![0; to - from],
                    _ => garbage.iter().copied().cycle().take(to - from).collect(),
                });
                rest /= kinds;
            }
            let lengths = [
                self.untouched,
                self.durable.len(),
                self.live.len(),
                self.untouched + unsure / 2,
            ];
            for len in lengths {
                each(&file[..len.min(file.len())]);
            }
        }
    }
}

impl Disk for CrashDisk {
    fn read(&mut self) -> io::Result<Vec<u8>> {
        self.step()?;
        Ok(self.live.clone())
    }
    fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
        self.is_on()?;
        self.untouched = self.untouched.min(at as usize);
        self.live.truncate(at as usize);
        self.live.extend(bytes);
        self.step()
    }
    fn cut(&mut self, len: u64) -> io::Result<()> {
        self.is_on()?;
        self.untouched = self.untouched.min(len as usize);
        self.live.truncate(len as usize);
        self.step()
    }
    fn sync(&mut self) -> io::Result<()> {
        self.step()?;
        self.durable.clone_from(&self.live);
        self.untouched = self.live.len();
        Ok(())
    }
    fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.step()?;
        self.aside.push(bytes.to_vec());
        Ok(())
    }
}

fn note(number: u32) -> Entry {
    let text = format!("note {number} of this bow");
    entry(number, Event::Note { text })
}

/// An entry of a fixed time: made twice it is the same.
fn entry(number: u32, event: Event) -> Entry {
    let at = "2026-03-02T10:15:00+00:00".parse().unwrap();
    Entry {
        at,
        ..Entry::now(number, event)
    }
}

fn shot(number: u32) -> Entry {
    let right = f64::from(number);
    let shot = Shot {
        right,
        ..Shot::default()
    };
    entry(number, Event::Shot(shot))
}

fn undo(number: u32) -> Entry {
    entry(number, Event::Undo { target: 1 })
}

fn group(first: u32) -> Vec<Entry> {
    let mark = Together { first, members: 3 };
    let member = |n| Entry {
        together: Some(mark),
        ..shot(n)
    };
    (first..first + 3).map(member).collect()
}

/// What was tried, for the matrix that is printed.
#[derive(Default)]
struct Tried {
    points: usize,
    subsets: usize,
    losses: usize,
}

impl Tried {
    fn print(&self, what: &str) {
        println!(
            "{what:<34} points {:>4}, subsets {:>8}, losses: {}",
            self.points, self.subsets, self.losses
        );
        assert!(self.points > 0 && self.subsets > 0, "{what}");
        assert_eq!(self.losses, 0, "{what}");
    }
}

/// Whether what is found keeps the promise.
fn kept(found: &[u8], acknowledged: &[Entry], in_flight: &[Entry]) -> bool {
    let journal = Journal::from_bytes(found);
    let changed = |n: u32| journal.remarks.contains(&Remark::Changed { number: n });
    let as_recorded = |e: &Entry| journal.entries.contains(e) && !changed(e.number);
    let all_there = acknowledged.iter().all(as_recorded);
    let known = |e: &Entry| {
        acknowledged.contains(e)
            || in_flight.contains(e)
            || (in_flight.iter().any(|f| f.number == e.number) && changed(e.number))
    };
    let nothing_else = journal.entries.iter().all(known);
    let of_group = journal.entries.iter().filter(|e| e.together.is_some());
    let of_group = of_group.filter(|e| !acknowledged.contains(e)).count();
    let group_whole = of_group == 0 || of_group == in_flight.len();
    all_there && nothing_else && group_whole && journal.header.starts_with("format = ")
}

/// Appends one action after the other until the power goes; returns how many
/// were said to be recorded.
fn until_the_cut(disk: &mut CrashDisk, actions: &[Vec<Entry>]) -> usize {
    let journal = Journal::from_bytes(&disk.live);
    let (mut print, mut sound) = (Print::of(&disk.live), journal.sound_len);
    for (n, entries) in actions.iter().enumerate() {
        let block: String = entries.iter().map(Entry::to_toml).collect();
        match append(disk, &block, sound, &print) {
            Ok(next) => {
                sound = next.length();
                print = next;
            }
            Err(_) => return n,
        }
    }
    actions.len()
}

/// Tries every crash point of these actions on a file with that tail.
fn try_appending(start: &[Entry], tail: &[u8], actions: &[Vec<Entry>]) -> Tried {
    let mut tried = Tried::default();
    let mut begun = CARD.as_bytes().to_vec();
    begun.extend(start.iter().flat_map(|e| e.to_toml().into_bytes()));
    begun.extend(tail);
    for steps in 0..60 {
        let mut disk = CrashDisk::with(&begun, steps);
        let done = until_the_cut(&mut disk, actions);
        let acknowledged: Vec<Entry> = start
            .iter()
            .chain(actions[..done].iter().flatten())
            .cloned()
            .collect();
        let in_flight = actions.get(done).cloned().unwrap_or_default();
        let unsure = disk.live.len().max(disk.durable.len()) - disk.untouched;
        let sizes: Vec<usize> = if thoroughly() {
            (1..=8).map(|n| (unsure / 5).max(1) + n * 7).collect()
        } else {
            vec![(unsure / 3).max(1) + 1, (unsure / 4).max(1) + 1]
        };
        tried.points += 1;
        for block in sizes {
            disk.found(block, &mut |found| {
                tried.subsets += 1;
                // The tail is still in the file, or was set aside for good.
                let body = tail.trim_ascii();
                let safe = body.is_empty()
                    || found.windows(body.len()).any(|w| w == body)
                    || disk.aside.iter().any(|a| a.trim_ascii() == body);
                if !(safe && kept(found, &acknowledged, &in_flight)) {
                    tried.losses += 1;
                    if tried.losses == 1 {
                        println!("step {steps}: {}", String::from_utf8_lossy(found));
                    }
                }
            });
        }
        if done == actions.len() {
            return tried;
        }
    }
    panic!("60 steps are not enough");
}

#[test]
fn what_was_said_to_be_recorded_is_there_after_any_power_cut() {
    let start: Vec<Entry> = (1..=2).map(shot).collect();
    let singles = vec![vec![note(3)], vec![shot(4)], vec![undo(5)]];
    try_appending(&start, b"", &singles).print("shots, a note, an undo");
    try_appending(&[], b"", &[vec![shot(1)], vec![shot(2)]]).print("the first entries of a file");
    try_appending(&start, b"", &[group(3), vec![shot(6)]]).print("three holes of one sheet");
    let torn = note(3).to_toml();
    for (what, tail) in [
        ("after a torn entry", &torn.as_bytes()[..torn.len() - 4]),
        ("after a torn heading", b"\n[[en"),
        ("after 100 NULs", &[0; 100]),
        ("after bytes that are no text", b"\xff\xff\xff"),
        ("after a remark without its mark", b"bought on a Friday\n"),
    ] {
        try_appending(&start, tail, &[vec![shot(3)], vec![note(4)]]).print(what);
    }
    let whole: String = group(3).iter().map(Entry::to_toml).collect();
    let tail = &whole.as_bytes()[..whole.len() - 60];
    try_appending(&start, tail, &[vec![shot(3)]]).print("after a torn group");
}

/// A folder that loses power after a number of steps.
#[derive(Clone, Default)]
struct CrashShelf {
    /// Under its name, for good.
    durable: Option<Vec<u8>>,
    /// Under its name since a rename that may not last.
    renamed: Option<Vec<u8>>,
    temporary: Option<Vec<u8>>,
    synced: bool,
    steps_left: usize,
}

impl CrashShelf {
    fn step(&mut self) -> io::Result<()> {
        if self.steps_left == 0 {
            return Err(io::Error::other("power cut"));
        }
        self.steps_left -= 1;
        Ok(())
    }

    /// What may be found under its name.
    fn found(&self) -> Vec<Option<Vec<u8>>> {
        let mut all = vec![self.durable.clone()];
        if let Some(new) = &self.renamed {
            all.push(Some(new.clone()));
            if !self.synced {
                all.push(Some(vec![0; new.len()]));
                all.push(Some(new[..new.len() / 2].to_vec()));
                all.push(Some(Vec::new()));
            }
        }
        all
    }
}

impl Shelf for CrashShelf {
    fn write_temporary(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.temporary = Some(bytes.to_vec());
        self.step()
    }
    fn sync_temporary(&mut self) -> io::Result<()> {
        self.step()?;
        self.synced = true;
        Ok(())
    }
    fn put_in_place(&mut self, replace: bool) -> io::Result<()> {
        if !replace && self.durable.is_some() {
            return Err(io::Error::from(io::ErrorKind::AlreadyExists));
        }
        self.renamed = self.temporary.take();
        self.step()
    }
    fn sync_folder(&mut self) -> io::Result<()> {
        self.step()?;
        self.durable = self.renamed.take();
        Ok(())
    }
}

#[test]
fn what_is_written_whole_is_there_whole_or_not_at_all() {
    let old = format!("{CARD}{}", shot(1).to_toml()).into_bytes();
    let new = format!("{CARD}{}{}", shot(1).to_toml(), shot(2).to_toml()).into_bytes();
    for (what, before, replace) in [
        ("new, repair, a first sheet", None, false),
        ("a sheet in place of a sheet", Some(&old), true),
        ("the format raised", Some(&old), true),
    ] {
        let mut tried = Tried::default();
        for steps in 0..=4 {
            let mut shelf = CrashShelf {
                durable: before.cloned(),
                steps_left: steps,
                ..CrashShelf::default()
            };
            let said = write_whole(&mut shelf, &new, replace).is_ok();
            assert_eq!(said, steps == 4, "{what}");
            tried.points += 1;
            for found in shelf.found() {
                tried.subsets += 1;
                let whole = found.as_ref() == Some(&new) || (!said && found.as_ref() == before);
                tried.losses += usize::from(!whole);
            }
        }
        tried.print(what);
    }
    let mut shelf = CrashShelf {
        durable: Some(old.clone()),
        steps_left: 9,
        ..CrashShelf::default()
    };
    assert!(write_whole(&mut shelf, &new, false).is_err());
    assert_eq!(shelf.durable, Some(old));
}

#[test]
fn the_test_sees_what_a_worse_rule_would_lose() {
    // The control: without a sync before the rename, and with entries that end
    // at the next heading, the same disks lose something.
    let mut shelf = CrashShelf {
        steps_left: 9,
        ..CrashShelf::default()
    };
    shelf.write_temporary(b"whole").unwrap();
    shelf.put_in_place(true).unwrap();
    assert!(shelf.found().contains(&Some(vec![0; 5])));
    let mut disk = CrashDisk::with(CARD.as_bytes(), 9);
    let block = shot(1).to_toml();
    disk.write_at(CARD.len() as u64, block.as_bytes()).unwrap();
    let mut lost = 0;
    disk.found(20, &mut |found| {
        lost += usize::from(!kept(found, &[shot(1)], &[]));
    });
    assert!(lost > 0, "an entry that was not synced is never sure");
}

#[test]
fn a_disk_that_refuses_leaves_the_file_as_it_was_or_says_that_it_does_not_know() {
    struct Full {
        disk: CrashDisk,
        cuts: bool,
    }
    impl Disk for Full {
        fn read(&mut self) -> io::Result<Vec<u8>> {
            self.disk.read()
        }
        fn write_at(&mut self, at: u64, bytes: &[u8]) -> io::Result<()> {
            self.disk.write_at(at, &bytes[..bytes.len() / 2])?;
            Err(io::Error::from(io::ErrorKind::StorageFull))
        }
        fn cut(&mut self, len: u64) -> io::Result<()> {
            if !self.cuts {
                return Err(io::Error::other("the disk is gone"));
            }
            self.disk.cut(len)
        }
        fn sync(&mut self) -> io::Result<()> {
            self.disk.sync()
        }
        fn keep_aside(&mut self, bytes: &[u8]) -> io::Result<()> {
            self.disk.keep_aside(bytes)
        }
    }
    for cuts in [true, false] {
        let before = CARD.as_bytes();
        let mut disk = Full {
            disk: CrashDisk::with(before, 99),
            cuts,
        };
        let print = Print::of(before);
        let block = shot(1).to_toml();
        let error = append(&mut disk, &block, before.len() as u64, &print).unwrap_err();
        let said = error.to_string();
        assert!(said.contains("the disk is full"), "{said}");
        assert_eq!(disk.disk.live == before, cuts);
        assert_eq!(
            said.contains("may or may not be in the file; look before you type it again"),
            !cuts,
            "{said}"
        );
        assert_eq!(Journal::from_bytes(&disk.disk.live).entries.len(), 0);
    }
}
