//! The terminal: taking it over, giving it back in one place, and the events
//! that wake the console.
//!
//! [`restore`] is the one way out, used by exit, error, panic and signals. It
//! may be called any number of times; each of its steps is tried whatever
//! became of the others. Where nobody reads what is written, and the console
//! waits for that, `break_out` restores what can be restored without waiting.

use std::io::{self, BufWriter, IsTerminal, Stdout, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::{Duration, Instant};

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste, Event as Input};
use crossterm::terminal::{
    BeginSynchronizedUpdate, Clear, ClearType, EndSynchronizedUpdate, EnterAlternateScreen,
    LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use crossterm::{cursor, execute, queue};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::{Position, Rect};
use signal_hook::consts::signal::{
    SIGABRT, SIGALRM, SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP, SIGUSR1, SIGUSR2,
    SIGWINCH, SIGXFSZ,
};
use signal_hook::iterator::Signals;

use crate::words::pages::panes;

/// Whether the terminal is ours now.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// Whether a thread has panicked: nothing is drawn any more.
static BROKEN: AtomicBool = AtomicBool::new(false);

/// Grows as the console gets on.
static PROGRESS: AtomicU64 = AtomicU64::new(0);

/// How long a signal that ends the program waits for the console to get on.
const STUCK: Duration = Duration::from_secs(1);

/// Signals that end the program.
const ENDING: [i32; 8] = [
    SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGUSR1, SIGUSR2, SIGALRM, SIGABRT,
];

/// A frame is gathered here and goes out in one write.
const FRAME_BYTES: usize = 32 * 1024;

/// The screen drawn to.
pub(crate) type Tty = Terminal<CrosstermBackend<BufWriter<Stdout>>>;

/// What woke the console.
#[derive(Debug)]
pub(crate) enum Wake {
    /// Keys, paste, a new size, and when they came.
    Input(Input, Instant),
    /// A signal.
    Signal(i32),
    /// The terminal is gone.
    Gone,
}

/// Whether there is a terminal fit for the console.
///
/// # Errors
/// In words, naming what to use instead.
pub(crate) fn check() -> Result<(), String> {
    if std::env::var("TERM").is_ok_and(|t| t == "dumb") {
        return Err(panes::dumb());
    }
    if !io::stdin().is_terminal() || !io::stdout().is_terminal() {
        return Err(panes::no_terminal());
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
    let _ = out.write_all(&way_back());
    let _ = out.flush();
    let _ = disable_raw_mode();
}

/// What gives the screen back.
fn way_back() -> Vec<u8> {
    let mut out = Vec::new();
    // Writing to memory does not fail.
    let _ = queue!(
        out,
        EndSynchronizedUpdate,
        DisableBracketedPaste,
        cursor::Show,
        LeaveAlternateScreen
    );
    out
}

/// Restores what can be restored while another thread may be waiting for the
/// terminal to take its output: nothing here waits.
fn break_out() {
    TAKEN.store(false, Ordering::SeqCst);
    let _ = disable_raw_mode();
    #[cfg(unix)]
    {
        use rustix::fs::OFlags;
        use rustix::termios::{Action, QueueSelector, tcflow, tcflush};
        use std::os::unix::fs::OpenOptionsExt as _;
        let tty = std::fs::OpenOptions::new()
            .write(true)
            .custom_flags((OFlags::NONBLOCK | OFlags::NOCTTY).bits() as i32)
            .open("/dev/tty");
        if let Ok(mut tty) = tty {
            // What nobody reads goes, and output that was stopped goes on.
            let _ = tcflush(&tty, QueueSelector::OFlush);
            let _ = tcflow(&tty, Action::OOn);
            let _ = tty.write_all(&way_back());
        }
    }
    crate::session::lock::remove_notes();
}

/// Makes a limit on the size of files an error to be told instead of the end
/// of the program.
///
/// # Errors
/// When the signal cannot be caught.
pub(crate) fn outlive_size_limits() -> io::Result<()> {
    // Caught and left at that: the write then fails by itself.
    signal_hook::flag::register(SIGXFSZ, Arc::new(AtomicBool::new(false))).map(|_| ())
}

/// The console got on with something.
pub(crate) fn got_on() {
    PROGRESS.fetch_add(1, Ordering::SeqCst);
}

/// Restores when it goes out of scope, whichever way.
pub(crate) struct Guard;

impl Drop for Guard {
    fn drop(&mut self) {
        restore();
    }
}

/// Makes a panic in any thread give the terminal back before it is reported.
pub(crate) fn restore_on_panic() {
    let before = std::panic::take_hook();
    let main = std::thread::current().id();
    std::panic::set_hook(Box::new(move |info| {
        if std::thread::current().id() == main {
            restore();
        } else {
            // The console itself may be holding what is written to.
            BROKEN.store(true, Ordering::SeqCst);
            break_out();
        }
        before(info);
    }));
}

/// Wakes the console where the thread it is in comes to an end, so that it
/// does not wait for one that has panicked.
struct LastWord(Sender<Wake>);

impl Drop for LastWord {
    fn drop(&mut self) {
        if std::thread::panicking() {
            BROKEN.store(true, Ordering::SeqCst);
            let _ = self.0.send(Wake::Gone);
        }
    }
}

/// Whether every thread is still at work.
///
/// # Errors
/// When one has panicked.
pub(crate) fn is_whole() -> io::Result<()> {
    if BROKEN.load(Ordering::SeqCst) {
        return Err(io::Error::other(panes::BROKEN));
    }
    Ok(())
}

/// The screen to draw to.
///
/// # Errors
/// When the terminal does not say its size.
pub(crate) fn screen() -> io::Result<Tty> {
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
pub fn draw(screen: &mut Tty, app: &crate::tui::App) -> io::Result<()> {
    is_whole()?;
    queue!(screen.backend_mut(), BeginSynchronizedUpdate)?;
    screen.draw(|frame| crate::tui::frame::draw(app, frame))?;
    queue!(screen.backend_mut(), EndSynchronizedUpdate)?;
    Write::flush(screen.backend_mut())?;
    got_on();
    Ok(())
}

/// One bell: the terminal sounds or flashes it, as it is set to.
///
/// # Errors
/// When the terminal cannot be written.
pub(crate) fn ring(screen: &mut Tty) -> io::Result<()> {
    screen.backend_mut().write_all(b"\x07")?;
    Write::flush(screen.backend_mut())
}

/// The signals the console minds; caught from now on.
///
/// # Errors
/// When they cannot be caught.
pub(crate) fn signals() -> io::Result<Signals> {
    // A new size is among them: it may come before anyone reads the terminal.
    Signals::new(ENDING.iter().chain(&[SIGTSTP, SIGCONT, SIGWINCH]))
}

/// Where what wakes the console comes in. Nothing polls: an idle console
/// neither runs nor writes.
#[derive(Debug)]
pub(crate) struct Wakes {
    /// What came in.
    pub(crate) receive: Receiver<Wake>,
    send: Sender<Wake>,
}

impl Wakes {
    /// Starts listening to signals. One that ends the program ends it even
    /// where the console is stuck in writing what nobody reads.
    pub(crate) fn of_signals(mut signals: Signals) -> Self {
        let (send, receive) = channel();
        let to = LastWord(send.clone());
        std::thread::spawn(move || {
            for signal in signals.forever() {
                let gone = to.0.send(Wake::Signal(signal)).is_err();
                if ENDING.contains(&signal) {
                    end_if_stuck(signal);
                }
                if gone {
                    break;
                }
            }
        });
        Self { receive, send }
    }

    /// Starts listening to the terminal.
    pub(crate) fn read_input(&self) {
        let to = LastWord(self.send.clone());
        std::thread::spawn(move || {
            loop {
                let wake = crossterm::event::read()
                    .map_or(Wake::Gone, |input| Wake::Input(input, Instant::now()));
                let gone = matches!(wake, Wake::Gone);
                if to.0.send(wake).is_err() || gone {
                    break;
                }
            }
        });
    }
}

/// Waits for the console to end; where it no longer gets on, ends it.
fn end_if_stuck(signal: i32) {
    loop {
        let before = PROGRESS.load(Ordering::SeqCst);
        std::thread::sleep(STUCK);
        if PROGRESS.load(Ordering::SeqCst) == before {
            break_out();
            end_by(signal);
        }
    }
}

/// Stops as a shell expects on Ctrl-Z, terminal given back; returns when the
/// console is brought to the front again, terminal taken anew.
///
/// # Errors
/// When the terminal cannot be taken again.
pub(crate) fn suspend(screen: &mut Tty) -> io::Result<()> {
    restore();
    let _ = signal_hook::low_level::emulate_default_handler(SIGTSTP);
    resume(screen)
}

/// Takes the terminal anew and forgets what was on it.
///
/// # Errors
/// When the terminal cannot be taken.
pub(crate) fn resume(screen: &mut Tty) -> io::Result<()> {
    take()?;
    execute!(io::stdout(), Clear(ClearType::All))?;
    // Resizing to the size it has forgets what was drawn, and unlike clearing
    // asks the terminal nothing: an answer would race with the keys.
    let size = screen.size()?;
    screen.resize(Rect::from((Position::ORIGIN, size)))
}

/// Ends as the signal would have ended the program, terminal given back.
pub(crate) fn end_by(signal: i32) {
    if TAKEN.load(Ordering::SeqCst) {
        restore();
    }
    let _ = signal_hook::low_level::emulate_default_handler(signal);
    // Where that did not end it.
    std::process::exit(128 + signal);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thread_that_panics_wakes_the_console_and_nothing_is_drawn_any_more() {
        let (send, receive) = channel();
        let to = LastWord(send.clone());
        let thread = std::thread::spawn(move || {
            let _to = to;
            panic!("on purpose, in a test");
        });
        assert!(thread.join().is_err());
        assert!(matches!(receive.recv(), Ok(Wake::Gone)));
        assert!(is_whole().unwrap_err().to_string().contains("on disk"));
        BROKEN.store(false, Ordering::SeqCst);
        // One that just ends says nothing.
        drop(LastWord(send));
        assert!(receive.try_recv().is_err() && is_whole().is_ok());
    }

    #[test]
    fn the_way_back_undoes_every_mode_that_was_taken() {
        let text = String::from_utf8(way_back()).unwrap();
        for mode in [
            "\u{1b}[?2026l",
            "\u{1b}[?2004l",
            "\u{1b}[?25h",
            "\u{1b}[?1049l",
        ] {
            assert!(text.contains(mode), "{mode:?}");
        }
    }
}
