//! A mistyped command is no file: `tearbench advice` asks whether `advise`
//! was meant, and makes nothing.

use std::ffi::OsString;
use std::path::Path;

use clap::Command;

/// How alike two words are from which on one may be a slip of the other, 0..1
/// (Jaro-Winkler; clap takes 0.7 for its own suggestions, here a file's name
/// is the likelier meaning of a word that is only somewhat alike).
const ALIKE: f64 = 0.8;

/// What is wrong with the first argument, where it looks like a slip of a
/// command's name and no file has that name.
pub(crate) fn command(root: &Command, first: Option<OsString>) -> Option<String> {
    let word = first?.into_string().ok()?;
    let plain = !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    if !plain || word.starts_with('-') || Path::new(&word).exists() {
        return None;
    }
    let meant = nearest(root, &word)?;
    Some(format!(
        "there is no command and no file '{word}'; did you mean: tearbench {meant}? \
         A session's file is best named with its ending: {word}.toml"
    ))
}

/// The command whose name is nearest, where one is near enough and the word is
/// not itself one.
fn nearest(root: &Command, word: &str) -> Option<String> {
    let names: Vec<&str> = root
        .get_subcommands()
        .flat_map(|c| std::iter::once(c.get_name()).chain(c.get_all_aliases()))
        .chain(["help"])
        .collect();
    if names.contains(&word) {
        return None;
    }
    let score = |name: &&str| strsim::jaro_winkler(name, word);
    names
        .into_iter()
        .max_by(|a, b| score(a).total_cmp(&score(b)))
        .filter(|name| score(name) >= ALIKE)
        .map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn root() -> Command {
        <crate::cli::Cli as clap::CommandFactory>::command()
    }

    fn meant(word: &str) -> Option<String> {
        nearest(&root(), word)
    }

    #[test]
    fn slips_of_a_command_are_noticed_and_names_of_bows_are_not() {
        for (typed, command) in [
            ("advice", "advise"),
            ("shoot", "shot"),
            ("reprot", "report"),
            ("pritn", "print"),
            ("putback", "put-back"),
            ("undu", "undo"),
        ] {
            assert_eq!(meant(typed).as_deref(), Some(command), "{typed}");
        }
        for word in [
            "bow", "ann", "green", "hunting", "advise", "sheet", "longbow",
        ] {
            assert_eq!(meant(word), None, "{word}");
        }
    }

    #[test]
    fn only_a_bare_word_is_taken_for_a_slip() {
        for word in ["advice.toml", "./advice", "Advice", "--advice", ""] {
            assert_eq!(command(&root(), Some(word.into())), None, "{word}");
        }
        assert!(command(&root(), Some("advice".into())).is_some());
        assert_eq!(command(&root(), None), None);
    }
}
