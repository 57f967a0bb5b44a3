//! The settings file as the program meets it at its start; what the program
//! says of itself.

use super::Shop;

#[test]
fn a_wrong_settings_file_is_refused_by_file_line_and_name_before_the_console_opens() {
    let shop = Shop::new();
    std::fs::create_dir_all(shop.path(".config/tearbench")).unwrap();
    shop.write(
        ".config/tearbench/config.toml",
        "[keys]\nundo = \"+\"\ncard = \"+\"\n",
    );
    let said = shop.run(&[]);
    assert_eq!(said.code, 2, "{}", said.err);
    for part in ["config.toml:3: keys.card", "key + is both undo and card"] {
        assert!(said.err.contains(part), "no '{part}' in: {}", said.err);
    }
}

#[test]
fn names_and_keys_that_are_gone_are_no_obstacle() {
    let shop = Shop::new();
    std::fs::create_dir_all(shop.path(".config/tearbench")).unwrap();
    shop.write(
        ".config/tearbench/config.toml",
        "[display]\nrings = true\n[keys]\nfly = \"+\"\nundo = \"s\"\n",
    );
    // Without a terminal the console says so; the settings were no obstacle.
    let said = shop.run(&[]);
    assert_eq!(said.code, 1, "{}", said.err);
    assert!(said.err.contains("terminal"), "{}", said.err);
    let plain = shop.run(&["--plain"]);
    for part in [
        "config.toml:2: display.rings",
        "config.toml:4: keys.fly",
        "config.toml:5: keys.undo",
        "left out",
    ] {
        assert!(plain.out.contains(part), "no '{part}' in: {}", plain.out);
    }
}

#[test]
fn every_look_can_be_printed() {
    let shop = Shop::new();
    let page = shop.good(&["print", "look"]);
    for part in [
        "look = \"dark\"",
        "look = \"contrast\"",
        "draw = \"ascii\"",
        "WITHIN TOLERANCE",
    ] {
        assert!(page.contains(part), "no '{part}' in: {page}");
    }
}

#[test]
fn the_printed_settings_are_taken_as_they_are() {
    let shop = Shop::new();
    let sample = shop.good(&["print", "config"]);
    assert!(sample.contains("[display]") && sample.contains("undo = [\"u\"]"));
    std::fs::create_dir_all(shop.path(".config/tearbench")).unwrap();
    shop.write(".config/tearbench/config.toml", sample);
    // Without a terminal the console says so; the settings were no obstacle.
    let said = shop.run(&[]);
    assert_eq!(said.code, 1, "{}", said.err);
    assert!(said.err.contains("terminal"), "{}", said.err);
}

#[test]
fn the_version_says_what_was_built_and_for_what() {
    let shop = Shop::new();
    let said = shop.good(&["--version"]);
    let package = concat!("tearbench ", env!("CARGO_PKG_VERSION"));
    for part in [
        package,
        "build: ",
        std::env::consts::ARCH,
        "session file format: 2",
    ] {
        assert!(said.contains(part), "no '{part}' in: {said}");
    }
    assert_eq!(shop.good(&["-V"]).trim(), package);
}

#[test]
fn completions_for_five_shells_and_a_page_for_every_command() {
    let shop = Shop::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = shop.good(&["print", "completions", shell]);
        for word in ["advise", "repair", "practice"] {
            assert!(script.contains(word), "{shell} does not know {word}");
        }
    }
    assert_eq!(shop.run(&["print", "completions", "cmd"]).code, 2);
    let help = shop.good(&["--help"]);
    let commands: Vec<&str> = help
        .lines()
        .skip_while(|l| !l.starts_with("Commands:"))
        .skip(1)
        .take_while(|l| l.starts_with("  "))
        .filter(|l| !l.starts_with("   "))
        .filter_map(|l| l.split_whitespace().next())
        .filter(|c| *c != "help")
        .collect();
    assert!(commands.len() >= 20, "{commands:?}");
    for command in commands {
        let page = shop.good(&["print", "man", command]);
        assert!(
            page.contains(".TH") && page.contains("SYNOPSIS"),
            "{command}"
        );
    }
    let page = shop.good(&["print", "man"]);
    assert!(page.contains("a bow is a weapon"));
    assert_eq!(shop.run(&["print", "man", "fly"]).code, 2);
}
