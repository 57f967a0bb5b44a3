//! Recovering a damaged session into a new file; the damaged one is never touched.

use super::entry::Entry;
use super::journal::grammar::CARD_END;
use super::journal::{Found, Read, read_pieces};
use crate::gear::CardText;

/// What can be saved of a damaged file, and what cannot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repair {
    /// The card as far as it can be read, and every entry that counts.
    pub(crate) sound: Vec<u8>,
    /// Everything else, byte for byte as it stood.
    pub(crate) lost: Vec<u8>,
    /// How many entries were saved.
    pub(crate) saved: usize,
    /// How many pieces were not, lines of the card among them.
    pub(crate) pieces_lost: usize,
    /// How many of the saved entries had a wrong number and have their own now.
    pub(crate) renumbered: usize,
}

/// Splits a file's bytes into what is whole and what is not.
pub fn repair(bytes: &[u8]) -> Repair {
    let (card, pieces, _) = read_pieces(bytes);
    let mut found = Repair {
        sound: Vec::with_capacity(bytes.len()),
        lost: Vec::new(),
        saved: 0,
        pieces_lost: 0,
        renumbered: 0,
    };
    found.card(card);
    for Read { piece, found: read } in &pieces {
        match read {
            Found::Entry { entry, claimed, .. } if entry.number != *claimed => {
                found.renumbered += 1;
                found.saved += 1;
                let text = numbered_again(piece.bytes, entry);
                found.sound.extend(text);
            }
            Found::Entry { .. } | Found::Newer { .. } => {
                found.saved += 1;
                // With the empty lines and remarks under it.
                found.sound.extend(&bytes[piece.start..piece.end]);
            }
            Found::Harm { .. } => {
                found.pieces_lost += 1;
                found.lost.extend(&bytes[piece.start..piece.end]);
            }
        }
        ends_line(&mut found.sound);
        ends_line(&mut found.lost);
    }
    found
}

fn ends_line(bytes: &mut Vec<u8>) {
    if !bytes.is_empty() && !bytes.ends_with(b"\n") {
        bytes.push(b'\n');
    }
}

impl Repair {
    /// The card as it stands where it is sound; else those lines of it that
    /// can be read, and the others kept with what is lost.
    fn card(&mut self, card: &[u8]) {
        if std::str::from_utf8(card).is_ok_and(|text| CardText::from_toml(text).is_ok()) {
            self.sound.extend(card);
            ends_line(&mut self.sound);
            return;
        }
        let text = String::from_utf8_lossy(card);
        let (read, problems) = CardText::from_toml_as_far_as_it_goes(&text);
        self.pieces_lost += problems.len();
        let lines: Vec<&[u8]> = card.split_inclusive(|b| *b == b'\n').collect();
        for line in problems.iter().filter_map(|p| p.line) {
            self.lost
                .extend(lines.get(line - 1).copied().unwrap_or_default());
            ends_line(&mut self.lost);
        }
        self.sound
            .extend(format!("{}\n{CARD_END}\n", read.to_toml()).bytes());
    }
}

/// The bytes of an entry with its own number on its `end` line.
fn numbered_again(bytes: &[u8], entry: &Entry) -> Vec<u8> {
    let text = String::from_utf8_lossy(bytes);
    let body = text.trim_end_matches('\n');
    let cut = body.rfind('\n').map_or(0, |i| i + 1);
    format!("\n{}end = {}\n", &body[..cut], entry.number).into_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{Event, Journal, Shot};

    fn sample(entries: u32) -> (Vec<u8>, usize) {
        let mut bytes = b"format = 1\n[bow]\nkind = \"compound\"\n".to_vec();
        let header = bytes.len();
        for n in 1..=entries {
            let right = f64::from(n);
            let shot = Shot {
                right,
                ..Shot::default()
            };
            bytes.extend(Entry::now(n, Event::Shot(shot)).to_toml().bytes());
        }
        (bytes, header)
    }

    #[test]
    fn one_spoiled_byte_costs_one_entry_and_nothing_is_thrown_away() {
        let (bytes, header) = sample(4);
        for at in header..bytes.len() {
            let mut spoiled = bytes.clone();
            spoiled[at] = 0xff;
            let repair = repair(&spoiled);
            assert!(repair.saved >= 3, "at {at}: {repair:?}");
            let journal = Journal::from_bytes(&repair.sound);
            assert_eq!(
                (journal.entries.len(), journal.damage.len()),
                (repair.saved, 0),
                "at {at}"
            );
            // The spoiled byte is among what is kept.
            assert!(repair.saved == 4 || repair.lost.contains(&0xff), "at {at}");
        }
    }

    #[test]
    fn a_wrong_number_is_put_right_and_a_wrong_line_of_the_card_left_out() {
        let (bytes, _) = sample(4);
        let text = String::from_utf8(bytes).unwrap();
        let wrong = text
            .replace("end = 2\n", "end = 92\n")
            .replace("kind = \"compound\"", "kind = \"compound\"\nhand = = x");
        let found = repair(wrong.as_bytes());
        assert_eq!(
            (found.saved, found.renumbered, found.pieces_lost),
            (4, 1, 1)
        );
        assert_eq!(found.lost, b"hand = = x\n");
        let journal = Journal::from_bytes(&found.sound);
        assert_eq!((journal.entries.len(), journal.remarks.len()), (4, 0));
    }
}
