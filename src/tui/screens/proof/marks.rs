//! A group of proof marked on its face, mark by mark.

use ratatui::layout::Rect;

use crate::actions::Action;
use crate::proof::{self, FaceUnit, GroupKind, Stage};
use crate::session::Impact;
use crate::tui::draw::paint::Paint;
use crate::tui::effects::{Effect, complain, say};
use crate::tui::model::Model;
use crate::tui::screens::proof::face::{Behind, Face};
use crate::tui::screens::proof::stage::{Line, StageScreen};
use crate::units::Length;
use crate::words::pages::proof as page;
use crate::words::proof as said;

impl StageScreen {
    /// The face for the group the cursor is on, else for the next one.
    pub(crate) fn open_face(&mut self, model: &Model) {
        if !matches!(self.line(model), Some(Line::Group(_))) {
            self.go_to_open(model);
        }
        self.face = Some(Face::default());
    }

    pub(crate) fn act_on_face(&mut self, action: Action, model: &Model) -> Vec<Effect> {
        let (line, unit) = (self.line(model), FaceUnit::of(model.system));
        let (Some(face), Some(Line::Group(what))) = (&mut self.face, line) else {
            self.face = None;
            return Vec::new();
        };
        match action {
            Action::Left | Action::Right | Action::Up | Action::Down => face.go(action, unit),
            Action::HitHere => {
                let at = face.at();
                return match face.hit() {
                    Ok(n) => say(format!("{n}: {}", said::impact(at, unit))),
                    Err(problem) => complain(problem),
                };
            }
            Action::TakeBack => {
                return face.take_back().map_or_else(
                    || say(page::NO_MARK),
                    |was| say(format!("taken back: {}", said::impact(was, unit))),
                );
            }
            Action::KeepGroup => {
                let marks = face.marks().to_vec();
                return match proof::record_marks(self.stage, what, &self.distance, marks) {
                    Ok(event) => self.keep(what, event),
                    Err(problem) => complain(problem.to_string()),
                };
            }
            Action::Back if face.may_leave() => self.face = None,
            Action::Back => {
                let (keep, back) = (model.key(Action::KeepGroup), model.key(Action::Back));
                return say(page::marks_stay(face.marks().len(), &keep, &back));
            }
            _ => {}
        }
        Vec::new()
    }

    pub(crate) fn draw_face(
        &self,
        face: &Face,
        what: GroupKind,
        model: &Model,
        paint: &mut Paint<'_>,
        area: Rect,
    ) {
        let timeline = model.timeline();
        let recorded: Vec<(GroupKind, Vec<Impact>)> = self
            .stage
            .whats()
            .iter()
            .map(|w| (*w, proof::hits(timeline, self.stage, *w, &self.distance)))
            .collect();
        let metres = Length::parse(&self.distance).map_or(18.0, Length::m);
        let limit = self.stage.tolerance_mm(&timeline.card, metres);
        // Round the spot where the sight is judged, round the others where two kinds are.
        let others = recorded.iter().find(|(w, _)| *w != what);
        let centre = match (self.stage, others) {
            (Stage::RoughSight | Stage::FinalSight, _) => Some((0.0, 0.0)),
            (_, Some((_, hits))) => proof::spot(hits).map(|s| (s.right, s.up)),
            _ => None,
        };
        let behind = Behind {
            title: &self.named(what),
            ring: centre.map(|(right, up)| (Impact { right, up }, limit)),
            recorded: &recorded,
        };
        face.draw(paint, area, model.system, &behind);
    }
}
