//! What a session file is made of, byte by byte: the card, then pieces. No
//! piece can spoil another: each is closed by its own `end` line, and what
//! stands between that and the next heading is a piece of its own.

/// The line that closes the card in files made by this program.
pub(crate) const CARD_END: &str = "# end of card";

/// The most `end` lines of one piece at which it is tried whether it reads;
/// only a text over several lines written by hand has more than one.
const MOST_ENDS: usize = 8;

/// How a piece is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Close {
    /// It is headed `[[entry]]` and closed by an `end` line.
    Closed,
    /// It is headed `[[entry]]`, and no `end` line follows.
    Open,
    /// It is not headed at all.
    Strange,
}

/// One piece of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Piece<'a> {
    /// Its bytes. Those of a closed piece end with its `end` line.
    pub(crate) bytes: &'a [u8],
    /// Where it starts.
    pub start: usize,
    /// Where it ends, with the empty lines and remarks after it.
    pub end: usize,
    /// Its first line, from 1.
    pub line: usize,
    pub(crate) close: Close,
}

/// Splits a file into the card's bytes and the pieces after it. `reads` says
/// whether a text closed by an `end` line reads as an entry.
pub(crate) fn split<'a>(
    bytes: &'a [u8],
    reads: &dyn Fn(&str) -> bool,
) -> (&'a [u8], Vec<Piece<'a>>) {
    let headings = headings(bytes);
    let first = headings.first().copied().unwrap_or(bytes.len());
    let card = card_len(&bytes[..first], headings.is_empty());
    let mut line = newlines(&bytes[..card]) + 1;
    let mut pieces = Vec::new();
    if card < first {
        pieces.push(Piece {
            bytes: &bytes[card..first],
            start: card,
            end: first,
            line,
            close: Close::Strange,
        });
        line += newlines(&bytes[card..first]);
    }
    for (i, start) in headings.iter().copied().enumerate() {
        let until = headings.get(i + 1).copied().unwrap_or(bytes.len());
        let block = &bytes[start..until];
        match own_end(block, reads) {
            None => pieces.push(Piece {
                bytes: block,
                start,
                end: until,
                line,
                close: Close::Open,
            }),
            Some(own) => {
                let quiet = own + harmless(&block[own..]);
                pieces.push(Piece {
                    bytes: &block[..own],
                    start,
                    end: start + quiet,
                    line,
                    close: Close::Closed,
                });
                if quiet < block.len() {
                    pieces.push(Piece {
                        bytes: &block[quiet..],
                        start: start + quiet,
                        end: until,
                        line: line + newlines(&block[..quiet]),
                        close: Close::Strange,
                    });
                }
            }
        }
        line += newlines(block);
    }
    (&bytes[..card], pieces)
}

/// Byte offsets of the lines that are exactly `[[entry]]`.
fn headings(bytes: &[u8]) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut offset = 0;
    for line in bytes.split_inclusive(|b| *b == b'\n') {
        if line.trim_ascii_end() == b"[[entry]]" {
            starts.push(offset);
        }
        offset += line.len();
    }
    starts
}

/// How many of the bytes before the first heading belong to the card. After
/// the line that closes it nothing does; where there is no such line, what
/// was never text or begins a heading at the very end does not.
fn card_len(before: &[u8], no_entry: bool) -> usize {
    let mut offset = 0;
    for line in before.split_inclusive(|b| *b == b'\n') {
        offset += line.len();
        if line.trim_ascii_end() == CARD_END.as_bytes() {
            return offset + harmless(&before[offset..]);
        }
    }
    let trimmed = before.trim_ascii_end().len();
    let last = before[..trimmed]
        .iter()
        .rposition(|b| *b == b'\n')
        .map_or(0, |i| i + 1);
    let tail = &before[last..];
    let text = tail.iter().take_while(|b| is_text(**b)).count();
    let text_then = tail[..text].trim_ascii();
    let spoiled = text < tail.len() || std::str::from_utf8(tail).is_err();
    let heading = b"[[entry]]".starts_with(text_then);
    let cut_heading = no_entry && !before.ends_with(b"\n") && !text_then.is_empty();
    if heading && (spoiled || cut_heading) {
        last
    } else {
        before.len()
    }
}

const fn is_text(byte: u8) -> bool {
    matches!(byte, b'\t' | b'\n' | b'\r' | 0x20..=0x7e)
}

/// How many bytes from the start are empty lines and whole remarks.
fn harmless(bytes: &[u8]) -> usize {
    let mut quiet = 0;
    for line in bytes.split_inclusive(|b| *b == b'\n') {
        let readable = std::str::from_utf8(line).is_ok_and(|l| {
            !l.contains(|c: char| c.is_control() && !matches!(c, '\t' | '\n' | '\r'))
        });
        let body = line.trim_ascii();
        if !(readable && (body.is_empty() || body.starts_with(b"#"))) {
            break;
        }
        quiet += line.len();
    }
    quiet
}

/// Where the piece's own `end` line ends: the first at which it reads, else
/// the first.
fn own_end(block: &[u8], reads: &dyn Fn(&str) -> bool) -> Option<usize> {
    let mut ends = Vec::new();
    let mut offset = 0;
    for line in block.split_inclusive(|b| *b == b'\n') {
        offset += line.len();
        if number_of_end(line).is_some() {
            ends.push(offset);
            if ends.len() == MOST_ENDS {
                break;
            }
        }
    }
    if ends.len() > 1 {
        let readable = ends
            .iter()
            .find(|end| std::str::from_utf8(&block[..**end]).is_ok_and(reads));
        return readable.or(ends.first()).copied();
    }
    ends.first().copied()
}

/// The number on a whole `end = N` line, its newline included.
pub(crate) fn number_of_end(line: &[u8]) -> Option<u32> {
    let line = std::str::from_utf8(line.strip_suffix(b"\n")?).ok()?;
    let value = line.trim().strip_prefix("end")?.trim_start();
    let value = value.strip_prefix('=')?;
    let number = value.split('#').next().unwrap_or_default().trim();
    // TOML has other ways to write a number; nobody closes an entry with them.
    if number.starts_with('+') {
        return None;
    }
    number.parse().ok()
}

pub(crate) fn newlines(bytes: &[u8]) -> usize {
    bytes.iter().filter(|b| **b == b'\n').count()
}
