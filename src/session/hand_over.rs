//! Shots handed to another session: they were shot on another bow. They are
//! copied first and undone second, each side in one group, so that whatever
//! happens between they are in at least one file. Both files know the handing
//! over by one mark, and each says on opening where it was not finished.

use std::collections::BTreeSet;

use super::entry::{Event, HandStage, Shot};
use super::error::{Refused, SessionError};
use super::store::Session;
use super::timeline::company;
use super::warning::Warning;

/// Shots that are handed over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct HandedOver {
    /// The mark in both files.
    pub(crate) mark: String,
    /// Their entries in the file they leave.
    pub entries: Vec<u32>,
    /// Entries among them that were recorded together with one of those asked
    /// for, and go with it.
    pub(crate) along: Vec<u32>,
    /// Their entries in the file they go to, once they are copied.
    pub(crate) copies: Vec<u32>,
}

/// The name of a session's file without its folders.
fn file_name(session: &Session) -> String {
    let name = session.path().and_then(|p| p.file_name());
    name.map_or_else(|| "a session".into(), |n| n.to_string_lossy().into_owned())
}

/// A mark made of what the shots are: the same shots have the same mark, so
/// that a handing over that was cut short is known again. FNV-1a, 64 bits.
fn mark_of(session: &Session, entries: &[u32]) -> String {
    let all = session.entries().iter();
    let own = all.filter(|e| entries.contains(&e.number));
    let text: String = own.map(super::Entry::to_toml).collect();
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}")
}

impl HandedOver {
    /// The shots that go: those asked for, and whatever one action recorded
    /// with them.
    ///
    /// # Errors
    /// When one is no shot that counts.
    pub fn of(from: &Session, numbers: &[u32]) -> Result<Self, SessionError> {
        let mut all = BTreeSet::new();
        for number in numbers {
            from.check_shot(*number)?;
            all.extend(company(from.entries(), *number));
        }
        let counts = |n: &u32| from.timeline().shots.iter().any(|s| s.entry == *n);
        let (entries, others): (Vec<u32>, Vec<u32>) = all.into_iter().partition(counts);
        if let Some(other) = others.iter().find(|n| !from.timeline().undone.contains(n)) {
            return Err(SessionError::Refused(Refused::WithNoShot(*other)));
        }
        if entries.is_empty() {
            return Err(SessionError::Refused(Refused::NoShotsNamed));
        }
        let along = entries.iter().filter(|n| !numbers.contains(n));
        Ok(Self {
            mark: mark_of(from, &entries),
            along: along.copied().collect(),
            entries,
            copies: Vec::new(),
        })
    }

    fn step(&self, stage: HandStage, other: &Session) -> Event {
        Event::HandOver {
            mark: self.mark.clone(),
            stage,
            file: file_name(other),
            entries: self.entries.clone(),
        }
    }

    /// Notes in the file they leave that they are about to go.
    ///
    /// # Errors
    /// When it cannot be recorded.
    pub(super) fn begin(&self, from: &mut Session, to: &Session) -> Result<(), SessionError> {
        if !from.has_step(&self.mark, HandStage::Begun) {
            from.record(self.step(HandStage::Begun, to))?;
        }
        Ok(())
    }

    /// Copies them, unless copies of theirs count there already.
    ///
    /// # Errors
    /// When they cannot be recorded.
    pub(super) fn copy(&mut self, from: &Session, to: &mut Session) -> Result<(), SessionError> {
        self.copies = to.copies_of(&self.mark);
        if !self.copies.is_empty() {
            return Ok(());
        }
        let shots = from.timeline().shots.iter();
        let own = shots.filter(|s| self.entries.contains(&s.entry));
        let mut events = vec![self.step(HandStage::Copied, from)];
        events.extend(own.map(|s| {
            Event::Shot(Shot {
                // Whether shooting was stopped there is not this bow's matter.
                under_stop: false,
                ..s.shot.clone()
            })
        }));
        let numbers = to.record_all(events)?;
        self.copies = numbers.into_iter().skip(1).collect();
        Ok(())
    }

    /// Undoes them where they leave.
    ///
    /// # Errors
    /// When it cannot be recorded.
    pub(super) fn undo(&self, from: &mut Session, to: &Session) -> Result<(), SessionError> {
        let mut events = vec![self.step(HandStage::Undone, to)];
        let mut gone: BTreeSet<u32> = BTreeSet::new();
        for target in &self.entries {
            // One undo takes back all that was recorded together.
            if gone.insert(*target) {
                gone.extend(company(from.entries(), *target));
                events.push(Event::Undo { target: *target });
            }
        }
        from.record_all(events).map(|_| ())
    }

    /// Notes where they went that the other file has let go of them.
    ///
    /// # Errors
    /// When it cannot be recorded.
    pub(super) fn settle(&self, from: &Session, to: &mut Session) -> Result<(), SessionError> {
        to.record(self.step(HandStage::Settled, from)).map(|_| ())
    }

    /// Hands them over: copied first, undone second. Called again after it was
    /// cut short, it goes on where it stood.
    ///
    /// # Errors
    /// When one of the files cannot be written; what was done so far stands,
    /// and both files say so when they are opened.
    pub fn hand(mut self, from: &mut Session, to: &mut Session) -> Result<Self, SessionError> {
        for session in [&*from, &*to] {
            if let Some(why) = session.read_only() {
                let name = file_name(session);
                let why = Refused::OtherReadOnly(name, why.clone());
                return Err(SessionError::Refused(why));
            }
        }
        self.begin(from, to)?;
        self.copy(from, to)?;
        self.undo(from, to)?;
        self.settle(from, to)?;
        Ok(self)
    }
}

/// A step that is recorded: its mark, which it is, the other file, the entries.
type Recorded<'a> = (&'a str, HandStage, &'a str, &'a [u32]);

impl Session {
    fn hand_steps(&self) -> impl Iterator<Item = Recorded<'_>> {
        self.entries().iter().filter_map(|e| match &e.event {
            Event::HandOver {
                mark,
                stage,
                file,
                entries,
            } => Some((mark.as_str(), *stage, file.as_str(), entries.as_slice())),
            _ => None,
        })
    }

    fn has_step(&self, mark: &str, stage: HandStage) -> bool {
        self.hand_steps().any(|s| s.0 == mark && s.1 == stage)
    }

    /// The copies of a mark that count here.
    fn copies_of(&self, mark: &str) -> Vec<u32> {
        let heads = self.entries().iter().filter(|e| {
            matches!(&e.event, Event::HandOver { mark: own, stage: HandStage::Copied, .. } if own == mark)
        });
        let groups: Vec<_> = heads.filter_map(|e| e.together).collect();
        let shots = self.timeline().shots.iter().map(|s| s.entry);
        shots
            .filter(|n| groups.iter().any(|g| g.holds(*n)))
            .collect()
    }

    /// Shots that were being handed over when it was cut short.
    pub(super) fn half_handed(&self) -> Vec<Warning> {
        let counted = |n: &&u32| self.timeline().shots.iter().any(|s| s.entry == **n);
        let mut out = Vec::new();
        for (mark, stage, file, entries) in self.hand_steps() {
            let file = file.to_owned();
            let here: Vec<u32> = entries.iter().filter(counted).copied().collect();
            if stage == HandStage::Begun
                && !self.has_step(mark, HandStage::Undone)
                && !here.is_empty()
            {
                out.push(Warning::HandedAndHere {
                    entries: here,
                    to: file.clone(),
                });
            }
            let copies = self.copies_of(mark);
            if stage == HandStage::Copied
                && !self.has_step(mark, HandStage::Settled)
                && !copies.is_empty()
            {
                out.push(Warning::CopiedFrom {
                    entries: copies,
                    from: file,
                });
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::PLAIN_COMPOUND;
    use crate::gear::CardText;
    use std::path::{Path, PathBuf};
    use std::time::Duration;

    struct Two {
        _folder: tempfile::TempDir,
        paths: [PathBuf; 2],
    }

    fn shot(right: f64) -> Event {
        Event::Shot(Shot {
            right,
            ..Shot::default()
        })
    }

    fn open(path: &Path) -> Session {
        Session::open_for_writing(path, "test", Duration::ZERO).unwrap()
    }

    impl Two {
        /// Five shots in the first file, the last two of them in one group;
        /// one in the second.
        fn new() -> Self {
            let folder = tempfile::tempdir().unwrap();
            let paths = ["green.toml", "blue.toml"].map(|n| folder.path().join(n));
            let card = CardText::from_toml(PLAIN_COMPOUND).unwrap();
            for path in &paths {
                Session::create(path, &card).unwrap();
            }
            let mut first = open(&paths[0]);
            for right in [-12.0, -11.0, 3.0] {
                first.record(shot(right)).unwrap();
            }
            first.record_all(vec![shot(4.0), shot(5.0)]).unwrap();
            open(&paths[1]).record(shot(6.0)).unwrap();
            Self {
                _folder: folder,
                paths,
            }
        }

        fn both(&self) -> (Session, Session) {
            (open(&self.paths[0]), open(&self.paths[1]))
        }

        fn rights(&self) -> [Vec<f64>; 2] {
            let of = |p: &PathBuf| {
                let session = Session::open(p).unwrap();
                let shots = session.timeline().shots.iter();
                shots.map(|s| s.shot.right).collect()
            };
            [of(&self.paths[0]), of(&self.paths[1])]
        }

        fn warnings(&self) -> [Vec<String>; 2] {
            [0, 1].map(|i| {
                let all = Session::open(&self.paths[i]).unwrap().all_warnings();
                all.iter().map(crate::words::warning).collect()
            })
        }
    }

    #[test]
    fn shots_go_over_and_one_undo_on_each_side_takes_it_back() {
        let two = Two::new();
        let (mut from, mut to) = two.both();
        let handed = HandedOver::of(&from, &[3, 4]).unwrap();
        assert_eq!(
            (handed.entries.as_slice(), handed.along.as_slice()),
            (&[3, 4, 5][..], &[5][..])
        );
        let done = handed.hand(&mut from, &mut to).unwrap();
        assert_eq!(done.copies, [3, 4, 5]);
        assert_eq!(two.rights(), [vec![-12.0, -11.0], vec![6.0, 3.0, 4.0, 5.0]]);
        assert_eq!(two.warnings(), [Vec::<String>::new(), Vec::new()]);
        to.undo().unwrap();
        from.redo().unwrap();
        drop((from, to));
        assert_eq!(two.rights()[1], [6.0]);
        assert!(two.rights()[0].len() > 2);
        for path in &two.paths {
            assert!(Session::open(path).unwrap().damage().is_empty());
        }
    }

    #[test]
    fn a_stop_between_leaves_them_in_both_and_both_files_say_so() {
        let two = Two::new();
        let (mut from, mut to) = two.both();
        let mut handed = HandedOver::of(&from, &[3]).unwrap();
        handed.begin(&mut from, &to).unwrap();
        // Cut short before the copy: nothing is lost, and the first file says so.
        assert!(two.warnings()[0][0].contains("entries 3 were being handed to blue.toml"));
        assert!(two.warnings()[1].is_empty());
        handed.copy(&from, &mut to).unwrap();
        drop((from, to));
        assert_eq!(
            two.rights(),
            [vec![-12.0, -11.0, 3.0, 4.0, 5.0], vec![6.0, 3.0]]
        );
        let [here, there] = two.warnings();
        assert!(
            here[0].contains("may count in both") && here[0].contains("--entries 3"),
            "{here:?}"
        );
        assert!(
            there[0].contains("entries 3 came from green.toml"),
            "{there:?}"
        );
        // The same asked again goes on where it stood: no second copy.
        let (mut from, mut to) = two.both();
        let again = HandedOver::of(&from, &[3]).unwrap();
        again.hand(&mut from, &mut to).unwrap();
        drop((from, to));
        assert_eq!(two.rights(), [vec![-12.0, -11.0, 4.0, 5.0], vec![6.0, 3.0]]);
        assert_eq!(two.warnings(), [Vec::<String>::new(), Vec::new()]);
    }

    #[test]
    fn a_stop_before_the_last_note_is_said_where_they_went_and_can_be_undone_there() {
        let two = Two::new();
        let (mut from, mut to) = two.both();
        let mut handed = HandedOver::of(&from, &[2]).unwrap();
        handed.begin(&mut from, &to).unwrap();
        handed.copy(&from, &mut to).unwrap();
        handed.undo(&mut from, &to).unwrap();
        drop((from, to));
        let [here, there] = two.warnings();
        assert!(here.is_empty(), "{here:?}");
        assert!(there[0].contains("came from green.toml"), "{there:?}");
        open(&two.paths[1]).undo().unwrap();
        assert!(two.warnings()[1].is_empty());
    }

    #[test]
    fn what_is_no_shot_is_refused_and_nothing_changes() {
        let two = Two::new();
        let (mut from, to) = two.both();
        from.record(Event::Note { text: "x".into() }).unwrap();
        for (numbers, wanted) in [
            (&[6][..], "entry 6 is no shot (note)"),
            (&[3, 9][..], "there is no entry 9"),
            (&[][..], "no shots were named"),
        ] {
            let refused = HandedOver::of(&from, numbers).unwrap_err();
            assert!(refused.to_string().starts_with(wanted), "{refused}");
            assert!(refused.is_input());
        }
        drop((from, to));
        assert_eq!(two.rights()[1], [6.0]);
    }

    #[test]
    fn a_file_that_another_holds_is_not_written() {
        let two = Two::new();
        let _held = open(&two.paths[1]);
        let mut from = open(&two.paths[0]);
        // Opened for reading only: the first note is written, the copy is not.
        let mut to = Session::open(&two.paths[1]).unwrap();
        let handed = HandedOver::of(&from, &[3]).unwrap();
        assert!(handed.hand(&mut from, &mut to).is_err());
        drop((from, to));
        assert_eq!(two.rights(), [vec![-12.0, -11.0, 3.0, 4.0, 5.0], vec![6.0]]);
        assert!(two.warnings()[0][0].contains("To finish"));
    }
}
