//! Troubleshooting: the path after a refusal, one step at a time.
//!
//! ```text
//! +- Troubleshooting: the tear jumps ------------+
//! | step 2 of 6: a test                          |
//! | what to do                                   |
//! |                                              |
//! | > 1 none: nothing but the rest's own track   |
//! |   2 rest: the vanes hit the rest             |
//! |                                              |
//! | what a remedy amounts to                     |
//! +----------------------------------------------+
//! ```

use ratatui::layout::Rect;

use super::list;
use super::paint::{Paint, Row, flow, under, wrap};
use super::practice::PracticeScreen;
use crate::actions::{Action, Scope};
use crate::look::Role;
use crate::question::{Answer, Question, Refusal};
use crate::range;
use crate::session::Event;
use crate::trouble::{self, Ask, Offer, Step};
use crate::tui::input::chosen;
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::units::System;
use crate::words;

/// The screen.
pub struct RemedyScreen {
    reason: Refusal,
    at: usize,
}

impl RemedyScreen {
    /// The path for a reason.
    pub const fn new(reason: Refusal) -> Self {
        Self { reason, at: 0 }
    }

    fn step(&self, model: &Model) -> Option<Step> {
        trouble::next_step(model.timeline(), self.reason)
    }

    /// Answers the step; closes when nothing is refused any more.
    fn reply(&mut self, at: usize, app: &mut App) -> Result<Flow, String> {
        let Some(step) = self.step(app) else {
            return Ok(Flow::Close);
        };
        let more = at.checked_sub(step.answers.len());
        let more = more.and_then(|n| more_lines(app, &step).into_iter().nth(n));
        let word = match (step.answers.get(at), more) {
            (Some(answer), _) => answer.word,
            (None, Some(More::OnTheCard(key, value))) => {
                app.prompt = Some(Prompt::with(Purpose::Screen, key, &value));
                return Ok(Flow::Stay);
            }
            (None, Some(More::BowAnswers(word))) => word,
            (None, Some(More::Practice)) => {
                return Ok(Flow::Open(Box::new(PracticeScreen::of(app))));
            }
            (None, None) => return Ok(Flow::Stay),
        };
        let events = step.events(word, None)?;
        let card = events.iter().any(|e| matches!(e, Event::Card { .. }));
        app.record_together(events)?;
        if card {
            app.refresh_prior();
        }
        self.at = 0;
        let said = step.id.to_string().replace('-', " ");
        Ok(self.after(&format!("recorded: {said}: {word}"), app))
    }

    /// Where the path goes from here.
    fn after(&mut self, said: &str, app: &mut App) -> Flow {
        match (Refusal::of(&app.analysis), self.step(app)) {
            (Some(reason), None) if reason != self.reason => self.reason = reason,
            (None, Some(step)) if matches!(step.ask, Ask::FixFirst) => {}
            (Some(_), Some(_)) => {}
            _ => {
                let verdict = crate::words::title(&app.analysis.advice);
                app.say(format!("{said}. Now: {verdict}"));
                return Flow::Close;
            }
        }
        app.say(said);
        Flow::Stay
    }
}

/// A line after the answers.
enum More {
    /// The remedy that was chosen is done: key and value for the card.
    OnTheCard(&'static str, String),
    /// In practice: what is true of the virtual bow, one of the answers.
    BowAnswers(Answer),
    /// In practice: its tests and cures, and the player's answer.
    Practice,
}

impl More {
    fn words(&self) -> String {
        match self {
            Self::OnTheCard(key, value) => {
                let name = key.rsplit_once('.').map_or(*key, |(_, n)| n);
                let name = name.replace('_', " ");
                format!("it is done: put it on the card ({name} {value})")
            }
            Self::BowAnswers(_) => "try it on this virtual bow, and record what comes of it".into(),
            Self::Practice => "this virtual bow: its tests and fixes, and your answer".into(),
        }
    }
}

fn more_lines(model: &Model, step: &Step) -> Vec<More> {
    let done = chosen_remedy(model, step).and_then(|o| o.card);
    let mut all: Vec<More> = done
        .into_iter()
        .map(|(key, value)| More::OnTheCard(key, value))
        .collect();
    if let Some(bow) = &model.practice {
        let truth = bow.answer(step.id, model.timeline());
        let asked = truth.filter(|word| step.answers.iter().any(|a| a.word == *word));
        all.extend(asked.map(More::BowAnswers));
        all.push(More::Practice);
    }
    all
}

/// How many lines there are to choose from.
fn count(model: &Model, step: &Step) -> usize {
    step.answers.len() + more_lines(model, step).len()
}

/// The remedy that was chosen on this path and not yet put on the card.
fn chosen_remedy(model: &Model, step: &Step) -> Option<Offer> {
    if step.ask != Ask::FixFirst || !step.reason.of_the_card() {
        return None;
    }
    let timeline = model.timeline();
    let last = timeline
        .answers
        .iter()
        .rev()
        .find(|a| a.arrow_epoch == timeline.arrow_epoch)?;
    trouble::offers_now(timeline)
        .into_iter()
        .find(|o| last.result == o.id && o.card.is_some())
}

const fn asks(ask: Ask) -> &'static str {
    match ask {
        Ask::Question => "a question",
        Ask::Test => "a test",
        Ask::Action => "something to do",
        Ask::Resume => "the end of it",
        Ask::FixFirst => "fix this first",
    }
}

fn head(step: &Step, system: System, width: u16) -> Vec<Row> {
    let mut title = format!(
        "Step {} of {}, {}",
        step.place.0,
        step.place.1,
        asks(step.ask)
    );
    if step.shots > 0 {
        title.push_str(&format!(", {}", words::count(step.shots as usize, "shot")));
    }
    let mut rows = wrap(&title, Role::Faint, width, 0);
    rows.push(Row::new());
    rows.extend(wrap(&step.text, Role::Strong, width, 0));
    for line in step
        .put_back
        .iter()
        .flat_map(|b| words::put_back(b, system))
    {
        rows.extend(wrap(&line, Role::Text, width, 2));
    }
    rows
}

/// What a remedy amounts to.
fn about_offer(offer: &Offer, width: u16) -> Vec<Row> {
    let back = if offer.reversible {
        " Can be undone."
    } else {
        ""
    };
    let text = format!("{}{back}", offer.text);
    flow(
        &[
            (&format!("{}: ", offer.title), Role::Strong),
            (&text, Role::Text),
        ],
        width,
        2,
    )
}

impl Screen for RemedyScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        format!("Troubleshooting: {}", self.reason.title())
    }
    fn about(&self) -> &'static str {
        "Why the rest is left alone, and what to look at instead: one question or test at a time, cheap and reversible before costly. A digit answers, or Enter. Each answer is an entry; you may leave at any step and come back to it. It ends in going on with paper, or in what is to be fixed first."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        if action == Action::Choose {
            return self.reply(self.at, app).unwrap_or_else(|problem| {
                app.complain(problem);
                Flow::Stay
            });
        }
        let lines = self.step(app).map_or(1, |step| count(app, &step));
        self.at = chosen(self.at, lines, action);
        Flow::Stay
    }
    fn digit(&mut self, digit: char, app: &mut App) -> Flow {
        let at = digit.to_digit(10).unwrap_or(0) as usize;
        let known = self
            .step(app)
            .is_some_and(|s| (1..=count(app, &s)).contains(&at));
        if !known {
            app.say(format!("there is no answer {digit} here"));
            return Flow::Stay;
        }
        self.at = at - 1;
        self.act(Action::Choose, app)
    }
    fn echo(&self, text: &str, _model: &Model) -> Echo {
        if text.trim().is_empty() {
            Echo::Hint("the figure as it was really made".into())
        } else {
            Echo::Reads(format!(
                "{} on the card, the match is worked out again",
                text.trim()
            ))
        }
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        let Some(step) = self.step(app).filter(|_| !text.trim().is_empty()) else {
            return Ok(Flow::Stay);
        };
        let Some((key, _)) = chosen_remedy(app, &step).and_then(|o| o.card) else {
            return Ok(Flow::Stay);
        };
        let set = [(key.to_owned(), text.trim().to_owned())].into();
        app.record(Event::card(set))?;
        app.refresh_prior();
        self.at = 0;
        if Refusal::of(&app.analysis) == Some(self.reason) {
            // Better, and not enough yet: the path begins again on the card as it is now.
            app.record(Event::Answer {
                test: Question::Path(self.reason).into(),
                result: Answer::Again.into(),
                detail: None,
            })?;
        }
        Ok(self.after(&format!("on the card: {key} {}", text.trim()), app))
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let Some(step) = self.step(model) else {
            let text = "This was gone through. Shoot 3 here without moving anything; if it is refused again, it begins again.";
            paint.rows(area, &wrap(text, Role::Strong, area.width, 0));
            return;
        };
        let mut head = head(&step, model.system, area.width);
        // A step that is shot waits for the range safety list like any shot.
        let list = (step.shots > 0).then(|| range::due(model.timeline(), model.today()));
        if let Some(due) = list.flatten() {
            let text = format!(
                "{} (Esc, then {})",
                crate::words::range_due(due),
                model.by_name(Action::Range)
            );
            head.splice(0..0, wrap(&text, Role::Warn, area.width, 0));
        }
        let used = (paint.rows(area, &head) + 1).min(area.height);
        let rest = under(area, used);
        let mut rows = Vec::new();
        for (i, answer) in step.answers.iter().enumerate() {
            let text = format!("{} {}: {}", i + 1, answer.word, answer.means);
            rows.extend(list::wrapped(&text, Role::Text, i, area.width, 4));
        }
        let done = chosen_remedy(model, &step);
        for (i, more) in more_lines(model, &step).iter().enumerate() {
            let n = step.answers.len() + i;
            let text = format!("{} {}", n + 1, more.words());
            rows.extend(list::wrapped(&text, Role::Text, n, area.width, 4));
        }
        let word = step.answers.get(self.at).map(|a| a.word);
        let offer = step
            .offers
            .iter()
            .find(|o| Some(o.id) == word)
            .or(done.as_ref());
        let text = offer.map_or_else(Vec::new, |o| about_offer(o, area.width));
        list::with_text(paint, rest, &rows, self.at, &text, 0);
    }
}
