//! The terminal: taking it over, giving it back in one place, and the events
//! that wake the console.
//!
//! [`restore`] is the one way out, used by exit, error, panic and signals. It
//! may be called any number of times; each of its steps is tried whatever
//! became of the others.

use std::io::{self, BufWriter, IsTerminal, Stdout, Write};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste, Event as Input};
use crossterm::terminal::{
    BeginSynchronizedUpdate, Clear, ClearType, EndSynchronizedUpdate, EnterAlternateScreen,
    LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{cursor, execute, queue};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::{Position, Rect};
use signal_hook::consts::signal::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP, SIGWINCH};
use signal_hook::iterator::Signals;

/// Whether the terminal is ours now.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// A frame is gathered here and goes out in one write.
const FRAME_BYTES: usize = 32 * 1024;

/// The screen drawn to.
pub type Screen = Terminal<CrosstermBackend<BufWriter<Stdout>>>;

/// What woke the console.
#[derive(Debug)]
pub enum Wake {
    /// Keys, paste, a new size.
    Input(Input),
    /// A signal.
    Signal(i32),
    /// The terminal is gone.
    Gone,
}

/// Whether there is a terminal fit for the console.
///
/// # Errors
/// In words, naming what to use instead.
pub fn check() -> Result<(), String> {
    let instead = "without one use: tearbench advise, shot, move (tearbench --help lists them)";
    if std::env::var("TERM").is_ok_and(|t| t == "dumb") {
        return Err(format!(
            "the console needs a terminal that can place text, and TERM is dumb; {instead}"
        ));
    }
    if !io::stdin().is_terminal() || !io::stdout().is_terminal() {
        return Err(format!(
            "the console needs a terminal for input and output; {instead}"
        ));
    }
    Ok(())
}

/// Takes the terminal over.
///
/// # Errors
/// When it cannot be; it is then as it was.
pub fn take() -> io::Result<()> {
    TAKEN.store(true, Ordering::SeqCst);
    let taken = enable_raw_mode().and_then(|()| {
        execute!(
            io::stdout(),
            EnterAlternateScreen,
            EnableBracketedPaste,
            cursor::Hide
        )
    });
    if taken.is_err() {
        restore();
    }
    taken
}

/// Gives the terminal back as it was.
pub fn restore() {
    if !TAKEN.swap(false, Ordering::SeqCst) {
        return;
    }
    let mut out = io::stdout();
    let _ = queue!(out, EndSynchronizedUpdate);
    let _ = queue!(out, DisableBracketedPaste);
    let _ = queue!(out, cursor::Show);
    let _ = queue!(out, LeaveAlternateScreen);
    let _ = out.flush();
    let _ = disable_raw_mode();
}

/// Restores when it goes out of scope, whichever way.
pub struct Guard;

impl Drop for Guard {
    fn drop(&mut self) {
        restore();
    }
}

/// Makes a panic give the terminal back before it is reported.
pub fn restore_on_panic() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        restore();
        before(info);
    }));
}

/// The screen to draw to.
///
/// # Errors
/// When the terminal does not say its size.
pub fn screen() -> io::Result<Screen> {
    Terminal::new(CrosstermBackend::new(BufWriter::with_capacity(
        FRAME_BYTES,
        io::stdout(),
    )))
}

/// Draws one frame inside synchronized output: shown whole where the terminal
/// knows it, ignored where it does not.
///
/// # Errors
/// When the terminal cannot be written.
pub fn draw(screen: &mut Screen, app: &super::App) -> io::Result<()> {
    queue!(screen.backend_mut(), BeginSynchronizedUpdate)?;
    screen.draw(|frame| super::view::draw(app, frame))?;
    queue!(screen.backend_mut(), EndSynchronizedUpdate)?;
    Write::flush(screen.backend_mut())
}

/// The signals the console minds; caught from now on.
///
/// # Errors
/// When they cannot be caught.
pub fn signals() -> io::Result<Signals> {
    // A new size is among them: it may come before anyone reads the terminal.
    Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT, SIGWINCH])
}

/// Starts listening to the terminal and to signals. Nothing polls: an idle
/// console neither runs nor writes.
pub fn listen(mut signals: Signals) -> Receiver<Wake> {
    let (send, receive) = channel();
    let to: Sender<Wake> = send.clone();
    std::thread::spawn(move || {
        for signal in signals.forever() {
            if to.send(Wake::Signal(signal)).is_err() {
                break;
            }
        }
    });
    std::thread::spawn(move || {
        loop {
            let wake = crossterm::event::read().map_or(Wake::Gone, Wake::Input);
            let gone = matches!(wake, Wake::Gone);
            if send.send(wake).is_err() || gone {
                break;
            }
        }
    });
    receive
}

/// Stops as a shell expects on Ctrl-Z, terminal given back; returns when the
/// console is brought to the front again, terminal taken anew.
///
/// # Errors
/// When the terminal cannot be taken again.
pub fn suspend(screen: &mut Screen) -> io::Result<()> {
    restore();
    let _ = signal_hook::low_level::emulate_default_handler(SIGTSTP);
    resume(screen)
}

/// Takes the terminal anew and forgets what was on it.
///
/// # Errors
/// When the terminal cannot be taken.
pub fn resume(screen: &mut Screen) -> io::Result<()> {
    take()?;
    execute!(io::stdout(), Clear(ClearType::All))?;
    // Resizing to the size it has forgets what was drawn, and unlike clearing
    // asks the terminal nothing: an answer would race with the keys.
    let size = screen.size()?;
    screen.resize(Rect::from((Position::ORIGIN, size)))
}

/// Ends as the signal would have ended the program, terminal given back.
pub fn end_by(signal: i32) {
    restore();
    let _ = signal_hook::low_level::emulate_default_handler(signal);
}
