//! Every look side by side, so that somebody on a bad terminal can choose.
//!
//! ```text
//! +- Look ---------------------------------------+
//! | > terminal  in use                           |
//! |    MOVE  SHOOT  WITHIN TOLERANCE  DO NOT ... |
//! |    figures text labels ok ~ NO likely ...    |
//! |   dark                                       |
//! | > unicode   the characters it draws with     |
//! | how to keep it                               |
//! +----------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::look::{Role, Scheme, Theme, sample};
use crate::tui::draw::paint::{Paint, Row, row, wrap};
use crate::tui::effects::{Effect, complain};
use crate::tui::model::Model;
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::words::pages::panes;

/// The screen.
#[derive(Debug, Default)]
pub(crate) struct LookScreen {
    at: usize,
}

/// Rows of a scheme, and of a set of characters.
const SCHEME_ROWS: u16 = 3;

impl LookScreen {
    /// How many can be chosen: the schemes, then the sets of characters.
    const ALL: usize = Scheme::ALL.len() + sample::SETS.len();

    /// Uses what the cursor is on until the console is left.
    fn choose(&self, model: &Model) -> Vec<Effect> {
        let (effect, setting, word) = match Scheme::ALL.get(self.at) {
            Some((_, scheme)) if !model.look.theme.may_colour() && *scheme != Scheme::Mono => {
                return complain(panes::NO_COLOURS);
            }
            Some((word, scheme)) => {
                let theme = model.look.theme.with(*scheme);
                (Effect::Theme(theme), "look", *word)
            }
            None => {
                let (word, choice) = sample::SETS[self.at - Scheme::ALL.len()];
                (Effect::Glyphs(choice.set()), "draw", word)
            }
        };
        let file = crate::config::path().map_or_else(
            || "the settings file".into(),
            |path| path.display().to_string(),
        );
        let said = panes::look_in_use(setting, word, &file);
        vec![effect, Effect::Say(said)]
    }
}

impl Screen for LookScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        "Look".into()
    }
    fn about(&self) -> &'static str {
        crate::words::screens::LOOK_PAGE
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.choose(model);
        }
        self.at = chosen(self.at, Self::ALL, action);
        Vec::new()
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let own = paint.theme;
        let all = heights();
        let total: u16 = all.iter().sum();
        // The line the cursor is on stays in sight.
        let end: u16 = all[..=self.at].iter().sum();
        let skip = end.saturating_sub(area.height);
        let mut y = 0;
        for (i, high) in all.iter().enumerate() {
            let here = i == self.at;
            for (n, (theme, line)) in lines(model, own, i, here).into_iter().enumerate() {
                let at = y + n as u16;
                if at >= skip && at - skip < area.height {
                    paint.theme = theme;
                    let (x, width) = if n == 0 {
                        (area.x, area.width)
                    } else {
                        (area.x + 4, area.width.saturating_sub(4))
                    };
                    paint.row(x, area.y + at - skip, &line, width);
                }
            }
            y += high;
        }
        paint.theme = own;
        paint.place(area, skip.into(), area.height.into(), total.into());
    }
}

/// Rows each of the choices takes.
fn heights() -> Vec<u16> {
    let schemes = Scheme::ALL.iter().map(|_| SCHEME_ROWS);
    schemes.chain(sample::SETS.iter().map(|_| 2)).collect()
}

/// The rows of one choice, each with the theme it is shown in.
fn lines(model: &Model, own: Theme, i: usize, here: bool) -> Vec<(Theme, Row)> {
    let mark = if here { model.look.glyphs.here } else { ' ' };
    let role = if here { Role::Strong } else { Role::Text };
    let head = |word: &str, used: bool| {
        let used = if used { "in use" } else { "" };
        let mut line = row(format!("{mark} {word:<10} "), role);
        line.push((used.into(), Role::Faint));
        (own, line)
    };
    if let Some((word, scheme)) = Scheme::ALL.get(i) {
        let mut out = vec![head(word, own.scheme() == *scheme)];
        out.extend(sample::rows().map(|row| (own.with(*scheme), row)));
        return out;
    }
    let (word, choice) = sample::SETS[i - Scheme::ALL.len()];
    let set = choice.set();
    let text = wrap(&sample::characters(set), Role::Text, u16::MAX, 0);
    let mut out = vec![head(word, std::ptr::eq(set, model.look.glyphs))];
    out.extend(text.into_iter().map(|row| (own, row)));
    out
}
