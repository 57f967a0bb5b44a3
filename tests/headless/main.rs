//! The program without a screen, run as a user runs it.

mod bad_input;
mod bench;
mod browser;
mod card;
mod clock;
mod contract;
mod earlier;
#[path = "../fixtures/mod.rs"]
mod fixtures;
mod job;
mod killed;
mod place;
mod practice;
mod same_words;
mod schema;
mod scripts;
mod settings;
mod stops;
mod stops_hidden;
mod stops_pages;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A temporary folder with a sound card in it.
pub(crate) struct Shop {
    folder: tempfile::TempDir,
}

/// The result of one command.
pub(crate) struct Said {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

pub(crate) use fixtures::COMPOUND as CARD;

impl Shop {
    pub(crate) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("card.toml"), CARD).unwrap();
        Self { folder }
    }

    /// A shop with a session `bow.toml` begun.
    pub(crate) fn with_session() -> Self {
        let shop = Self::new();
        let said = shop.run(&["new", "bow.toml", "--card", "card.toml"]);
        assert_eq!(said.code, 0, "{}", said.err);
        shop
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    pub(crate) fn files(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    pub(crate) fn run(&self, args: &[&str]) -> Said {
        said(&command(self.folder.path()).args(args).output().unwrap())
    }

    /// Runs a command that must succeed, and gives what it printed.
    pub(crate) fn good(&self, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!(said.code, 0, "{args:?}: {}", said.err);
        said.out
    }

    /// What a command says on one line: a page's words, not where it wraps them.
    pub(crate) fn flat(&self, args: &[&str]) -> String {
        let said = self.good(args);
        said.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    pub(crate) fn advice(&self) -> serde_json::Value {
        serde_json::from_str(&self.good(&["advise", "bow.toml", "--json"])).unwrap()
    }
}

pub(crate) fn command(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tearbench"));
    command
        .current_dir(folder)
        .env("XDG_STATE_HOME", folder.join(".state"))
        .env("XDG_CONFIG_HOME", folder.join(".config"));
    command
}

pub(crate) fn said(output: &Output) -> Said {
    Said {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: String::from_utf8_lossy(&output.stderr).into_owned(),
    }
}
