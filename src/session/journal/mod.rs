//! The session file as read: the card, the entries, and what is wrong with
//! the rest. Reading works on bytes and never fails; each fault costs the
//! piece it stands in and nothing else. `tearbench print format` is the page
//! that says the same for people.

pub(crate) mod grammar;
mod grave;
mod numbers;

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{Entry, Event, Together, Unread};
use grammar::{Close, Piece};
use grave::grave;

/// The largest session file that is read, bytes. Ten thousand shots take
/// about two megabytes.
pub(crate) const LARGEST_FILE: u64 = 32 * 1024 * 1024;

/// What is wrong with a piece of the file that does not count; said in
/// [`crate::words`], as remarks are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Harm {
    /// No `end` line closes it.
    CutOff,
    /// It stands outside every entry.
    Strange,
    /// Some of its bytes are not UTF-8.
    NotText,
    /// It does not read as an entry; why, in words.
    Unreadable(String),
    /// Its number cannot be right, and several others could be.
    Number(u32),
    /// What was recorded with it is not all there.
    Parted(Together),
}

/// A piece of the file that does not count. It stays in the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Damage {
    /// First line of the damaged piece, or the line at fault in it, from 1.
    pub line: usize,
    /// What is wrong.
    pub problem: Harm,
    /// Whether it is the torn end of the file, as a power cut leaves it: the
    /// next append sets it aside.
    pub torn_tail: bool,
    /// Whether an incident, a change of the card or another thing that safety
    /// rests on may have stood there.
    pub(crate) grave: bool,
}

/// Something to know about what was read; nothing is lost by it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remark {
    /// An entry whose number was wrong and is known all the same.
    Renumbered {
        /// Its first line.
        line: usize,
        /// What stands on its `end` line.
        claimed: u32,
        /// Its number.
        number: u32,
    },
    /// An entry that is not as this program recorded it.
    Changed {
        /// Its number.
        number: u32,
    },
    /// Numbers that no entry has, and nothing stands in their place.
    Missing {
        /// The first of them.
        from: u32,
        /// The last of them.
        to: u32,
    },
    /// An entry of a kind this program does not know.
    Newer {
        /// Its first line.
        line: usize,
        /// Its number.
        number: u32,
        /// The kind it names.
        kind: String,
    },
}

/// A session file as read: the card's text, the whole entries, the damage.
#[derive(Debug, Clone, PartialEq)]
pub struct Journal {
    /// Everything that belongs to the card; bytes that are no text are `U+FFFD`.
    pub header: String,
    /// The entries that count, in file order.
    pub entries: Vec<Entry>,
    /// What does not count, in file order.
    pub damage: Vec<Damage>,
    /// What else there is to know, in file order.
    pub remarks: Vec<Remark>,
    /// Numbers that more than one entry claims.
    pub(crate) claimed_twice: BTreeSet<u32>,
    /// Bytes up to the end of the last closed piece; what follows is a torn tail.
    pub sound_len: u64,
    last: Option<u32>,
}

/// A piece with what it was read as.
pub(super) struct Read<'a> {
    pub(super) piece: Piece<'a>,
    pub(super) found: Found,
}

/// What a piece was read as.
pub(super) enum Found {
    Entry {
        entry: Entry,
        claimed: u32,
        changed: bool,
    },
    Newer {
        kind: String,
        number: u32,
    },
    Harm {
        problem: Harm,
        line: usize,
    },
}

impl Found {
    const fn harm(problem: Harm, line: usize) -> Self {
        Self::Harm { problem, line }
    }
}

/// Reads every piece of a file: the card's bytes, and what each piece is once
/// numbers are settled and groups are looked over.
pub(super) fn read_pieces(bytes: &[u8]) -> (&[u8], Vec<Read<'_>>, BTreeSet<u32>) {
    let (card, pieces) = grammar::split(bytes, &|text| Entry::read(text).is_ok());
    let mut all: Vec<Read<'_>> = pieces
        .into_iter()
        .map(|piece| Read {
            found: read_piece(&piece),
            piece,
        })
        .collect();
    let twice = settle_numbers(&mut all);
    part_groups(&mut all);
    (card, all, twice)
}

fn read_piece(piece: &Piece<'_>) -> Found {
    match piece.close {
        Close::Open => return Found::harm(Harm::CutOff, piece.line),
        Close::Strange => return Found::harm(Harm::Strange, piece.line),
        Close::Closed => {}
    }
    let Ok(text) = std::str::from_utf8(piece.bytes) else {
        return Found::harm(Harm::NotText, piece.line);
    };
    match Entry::read(text) {
        Ok(entry) => Found::Entry {
            claimed: entry.number,
            changed: false,
            entry,
        },
        Err(Unread::Newer { kind, number }) => Found::Newer { kind, number },
        Err(Unread::Bad { line, problem }) => {
            Found::harm(Harm::Unreadable(problem), piece.line + line - 1)
        }
    }
}

/// Gives every entry its number; returns those that were claimed twice.
fn settle_numbers(all: &mut [Read<'_>]) -> BTreeSet<u32> {
    let places: Vec<usize> = (0..all.len())
        .filter(|i| all[*i].piece.close != Close::Strange)
        .collect();
    let claimed: Vec<Option<u32>> = places
        .iter()
        .map(|i| match &all[*i].found {
            Found::Entry { claimed, .. } => Some(*claimed),
            Found::Newer { number, .. } => Some(*number),
            Found::Harm { .. } => None,
        })
        .collect();
    let vouched: Vec<bool> = places
        .iter()
        .zip(&claimed)
        .map(|(i, claimed)| {
            let text = std::str::from_utf8(all[*i].piece.bytes).ok();
            let own = text.zip(*claimed);
            own.is_some_and(|(text, n)| Entry::sum_fits(text, n) == Some(true))
        })
        .collect();
    let mut times: BTreeMap<u32, usize> = BTreeMap::new();
    for number in claimed.iter().flatten() {
        *times.entry(*number).or_default() += 1;
    }
    let settled = numbers::settle(&claimed, &vouched);
    for (place, (i, settled)) in places.iter().zip(settled).enumerate() {
        let read = &mut all[*i];
        let line = read.piece.line;
        match (&mut read.found, settled) {
            (Found::Entry { entry, changed, .. }, Some(number)) => {
                entry.number = number;
                *changed = !vouched[place]
                    && std::str::from_utf8(read.piece.bytes)
                        .is_ok_and(|text| Entry::sum_fits(text, number) == Some(false));
            }
            (Found::Newer { number, .. }, Some(settled)) => *number = settled,
            (
                Found::Entry { claimed, .. }
                | Found::Newer {
                    number: claimed, ..
                },
                None,
            ) => {
                let problem = Harm::Number(*claimed);
                read.found = Found::harm(problem, line);
            }
            (Found::Harm { .. }, _) => {}
        }
    }
    times
        .into_iter()
        .filter_map(|(number, times)| (times > 1).then_some(number))
        .collect()
}

/// Takes out the entries whose group lacks a member. An incident stays: what
/// stops shooting is not taken back by a damaged neighbour.
fn part_groups(all: &mut [Read<'_>]) {
    let mut members: BTreeMap<Together, u32> = BTreeMap::new();
    for read in all.iter() {
        if let Found::Entry { entry, .. } = &read.found
            && let Some(mark) = entry.together
        {
            *members.entry(mark).or_default() += u32::from(mark.holds(entry.number));
        }
    }
    for read in all {
        if let Found::Entry { entry, .. } = &read.found
            && let Some(mark) = entry.together
            && !(members.get(&mark) == Some(&mark.members) && mark.holds(entry.number))
            && !matches!(entry.event, Event::Incident { .. })
        {
            read.found = Found::harm(Harm::Parted(mark), read.piece.line);
        }
    }
}

/// How many pieces at the end are a torn tail: never closed, outside every
/// entry, or members of a group whose last member was never written.
fn torn_at_end(all: &[Read<'_>]) -> usize {
    let last = all.iter().rev().find_map(|r| end_number(&r.piece));
    let torn = |read: &Read<'_>| match (&read.found, read.piece.close) {
        (_, Close::Open | Close::Strange) => true,
        (
            Found::Harm {
                problem: Harm::Parted(mark),
                ..
            },
            _,
        ) => last.is_some_and(|last| last < mark.last()),
        _ => false,
    };
    all.iter().rev().take_while(|r| torn(r)).count()
}

fn end_number(piece: &Piece<'_>) -> Option<u32> {
    let whole = piece.close == Close::Closed;
    let line = piece.bytes.split_inclusive(|b| *b == b'\n').next_back();
    line.filter(|_| whole).and_then(grammar::number_of_end)
}

impl Journal {
    /// Reads a session's text.
    pub fn from_text(text: &str) -> Self {
        Self::from_bytes(text.as_bytes())
    }

    /// Reads a session's bytes.
    pub fn from_bytes(bytes: &[u8]) -> Self {
        let (card, all, claimed_twice) = read_pieces(bytes);
        let kept = all.len() - torn_at_end(&all);
        let sound_len = all.get(kept).map_or(bytes.len(), |r| r.piece.start);
        let mut journal = Self {
            header: String::from_utf8_lossy(card).into_owned(),
            entries: Vec::new(),
            damage: Vec::new(),
            remarks: Vec::new(),
            claimed_twice,
            sound_len: sound_len as u64,
            last: None,
        };
        let (mut last, mut places, mut harmed) = (0_u32, 0_u64, false);
        for (i, Read { piece, found }) in all.into_iter().enumerate() {
            let torn_tail = i >= kept;
            let number = match found {
                Found::Harm { problem, line } => {
                    harmed = true;
                    // An entry that cannot be read has a number all the same.
                    if !torn_tail && piece.close != Close::Strange {
                        places += 1;
                    }
                    let damage = Damage {
                        line,
                        grave: grave(piece.bytes, &problem),
                        problem,
                        torn_tail,
                    };
                    journal.damage.push(damage);
                    continue;
                }
                Found::Entry {
                    entry,
                    claimed,
                    changed,
                } => {
                    let number = entry.number;
                    if !harmed {
                        journal.note_gap(last, number);
                    }
                    if claimed != number {
                        journal.remarks.push(Remark::Renumbered {
                            line: piece.line,
                            claimed,
                            number,
                        });
                    }
                    if changed {
                        journal.remarks.push(Remark::Changed { number });
                    }
                    journal.entries.push(entry);
                    number
                }
                Found::Newer { kind, number } => {
                    if !harmed {
                        journal.note_gap(last, number);
                    }
                    let line = piece.line;
                    journal.remarks.push(Remark::Newer { line, number, kind });
                    number
                }
            };
            (last, places, harmed) = (number, 0, false);
        }
        journal.last = u32::try_from(u64::from(last) + places).ok();
        journal
    }

    fn note_gap(&mut self, last: u32, number: u32) {
        if number.saturating_sub(last) > 1 {
            self.remarks.push(Remark::Missing {
                from: last + 1,
                to: number - 1,
            });
        }
    }

    /// The number the next entry gets: past everything in the file, readable
    /// or not. `None` where the numbers are used up.
    pub(crate) fn next_number(&self) -> Option<u32> {
        self.last?.checked_add(1)
    }

    /// Whether it holds an entry of a newer program.
    pub(crate) fn newer(&self) -> Option<&Remark> {
        self.remarks
            .iter()
            .find(|r| matches!(r, Remark::Newer { .. }))
    }
}

#[cfg(test)]
mod tests;
