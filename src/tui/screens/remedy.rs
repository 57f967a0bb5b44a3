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

use crate::actions::{Action, Scope, Situation};
use crate::advice::analyse;
use crate::gear::Card;
use crate::look::Role;
use crate::question::{Answer, Question, Refusal};
use crate::session::Event;
use crate::trouble::{self, Ask, Offer, PathStep};
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, under, wrap};
use crate::tui::draw::steps;
use crate::tui::effects::{Effect, ask, complain, say};
use crate::tui::model::Model;
use crate::tui::names::Name;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::travel::chosen;
use crate::units::System;
use crate::words::pages::trouble as page;
use crate::words::{self, trouble as said};

/// The screen.
pub(crate) struct RemedyScreen {
    reason: Refusal,
    at: usize,
    /// What is said once it is recorded.
    said: String,
}

impl RemedyScreen {
    /// The path for a reason.
    pub const fn new(reason: Refusal) -> Self {
        Self {
            reason,
            at: 0,
            said: String::new(),
        }
    }

    fn step(&self, model: &Model) -> Option<PathStep> {
        trouble::next_step(model.timeline(), self.reason)
    }

    /// Answers the step; closes when nothing is refused any more.
    fn reply(&mut self, at: usize, model: &Model) -> Vec<Effect> {
        let Some(step) = self.step(model) else {
            return vec![Effect::Close];
        };
        let more = at.checked_sub(step.answers.len());
        let more = more.and_then(|n| more_lines(model, &step).into_iter().nth(n));
        let word = match (step.answers.get(at), more) {
            (Some(answer), _) => *answer,
            (None, Some(More::OnTheCard(key, value))) => {
                return ask(Prompt::with(Purpose::Screen, key, &value));
            }
            (None, Some(More::BowAnswers(word))) => word,
            (None, Some(More::Practice)) => return vec![Effect::Open(Name::Practice)],
            (None, None) => return Vec::new(),
        };
        match step.events(word, None) {
            Ok(events) => {
                let said = step.id.to_string().replace('-', " ");
                self.said = format!("recorded: {said}: {word}");
                vec![Effect::Record(events)]
            }
            Err(problem) => complain(problem.to_string()),
        }
    }

    /// Where the path goes from here.
    fn after(&mut self, model: &Model) -> Vec<Effect> {
        let said = std::mem::take(&mut self.said);
        match (Refusal::of(&model.analysis), self.step(model)) {
            (Some(reason), None) if reason != self.reason => self.reason = reason,
            (None, Some(step)) if matches!(step.ask, Ask::FixFirst) => {}
            (Some(_), Some(_)) => {}
            _ => {
                let verdict = crate::words::title(&model.analysis.advice);
                let said = Effect::Say(format!("{said}. Now: {verdict}"));
                return vec![said, Effect::Close];
            }
        }
        say(said)
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
            Self::OnTheCard(key, value) => page::on_the_card(key, value),
            Self::BowAnswers(_) => page::BOW_ANSWERS.into(),
            Self::Practice => page::PRACTICE.into(),
        }
    }
}

fn more_lines(model: &Model, step: &PathStep) -> Vec<More> {
    let done = chosen_remedy(model, step).and_then(|o| o.card);
    let mut all: Vec<More> = done
        .into_iter()
        .map(|(key, value)| More::OnTheCard(key, value))
        .collect();
    if let Some(bow) = &model.practice {
        let truth = bow.answer(step.id, model.timeline());
        let asked = truth.filter(|word| step.answers.contains(word));
        all.extend(asked.map(More::BowAnswers));
        all.push(More::Practice);
    }
    all
}

/// How many lines there are to choose from.
fn count(model: &Model, step: &PathStep) -> usize {
    step.answers.len() + more_lines(model, step).len()
}

/// The remedy that was chosen on this path and not yet put on the card.
fn chosen_remedy(model: &Model, step: &PathStep) -> Option<Offer> {
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

fn head(step: &PathStep, card: &Card, system: System, width: u16) -> Vec<Row> {
    let mut rows = wrap(&said::place(step), Role::Faint, width, 0);
    rows.push(Row::new());
    rows.extend(wrap(&said::text(step, card), Role::Strong, width, 0));
    for line in step
        .put_back
        .iter()
        .flat_map(|b| words::put_back(b, system))
    {
        rows.extend(wrap(&line, Role::Text, width, 2));
    }
    rows
}

impl Screen for RemedyScreen {
    fn scope(&self) -> Scope {
        Scope::Choice
    }
    fn title(&self, _model: &Model) -> String {
        format!("Troubleshooting: {}", said::title(self.reason))
    }
    fn about(&self) -> &'static str {
        crate::words::screens::REMEDY
    }
    fn adjust(&self, now: &mut Situation) {
        now.undoable = true;
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if action == Action::Choose {
            return self.reply(self.at, model);
        }
        let lines = self.step(model).map_or(1, |step| count(model, &step));
        self.at = chosen(self.at, lines, action);
        Vec::new()
    }
    fn digit_answers(&self) -> bool {
        true
    }
    fn digit(&mut self, digit: char, model: &Model) -> Vec<Effect> {
        let at = digit.to_digit(10).unwrap_or(0) as usize;
        let known = self
            .step(model)
            .is_some_and(|s| (1..=count(model, &s)).contains(&at));
        if !known {
            return say(words::pages::typing::no_answer(digit));
        }
        self.at = at - 1;
        self.act(Action::Choose, model)
    }
    fn echo(&self, text: &str, _model: &Model) -> Echo {
        if text.trim().is_empty() {
            Echo::Hint(page::FIGURE.into())
        } else {
            Echo::Reads(page::again(text.trim()))
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        let Some(step) = self.step(model).filter(|_| !text.trim().is_empty()) else {
            return Ok(Vec::new());
        };
        let Some((key, _)) = chosen_remedy(model, &step).and_then(|o| o.card) else {
            return Ok(Vec::new());
        };
        self.said = format!("on the card: {key} {}", text.trim());
        let set = [(key.to_owned(), text.trim().to_owned())].into();
        let fix = Event::card(set);
        let mut events = vec![fix.clone()];
        // Better, and not enough yet: the path begins again on the card as it
        // will be, in the same action.
        let mut then = model.session().with(fix).map_err(|e| e.to_string())?;
        then.next_bare = model.timeline().next_bare;
        if Refusal::of(&analyse(&then, model.today())) == Some(self.reason) {
            events.push(Event::answer(Question::Path(self.reason), Answer::Again));
        }
        Ok(vec![Effect::Record(events)])
    }
    fn undone(&mut self, model: &Model) -> Vec<Effect> {
        self.at = 0;
        match Refusal::of(&model.analysis) {
            Some(reason) => self.reason = reason,
            None => return vec![Effect::Close],
        }
        Vec::new()
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        self.at = 0;
        self.after(model)
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        let Some(step) = self.step(model) else {
            paint.rows(area, &wrap(said::GONE_THROUGH, Role::Strong, area.width, 0));
            return;
        };
        let mut head = head(&step, &model.timeline().card, model.system, area.width);
        // A step that is shot waits for the range safety list like any shot.
        if let Some(text) = model.range_first().filter(|_| step.shots > 0) {
            head.splice(0..0, wrap(&text, Role::Warn, area.width, 0));
        }
        let used = (paint.rows(area, &head) + 1).min(area.height);
        let rest = under(area, used);
        let mut rows = Vec::new();
        for (i, answer) in step.answers.iter().enumerate() {
            let text = format!("{} {answer}: {}", i + 1, said::means(&step, *answer));
            rows.extend(list::wrapped(&text, Role::Text, i, area.width, 4));
        }
        let done = chosen_remedy(model, &step);
        for (i, more) in more_lines(model, &step).iter().enumerate() {
            let n = step.answers.len() + i;
            let text = format!("{} {}", n + 1, more.words());
            rows.extend(list::wrapped(&text, Role::Text, n, area.width, 4));
        }
        let word = step.answers.get(self.at).copied();
        let offer = step
            .offers
            .iter()
            .find(|o| Some(o.id) == word)
            .or(done.as_ref());
        let text = steps::told(&offer.map(said::offered), area.width);
        list::with_text(paint, rest, &rows, self.at, &text, 0);
    }
}
