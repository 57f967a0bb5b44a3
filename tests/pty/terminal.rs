//! A pseudo-terminal with the program in it, and what its screen shows.

use std::io::{Read, Write};
use std::path::Path;
use std::sync::{Arc, Condvar, Mutex};
use std::time::{Duration, Instant};

use portable_pty::{
    Child, CommandBuilder, ExitStatus, MasterPty, PtySize, SlavePty, native_pty_system,
};
use tearbench::actions::{Action, Key, Scope};

/// A wait this long is a failure, not a pace.
const PATIENCE: Duration = Duration::from_secs(20);

/// What has been written to the terminal so far.
struct Seen {
    parser: vt100::Parser,
    raw: Vec<u8>,
    closed: bool,
}

/// The program in its terminal.
pub struct Console {
    master: Box<dyn MasterPty + Send>,
    // Held open so that the terminal's modes can be read after the program ended.
    _slave: Box<dyn SlavePty + Send>,
    child: Box<dyn Child + Send + Sync>,
    input: Box<dyn Write + Send>,
    seen: Arc<(Mutex<Seen>, Condvar)>,
}

const fn size(cols: u16, rows: u16) -> PtySize {
    PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    }
}

impl Console {
    /// Starts the program in a folder.
    pub fn start(folder: &Path, args: &[&str], (cols, rows): (u16, u16)) -> Self {
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_tearbench"));
        command.args(args);
        Self::launch(command, folder, (cols, rows))
    }

    /// Starts the program from a shell script; in it `"$0"` is the program.
    pub fn start_in_shell(folder: &Path, script: &str, size: (u16, u16)) -> Self {
        let mut command = CommandBuilder::new("/bin/sh");
        command.args(["-c", script, env!("CARGO_BIN_EXE_tearbench")]);
        Self::launch(command, folder, size)
    }

    fn launch(mut command: CommandBuilder, folder: &Path, (cols, rows): (u16, u16)) -> Self {
        let pair = native_pty_system().openpty(size(cols, rows)).unwrap();
        command.cwd(folder);
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LANG", "C.UTF-8");
        command.env("HOME", folder);
        command.env("XDG_STATE_HOME", folder.join("state"));
        let child = pair.slave.spawn_command(command).unwrap();
        let parser = vt100::Parser::new(rows, cols, 0);
        let seen = Arc::new((
            Mutex::new(Seen {
                parser,
                raw: Vec::new(),
                closed: false,
            }),
            Condvar::new(),
        ));
        read_into(pair.master.try_clone_reader().unwrap(), Arc::clone(&seen));
        let input = pair.master.take_writer().unwrap();
        Self {
            master: pair.master,
            _slave: pair.slave,
            child,
            input,
            seen,
        }
    }

    /// Waits until the screen fits; shows it where it never does.
    pub fn wait(&self, what: &str, fits: impl Fn(&vt100::Screen) -> bool) {
        let (lock, changed) = &*self.seen;
        let mut seen = lock.lock().unwrap();
        let deadline = Instant::now() + PATIENCE;
        while !fits(seen.parser.screen()) {
            let left = deadline.saturating_duration_since(Instant::now());
            assert!(
                !left.is_zero(),
                "waited in vain for {what}:\n{}",
                seen.parser.screen().contents()
            );
            seen = changed.wait_timeout(seen, left).unwrap().0;
        }
    }

    /// Waits for text anywhere on the screen.
    pub fn wait_text(&self, text: &str) {
        self.wait(text, |screen| screen.contents().contains(text));
    }

    /// What the screen shows now.
    pub fn contents(&self) -> String {
        self.seen.0.lock().unwrap().parser.screen().contents()
    }

    /// Bytes written so far.
    pub fn bytes(&self) -> usize {
        self.seen.0.lock().unwrap().raw.len()
    }

    /// How often a sequence of bytes was written.
    pub fn times(&self, bytes: &str) -> usize {
        let seen = self.seen.0.lock().unwrap();
        let windows = seen.raw.windows(bytes.len());
        windows.filter(|w| *w == bytes.as_bytes()).count()
    }

    /// Waits until a sequence of bytes was written so often.
    pub fn wait_times(&self, bytes: &str, often: usize) {
        let begun = Instant::now();
        while self.times(bytes) < often {
            assert!(begun.elapsed() < PATIENCE, "waited in vain for {bytes:?}");
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// Whether any colour was asked for: foreground or background, of 16 or more.
    pub fn has_colour(&self) -> bool {
        (30..=38)
            .chain(40..=48)
            .chain(90..=97)
            .chain(100..=107)
            .any(|n| {
                let (first, later) = (format!("\u{1b}[{n}"), format!(";{n}"));
                [
                    format!("{first}m"),
                    format!("{first};"),
                    format!("{later}m"),
                    format!("{later};"),
                ]
                .iter()
                .any(|code| self.times(code) > 0)
            })
    }

    /// Lets as much time pass as it takes to see a page.
    pub fn reads(&self) {
        std::thread::sleep(Duration::from_millis(300));
    }

    /// Types raw bytes.
    pub fn send(&mut self, bytes: &str) {
        self.input.write_all(bytes.as_bytes()).unwrap();
        self.input.flush().unwrap();
    }

    /// Presses the first key of an action.
    pub fn press(&mut self, action: &str) {
        let action = Action::from_id(action).unwrap();
        if action == Action::Start {
            return self.send("\u{1b}[F\r");
        }
        if action.spec().scopes.first() == Some(&Scope::More) {
            self.send(" ");
        }
        let bytes = match action.spec().keys[0] {
            Key::Char(c) => c.to_string(),
            Key::Enter => "\r".into(),
            Key::Esc => "\u{1b}".into(),
            Key::Up => "\u{1b}[A".into(),
            Key::Down => "\u{1b}[B".into(),
            Key::Right => "\u{1b}[C".into(),
            Key::Left => "\u{1b}[D".into(),
            other => panic!("{other:?} is not sent here"),
        };
        self.send(&bytes);
    }

    /// Changes the size.
    pub fn resize(&self, cols: u16, rows: u16) {
        self.seen
            .0
            .lock()
            .unwrap()
            .parser
            .screen_mut()
            .set_size(rows, cols);
        self.master.resize(size(cols, rows)).unwrap();
    }

    /// Stops reading, has it write until the terminal takes no more, and sends
    /// a signal; whether it ended within ten seconds.
    pub fn ends_unread(&mut self, signal: &str) -> bool {
        let seen = Arc::clone(&self.seen);
        // Who reads waits for this lock.
        let _held = seen.0.lock().unwrap();
        let pid = self.child.process_id().unwrap();
        let begun = Instant::now();
        // System call 1 is write: it hangs in one once the terminal is full.
        let writes = || {
            let call = std::fs::read_to_string(format!("/proc/{pid}/syscall"));
            call.is_ok_and(|c| c.starts_with("1 "))
        };
        let mut stuck = 0;
        while stuck < 20 {
            assert!(begun.elapsed() < PATIENCE, "it was never stuck");
            if stuck == 0 {
                self.send("?q");
            }
            std::thread::sleep(Duration::from_millis(10));
            stuck = if writes() { stuck + 1 } else { 0 };
        }
        self.signal(signal);
        let sent = Instant::now();
        while sent.elapsed() < Duration::from_secs(10) {
            if self.child.try_wait().unwrap().is_some() {
                return true;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        let _ = self.child.kill();
        false
    }

    /// Sends a signal by name.
    pub fn signal(&self, name: &str) {
        let pid = self.child.process_id().unwrap().to_string();
        let sent = std::process::Command::new("kill")
            .args([&format!("-{name}"), &pid])
            .status();
        assert!(sent.unwrap().success());
    }

    /// Whether lines are edited and echoed by the terminal, as a shell wants it.
    pub fn modes(&self) -> String {
        let termios = self.master.get_termios().unwrap();
        format!(
            "{:?} {:?} {:?}",
            termios.local_flags, termios.input_flags, termios.output_flags
        )
    }

    /// Waits until the modes are others: they change after the last byte is written.
    pub fn wait_modes_other_than(&self, modes: &str) {
        let deadline = Instant::now() + PATIENCE;
        while self.modes() == modes {
            assert!(Instant::now() < deadline, "the modes stay {modes}");
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// Waits for the end.
    pub fn end(&mut self) -> ExitStatus {
        let deadline = Instant::now() + PATIENCE;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return status;
            }
            assert!(
                Instant::now() < deadline,
                "it did not end:\n{}",
                self.contents()
            );
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// Checks that nothing of the console is left on the terminal.
    pub fn is_restored(&self) {
        self.wait("the terminal given back", |screen| {
            !screen.alternate_screen() && !screen.hide_cursor() && !screen.bracketed_paste()
        });
    }
}

impl Drop for Console {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn read_into(mut reader: Box<dyn Read + Send>, seen: Arc<(Mutex<Seen>, Condvar)>) {
    std::thread::spawn(move || {
        let mut buffer = [0; 4096];
        loop {
            let read = reader.read(&mut buffer);
            let (lock, changed) = &*seen;
            let mut seen = lock.lock().unwrap();
            match read {
                Ok(n) if n > 0 => {
                    seen.parser.process(&buffer[..n]);
                    seen.raw.extend(&buffer[..n]);
                }
                _ => seen.closed = true,
            }
            changed.notify_all();
            if seen.closed {
                break;
            }
        }
    });
}
