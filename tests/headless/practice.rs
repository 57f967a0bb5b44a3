//! `tearbench practice` without a screen.

use std::process::{Command, Output};

fn practice(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tearbench"))
        .arg("practice")
        .args(args)
        .output()
        .expect("the program runs")
}

fn said(out: &Output) -> String {
    String::from_utf8(out.stdout.clone()).expect("plain text")
}

#[test]
fn the_advice_plays_and_tells_the_story_the_same_for_the_same_seed() {
    let args = ["--play-advice", "--seed", "7", "--level", "1"];
    let (one, other) = (practice(&args), practice(&args));
    assert_eq!(one.status.code(), Some(0));
    let story = said(&one);
    assert_eq!(story, said(&other));
    for line in [
        "practice, level 1, seed 7",
        "shot 1: ",
        "move: ",
        "what was wrong: ",
        "it ended rightly",
    ] {
        assert!(story.contains(line), "{line} is missing:\n{story}");
    }
    assert_ne!(story, said(&practice(&["--play-advice", "--seed", "8"])));
}

#[test]
fn a_level_there_is_not_is_bad_input() {
    for level in ["0", "6", "easy"] {
        let out = practice(&["--play-advice", "--level", level]);
        assert_eq!(out.status.code(), Some(2), "{level}");
        assert!(String::from_utf8_lossy(&out.stderr).contains("level"));
    }
}

#[test]
fn without_a_terminal_the_console_is_not_opened() {
    let out = practice(&["--seed", "1"]);
    assert_ne!(out.status.code(), Some(0));
    assert!(out.stdout.is_empty(), "no screen codes into a pipe");
    assert!(!out.stderr.is_empty());
}
