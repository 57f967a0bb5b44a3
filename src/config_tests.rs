//! The settings file: what it overrides, what it refuses.

use super::*;
use crate::actions::Scope;

fn refused(text: &str) -> String {
    let problems = Config::from_toml(text).unwrap_err();
    let lines: Vec<String> = problems
        .iter()
        .map(|p| format!("{}: {p}", p.line.unwrap_or(0)))
        .collect();
    lines.join("\n")
}

#[test]
fn the_sample_is_equal_to_the_defaults() {
    let read = Config::from_toml(&sample()).unwrap();
    let plain = Config::default();
    for spec in ACTIONS {
        assert_eq!(
            read.keymap.keys(spec.action),
            plain.keymap.keys(spec.action),
            "{}",
            spec.id
        );
    }
    let keymap = Keymap::default();
    assert_eq!(Config { keymap, ..read }, plain);
    assert_eq!(Config::from_toml("").unwrap(), plain);
}

#[test]
fn it_overrides_only_what_it_names() {
    let config = Config::from_toml("[display]\nsystem = \"inch\"\n[keys]\nundo = \"+\"\n").unwrap();
    assert_eq!(config.system, Some(System::Inch));
    assert_eq!(config.colour, ColourChoice::Auto);
    assert_eq!(config.keymap.first(Action::Undo), "+");
    assert_eq!(config.keymap.first(Action::Shot), "s");
    assert_eq!(config.keymap.action(Scope::Main, Key::Char('u')), None);
}

#[test]
fn every_kind_of_mistake_is_refused_by_name_and_line() {
    for (text, parts) in [
        (
            "[display]\nsystem = \"feet\"\n",
            vec!["2: display.system", "\"inch\""],
        ),
        (
            "[display]\nthin = 1\n",
            vec!["2: display.thin", "true or false"],
        ),
        (
            "[display]\nthin = true\nthin = true\n",
            vec!["3: thin", "twice"],
        ),
        ("[colours]\n", vec!["1: colours", "[display] and [keys]"]),
        (
            "[keys]\nundo = \"+\"\ncard = \"+\"\n",
            vec!["3: keys.card", "undo and card"],
        ),
        (
            "[keys]\nundo = [\"+\", \"+\"]\n",
            vec!["2: keys.undo", "+ twice"],
        ),
        ("[keys]\nundo = \"7\"\n", vec!["a digit starts a tear"]),
        ("[keys]\nundo = \"J\"\n", vec!["capital", "\"j\""]),
        ("[keys]\nundo = \"F5\"\n", vec!["no key 'F5'", "PgDn"]),
        ("[keys]\nundo = 5\n", vec!["2: keys.undo", "in quotes"]),
        ("[keys]\nback = []\n", vec!["2: keys.back", "needs a key"]),
        ("[keys\n", vec!["1: TOML"]),
    ] {
        let said = refused(text);
        for part in parts {
            assert!(said.contains(part), "no '{part}' in: {said}");
        }
    }
}

#[test]
fn names_and_keys_that_are_gone_are_left_out_and_said() {
    for (text, parts) in [
        (
            "[display]\nsytem = \"mm\"\nbell = true\n",
            vec!["2: display.sytem", "system, look"],
        ),
        (
            "[keys]\nund = \"+\"\n",
            vec!["2: keys.und", "did you mean undo?"],
        ),
        ("[keys]\nfly = \"+\"\n", vec!["2: keys.fly", "print config"]),
        (
            "[keys]\nundo = \"s\"\ncard = \"+\"\n",
            vec!["2: keys.undo", "key s is both shot and undo"],
        ),
    ] {
        let config = Config::from_toml(text).unwrap();
        let said = config.warnings().join("\n");
        for part in parts {
            assert!(said.contains(part), "no '{part}' in: {said}");
        }
        assert!(said.ends_with("left out"), "{said}");
        // What stands beside it is taken, and no key means two things.
        assert_eq!(config.bell, text.contains("bell"));
        let own_card = config.keymap.first(Action::Card) == "+";
        assert_eq!(own_card, text.contains("card"));
        assert_eq!(config.keymap.first(Action::Undo), "u");
        assert_eq!(config.keymap.clash(), None);
    }
}

#[test]
fn two_keys_can_be_swapped() {
    let text = "[keys]\nundo = \"r\"\nredo = \"u\"\n";
    assert!(Config::from_toml(text).is_ok());
}

#[test]
fn a_file_is_named_with_each_problem() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("config.toml");
    assert_eq!(Config::read(&file).unwrap(), Config::default());
    let text = "[keys]\nfly = \"+\"\nundo = 5\nback = []\n";
    std::fs::write(&file, text).unwrap();
    let said = Config::read(&file).unwrap_err();
    assert!(said.contains("config.toml:3: keys.undo"), "{said}");
    assert!(said.contains("config.toml:4: keys.back"), "{said}");
}
