//! Whether a piece of the file that does not count may have forbidden the next
//! shot: what is lost is taken for the worst it can have been.

use super::Harm;

/// Kinds of entries that no stop rests on.
const LIGHT: [&[u8]; 7] = [
    b"shot",
    b"note",
    b"group",
    b"prior",
    b"hand-over",
    b"not-made",
    b"close",
];

/// Kinds of entries that a stop rests on where one of [`GRAVE_WORDS`] stands in them.
const BY_ITS_WORDS: [&[u8]; 5] = [b"move", b"placed-move", b"pending", b"answer", b"setup"];

/// What names the limb bolts, a part of the inspection, the range safety list.
const GRAVE_WORDS: [&[u8]; 4] = [b"limb", b"bolt", b"inspect", b"range"];

/// Whether an incident, a change of the card, or another thing that safety
/// rests on may have stood in a piece of the file that does not count.
pub(super) fn grave(bytes: &[u8], problem: &Harm) -> bool {
    let mut kinds = bytes.split(|b| *b == b'\n').filter_map(kind_of).peekable();
    if kinds.peek().is_none() {
        return true;
    }
    let whole = !matches!(problem, Harm::CutOff | Harm::Strange | Harm::NotText);
    let words = GRAVE_WORDS.iter().any(|word| holds(bytes, word));
    !kinds.all(|kind| LIGHT.contains(&kind) || whole && !words && BY_ITS_WORDS.contains(&kind))
}

/// The kind that a line names, without its quotes.
fn kind_of(line: &[u8]) -> Option<&[u8]> {
    let after = line.trim_ascii().strip_prefix(b"kind")?.trim_ascii_start();
    let value = after.strip_prefix(b"=")?.trim_ascii();
    let quoted = value
        .strip_prefix(b"\"")
        .and_then(|v| v.strip_suffix(b"\""));
    Some(quoted.unwrap_or(value))
}

fn holds(bytes: &[u8], word: &[u8]) -> bool {
    bytes.windows(word.len()).any(|w| w == word)
}

#[cfg(test)]
mod tests {
    use super::super::Journal;

    const CARD: &str = "[bow]\n# end of card\n";

    /// Whether the one damaged piece of a file is taken for a grave one.
    fn grave(piece: &str) -> bool {
        let sound = "\n[[entry]]\nkind = \"note\"\nat = \"2026-03-02T10:15:00+00:00\"\ntext = \"x\"\nend = 9\n";
        let journal = Journal::from_text(&format!("{CARD}{piece}{sound}"));
        assert_eq!(journal.damage.len(), 1, "{:?}", journal.damage);
        journal.damage[0].grave
    }

    fn entry(body: &str) -> String {
        format!("\n[[entry]]\nat = \"2026-03-02T10:15:00+00:00\"\n{body}end = 1\n")
    }

    #[test]
    fn what_may_have_forbidden_the_shot_is_grave_and_a_lost_shot_is_not() {
        for light in [
            entry("kind = \"shot\"\nright = oops\n"),
            entry("kind = \"move\"\nsteps = [{ adjuster = \"rest-sideways\", amount = x }]\n"),
            entry("kind = \"answer\"\ntest = \"contact\"\n"),
            "\n[[entry]]\nkind = \"shot\"\nright = 3.0\n".to_owned(),
        ] {
            assert!(!grave(&light), "{light}");
        }
        for heavy in [
            entry("kind = \"incident\"\nwhat = oops\n"),
            entry("kind = \"card\"\nset = { \"bow.peak_weight\" = 72 }\n"),
            entry("kind = \"move\"\nsteps = [{ adjuster = \"limb-bolts\", amount = x }]\n"),
            entry("kind = \"answer\"\ntest = \"inspect-limbs\"\n"),
            entry("kind = \"setup\"\nitem = \"range-clear\"\n"),
            entry("kind = \"undo\"\n"),
            entry("kind = \"restart\"\nsetting = \"one\"\n"),
            entry("kind = oops\n"),
            "\n[[entry]]\nkind = \"move\"\nsteps = [{ adju".to_owned(),
            "\n[[entry]]\nright = 3.0\n".to_owned(),
        ] {
            assert!(grave(&heavy), "{heavy}");
        }
    }
}
