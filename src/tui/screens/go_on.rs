//! What was open when the line dropped, offered at the next start.
//!
//! ```text
//! +- Go on where it stopped? ----------------------------+
//! | The console ended and this session was not left ...  |
//! | > bow.toml    Ann: blue bow                          |
//! |   leave it: the demo                                 |
//! | 14 shots; last written 12 minutes ago                |
//! | last entry: shot 9 mm left                           |
//! +------------------------------------------------------+
//! ```

use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::session::{Event, Session};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, row, under, wrap};
use crate::tui::effects::Effect;
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::tui::wording;
use crate::units::{System, clean};
use crate::words::pages::go_on;

/// Sessions offered at once.
const MOST: usize = 3;

/// One session that can be gone on with.
struct Offer {
    path: PathBuf,
    name: String,
    whose: String,
    /// Whether it was dropped, and not only left with a move at the bench.
    dropped: bool,
    about: Vec<String>,
}

/// The screen.
pub(crate) struct GoOnScreen {
    offers: Vec<Offer>,
    at: usize,
}

fn read(path: PathBuf, dropped: bool, system: System) -> Option<Offer> {
    let held = crate::session::lock::is_held(&path);
    let session = Session::open(&path).ok().filter(|_| !held)?;
    let timeline = session.timeline();
    if !dropped && timeline.pending.is_none() {
        return None;
    }
    let mut about = vec![clean(&path.display().to_string())];
    about.push(go_on::stands(timeline.shots.len(), past(&path)));
    if let Some(pending) = &timeline.pending {
        let steps = wording::steps(&pending.steps, &timeline.card, system);
        about.push(format!("pending move: {steps}"));
    }
    let last = session.entries().iter().rev();
    if let Some(last) = last
        .filter(|e| !matches!(e.event, Event::Prior(_) | Event::Pending { .. }))
        .find(|e| !timeline.undone.contains(&e.number))
    {
        let words = wording::entry(&last.event, &timeline.card, system);
        about.push(format!("last entry: {words}"));
    }
    Some(Offer {
        name: path
            .file_name()
            .map_or_else(String::new, |n| clean(&n.to_string_lossy())),
        whose: clean(&timeline.card.title()),
        path,
        dropped,
        about,
    })
}

/// How long ago a file was written; nothing where the clock says it is still
/// to come.
fn past(path: &Path) -> Option<Duration> {
    let written = std::fs::metadata(path).and_then(|m| m.modified()).ok()?;
    SystemTime::now().duration_since(written).ok()
}

impl GoOnScreen {
    /// What there is to go on with, if anything; what cannot be read is not
    /// offered.
    pub fn of(model: &Model) -> Option<Self> {
        let (recent, system) = (&model.look.recent, model.system);
        let dropped = recent.dropped().into_iter().take(MOST);
        let mut offers: Vec<Offer> = dropped.filter_map(|p| read(p, true, system)).collect();
        if offers.is_empty() {
            let last = recent.list().into_iter().next();
            offers.extend(last.and_then(|p| read(p, false, system)));
        }
        (!offers.is_empty()).then_some(Self { offers, at: 0 })
    }

    fn head(&self) -> &'static str {
        go_on::head(self.offers.iter().filter(|o| o.dropped).count())
    }

    /// Leaves them: they are not offered as dropped again.
    fn decline(&self, model: &Model) -> Vec<Effect> {
        let paths = self.offers.iter().map(|o| o.path.clone()).collect();
        let files = model.key(Action::Files);
        vec![
            Effect::LeaveBehind(paths),
            Effect::Say(go_on::left(&files)),
            Effect::Close,
        ]
    }
}

impl Screen for GoOnScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Go on where it stopped?".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::GO_ON
    }
    fn minds_leaving(&self) -> bool {
        true
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        match action {
            Action::Back => return self.decline(model),
            Action::Choose => {}
            _ => {
                self.at = chosen(self.at, self.offers.len() + 1, action);
                return Vec::new();
            }
        }
        let Some(offer) = self.offers.get(self.at) else {
            return self.decline(model);
        };
        vec![Effect::OpenSession(offer.path.clone())]
    }
    fn draw(&self, _model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let text = wrap(self.head(), Role::Text, area.width, 0);
        let used = paint.rows(area, &text) + 1;
        let mut rows: Vec<(Row, Option<usize>)> = Vec::new();
        for (i, offer) in self.offers.iter().enumerate() {
            let line = format!("{}  {}", offer.name, offer.whose);
            rows.extend(list::wrapped(&line, Role::Strong, i, area.width, 2));
        }
        let none = go_on::leave(self.offers.len());
        rows.push((row(none, Role::Text), Some(self.offers.len())));
        let about = self.offers.get(self.at).map_or(&[][..], |o| &o.about);
        let lines = about.iter();
        let below: Vec<Row> = lines
            .flat_map(|l| wrap(l, Role::Text, area.width, 2))
            .collect();
        let rest = under(area, used);
        list::with_text(paint, rest, &rows, self.at, &below, 0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_still_to_come_is_not_spoken_of() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bow.toml");
        let file = std::fs::File::create(&path).unwrap();
        let hour = Duration::from_secs(3600);
        file.set_modified(SystemTime::now() - hour).unwrap();
        assert!(past(&path).unwrap() >= hour);
        file.set_modified(SystemTime::now() + hour).unwrap();
        assert_eq!(past(&path), None);
        assert_eq!(past(&folder.path().join("none.toml")), None);
    }
}
