//! What a key costs on the line, in bytes, as the terminal would get them.

use std::cell::RefCell;
use std::io::Write;
use std::rc::Rc;

use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};

use crate::support::{look, press, sample};
use tearbench::actions::Key;
use tearbench::tui::{self, App};

/// Counts what is written to it.
#[derive(Clone, Default)]
struct Line(Rc<RefCell<usize>>);

impl Write for Line {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        *self.0.borrow_mut() += bytes.len();
        Ok(bytes.len())
    }
    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

struct Measured {
    app: App,
    terminal: Terminal<CrosstermBackend<Line>>,
    line: Line,
}

impl Measured {
    fn new(width: u16, height: u16) -> Self {
        let line = Line::default();
        let viewport = Viewport::Fixed(Rect::new(0, 0, width, height));
        let backend = CrosstermBackend::new(line.clone());
        let terminal = Terminal::with_options(backend, TerminalOptions { viewport }).unwrap();
        Self {
            app: sample("half-way", look()),
            terminal,
            line,
        }
    }

    /// Bytes of one frame after something was done.
    fn cost(&mut self, what: impl FnOnce(&mut App)) -> usize {
        what(&mut self.app);
        let before = *self.line.0.borrow();
        let app = &self.app;
        self.terminal
            .draw(|frame| tui::frame::draw(app, frame))
            .unwrap();
        *self.line.0.borrow() - before
    }
}

#[test]
fn frames_and_keys_cost_few_bytes() {
    for (width, height) in [(80, 24), (120, 40)] {
        let mut m = Measured::new(width, height);
        let full = m.cost(|_| {});
        let nothing = m.cost(|_| {});
        let digit = m.cost(|a| a.press(Key::Char('1')));
        let second = m.cost(|a| a.press(Key::Char('2')));
        let way = m.cost(|a| a.press(Key::Left));
        let third = m.cost(|a| a.press(Key::Char('4')));
        let up = m.cost(|a| a.press(Key::Up));
        let record = m.cost(|a| a.press(Key::Enter));
        m.cost(|a| press(a, "mark"));
        let cursor = m.cost(|a| press(a, "left"));
        m.cost(|a| press(a, "back"));
        m.cost(|a| press(a, "log"));
        let line = m.cost(|a| press(a, "up"));
        m.cost(|a| press(a, "back"));
        let help = m.cost(|a| press(a, "help"));
        println!(
            "{width}x{height}: full {full}, nothing {nothing}, first digit {digit}, second {second}, way {way}, third digit {third}, second way {up}, record {record}, grid cursor {cursor}, log line {line}, help {help}"
        );
        assert!(full <= 10_000, "a full repaint at {width}x{height}: {full}");
        assert!(cursor <= 200, "a cursor move: {cursor}");
        assert!(line <= 400, "a line in the log: {line}");
        assert!(second <= 200, "a digit: {second}");
        assert!(record <= 4_000, "a recorded shot: {record}");
        assert!(nothing <= 40, "nothing changed: {nothing}");
    }
}
