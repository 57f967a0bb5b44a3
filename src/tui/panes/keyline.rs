//! The key line: the keys that work now, what is being typed, or a message.
//! What does not fit one row grows upward over the panes.
//!
//! ```text
//! s shot  m take the move  u undo  c card  / find  ? help  q quit
//! Tear> 12 left 4_      12 mm left, ...           Enter records
//! ```

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::actions::{ACTIONS, Action, Key, Scope, Spec};
use crate::advice::Verdict;
use crate::look::Role;
use crate::tui::draw::paint::{Paint, Row, Span, row, safe, wrap};
use crate::tui::model::{Message, Model};
use crate::tui::panes;
use crate::tui::prompt::{Echo, Prompt, Purpose, matches};
use crate::words::pages::typing;

/// Rows a message or an echo may take.
const MOST_ROWS: usize = 4;
/// Rows of the list of actions.
const LIST_ROWS: usize = 8;

/// Below this many columns every key on the line counts.
const NARROW: u16 = 60;

/// Actions everybody finds without being told.
const MOVING: &[Action] = &[
    Action::Up,
    Action::Down,
    Action::Left,
    Action::Right,
    Action::PageUp,
    Action::PageDown,
    Action::First,
    Action::Last,
];

/// A message as rows.
pub(crate) fn message_rows(message: &Message, width: u16) -> Vec<Row> {
    let (text, role) = if message.problem {
        (format!("! {}", message.text), Role::Warn)
    } else {
        (message.text.clone(), Role::Strong)
    };
    wrap(&text, role, width, 2)
}

/// What stands on the line.
pub(crate) enum KeyLine<'a> {
    /// What is being typed, and what it reads as.
    Typed(&'a Prompt, Echo),
    /// What was just said.
    Said(&'a Message),
    /// The keys that work now.
    Keys,
}

/// Draws the line.
pub fn draw(model: &Model, line: KeyLine<'_>, paint: &mut Paint<'_>, area: Rect) {
    match line {
        KeyLine::Typed(prompt, echo) => draw_prompt(model, prompt, echo, paint, area),
        KeyLine::Said(message) => upward(paint, area, &message_rows(message, area.width)),
        KeyLine::Keys => {
            let keys = keys(model, area.width);
            paint.row(area.x, area.y, &keys, area.width);
        }
    }
}

/// Rows whose last one is the key line.
fn upward(paint: &mut Paint<'_>, area: Rect, rows: &[Row]) {
    let count = rows.len().clamp(1, MOST_ROWS) as u16;
    let over = Rect::new(area.x, area.bottom() - count, area.width, count);
    paint.clear(over);
    paint.rows(over, rows);
}

/// The keys usable now, as many as fit; the last ones are always there.
fn keys(model: &Model, width: u16) -> Vec<Span> {
    let scope = model.scope();
    let now = model.situation();
    let last: &[Action] = match scope {
        Scope::Main if width < NARROW => &[Action::Help, Action::Quit],
        Scope::Main => &[Action::More, Action::Palette, Action::Help, Action::Quit],
        _ => &[Action::Help, Action::Back],
    };
    let label = |action: Action| match action {
        Action::Shot if model.is_virtual() => "shoot",
        Action::Practice if model.practice.is_some() && !model.demo => "tests, answer",
        Action::Answer if model.timeline().open_incident().is_some() => "look it over",
        Action::Answer if refuses(model) => "troubleshooting",
        Action::Answer if model.analysis.range_due.is_some() => "range list",
        _ => action.spec().label,
    };
    let piece =
        |action: Action| -> (String, String) { (model.key(action), label(action).to_owned()) };
    // From the demo a session of one's own or a bow to practise on is what
    // most people want next; in practice it is the bow itself.
    let front: &[Action] = match scope {
        Scope::Main if model.first_steps.is_some() => &[
            Action::Shot,
            Action::TakeMove,
            Action::AsShown,
            Action::Answer,
            Action::Practice,
            Action::New,
        ],
        Scope::Main if model.practice.is_some() && refuses(model) => {
            &[Action::Shot, Action::Answer, Action::Practice]
        }
        Scope::Main if model.practice.is_some() => &[Action::Shot, Action::Practice],
        Scope::Main if model.demo => &[Action::Shot, Action::New, Action::Practice],
        Scope::Main => what_next(model),
        _ => &[],
    };
    // A space between key and label, two before the next; none after the last.
    let wide = |(key, label): &(String, String)| key.width() + label.width() + 3;
    let tail: Vec<_> = last.iter().map(|a| piece(*a)).collect();
    let mut room = (usize::from(width) + 2).saturating_sub(tail.iter().map(wide).sum());
    let mut chosen: Vec<(String, String)> = Vec::new();
    let mut add = |piece: (String, String)| -> bool {
        let fits = wide(&piece) <= room;
        if fits && !piece.0.is_empty() && !chosen.contains(&piece) {
            room -= wide(&piece);
            chosen.push(piece);
            return true;
        }
        // What is reached by name only takes no room.
        fits || piece.0.is_empty()
    };
    if scope == Scope::Main && !panes::all_fit(width) {
        add((Key::Tab.label(), "pane".to_owned()));
    }
    let first = front.iter().map(|action| action.spec());
    let others = ACTIONS
        .iter()
        .filter(|s| s.scopes.contains(&scope) && !front.contains(&s.action));
    // On a page its own keys come first, then what undoes them.
    let late = |spec: &&Spec| scope != Scope::Main && spec.action == Action::Undo;
    let own = others.clone().filter(|s| !late(s));
    // A virtual bow that must not be shot is not shot; a tear may always be typed.
    let forbidden = |action: Action| {
        action == Action::Shot && model.is_virtual() && model.stop_line().is_some()
    };
    for spec in first.chain(own).chain(others.filter(late)) {
        let hidden =
            MOVING.contains(&spec.action) || last.contains(&spec.action) || forbidden(spec.action);
        // On a page the range safety list is wanted where it is due.
        let list = spec.action == Action::Range && scope != Scope::More;
        let due = !list || model.analysis.range_due.is_some();
        let wanted = !hidden && spec.when.holds(&now) && due;
        // What comes first may stand in the band as well: the next may fit.
        if wanted && !add(piece(spec.action)) && !front.contains(&spec.action) {
            break;
        }
    }
    chosen.extend(tail);
    let mut out = Vec::new();
    for (key, label) in chosen {
        if !out.is_empty() {
            out.push(("  ".to_owned(), Role::Text));
        }
        out.push((key, Role::Key));
        out.push((format!(" {label}"), Role::Text));
    }
    out
}

fn refuses(model: &Model) -> bool {
    crate::question::Refusal::of(&model.analysis).is_some()
}

/// The part of the job that comes next, before the keys of every day.
fn what_next(model: &Model) -> &'static [Action] {
    let timeline = model.timeline();
    let stopped = model.analysis.advice.verdict == Verdict::Stop;
    if timeline.pending.is_some() && !stopped {
        &[]
    } else if refuses(model) {
        &[Action::Answer, Action::Shot]
    } else if model.analysis.advice.verdict == Verdict::Move {
        &[Action::TakeMove, Action::Shot]
    } else if crate::proof::ready(&model.analysis) && model.analysis.range_due.is_some() {
        &[Action::Shot, Action::Answer, Action::Proof, Action::Sheet]
    } else if crate::proof::ready(&model.analysis) {
        &[Action::Shot, Action::Proof, Action::Sheet]
    } else if timeline.shots.is_empty() {
        &[Action::Shot, Action::Before]
    } else {
        &[]
    }
}

/// The line being typed, the wrong word marked, and what it reads as.
fn draw_prompt(model: &Model, prompt: &Prompt, echo: Echo, paint: &mut Paint<'_>, area: Rect) {
    let label = format!("{}> ", safe(&prompt.label));
    let mut line = vec![(label.clone(), Role::Strong)];
    line.extend(typed(
        prompt,
        &echo,
        usize::from(area.width).saturating_sub(label.width() + 1),
    ));
    let used: usize = line.iter().map(|(t, _)| t.width()).sum();
    let says = match (&prompt.refused, echo) {
        (Some(problem), _) => Some((format!("! {problem}"), Role::Warn)),
        (None, _) if prompt.standing => Some((typing::STANDS.into(), Role::Faint)),
        (None, Echo::Nothing) => hint(prompt.purpose),
        (None, Echo::Hint(text)) => Some((text, Role::Faint)),
        (None, Echo::Reads(text)) => Some((format!("= {text}"), Role::Strong)),
        (None, Echo::Wrong { text, .. }) => Some((text, Role::Warn)),
    };
    let mut rows = vec![line];
    if let Some((text, role)) = says {
        let room = usize::from(area.width).saturating_sub(used + 3);
        if text.width() <= room {
            rows[0].push(("   ".into(), Role::Text));
            rows[0].push((safe(&text), role));
        } else {
            rows.extend(wrap(&text, role, area.width, 2));
        }
    }
    rows.truncate(MOST_ROWS);
    let top = area.bottom() - rows.len() as u16;
    upward(paint, area, &rows);
    let before: usize = prompt
        .text
        .chars()
        .take(prompt.cursor)
        .collect::<String>()
        .width();
    let x = (label.width() + before).min(usize::from(area.width) - 1);
    paint.cursor = Some((area.x + x as u16, top));
    if prompt.purpose == Purpose::Find {
        list(model, prompt, paint, Rect::new(area.x, top, area.width, 1));
    }
}

fn hint(purpose: Purpose) -> Option<(String, Role)> {
    match purpose {
        Purpose::Find => Some((typing::FIND.into(), Role::Faint)),
        Purpose::Note => Some((typing::NOTE.into(), Role::Faint)),
        _ => None,
    }
}

/// The text with the wrong word in brackets of weight; its end where it is too long.
fn typed(prompt: &Prompt, echo: &Echo, room: usize) -> Vec<Span> {
    let chars: Vec<char> = prompt.text.chars().collect();
    let from = chars.len().saturating_sub(room);
    let piece = |a: usize, b: usize| -> String {
        let (a, b) = (a.clamp(from, chars.len()), b.clamp(from, chars.len()));
        chars[a..b.max(a)].iter().collect()
    };
    match echo {
        _ if prompt.standing => vec![(piece(0, chars.len()), Role::Selected)],
        Echo::Wrong { at, len, .. } if *len > 0 => vec![
            (piece(0, *at), Role::Text),
            (piece(*at, at + len), Role::Selected),
            (piece(at + len, chars.len()), Role::Text),
        ],
        _ => vec![(piece(0, chars.len()), Role::Text)],
    }
}

/// Actions that fit what is typed, above the line.
fn list(model: &Model, prompt: &Prompt, paint: &mut Paint<'_>, above: Rect) {
    let found = matches(&prompt.text);
    let pick = prompt.pick.min(found.len().saturating_sub(1));
    let from = (pick + 1).saturating_sub(LIST_ROWS);
    let shown = &found[from..found.len().min(from + LIST_ROWS)];
    let height = (shown.len().max(1) as u16).min(above.y.saturating_sub(1));
    let area = Rect::new(above.x, above.y - height, above.width, height);
    paint.clear(area);
    if shown.is_empty() {
        let tear = model.scope() != Scope::Main
            && crate::tear::read_holes(&prompt.text, model.system).is_ok();
        let said = crate::words::pages::typed::not_found(tear);
        paint.rows(area, &[row(said, Role::Text)]);
    }
    for (i, spec) in shown.iter().enumerate().take(usize::from(height)) {
        let here = from + i == pick;
        let mark = if here { paint.glyphs.here } else { ' ' };
        let role = if here { Role::Selected } else { Role::Text };
        let key = model.look.keymap.way(spec.action, Scope::Main);
        let text = format!("{mark} {key:<8} {:<14} {}", spec.label, spec.doc);
        let text = crate::tui::draw::paint::fit(&text, usize::from(area.width));
        paint.put(area.x, area.y + i as u16, &text, role, area.width);
    }
}
