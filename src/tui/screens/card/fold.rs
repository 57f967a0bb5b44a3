//! Which lines the card shows: what this bow has, and of the optional lines
//! those that hold something. The others are folded behind one line at the
//! end of their section.

use crate::gear::field::{self, FIELDS, Field, FieldKind};
use crate::tui::screens::card::CardScreen;
use crate::tui::screens::card::keys::{FOLD, label};

/// Fewer lines than this are not worth a line that hides them.
const LEAST: usize = 2;

/// Optional lines that are never folded: what a bench knows the bow by.
const ALWAYS: [&str; 2] = ["bow.name", "job.owner"];

/// The sections of the card's table, in order.
fn sections() -> Vec<&'static str> {
    let mut all = Vec::new();
    for field in FIELDS {
        if all.last() != Some(&field.section()) {
            all.push(field.section());
        }
    }
    all
}

/// Rests that this kind of bow can carry. A drop-away needs a cable or a
/// moving limb to pull it down, a launcher blade a string that leaves straight
/// (common practice, no source).
fn rests(kind: &str) -> &'static [&'static str] {
    match kind {
        "compound" => &["drop-away", "blade", "capture", "plunger", "fixed"],
        "recurve" => &["plunger", "fixed", "capture", "shelf"],
        "longbow" => &["shelf", "fixed"],
        _ => field::REST_KINDS,
    }
}

impl CardScreen {
    /// Whether this bow has such a figure: no let-off where nothing lets off,
    /// no turns where there are no limb bolts.
    fn asks(&self, key: &str) -> bool {
        let kind = self.text("bow.kind");
        let has = match key {
            "bow.let_off" | "bow.axle_to_axle" => kind == "compound",
            "bow.turns_out" | "bow.maker_max_turns" => kind != "longbow",
            _ => true,
        };
        has || !self.text(key).is_empty()
    }

    /// Whether a line may be folded: optional, and nothing stands on it.
    fn may_fold(&self, field: &Field) -> bool {
        !field.required
            && !ALWAYS.contains(&field.key)
            && self.text(field.key).is_empty()
            && !self.changes.contains_key(field.key)
    }

    /// The lines of a section that are folded, or would be.
    fn folding(&self, section: &str) -> Vec<&'static Field> {
        let own = FIELDS.iter().filter(|f| f.section() == section);
        let all: Vec<&Field> = own
            .filter(|f| self.asks(f.key) && self.may_fold(f))
            .collect();
        if all.len() < LEAST { Vec::new() } else { all }
    }

    /// The lines of the card's table as they are shown.
    pub(crate) fn field_keys(&self) -> Vec<String> {
        let mut keys = Vec::new();
        for section in sections() {
            let folding = self.folding(section);
            let open = self.unfolded.contains(section);
            let folded = |f: &Field| !open && folding.iter().any(|other| other.key == f.key);
            let own = FIELDS.iter().filter(|f| f.section() == section);
            let shown = own.filter(|f| self.asks(f.key) && !folded(f));
            keys.extend(shown.map(|f| f.key.to_owned()));
            if !folding.is_empty() {
                keys.push(format!("{FOLD}{section}"));
            }
        }
        keys
    }

    /// Shows the folded lines of a section, or folds them away again.
    pub(crate) fn fold(&mut self, section: &str) {
        let first = self.folding(section).first().map(|f| f.key.to_owned());
        let opens = self.unfolded.insert(section.to_owned());
        if !opens {
            self.unfolded.remove(section);
        }
        // The cursor goes to what was shown, or stays on the line that folds.
        let own = format!("{FOLD}{section}");
        let to = first.filter(|_| opens).unwrap_or(own);
        self.at = self.keys().iter().position(|k| *k == to).unwrap_or(self.at);
    }

    /// What stands on the line that folds a section: its name, and what Enter
    /// does there, with as many names of lines as there is room for.
    pub(crate) fn fold_line(&self, section: &str, room: usize) -> (String, String) {
        let all = self.folding(section);
        if self.unfolded.contains(section) {
            return ("optional lines".into(), "Enter folds them away".into());
        }
        let head = format!("{} optional", all.len());
        let names: Vec<String> = all.iter().map(|f| label(f.key)).collect();
        let listed = |n: usize| {
            let rest = match names.len() - n {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            format!("Enter shows {}{rest}", names[..n].join(", "))
        };
        let fits = (1..=names.len())
            .rev()
            .map(listed)
            .find(|t| t.len() <= room);
        (head, fits.unwrap_or_else(|| "Enter shows them".into()))
    }

    /// The line after this one, when a card is gone through line by line:
    /// optional lines are passed by.
    pub(crate) fn go_on(&mut self) {
        let keys = self.keys();
        let next = (self.at + 1..keys.len()).find(|i| !keys[*i].starts_with(FOLD));
        self.at = next.unwrap_or(self.at);
    }

    /// The words a line may be: only what this kind of bow can have, and what
    /// stands there already.
    pub(crate) fn choices(&self, key: &str) -> Vec<&'static str> {
        let words: &[&'static str] = match (key, field::find(key).map(|f| f.kind)) {
            ("rest.kind", _) => rests(&self.text("bow.kind")),
            ("rest.clockwise", _) => &["in", "out", "left", "right"],
            ("rest.clockwise_height", _) => &["up", "down"],
            (_, Some(FieldKind::Choice(words))) => words,
            (_, Some(FieldKind::Flag)) => &["true", "false"],
            _ => &[],
        };
        let mut words = words.to_vec();
        let stands = self.text(key);
        let all = match field::find(key).map(|f| f.kind) {
            Some(FieldKind::Choice(all)) => all,
            _ => &[],
        };
        let other = all.iter().find(|w| **w == stands && !words.contains(w));
        words.extend(other);
        words
    }
}
