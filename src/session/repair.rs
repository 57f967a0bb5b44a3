//! Recovering a damaged session into a new file; the damaged one is never touched.

use super::entry::Entry;
use super::journal::{block_starts, is_whole};

/// What can be saved of a damaged file, and what cannot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repair {
    /// The card and every whole entry, as they stood.
    pub sound: String,
    /// Everything else, as it stood.
    pub lost: String,
    /// How many entries were saved.
    pub saved: usize,
    /// How many pieces were not.
    pub pieces_lost: usize,
}

/// Splits a file's bytes into what is whole and what is not. Bytes that are
/// not UTF-8 spoil only the entry they stand in.
pub fn repair(bytes: &[u8]) -> Repair {
    let text = String::from_utf8_lossy(bytes);
    let starts = block_starts(&text);
    let header_end = starts.first().copied().unwrap_or(text.len());
    let mut found = Repair {
        sound: text[..header_end].to_owned(),
        lost: String::new(),
        saved: 0,
        pieces_lost: 0,
    };
    let mut last = 0;
    for (i, start) in starts.iter().enumerate() {
        let end = starts.get(i + 1).copied().unwrap_or(text.len());
        let block = &text[*start..end];
        let spoiled = block.contains('\u{fffd}');
        let entry = (is_whole(block) && !spoiled)
            .then(|| Entry::from_toml(block).ok())
            .flatten();
        match entry {
            Some(entry) if entry.number > last => {
                last = entry.number;
                found.sound.push_str(block);
                found.saved += 1;
            }
            _ => {
                found.lost.push_str(block);
                found.pieces_lost += 1;
            }
        }
    }
    if !found.sound.ends_with('\n') {
        found.sound.push('\n');
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{Event, Journal, Shot};

    #[test]
    fn one_spoiled_byte_costs_one_entry_and_nothing_is_thrown_away() {
        let mut bytes = b"format = 1\n[bow]\nkind = \"compound\"\n".to_vec();
        let header = bytes.len();
        for n in 1..=4 {
            bytes.extend(
                Entry::now(
                    n,
                    Event::Shot(Shot {
                        right: f64::from(n),
                        ..Shot::default()
                    }),
                )
                .to_toml()
                .bytes(),
            );
        }
        for at in header..bytes.len() {
            let mut spoiled = bytes.clone();
            spoiled[at] = 0xff;
            let repair = repair(&spoiled);
            assert!(
                repair.saved >= 2 && repair.saved + repair.pieces_lost >= 3,
                "at {at}: {repair:?}"
            );
            let journal = Journal::from_text(&repair.sound);
            assert_eq!(
                (journal.entries.len(), journal.damage.len()),
                (repair.saved, 0),
                "at {at}"
            );
        }
    }
}
