//! A program in a pseudo-terminal, and when its bytes come.

use std::io::{Read, Write};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

/// Silence this long ends a burst.
const QUIET: Duration = Duration::from_millis(60);
/// A program that says nothing for so long says nothing.
const PATIENCE: Duration = Duration::from_secs(5);

/// Bytes that came without a pause between them.
#[derive(Debug, Clone, Copy, Default)]
pub struct Burst {
    /// How many.
    pub bytes: usize,
    /// From what caused it to its first byte.
    pub first: Duration,
    /// To its last byte.
    pub last: Duration,
}

/// A program being watched.
pub struct Watched {
    child: Box<dyn Child + Send + Sync>,
    input: Box<dyn Write + Send>,
    _master: Box<dyn MasterPty + Send>,
    read: Receiver<(Instant, usize)>,
    started: Instant,
    _home: tempfile::TempDir,
}

impl Watched {
    /// Starts a program.
    pub fn start(path: &str, args: &[&str], (cols, rows): (u16, u16)) -> Self {
        let size = PtySize {
            rows,
            cols,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).unwrap();
        let home = tempfile::tempdir().unwrap();
        let mut command = CommandBuilder::new(path);
        command.args(args);
        command.cwd(home.path());
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LANG", "C.UTF-8");
        command.env("HOME", home.path());
        let mut reader = pair.master.try_clone_reader().unwrap();
        let input = pair.master.take_writer().unwrap();
        let (send, read) = channel();
        std::thread::spawn(move || {
            let mut buffer = [0; 1 << 16];
            while let Ok(n @ 1..) = reader.read(&mut buffer) {
                if send.send((Instant::now(), n)).is_err() {
                    break;
                }
            }
        });
        let started = Instant::now();
        let child = pair.slave.spawn_command(command).unwrap();
        Self {
            child,
            input,
            _master: pair.master,
            read,
            started,
            _home: home,
        }
    }

    /// The next burst, since the start.
    pub fn burst(&mut self) -> Burst {
        self.burst_since(self.started)
    }

    fn burst_since(&mut self, cause: Instant) -> Burst {
        let mut burst = Burst::default();
        loop {
            let wait = if burst.bytes == 0 { PATIENCE } else { QUIET };
            match self.read.recv_timeout(wait) {
                Ok((at, n)) => {
                    if burst.bytes == 0 {
                        burst.first = at - cause;
                    }
                    burst.bytes += n;
                    burst.last = at - cause;
                }
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => return burst,
            }
        }
    }

    /// Types something; the burst that answers it. Nothing typed, nothing waited for.
    pub fn send(&mut self, keys: &str) -> Burst {
        if keys.is_empty() {
            return Burst::default();
        }
        while self.read.try_recv().is_ok() {}
        let cause = Instant::now();
        self.input.write_all(keys.as_bytes()).unwrap();
        self.input.flush().unwrap();
        self.burst_since(cause)
    }

    /// Bytes that come in a while in which nothing is typed.
    pub fn bytes_in(&mut self, time: Duration) -> usize {
        while self.read.try_recv().is_ok() {}
        let end = Instant::now() + time;
        let mut bytes = 0;
        while let Some(left) = end.checked_duration_since(Instant::now()) {
            match self.read.recv_timeout(left) {
                Ok((_, n)) => bytes += n,
                Err(_) => break,
            }
        }
        bytes
    }

    /// Memory in use now, MiB; `NaN` where the system does not tell.
    pub fn rss_mib(&self) -> f64 {
        let pid = self.child.process_id().unwrap_or(0);
        let status = std::fs::read_to_string(format!("/proc/{pid}/status")).unwrap_or_default();
        let line = status.lines().find_map(|l| l.strip_prefix("VmRSS:"));
        let kib = line.and_then(|l| l.trim().trim_end_matches(" kB").parse::<f64>().ok());
        kib.map_or(f64::NAN, |k| k / 1024.0)
    }

    /// Asks it to leave, and makes sure it does.
    pub fn end(mut self, quit: &str) {
        let _ = self.input.write_all(quit.as_bytes());
        let _ = self.input.flush();
        std::thread::sleep(QUIET);
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
