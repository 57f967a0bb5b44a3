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

use super::list;
use super::paint::{Paint, Row, flow};
use super::proof::{about_verdict, first, levels};
use super::restore::to_the_bench;
use crate::actions::{Action, Scope};
use crate::proof::{self, FaceUnit, Stage, Status, Verdict, impact_words, read_impacts};
use crate::session::{GroupAt, Timeline};
use crate::tui::input::chosen;
use crate::tui::prompt::{Echo, Prompt, Purpose};
use crate::tui::screens::{Flow, Screen};
use crate::tui::state::App;
use crate::tui::theme::Role;
use crate::units::{Length, System, trim_number};
use crate::words;

/// What a line does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Line {
    Group(&'static str),
    Distance,
    Level(bool),
    Move,
    PutBack,
    LeaveOut,
}

/// The screen.
pub struct StageScreen {
    stage: Stage,
    at: usize,
    scroll: u16,
    /// The distance of the next group.
    distance: String,
}

/// Distances in the order they are shot, m.
fn sequence(stage: Stage, timeline: &Timeline) -> Vec<f64> {
    match stage {
        Stage::BareShaft => vec![5.0, 18.0],
        Stage::WalkBack => vec![18.0, 27.0, 32.0, 36.0],
        Stage::NearFar => vec![3.0, 30.0],
        _ => vec![stage.distance_m(&timeline.card)],
    }
}

/// A distance as people pace it out in a system.
fn paced(m: f64, system: System) -> String {
    match system {
        System::Mm => format!("{} m", trim_number(m, 1)),
        System::Inch => {
            let yards = m / 0.9144;
            let yards = if yards > 10.0 {
                (yards / 5.0).round() * 5.0
            } else {
                yards.round()
            };
            format!("{} yd", trim_number(yards, 0))
        }
    }
}

/// Groups of a stage where the bow stands now, with these arrows.
fn here(timeline: &Timeline, stage: Stage) -> impl Iterator<Item = &GroupAt> {
    timeline.groups.iter().filter(move |g| {
        g.proof == stage.id()
            && g.arrow_epoch == timeline.arrow_epoch
            && g.positions == timeline.now
    })
}

fn arrows(timeline: &Timeline, stage: Stage, what: &str, distance: &str) -> usize {
    let Ok(wanted) = Length::parse(distance) else {
        return 0;
    };
    here(timeline, stage)
        .filter(|g| g.what == what)
        .filter(|g| {
            g.distance
                .is_some_and(|d| (d.mm() - wanted.mm()).abs() < 300.0)
        })
        .map(|g| g.impacts.len())
        .sum()
}

/// The first distance at which something is still to be shot.
fn next_distance(app: &App, stage: Stage) -> String {
    let timeline = app.timeline();
    let all: Vec<String> = sequence(stage, timeline)
        .into_iter()
        .map(|m| paced(m, app.system))
        .collect();
    let open = |d: &&String| {
        let whats = stage.whats().iter();
        whats
            .into_iter()
            .any(|w| arrows(timeline, stage, w, d) == 0)
    };
    all.iter()
        .find(open)
        .or(all.last())
        .cloned()
        .unwrap_or_default()
}

impl StageScreen {
    /// One stage, at the distance that comes next.
    pub fn new(stage: Stage, app: &App) -> Self {
        let mut screen = Self {
            stage,
            at: 0,
            scroll: 0,
            distance: next_distance(app, stage),
        };
        screen.go_to_open(app);
        screen
    }

    /// The cursor on the first kind of arrow that is not shot at this distance.
    fn go_to_open(&mut self, app: &App) {
        let mut whats = self.stage.whats().iter();
        let open = |w: &&'static str| arrows(app.timeline(), self.stage, w, &self.distance) == 0;
        self.at = whats.position(open).unwrap_or(0);
    }

    fn verdict(&self, app: &App) -> Verdict {
        proof::assess(app.timeline(), &app.analysis, self.stage, app.system)
    }

    fn lines(&self, app: &App) -> Vec<Line> {
        let mut all: Vec<Line> = self.stage.whats().iter().map(|w| Line::Group(w)).collect();
        match self.stage {
            Stage::Levels => all.extend([Line::Level(true), Line::Level(false)]),
            _ => all.push(Line::Distance),
        }
        let verdict = self.verdict(app);
        if verdict.suggestion.is_some() {
            all.push(Line::Move);
        }
        if verdict.put_back.is_some_and(|b| !b.steps.is_empty()) {
            all.push(Line::PutBack);
        }
        all.push(Line::LeaveOut);
        all
    }

    fn line(&self, app: &App) -> Option<Line> {
        self.lines(app).get(self.at).copied()
    }

    fn words(&self, line: Line, app: &App) -> String {
        match line {
            Line::Group(what) => {
                let shot = arrows(app.timeline(), self.stage, what, &self.distance);
                let so_far = match shot {
                    0 => "type where they hit".to_owned(),
                    n => format!("{} recorded; more", words::count(n, "arrow")),
                };
                format!("{what} at {}: {so_far}", self.distance)
            }
            Line::Distance => format!("distance: {} (Enter changes it)", self.distance),
            Line::Level(true) => "level: bow, arrow and sight".into(),
            Line::Level(false) => "not level".into(),
            Line::Move => "take the suggested move to the bench".into(),
            Line::PutBack => "take the put-back to the bench".into(),
            Line::LeaveOut => "leave this stage out".into(),
        }
    }

    fn ask(&self, app: &mut App, text: &str) {
        match self.line(app) {
            Some(Line::Group(what)) => {
                let label = format!("{what} at {}", self.distance);
                app.prompt = Some(Prompt::with(Purpose::Impacts, label, text));
            }
            Some(Line::Distance) => {
                app.prompt = Some(if text.is_empty() {
                    Prompt::over(Purpose::Screen, "Distance", &self.distance)
                } else {
                    Prompt::with(Purpose::Screen, "Distance", text)
                });
            }
            _ => {}
        }
    }

    fn choose(&mut self, app: &mut App) -> Result<Flow, String> {
        let (stage, verdict) = (self.stage, self.verdict(app));
        match self.line(app) {
            Some(Line::Group(_) | Line::Distance) => self.ask(app, ""),
            Some(Line::Level(ok)) => {
                app.record(levels(ok))?;
                app.say(if ok {
                    "levels: ok"
                } else {
                    "levels: OFF. Level it first"
                });
                return Ok(Flow::Close);
            }
            Some(Line::Move) => {
                let Some(found) = verdict.suggestion else {
                    return Ok(Flow::Stay);
                };
                return to_the_bench(app, vec![found.step], vec![found.bench]);
            }
            Some(Line::PutBack) => {
                let Some(back) = verdict.put_back else {
                    return Ok(Flow::Stay);
                };
                return to_the_bench(app, back.moves(), back.lines());
            }
            Some(Line::LeaveOut) => {
                app.record(proof::skip(stage))?;
                app.say(format!("{}: left out, on the record", stage.title()));
                return Ok(Flow::Close);
            }
            None => {}
        }
        Ok(Flow::Stay)
    }

    fn about_stage(&self, app: &App, width: u16) -> Vec<Row> {
        let how = self.stage.instructions(&app.timeline().card);
        let mut rows: Vec<Row> = Vec::new();
        if let Some(text) = first(app) {
            rows.extend(flow(&[(&text, Role::Warn)], width, 0));
        }
        let mut verdict = self.verdict(app);
        // Not shot yet, its text is how it is shot: that stands below.
        if verdict.text == how.how {
            verdict.text = "nothing shot here yet".into();
        }
        rows.extend(about_verdict(&verdict, width));
        for (name, text, role) in [
            ("How: ", how.how.as_str(), Role::Text),
            ("Safety: ", how.safety, Role::Warn),
            ("Exclude first: ", how.confound, Role::Text),
            ("Standing: ", how.standing, Role::Faint),
        ] {
            rows.extend(flow(&[(name, Role::Strong), (text, role)], width, 2));
        }
        rows
    }
}

impl Screen for StageScreen {
    fn scope(&self) -> Scope {
        match self.stage {
            Stage::Levels => Scope::Job,
            // Shot, not answered.
            _ => Scope::Choice,
        }
    }
    fn title(&self, _app: &App) -> String {
        format!("After paper: {}", self.stage.title())
    }
    fn about(&self) -> &'static str {
        "One stage of proof. Type where each arrow hit, seen from the shooting line, from the spot aimed at: 3 left 2 high; 1 right; spot. Numbers are centimetres, or inches when the screen is in inches. Arrow keys write the sides. Left and right scroll the text."
    }
    fn act(&mut self, action: Action, app: &mut App) -> Flow {
        match action {
            Action::Choose => {
                return self.choose(app).unwrap_or_else(|problem| {
                    app.complain(problem);
                    Flow::Stay
                });
            }
            Action::Left => self.scroll = self.scroll.saturating_sub(1),
            Action::Right => self.scroll = (self.scroll + 1).min(100),
            Action::LeaveOut | Action::InOrder | Action::NotInOrder => {
                let wanted = match action {
                    Action::LeaveOut => Line::LeaveOut,
                    other => Line::Level(other == Action::InOrder),
                };
                if let Some(at) = self.lines(app).iter().position(|l| *l == wanted) {
                    self.at = at;
                    return self.act(Action::Choose, app);
                }
            }
            _ => {
                self.at = chosen(self.at, self.lines(app).len(), action);
                self.scroll = 0;
            }
        }
        Flow::Stay
    }
    fn digit(&mut self, digit: char, app: &mut App) -> Flow {
        self.ask(app, &digit.to_string());
        Flow::Stay
    }
    fn echo(&self, text: &str, app: &App) -> Echo {
        let unit = FaceUnit::of(app.system);
        let wrong = |text: String| Echo::Wrong {
            at: 0,
            len: 0,
            text,
        };
        if self.line(app) == Some(Line::Distance) {
            return match Length::parse(text) {
                _ if text.trim().is_empty() => Echo::Hint("18 m, 20 yd".into()),
                Ok(length) => Echo::Reads(format!("{} m", trim_number(length.m(), 1))),
                Err(problem) => wrong(problem.to_string()),
            };
        }
        if text.trim().is_empty() {
            return Echo::Hint(format!(
                "3 left 2 high; 1 right; spot, in {}; one after another with ;",
                unit.unit()
            ));
        }
        match read_impacts(text, unit) {
            Ok(found) => {
                let all: Vec<String> = found.iter().map(|i| impact_words(*i, unit)).collect();
                Echo::Reads(all.join("; "))
            }
            Err(problem) => {
                let lower = text.to_lowercase();
                let at = lower.find(&problem.word.to_lowercase()).unwrap_or(0);
                Echo::Wrong {
                    at: lower[..at].chars().count(),
                    len: problem.word.chars().count(),
                    text: format!("'{}': {}", problem.word, problem.problem),
                }
            }
        }
    }
    fn answer(&mut self, text: &str, app: &mut App) -> Result<Flow, String> {
        if text.trim().is_empty() {
            return Ok(Flow::Stay);
        }
        match self.line(app) {
            Some(Line::Distance) => {
                Length::parse(text).map_err(|e| e.to_string())?;
                self.distance = text.trim().to_owned();
                self.go_to_open(app);
            }
            Some(Line::Group(what)) => {
                let unit = FaceUnit::of(app.system);
                let event = proof::record_group(self.stage, what, &self.distance, text, unit)?;
                app.record(event)?;
                let verdict = self.verdict(app);
                app.say(format!(
                    "recorded: {what} at {}. {}: {}",
                    self.distance,
                    self.stage.title(),
                    verdict.status.word()
                ));
                self.scroll = 0;
                self.go_on(app);
            }
            _ => {}
        }
        Ok(Flow::Stay)
    }
    fn draw(&self, app: &App, paint: &mut Paint<'_>, area: Rect) {
        let rows: Vec<_> = self
            .lines(app)
            .into_iter()
            .enumerate()
            .flat_map(|(i, line)| {
                list::wrapped(&self.words(line, app), Role::Text, i, area.width, 2)
            })
            .collect();
        let text = self.about_stage(app, area.width);
        list::with_text(paint, area, &rows, self.at, &text, self.scroll);
    }
}

impl StageScreen {
    /// The move that is suggested, the next kind of arrow at this distance, or
    /// the next distance.
    fn go_on(&mut self, app: &App) {
        // Off this close, nothing is gained by stepping back.
        if self.verdict(app).status == Status::Off {
            let remedy = |l: &Line| matches!(l, Line::Move | Line::PutBack);
            self.at = self.lines(app).iter().position(remedy).unwrap_or(self.at);
            return;
        }
        let timeline = app.timeline();
        let whats = self.stage.whats();
        let all_shot = whats
            .iter()
            .all(|w| arrows(timeline, self.stage, w, &self.distance) > 0);
        if all_shot {
            self.distance = next_distance(app, self.stage);
        }
        self.go_to_open(app);
    }
}
