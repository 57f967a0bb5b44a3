//! Putting a sheet into a file: in place of an older sheet of this program,
//! never of anything else, and whole or not at all.

use std::path::Path;

use crate::session::files::{self, Fault};

/// The largest file that is looked at to see whether it is a sheet, bytes.
const LARGEST: u64 = 256 * 1024 * 1024;
/// How every sheet is titled.
pub(super) const TITLE: &str = "Tuning sheet: ";

/// Writes a sheet to a file that is new or a sheet of this program. A crash
/// or a full disk leaves what was there.
///
/// # Errors
/// In words that follow the file's name: it is something else, or cannot be
/// written.
pub(crate) fn save(path: &Path, text: &str) -> Result<(), Fault> {
    if may_replace(path)? {
        files::replace(path, text.as_bytes())?;
    } else {
        files::create(path, text.as_bytes())?;
    }
    Ok(())
}

/// Whether a sheet of this program is there, to be replaced; `false` where
/// nothing is.
///
/// # Errors
/// In words that follow the file's name: what is there is something else.
pub(crate) fn may_replace(path: &Path) -> Result<bool, Fault> {
    match std::fs::symlink_metadata(path) {
        Err(_) if files::is_absent(path) => return Ok(false),
        Err(e) => return Err(e.into()),
        Ok(meta) if meta.is_symlink() => {
            return Err(Fault::typed(
                "is a link, and nothing is written through one; name the file itself",
            ));
        }
        Ok(_) => {}
    }
    if is_sheet(&files::read(path, LARGEST)?) {
        Ok(true)
    } else {
        Err(Fault::typed(
            "is no tuning sheet of this program and is not replaced; choose another name",
        ))
    }
}

/// Whether these bytes are a sheet in one of its formats, by how each begins.
fn is_sheet(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return false;
    };
    let mut lines = text.lines();
    let (first, second) = (
        lines.next().unwrap_or_default(),
        lines.next().unwrap_or_default(),
    );
    if first.starts_with(TITLE) {
        // A title underlined.
        return second.len() > TITLE.len() && second.bytes().all(|b| b == b'=');
    }
    if let Some(title) = first.strip_prefix("# ") {
        // A card may begin with a remark; it has no headings of the second order.
        return title.starts_with(TITLE) && text.contains("\n## ") && !text.contains("\n[");
    }
    if first == "<!doctype html>" {
        return text.contains(&format!("\n<title>{TITLE}"));
    }
    if first == "{" {
        let value: Option<serde_json::Value> = serde_json::from_str(text).ok();
        return value.is_some_and(|v| {
            let title = v["title"].as_str().unwrap_or_default();
            v["schema"].is_u64() && v["shots"].is_array() && title.starts_with(TITLE)
        });
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Format, Options, render};
    use crate::session::Session;
    use crate::{advice, setup};

    #[test]
    fn a_sheet_of_every_format_is_replaced_by_the_next_one() {
        let mut session = Session::from_text(setup::tests::COMPOUND).unwrap();
        let note = |text: &str| crate::session::Event::Note { text: text.into() };
        session.record(note("[[entry]] \n[bow]\n")).unwrap();
        let folder = tempfile::tempdir().unwrap();
        for format in Format::ALL {
            let analysis = advice::analyse(session.timeline(), crate::range::Today::now());
            let text = render(session.timeline(), &analysis, format, &Options::default());
            let path = folder.path().join(format.id());
            save(&path, &text).unwrap();
            assert!(may_replace(&path).unwrap(), "{format:?}");
            save(&path, &text.replace("compound", "recurve")).unwrap();
            let found = std::fs::read_to_string(&path).unwrap();
            assert!(found.contains("recurve"), "{format:?}");
        }
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 4);
    }

    #[test]
    fn nothing_but_a_sheet_is_replaced() {
        let folder = tempfile::tempdir().unwrap();
        let sheet = "Tuning sheet: a\n===============\n\nWhat was found\n";
        let card = setup::tests::COMPOUND;
        let entry = "\n[[entry]]\nkind = \"note\"\ntext = \"Tuning sheet: x\"\nend = 1\n";
        let indented = format!("  [bow]\n{card}  [[entry]]\n  kind = \"note\"\n  end = 1\n");
        for (name, text) in [
            ("a card", card.to_owned()),
            (
                "a card that begins like a sheet",
                format!("# Tuning sheet: x\n## y\n{card}"),
            ),
            ("a session without entries", format!("format = 1\n{card}")),
            ("a session that speaks of sheets", format!("{card}{entry}")),
            ("a damaged session", format!("{card}\u{0}\u{0}[[ent")),
            ("an indented session", indented),
            ("a letter", "Dear Ann,\nTuning sheet: enclosed\n".to_owned()),
            ("nothing", String::new()),
        ] {
            let path = folder.path().join(name);
            std::fs::write(&path, &text).unwrap();
            let fault = save(&path, sheet).unwrap_err();
            assert!(
                fault.problem.contains("no tuning sheet") && fault.typed,
                "{name}"
            );
            assert_eq!(std::fs::read_to_string(&path).unwrap(), text, "{name}");
        }
        let bytes = folder.path().join("not text");
        std::fs::write(&bytes, [b'x', 0xff]).unwrap();
        assert!(save(&bytes, sheet).is_err());
        assert_eq!(std::fs::read(&bytes).unwrap(), [b'x', 0xff]);
    }

    #[cfg(unix)]
    #[test]
    fn nothing_is_written_through_a_link() {
        let folder = tempfile::tempdir().unwrap();
        let sheet = "Tuning sheet: a\n===============\n\nWhat was found\n";
        let (link, aim) = (folder.path().join("link"), folder.path().join("aim"));
        std::os::unix::fs::symlink(&aim, &link).unwrap();
        // To nothing yet, then to a sheet.
        assert!(save(&link, sheet).unwrap_err().problem.contains("link"));
        assert!(!aim.exists());
        save(&aim, sheet).unwrap();
        assert!(save(&link, sheet).unwrap_err().problem.contains("link"));
        assert!(save(Path::new("/dev/null"), sheet).is_err());
    }
}
