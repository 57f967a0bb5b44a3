//! `tearbench print`: completions, man pages, the schema of the JSON,
//! a settings file, the keys, a set-up card, the format of the session file.

use std::io::{self, Write as _};

use clap::{Command, Subcommand};
use clap_complete::Shell;

use super::outcome::{Failure, Outcome};
use crate::actions::{KeyRow, Keymap, key_rows};
use crate::config::Config;

/// What can be printed.
#[derive(Debug, Subcommand)]
pub(crate) enum Print {
    /// Completions for a shell
    Completions {
        /// bash, elvish, fish, powershell or zsh
        shell: Shell,
    },
    /// The manual page of the program, or of one command
    Man {
        /// Command
        command: Option<String>,
    },
    /// A set-up card to fill in, with comments
    Card,
    /// Every key of the console, with the user's own settings in force
    Keys,
    /// The JSON schema of: tearbench advise --json
    Schema,
    /// What scripts may rely on: exit codes, names, the schema of every JSON
    Contract,
    /// Every look as this terminal shows it: colours and characters to choose from
    Look,
    /// A commented settings file, equal to the defaults
    Config,
    /// The format of the session file, for other programs and later years
    Format,
}

/// Prints it; `cli` is the whole command line, for its pages.
pub(crate) fn run(what: &Print, mut cli: Command) -> Outcome {
    let mut buffer = Vec::new();
    match what {
        Print::Completions { shell } => {
            clap_complete::generate(*shell, &mut cli, "tearbench", &mut buffer);
        }
        Print::Man { command } => man(cli, command.as_deref(), &mut buffer)?,
        Print::Card => buffer.extend(crate::gear::blank_card().bytes()),
        Print::Keys => buffer.extend(keys()?.bytes()),
        Print::Contract => buffer.extend(super::contract::text().bytes()),
        Print::Schema => buffer.extend(super::contract::SCHEMA.bytes()),
        Print::Format => buffer.extend(crate::session::format::PAGE.bytes()),
        Print::Look => buffer.extend(super::look::page()?.bytes()),
        Print::Config => buffer.extend(crate::config::sample().bytes()),
    }
    let _ = io::stdout().write_all(&buffer);
    Ok(0)
}

/// The whole table of keys, a row a line.
fn keys() -> Result<String, Failure> {
    let map = Config::of_user().map_err(Failure::Input)?.keymap;
    let rows = key_rows(&map);
    let widest = |of: fn(&KeyRow) -> &str| rows.iter().map(|r| of(r).chars().count()).max();
    let keys = widest(|r| &r.keys).unwrap_or(0);
    let place = widest(|r| &r.place).unwrap_or(0);
    let line = |r: &KeyRow| format!("{:<keys$}  {:<place$}  {}\n", r.keys, r.place, r.doc);
    Ok(rows.iter().map(line).collect())
}

/// The keys as a section of the manual page.
fn keys_in_roff() -> String {
    let plain = |text: &str| text.replace('\\', "\\e").replace('-', "\\-");
    let mut out = String::from(".SH KEYS\n");
    for row in key_rows(&Keymap::default()) {
        // The letter keeps a line from being taken for a request.
        let (keys, place) = (plain(&row.keys), plain(&row.place));
        out.push_str(&format!(
            ".TP\n\\fB{keys}\\fR ({place})\n\\&{}\n",
            plain(row.doc)
        ));
    }
    out
}

fn man(mut root: Command, command: Option<&str>, buffer: &mut Vec<u8>) -> Result<(), Failure> {
    root.build();
    let page = match command {
        None => root,
        Some(name) => {
            let found = root.find_subcommand(name).cloned();
            found.ok_or_else(|| {
                Failure::Input(format!(
                    "there is no command '{name}'; tearbench --help lists them"
                ))
            })?
        }
    };
    clap_mangen::Man::new(page)
        .render(buffer)
        .map_err(|e| Failure::Other(e.to_string()))?;
    if command.is_none() {
        buffer.extend(keys_in_roff().bytes());
    }
    Ok(())
}
