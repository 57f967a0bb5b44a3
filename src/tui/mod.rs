//! The full-screen console: [`model`] is what screens read, `app` the console
//! that alone changes it; `panes` and `screens` draw from it with what is in
//! `draw`, and answer keys with [`effects`].

mod app;
mod draw;
mod earlier;
pub(crate) mod effects;
pub(crate) mod first_steps;
pub(crate) mod follow;
pub mod frame;
pub(crate) mod grid;
mod guide;
pub mod hints;
pub mod model;
pub(crate) mod names;
mod panes;
pub mod plain;
pub(crate) mod prompt;
pub mod recent;
pub(crate) mod screen;
mod screens;
pub(crate) mod terminal;
mod travel;
mod typed;
mod wording;

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use anyhow::{Context as _, anyhow};
use crossterm::event::{Event as Input, KeyCode, KeyModifiers};
use signal_hook::consts::signal::{SIGCONT, SIGTSTP, SIGWINCH};

pub use app::practice::begin as practise;
pub(crate) use app::practice::new_seed as practice_seed;
use app::word::GAP;
pub use app::{App, steps};
use hints::Hints;
pub use model::Look;
use recent::Recent;
use terminal::{Wake, Wakes};

use crate::actions::Keymap;
use crate::look::{ColourChoice, GlyphChoice, Palette, Scheme, Theme};
use crate::session::Session;
use crate::units::System;

/// A session half-way tuned, in memory: what a console shows while the file
/// it was opened on is still to be made.
pub(crate) const DEMO: &str = include_str!("../../sample-sessions/half-way.toml");

/// What to open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// The bundled demo, in memory.
    Demo,
    /// A virtual bow, in memory.
    Practice {
        /// Which bow.
        seed: u64,
        /// How hard, 1 to 5.
        level: u8,
    },
    /// A session file; where there is none, its card is begun.
    File(PathBuf),
}

/// How to open the console.
#[derive(Debug, Clone)]
pub struct Options {
    /// What to open.
    pub source: Source,
    /// Colours.
    pub colour: ColourChoice,
    /// Which colours.
    pub palette: Palette,
    /// Where the colours come from.
    pub scheme: Scheme,
    /// Characters.
    pub glyphs: GlyphChoice,
    /// Display system, where it is not the card's.
    pub system: Option<System>,
    /// Keys.
    pub keymap: Keymap,
    /// Fewer redraws and no faint history.
    pub thin: bool,
    /// Hints that go away as they are used.
    pub hints: bool,
    /// One bell when a job comes within tolerance.
    pub bell: bool,
    /// What was left out of the settings: said first.
    pub warnings: Vec<String>,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            source: Source::Demo,
            colour: ColourChoice::default(),
            palette: Palette::default(),
            scheme: Scheme::default(),
            glyphs: GlyphChoice::default(),
            system: None,
            keymap: Keymap::default(),
            thin: false,
            hints: true,
            bell: false,
            warnings: Vec::new(),
        }
    }
}

/// A console on the half-way tuned session.
///
/// # Errors
/// When the bundled session cannot be read, which a test rules out.
pub fn demo(look: Look) -> anyhow::Result<App> {
    let session = Session::from_text(DEMO).map_err(|problems| {
        let lines: Vec<String> = problems.iter().map(ToString::to_string).collect();
        anyhow!("the bundled demo: {}", lines.join("; "))
    })?;
    Ok(App::new(session, true, crate::advice::analyse_after, look))
}

/// A console on what the options name.
///
/// # Errors
/// When the file is there and cannot be read.
pub fn open(options: &Options) -> anyhow::Result<App> {
    let mut app = open_source(options)?;
    if !options.warnings.is_empty() {
        let said = app.message.take().map(|m| m.text);
        let all: Vec<String> = options.warnings.iter().cloned().chain(said).collect();
        app.complain(all.join("; "));
    }
    Ok(app)
}

fn open_source(options: &Options) -> anyhow::Result<App> {
    let look = Look {
        theme: Theme::choose(options.colour, options.palette, options.scheme),
        glyphs: options.glyphs.set(),
        keymap: options.keymap.clone(),
        thin: options.thin,
        system: options.system,
        folder: PathBuf::from("."),
        recent: Recent::of_user(),
        hints: if options.hints {
            Hints::of_user()
        } else {
            Hints::default()
        },
        bell: options.bell,
    };
    let path = match &options.source {
        Source::Demo => {
            let steps = look.hints.first_steps();
            let mut app = steps::open(look, steps);
            app.offer_to_go_on();
            return Ok(app);
        }
        Source::Practice { seed, level } => return Ok(practise(*seed, *level, look)),
        Source::File(path) => path,
    };
    let mut app = demo(look)?;
    if path.exists() {
        let (session, read_only) = App::open_session(path)?;
        app.take_session(session, read_only);
    } else {
        app.begin(path.clone());
    }
    Ok(app)
}

/// Runs the console as lines, for screen readers; see [`plain`].
///
/// # Errors
/// When the file cannot be read, or input or output fail.
pub(crate) fn run_plain(options: &Options) -> anyhow::Result<()> {
    let app = open(options)?;
    let (mut input, mut output) = (std::io::stdin().lock(), std::io::stdout().lock());
    match plain::run(app, &mut input, &mut output) {
        // Whoever listened went away: everything recorded is on disk.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        other => other.context("reading and writing lines"),
    }
}

/// Runs the console until the user leaves or a signal ends it.
///
/// # Errors
/// When there is no terminal fit for it, the file cannot be read, or the
/// terminal cannot be written.
pub(crate) fn run(options: &Options) -> anyhow::Result<()> {
    terminal::check().map_err(|problem| anyhow!(problem))?;
    let mut app = open(options)?;
    terminal::restore_on_panic();
    let signals = terminal::signals().context("catching signals")?;
    let ended = {
        let _guard = terminal::Guard;
        // The theme has settled it; the terminal library has a mind of its own on NO_COLOR.
        crossterm::style::force_color_output(app.model.look.theme.may_colour());
        // Before anything is written: it may be that nobody reads it.
        let wakes = Wakes::of_signals(signals);
        terminal::take().context("taking the terminal over")?;
        let mut screen = terminal::screen().context("asking the terminal for its size")?;
        // The first frame goes out before the terminal is read.
        terminal::draw(&mut screen, &app).context("drawing")?;
        wakes.read_input();
        watch(&mut app, &mut screen, &wakes.receive)?
    };
    if app.wants_to_quit() {
        app.put_down();
    }
    // The session lets go of its lock before a signal ends the program.
    drop(app);
    if let Some(signal) = ended {
        terminal::end_by(signal);
    }
    Ok(())
}

/// Blocks on events, draws when something changed. Returns the signal that
/// ended it, if one did.
fn watch(
    app: &mut App,
    screen: &mut terminal::Tty,
    wakes: &Receiver<Wake>,
) -> anyhow::Result<Option<i32>> {
    loop {
        let Some(wake) = next_wake(app, screen, wakes)? else {
            return Ok(None);
        };
        terminal::got_on();
        app.look_at_file();
        // Everything that waits is taken before one frame is drawn: pasted
        // text and key repeat do not lag.
        let pause = if app.model.look.thin {
            THIN_PAUSE
        } else {
            Duration::ZERO
        };
        for wake in std::iter::once(wake).chain(waiting(wakes, pause)) {
            match wake {
                Wake::Input(input, _) if asks_to_suspend(&input) => terminal::suspend(screen)?,
                Wake::Signal(SIGTSTP) => terminal::suspend(screen)?,
                Wake::Signal(SIGCONT) => terminal::resume(screen)?,
                // The next frame asks for the size itself.
                Wake::Signal(SIGWINCH) => {}
                Wake::Signal(signal) => return Ok(Some(signal)),
                Wake::Gone => {
                    terminal::is_whole()?;
                    return Ok(None);
                }
                Wake::Input(input, at) => take_input(app, &input, at),
            }
            if app.wants_to_quit() {
                return Ok(None);
            }
        }
        app.tell_of_file();
        show(app, screen)?;
    }
}

fn show(app: &mut App, screen: &mut terminal::Tty) -> anyhow::Result<()> {
    terminal::draw(screen, app).context("drawing")?;
    if app.rings() {
        terminal::ring(screen).context("ringing")?;
    }
    Ok(())
}

/// On a slow line keys that follow each other this closely share one frame.
const THIN_PAUSE: Duration = Duration::from_millis(120);
/// The most such keys, so that a key held down is still seen to work.
const THIN_KEYS: usize = 16;

/// Everything that waits; with a pause, also what comes before it is over.
fn waiting(wakes: &Receiver<Wake>, pause: Duration) -> impl Iterator<Item = Wake> {
    let late = if pause.is_zero() { 0 } else { THIN_KEYS };
    let later = std::iter::from_fn(move || wakes.recv_timeout(pause).ok());
    wakes.try_iter().chain(later.take(late))
}

/// Blocks until something happens. A key that waits acts once nothing follows
/// it. A console that only reads looks at its file meanwhile, and draws where
/// that was changed.
fn next_wake(
    app: &mut App,
    screen: &mut terminal::Tty,
    wakes: &Receiver<Wake>,
) -> anyhow::Result<Option<Wake>> {
    if app.holds() {
        match wakes.recv_timeout(GAP) {
            Ok(wake) => return Ok(Some(wake)),
            Err(RecvTimeoutError::Disconnected) => return Ok(None),
            Err(RecvTimeoutError::Timeout) => app.alone(),
        }
        if app.wants_to_quit() {
            return Ok(None);
        }
        show(app, screen)?;
    }
    while app.follows() {
        match wakes.recv_timeout(follow::INTERVAL) {
            Ok(wake) => return Ok(Some(wake)),
            Err(RecvTimeoutError::Disconnected) => return Ok(None),
            Err(RecvTimeoutError::Timeout) if app.look_at_file() => {
                app.message = None;
                app.tell_of_file();
                terminal::draw(screen, app).context("drawing")?;
            }
            Err(RecvTimeoutError::Timeout) => {}
        }
    }
    Ok(wakes.recv().ok())
}

fn chord(input: &Input, letter: char) -> bool {
    matches!(input, Input::Key(key) if key.code == KeyCode::Char(letter) && key.modifiers.contains(KeyModifiers::CONTROL))
}

fn asks_to_suspend(input: &Input) -> bool {
    chord(input, 'z')
}

fn take_input(app: &mut App, input: &Input, at: Instant) {
    if !matches!(input, Input::Key(_)) {
        app.alone();
    }
    match input {
        // In raw mode the interrupt key arrives as a key; everything is on disk.
        _ if chord(input, 'c') => {
            app.alone();
            app.leave();
        }
        // What line editors do with it: the line is emptied.
        _ if chord(input, 'u') => {
            if let Some(prompt) = &mut app.prompt {
                prompt.clear();
            }
        }
        Input::Key(event) => {
            if let Some(key) = app::input::key_of(event) {
                app.typed(key, at);
            }
        }
        Input::Paste(text) => app.paste(text),
        _ => {}
    }
}
