//! One stage of proof: how to shoot it, its groups, what it says.
//!
//! ```text
//! +- After paper: Bare shaft ------------------------+
//! | > fletched at 18 m: type where they hit          |
//! |   bare at 18 m: type where they hit              |
//! |   distance: 18 m                                 |
//! |   take the suggested move to the bench           |
//! |                                                  |
//! | verdict; how; safety; what is excluded first     |
//! +--------------------------------------------------+
//! ```

use ratatui::layout::Rect;

use crate::actions::{Action, Scope};
use crate::advice;
use crate::look::Role;
use crate::proof::{
    self, FaceUnit, Found, GroupKind, Stage, StageVerdict, arrows, next_distance, read_impacts,
};
use crate::session::Event;
use crate::step::State;
use crate::tui::draw::list;
use crate::tui::draw::paint::{Paint, Row, flow};
use crate::tui::draw::steps;
use crate::tui::effects::{Effect, ask, complain, record, say};
use crate::tui::model::Model;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screen::Screen;
use crate::tui::screens::proof::face::Face;
use crate::tui::screens::proof::shared::{about_verdict, answered, first, next_stage};
use crate::tui::travel::chosen;
use crate::units::Length;
use crate::words::{self, pages::proof as page, proof as said};

/// What a line does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Line {
    Group(GroupKind),
    Distance,
    /// Answered with a key: level or not, left out.
    Answer(Action),
    Move,
    PutBack,
    /// What the stage asked for, no move of an adjuster, was done.
    Done,
    /// On to the stage that comes next.
    Next(Stage),
}

/// The screen.
pub(crate) struct StageScreen {
    pub stage: Stage,
    at: usize,
    scroll: u16,
    /// The distance of the next group.
    pub distance: String,
    /// The face, while a group is marked on it.
    pub(crate) face: Option<Face>,
    /// The group that was asked to be recorded last; else work was.
    pub(crate) group: Option<GroupKind>,
    /// The stage itself was answered or left out last: on to the next.
    goes_on: bool,
}

impl StageScreen {
    /// One stage, at the distance that comes next.
    pub fn new(stage: Stage, model: &Model) -> Self {
        let mut screen = Self {
            stage,
            at: 0,
            scroll: 0,
            distance: next_distance(model.timeline(), stage, model.system),
            face: None,
            group: None,
            goes_on: false,
        };
        screen.go_to_open(model);
        screen
    }

    /// The cursor on the first kind of arrow that is not shot at this distance.
    pub(crate) fn go_to_open(&mut self, model: &Model) {
        let mut whats = self.stage.whats().iter();
        let open = |w: &GroupKind| arrows(model.timeline(), self.stage, *w, &self.distance) == 0;
        self.at = whats.position(open).unwrap_or(0);
    }

    fn verdict(&self, model: &Model) -> StageVerdict {
        proof::assess(model.timeline(), &model.analysis, self.stage)
    }

    fn lines(&self, model: &Model) -> Vec<Line> {
        let mut all: Vec<Line> = self.stage.whats().iter().map(|w| Line::Group(*w)).collect();
        match self.stage {
            Stage::Levels => all.extend([Action::InOrder, Action::NotInOrder].map(Line::Answer)),
            _ => all.push(Line::Distance),
        }
        let verdict = self.verdict(model);
        let may_go_on = advice::stopped(model.timeline()).is_none();
        if verdict.suggestion().is_some() && may_go_on {
            all.push(Line::Move);
        }
        if verdict.put_back.as_ref().is_some_and(|b| !b.is_there()) {
            all.push(Line::PutBack);
        }
        if matches!(self.stage, Stage::Creep | Stage::Torque) && verdict.status == State::Off {
            all.push(Line::Done);
        }
        if verdict.status == State::Ok
            && may_go_on
            && let Some(next) = next_stage(model).filter(|n| *n != self.stage)
        {
            all.push(Line::Next(next));
        }
        if verdict.status != State::Ok {
            all.push(Line::Answer(Action::LeaveOut));
        }
        all
    }

    /// A kind of arrow or shot at the distance it is shot next.
    pub(crate) fn named(&self, what: GroupKind) -> String {
        format!("{} at {}", said::kind(what), self.distance)
    }

    pub fn line(&self, model: &Model) -> Option<Line> {
        self.lines(model).get(self.at).copied()
    }

    fn words(&self, line: Line, model: &Model) -> String {
        match line {
            Line::Group(what) => {
                let shot = arrows(model.timeline(), self.stage, what, &self.distance);
                let so_far = match shot {
                    0 => page::type_hits(&model.key(Action::Face)),
                    n => format!("{} recorded; more", words::count(n, "arrow")),
                };
                format!("{}: {so_far}", self.named(what))
            }
            Line::Distance => page::distance(&self.distance),
            Line::Answer(Action::InOrder) => "level: bow, arrow and sight".into(),
            Line::Answer(Action::NotInOrder) => "not level".into(),
            Line::Answer(_) => "leave this stage out".into(),
            Line::Move => page::TAKE_MOVE.into(),
            Line::PutBack => page::TAKE_BACK.into(),
            Line::Done => page::work(self.stage).into(),
            Line::Next(stage) => page::on_to(stage),
        }
    }

    fn typed(&self, model: &Model, text: &str) -> Vec<Effect> {
        match self.line(model) {
            Some(Line::Group(what)) => {
                let label = self.named(what);
                ask(Prompt::with(Purpose::Impacts, label, text))
            }
            Some(Line::Distance) if text.is_empty() => {
                ask(Prompt::over(Purpose::Screen, "Distance", &self.distance))
            }
            Some(Line::Distance) => ask(Prompt::with(Purpose::Screen, "Distance", text)),
            _ => Vec::new(),
        }
    }

    fn choose(&mut self, model: &Model) -> Vec<Effect> {
        let (stage, verdict) = (self.stage, self.verdict(model));
        (self.group, self.goes_on) = (None, false);
        match self.line(model) {
            Some(Line::Group(_) | Line::Distance) => self.typed(model, ""),
            Some(Line::Answer(action)) => answered(stage, action).map_or_else(Vec::new, |said| {
                self.goes_on = true;
                vec![Effect::Record(vec![said.0]), Effect::Say(said.1)]
            }),
            Some(Line::Move) => {
                let steps = verdict.suggestion().map(|found| vec![found.step()]);
                steps.map(Effect::ToTheBench).into_iter().collect()
            }
            Some(Line::PutBack) => {
                let steps = verdict.put_back.map(|back| back.moves());
                steps.map(Effect::ToTheBench).into_iter().collect()
            }
            Some(Line::Done) => match proof::record_done(stage) {
                Ok(events) => vec![Effect::Record(events), Effect::Say(page::WORK_DONE.into())],
                Err(problem) => complain(problem.to_string()),
            },
            Some(Line::Next(next)) => {
                *self = Self::new(next, model);
                Vec::new()
            }
            None => Vec::new(),
        }
    }

    fn about_stage(&self, model: &Model, width: u16) -> Vec<Row> {
        let (card, system) = (&model.timeline().card, model.system);
        let mut rows: Vec<Row> = Vec::new();
        if let Some(text) = first(model) {
            rows.extend(flow(&[(&text, Role::Warn)], width, 0));
        }
        // Nothing is shot before the stop is lifted: how it is shot comes after.
        if advice::stopped(model.timeline()).is_some() {
            return rows;
        }
        let verdict = self.verdict(model);
        // How it is shot stands below.
        let why = match verdict.found {
            Found::NotShot => said::NOT_SHOT.into(),
            _ => said::found(&verdict, card, system),
        };
        rows.extend(about_verdict(&verdict, &why, system, width));
        rows.extend(steps::told(&said::how(self.stage, card, system), width));
        rows
    }
}

impl Screen for StageScreen {
    fn scope(&self) -> Scope {
        match self.stage {
            _ if self.face.is_some() => Scope::Face,
            Stage::Levels => Scope::Job,
            // Shot, not answered.
            _ => Scope::Stage,
        }
    }
    fn minds_leaving(&self) -> bool {
        // The face may hold marks that are not recorded yet.
        self.scope() == Scope::Face
    }
    fn title(&self, _model: &Model) -> String {
        format!("After paper: {}", said::title(self.stage))
    }
    fn about(&self) -> &'static str {
        crate::words::screens::PROOF_STAGE
    }
    fn act(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        if self.face.is_some() {
            return self.act_on_face(action, model);
        }
        match action {
            Action::Face => self.open_face(model),
            Action::Choose => return self.choose(model),
            Action::Left => self.scroll = self.scroll.saturating_sub(1),
            Action::Right => self.scroll = (self.scroll + 1).min(100),
            Action::LeaveOut | Action::InOrder | Action::NotInOrder => {
                let wanted = |l: &Line| *l == Line::Answer(action);
                if let Some(at) = self.lines(model).iter().position(wanted) {
                    self.at = at;
                    return self.act(Action::Choose, model);
                }
            }
            _ => {
                self.at = chosen(self.at, self.lines(model).len(), action);
                self.scroll = 0;
            }
        }
        Vec::new()
    }
    fn recorded(&mut self, _entry: u32, model: &Model) -> Vec<Effect> {
        if let Some(what) = self.group {
            return self.kept(what, model);
        }
        if !self.goes_on {
            self.go_to_open(model);
            return Vec::new();
        }
        match next_stage(model) {
            // Off: the stage is still the one to do.
            Some(next) if next == self.stage => self.goes_on = false,
            Some(next) => *self = Self::new(next, model),
            None => return vec![Effect::Close],
        }
        Vec::new()
    }
    fn digit(&mut self, digit: char, model: &Model) -> Vec<Effect> {
        if let Some(face) = &mut self.face {
            face.digit(digit);
            return Vec::new();
        }
        // A digit begins a group, whatever line the cursor stands on.
        if !matches!(self.line(model), Some(Line::Group(_) | Line::Distance)) {
            self.go_to_open(model);
        }
        self.typed(model, &digit.to_string())
    }
    fn echo(&self, text: &str, model: &Model) -> Echo {
        let unit = FaceUnit::of(model.system);
        let wrong = |text: String| Echo::Wrong {
            at: 0,
            len: 0,
            text,
        };
        if self.line(model) == Some(Line::Distance) {
            return match Length::parse(text) {
                _ if text.trim().is_empty() => {
                    Echo::Hint(format!("such as {}", model.system.paced(18.0)))
                }
                Ok(length) => Echo::Reads(model.system.shot_from(length)),
                Err(problem) => wrong(problem.to_string()),
            };
        }
        if text.trim().is_empty() {
            return Echo::Hint(page::hits(unit));
        }
        match read_impacts(text, unit) {
            Ok(found) => {
                let all: Vec<String> = found.iter().map(|i| said::impact(*i, unit)).collect();
                Echo::Reads(all.join("; "))
            }
            Err(problem) => {
                let lower = text.to_lowercase();
                let at = lower.find(&problem.word.to_lowercase()).unwrap_or(0);
                Echo::Wrong {
                    at: lower[..at].chars().count(),
                    len: problem.word.chars().count(),
                    text: format!("'{}': {}", problem.word, problem.wrong),
                }
            }
        }
    }
    fn answer(&mut self, text: &str, model: &Model) -> Result<Vec<Effect>, String> {
        if text.trim().is_empty() {
            return Ok(Vec::new());
        }
        match self.line(model) {
            Some(Line::Distance) => {
                Length::parse(text).map_err(|e| e.to_string())?;
                self.distance = text.trim().to_owned();
                self.go_to_open(model);
            }
            Some(Line::Group(what)) => {
                let unit = FaceUnit::of(model.system);
                let event =
                    proof::record_group(self.stage, &what.into(), &self.distance, text, unit);
                let event = event.map_err(|e| e.to_string())?;
                return Ok(self.keep(what, event));
            }
            _ => {}
        }
        Ok(Vec::new())
    }
    fn draw(&self, model: &Model, paint: &mut Paint<'_>, area: Rect) {
        if let (Some(face), Some(Line::Group(what))) = (&self.face, self.line(model)) {
            return self.draw_face(face, what, model, paint, area);
        }
        let rows: Vec<_> = self
            .lines(model)
            .into_iter()
            .enumerate()
            .flat_map(|(i, line)| {
                list::wrapped(&self.words(line, model), Role::Text, i, area.width, 2)
            })
            .collect();
        let text = self.about_stage(model, area.width);
        let least = rows.len() as u16;
        list::keeping(least, paint, area, &rows, self.at, &text, self.scroll);
    }
}

/// Recording a group, typed or marked.
impl StageScreen {
    pub(crate) fn keep(&mut self, what: GroupKind, event: Event) -> Vec<Effect> {
        self.group = Some(what);
        record(event)
    }

    /// What a group says now that it is recorded; on to what is shot next.
    fn kept(&mut self, what: GroupKind, model: &Model) -> Vec<Effect> {
        let verdict = self.verdict(model);
        let mut said = page::recorded(&self.named(what), self.stage, verdict.status);
        self.scroll = 0;
        if let Some(stop) = advice::stopped(model.timeline()) {
            self.face = None;
            return complain(format!("{} {said}", crate::words::stop_line(&stop)));
        }
        if verdict.suggestion().is_some() {
            said.push_str(page::MOVE_SUGGESTED);
        }
        if next_stage(model).is_none() {
            let (back, sheet) = (model.key(Action::Back), model.key(Action::Sheet));
            said.push_str(&page::all_proved(&back, &sheet));
        }
        self.go_on(model);
        self.face = None;
        say(said)
    }
}

impl StageScreen {
    /// The next kind of arrow at this distance, the next distance, or the next
    /// stage; never a move: who goes on typing groups and distances takes none.
    fn go_on(&mut self, model: &Model) {
        // Off this close, nothing is gained by stepping back.
        if self.verdict(model).status == State::Off {
            return;
        }
        let timeline = model.timeline();
        let whats = self.stage.whats();
        let all_shot = whats
            .iter()
            .all(|w| arrows(timeline, self.stage, *w, &self.distance) > 0);
        if all_shot {
            self.distance = next_distance(timeline, self.stage, model.system);
        }
        self.go_to_open(model);
        let open = |w: GroupKind| arrows(timeline, self.stage, w, &self.distance) == 0;
        if !whats.iter().any(|w| open(*w)) {
            let on = |l: &Line| matches!(l, Line::Next(_));
            self.at = self.lines(model).iter().position(on).unwrap_or(self.at);
        }
    }
}
