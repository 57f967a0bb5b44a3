//! `tearbench doctor`: what this terminal, these settings and this folder can
//! do, in ten lines that can be pasted into a report. It changes nothing that
//! stays, and names no file of a session.

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use clap::Args;

use super::outcome::{Outcome, say};
use crate::config::{self, Config};
use crate::look::glyphs::GlyphChoice;
use crate::look::theme::{ColourChoice, Palette, Theme};
use crate::tui::recent::Recent;

/// Arguments of `doctor`.
#[derive(Debug, Args)]
pub(crate) struct DoctorArgs {
    /// A session or a folder to try; the current folder where absent
    pub place: Option<PathBuf>,
}

/// Smallest terminal the panes are drawn for in full.
const USUAL: (u16, u16) = (80, 24);
/// Time measured for one synced write below which a disk does not wait for
/// its medium, or has a cache of its own.
const AT_ONCE: Duration = Duration::from_micros(50);

/// Says what was found. It is an answer whatever it says: exit 0.
pub(crate) fn run(args: &DoctorArgs) -> Outcome {
    let folder = folder_of(args.place.as_deref());
    let lines = [
        ("tearbench", program()),
        ("terminal", terminal()),
        ("colours", colours()),
        ("characters", characters()),
        ("locale", locale()),
        ("settings", settings()),
        ("state", state()),
        ("clock", clock()),
        ("folder", writing(&folder)),
        ("lock", locking(&folder)),
    ];
    for (name, found) in lines {
        say(&format!("{name:<10} {found}"));
    }
    Ok(0)
}

fn folder_of(place: Option<&Path>) -> PathBuf {
    match place {
        None => PathBuf::from("."),
        Some(path) if path.is_dir() => path.to_path_buf(),
        Some(path) => match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        },
    }
}

fn program() -> String {
    let built = if cfg!(debug_assertions) {
        "checked build"
    } else {
        "release build"
    };
    format!(
        "{} ({built}), {} {}, session format {}",
        env!("CARGO_PKG_VERSION"),
        std::env::consts::ARCH,
        std::env::consts::OS,
        crate::gear::FORMAT
    )
}

fn variable(name: &str) -> String {
    std::env::var(name)
        .ok()
        .filter(|v| !v.is_empty())
        .unwrap_or_else(|| "not set".into())
}

fn terminal() -> String {
    let both = io::stdin().is_terminal() && io::stdout().is_terminal();
    let term = format!("TERM {}", variable("TERM"));
    if !both {
        return format!("none on input or output, {term}: the console needs one");
    }
    match crossterm::terminal::size() {
        Ok((wide, high)) if wide < USUAL.0 || high < USUAL.1 => {
            format!("{wide}x{high}, {term}: smaller than 80x24, panes are shown one at a time")
        }
        Ok((wide, high)) => format!("{wide}x{high}, {term}: ok"),
        Err(error) => format!("size unknown ({error}), {term}"),
    }
}

fn colours() -> String {
    let chosen = Config::of_user().unwrap_or_default();
    let theme = Theme::choose(chosen.colour, chosen.palette, chosen.scheme);
    let used = if theme.has_colour() {
        "used"
    } else {
        "not used"
    };
    let why = match chosen.colour {
        ColourChoice::Always => "the settings say always".into(),
        ColourChoice::Never => "the settings say never".into(),
        ColourChoice::Auto => format!("NO_COLOR {}", variable("NO_COLOR")),
    };
    let palette = match chosen.palette {
        Palette::Default => "default",
        Palette::Safe => "safe",
    };
    format!("{used} ({why}), palette {palette}")
}

fn characters() -> String {
    let chosen = Config::of_user().unwrap_or_default().glyphs;
    let set = chosen.set();
    let name = [
        (GlyphChoice::Unicode, "unicode"),
        (GlyphChoice::Dot, "dots"),
        (GlyphChoice::Ascii, "ascii"),
    ]
    .into_iter()
    .find(|(choice, _)| std::ptr::eq(choice.set(), set))
    .map_or("unknown", |(_, name)| name);
    format!("{name}; if the frame looks broken: tearbench --draw ascii")
}

fn locale() -> String {
    let names = ["LC_ALL", "LC_CTYPE", "LANG"];
    let set: Vec<String> = names
        .iter()
        .map(|name| format!("{name} {}", variable(name)))
        .collect();
    set.join(", ")
}

fn settings() -> String {
    let Some(path) = config::path() else {
        return "no configuration folder is known: the defaults hold".into();
    };
    match Config::of_user() {
        Ok(_) if path.exists() => format!("{}: ok", path.display()),
        Ok(_) => format!("{}: not there, the defaults hold", path.display()),
        Err(problem) => one_line(&problem),
    }
}

/// A message of several lines in one.
fn one_line(text: &str) -> String {
    text.lines().map(str::trim).collect::<Vec<_>>().join(" / ")
}

fn state() -> String {
    let recent = Recent::of_user();
    let Some(folder) = recent.folder() else {
        return "no state folder is known: recent sessions are not remembered".into();
    };
    if folder.exists() {
        format!("{}: there", folder.display())
    } else {
        format!("{}: made when first needed", folder.display())
    }
}

fn clock() -> String {
    let now = chrono::Local::now();
    let year = chrono::Datelike::year(&now);
    // A board without a battery wakes in 1970; entries carry what it says.
    let doubt = if year < 2025 {
        ": this is in the past; set the clock before recording"
    } else {
        ""
    };
    format!("{}{doubt}", now.format("%Y-%m-%d %H:%M:%S %:z"))
}

/// Writes, syncs and takes away a small file, as recording a shot does.
fn writing(folder: &Path) -> String {
    let at = folder.display();
    let tried = tempfile::NamedTempFile::new_in(folder).and_then(|mut file| {
        file.write_all(&[b'#'; 160])?;
        let begun = Instant::now();
        file.as_file().sync_data()?;
        Ok(begun.elapsed())
    });
    match tried {
        Err(error) => format!("{at}: nothing can be recorded here: {error}"),
        Ok(took) => {
            let ms = took.as_secs_f64() * 1e3;
            let doubt = if took < AT_ONCE {
                "; so fast that the disk may not wait for its medium: after a power cut look at the last entries"
            } else {
                ""
            };
            format!("{at}: writable, a write synced in {ms:.2} ms{doubt}")
        }
    }
}

/// Whether two programs are kept apart here.
fn locking(folder: &Path) -> String {
    let tried = tempfile::NamedTempFile::new_in(folder).and_then(|file| {
        file.as_file().try_lock().map_err(io::Error::from)?;
        let second = std::fs::File::options()
            .read(true)
            .write(true)
            .open(file.path())?;
        Ok(second.try_lock().is_err())
    });
    match tried {
        Ok(true) => "ok: a second writer is kept out".into(),
        Ok(false) => "NOT KEPT: two programs could write at once here; use one at a time".into(),
        Err(error) => format!("cannot be tried: {error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_tried_by_its_folder() {
        assert_eq!(folder_of(None), Path::new("."));
        assert_eq!(folder_of(Some(Path::new("bow.toml"))), Path::new("."));
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("bow.toml");
        assert_eq!(folder_of(Some(&file)), folder.path());
        assert_eq!(folder_of(Some(folder.path())), folder.path());
    }

    #[test]
    fn a_folder_that_takes_files_says_so_and_one_that_is_not_there_does_not() {
        let folder = tempfile::tempdir().unwrap();
        assert!(writing(folder.path()).contains("writable"));
        assert_eq!(locking(folder.path()), "ok: a second writer is kept out");
        let nowhere = folder.path().join("nowhere");
        assert!(writing(&nowhere).contains("nothing can be recorded here"));
        assert!(locking(&nowhere).starts_with("cannot be tried"));
        // Nothing stays behind.
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
