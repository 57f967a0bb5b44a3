//! The session file against everything that may spoil it: power cuts, other
//! writers, editors, links, limits, damage. The promise, stated once, is in
//! [`crash`]; each test checks it in its own way.

mod crash;
mod damage;
#[path = "../fixtures/mod.rs"]
mod fixtures;
mod links;
mod refused;
mod writers;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use tearbench::session::{Journal, Session};

pub(crate) use fixtures::COMPOUND as CARD;

/// A temporary folder with a session `bow.toml` in it.
pub(crate) struct Shop {
    folder: tempfile::TempDir,
}

/// The result of one command.
pub(crate) struct Said {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Shop {
    /// With a session of so many shots, 1 to 9 mm left in turn.
    pub(crate) fn with_shots(shots: u32) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("card.toml"), CARD).unwrap();
        let shop = Self { folder };
        shop.good(&["new", "bow.toml", "--card", "card.toml"]);
        let path = shop.path("bow.toml");
        let mut session =
            Session::open_for_writing(&path, "a test", std::time::Duration::from_secs(5)).unwrap();
        for n in 0..shots {
            let shot = tearbench::session::Shot {
                right: -f64::from(n % 9 + 1),
                ..Default::default()
            };
            session
                .record(tearbench::session::Event::Shot(shot))
                .unwrap();
        }
        shop
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn folder(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    pub(crate) fn read(&self, name: &str) -> String {
        String::from_utf8_lossy(&self.bytes(name)).into_owned()
    }

    pub(crate) fn bytes(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.path(name)).unwrap()
    }

    pub(crate) fn files(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
            // The user's own folders, which the console makes.
            .filter(|name| name != ".state" && name != ".config")
            .collect();
        names.sort();
        names
    }

    pub(crate) fn journal(&self) -> Journal {
        Journal::from_bytes(&self.bytes("bow.toml"))
    }

    /// Changes the session's text.
    pub(crate) fn spoil(&self, from: &str, to: &str) {
        let text = self.read("bow.toml");
        assert!(text.contains(from), "{from}");
        self.write("bow.toml", text.replacen(from, to, 1));
    }

    pub(crate) fn run(&self, args: &[&str]) -> Said {
        said(&command(self.folder()).args(args).output().unwrap())
    }

    /// Runs a command that must succeed, and gives what it printed.
    pub(crate) fn good(&self, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!(said.code, Some(0), "{args:?}: {}", said.err);
        said.out
    }

    /// Runs a shell script in which `"$0"` is the program.
    pub(crate) fn shell(&self, script: &str) -> Said {
        let mut shell = Command::new("/bin/sh");
        shell.args(["-c", script, env!("CARGO_BIN_EXE_tearbench")]);
        at_home(&mut shell, self.folder());
        said(&shell.output().unwrap())
    }

    pub(crate) fn advice(&self) -> serde_json::Value {
        serde_json::from_str(&self.good(&["advise", "bow.toml", "--json"])).unwrap()
    }
}

pub(crate) fn command(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tearbench"));
    at_home(&mut command, folder);
    command
}

fn at_home(command: &mut Command, folder: &Path) {
    command
        .current_dir(folder)
        .env("XDG_STATE_HOME", folder.join(".state"))
        .env("XDG_CONFIG_HOME", folder.join(".config"));
}

pub(crate) fn said(output: &Output) -> Said {
    Said {
        code: output.status.code(),
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: String::from_utf8_lossy(&output.stderr).into_owned(),
    }
}
