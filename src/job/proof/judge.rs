//! The verdict of one stage, from its groups.

use super::compare::Difference;
use super::found::Found;
use super::stage::Stage;
use super::suggest::{NoMove, Suggestion};
use crate::advice::Analysis;
use crate::gear::{AdjusterKind, Positions};
use crate::question::{Answer, Question, SetupItem};
use crate::restore::PutBack;
use crate::session::{GroupAt, Timeline};
use crate::setup;
use crate::step::State;
use crate::units::Length;

/// Odds at which a stage is called passed, or off.
pub(super) const SURE: f64 = 0.8;

/// The verdict of one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct StageVerdict {
    /// Which stage.
    pub stage: Stage,
    /// How it stands.
    pub status: State,
    /// Why, with its figures.
    pub found: Found,
    /// Shots of each kind that may tell: a forecast.
    pub shots_wanted: u32,
    /// The move that would put it right, or why there is none; `None` where
    /// nothing is to be put right.
    pub correction: Option<Result<Suggestion, NoMove>>,
    /// Putting back to the better setting.
    pub put_back: Option<PutBack>,
}

/// How many more arrows may tell: a forecast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct More {
    /// So many.
    pub(crate) arrows: u32,
    /// Of each of two kinds.
    pub(crate) of_each: bool,
    /// It may take more than that: beyond it nothing is forecast.
    pub(crate) at_least: bool,
}

impl StageVerdict {
    pub(super) const fn new(stage: Stage, status: State, found: Found) -> Self {
        Self {
            stage,
            status,
            found,
            shots_wanted: 0,
            correction: None,
            put_back: None,
        }
    }

    /// The move it suggests.
    pub fn suggestion(&self) -> Option<&Suggestion> {
        self.correction.as_ref()?.as_ref().ok()
    }

    /// Distance judged at; of a line the farthest.
    pub fn distance(&self) -> Option<Length> {
        match &self.found {
            Found::Pair(found) => Some(found.distance),
            Found::Along(found) => Some(found.distance),
            Found::Line(found) => Some(Length::from_m(found.drift.span.1)),
            Found::OneSetting { distance, .. } | Found::TwoSettings { distance, .. } => {
                Some(*distance)
            }
            Found::Aim(found) => Some(found.distance),
            _ => None,
        }
    }

    /// How far apart the groups land, where two are compared.
    pub(crate) const fn difference(&self) -> Option<Difference> {
        match &self.found {
            Found::Pair(found) => Some(found.difference),
            Found::Along(found) => Some(found.difference),
            _ => None,
        }
    }

    /// Limit, mm, where there is one.
    pub const fn limit_mm(&self) -> Option<f64> {
        match &self.found {
            Found::Pair(found) => Some(found.limit),
            Found::Along(found) => Some(found.limit),
            Found::Line(found) => Some(found.limit),
            Found::Aim(found) => Some(found.limit),
            _ => None,
        }
    }

    /// Chance of being within the limit; of two settings, that here is the
    /// narrower.
    pub fn odds(&self) -> Option<f64> {
        match &self.found {
            Found::Pair(found) => Some(found.odds),
            Found::Along(found) => Some(found.odds),
            Found::Line(found) => Some(found.odds()),
            Found::TwoSettings { odds, .. } => Some(*odds),
            Found::Aim(found) => found.odds,
            _ => None,
        }
    }

    /// How many more arrows may tell, where more are wanted and a figure
    /// stands that they could settle.
    pub(crate) fn more_wanted(&self) -> Option<More> {
        // Groups say it themselves, and one kind alone has no figure yet.
        let has_figure = self.odds().is_some() && self.stage != Stage::Groups;
        let wanted = self.status == State::ShootMore && self.shots_wanted > 0;
        (wanted && has_figure).then_some(More {
            arrows: self.shots_wanted,
            of_each: self.stage.whats().len() > 1,
            at_least: self.shots_wanted >= super::found::MOST_MORE,
        })
    }
}

/// Assesses one stage by what was recorded at the setting the bow is in.
pub fn assess(timeline: &Timeline, analysis: &Analysis, stage: Stage) -> StageVerdict {
    if left_out(timeline, stage) {
        return StageVerdict::new(stage, State::Skipped, Found::LeftOut);
    }
    if let Some(found) = super::before::shot(timeline, stage) {
        return found;
    }
    let ctx = Context {
        timeline,
        analysis,
        stage,
    };
    match stage {
        Stage::Levels => levels(timeline),
        Stage::BareShaft | Stage::Broadhead => ctx.pair(),
        Stage::Creep | Stage::Torque => ctx.along(),
        Stage::WalkBack | Stage::NearFar => ctx.line(),
        Stage::Groups => ctx.groups(),
        Stage::RoughSight | Stage::FinalSight => ctx.aim(),
    }
}

/// Whether it was left out knowingly, and not shot all the same since. Levels
/// are an item of the list before paper, and stand as they stand there.
fn left_out(timeline: &Timeline, stage: Stage) -> bool {
    let skipped = timeline.answer(Question::Stage(stage));
    let skipped = skipped.filter(|a| a.result == Answer::Skipped && stage != Stage::Levels);
    skipped.is_some_and(|skipped| {
        let mut groups = timeline.groups.iter();
        !groups.any(|g| g.proof == stage && g.entry > skipped.entry)
    })
}

fn levels(timeline: &Timeline) -> StageVerdict {
    let listed = setup::checklist(timeline)
        .into_iter()
        .find(|s| s.item.id == SetupItem::Levels);
    let state = listed.map_or(State::Open, |s| s.state);
    // Due again they are to do, as far as proof goes.
    let status = match state {
        State::Again(_) => State::Open,
        state => state,
    };
    StageVerdict::new(Stage::Levels, status, Found::Levels(state))
}

pub(super) struct Context<'a> {
    pub(super) timeline: &'a Timeline,
    pub(super) analysis: &'a Analysis,
    pub(super) stage: Stage,
}

impl<'a> Context<'a> {
    /// Groups of this stage with these arrows, since the last work on the bow.
    pub(super) fn all(&self) -> impl Iterator<Item = &'a GroupAt> {
        let (stage, epoch) = (self.stage, self.timeline.arrow_epoch);
        // Work that is no move of an adjuster leaves the places as they were.
        let since = setup::bow_changed(self.timeline);
        self.timeline.groups.iter().filter(move |g| {
            g.proof == stage && g.arrow_epoch == epoch && g.entry > since && !g.impacts.is_empty()
        })
    }

    /// Groups at these places of all adjusters.
    pub(super) fn at(&self, positions: Positions) -> Vec<&'a GroupAt> {
        self.all().filter(|g| g.positions == positions).collect()
    }

    pub(super) fn open(&self) -> StageVerdict {
        StageVerdict::new(self.stage, State::Open, Found::NotShot)
    }

    pub(super) fn levels_first(&self) -> Option<StageVerdict> {
        (levels(self.timeline).status != State::Ok)
            .then(|| StageVerdict::new(self.stage, State::LevelsFirst, Found::LevelsFirst))
    }

    /// Places of an adjuster at which this stage was shot with everything else
    /// as it is now.
    pub(super) fn others(&self, kind: AdjusterKind) -> Vec<(f64, Positions)> {
        let mut found: Vec<(f64, Positions)> = Vec::new();
        for group in self.all() {
            let mut alike = group.positions;
            alike.set(kind, self.timeline.now.get(kind));
            let new = found.iter().all(|(_, p)| *p != group.positions);
            if alike == self.timeline.now && group.positions != self.timeline.now && new {
                found.push((group.positions.get(kind), group.positions));
            }
        }
        found
    }
}

/// Off needs both: unlikely to be inside, and a difference that is real. Wide
/// groups make the first true by themselves.
pub(super) fn status_of(odds: f64, real: bool) -> State {
    if odds >= SURE {
        State::Ok
    } else if odds <= 1.0 - SURE && real {
        State::Off
    } else {
        State::ShootMore
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::group;
    use super::*;
    use crate::advice;
    use crate::range::Today;
    use crate::session::Event;
    use crate::session::told::moved;
    use crate::setup::tests::{COMPOUND, timeline};

    #[test]
    fn passed_and_off_begin_at_four_times_in_five() {
        for (odds, real, status) in [
            (0.8, true, State::Ok),
            (0.8, false, State::Ok),
            (0.799, true, State::ShootMore),
            (0.201, true, State::ShootMore),
            (0.2 - 1e-9, true, State::Off),
            (0.0, true, State::Off),
            // Wide groups alone are no fault of the bow.
            (0.0, false, State::ShootMore),
        ] {
            assert_eq!(status_of(odds, real), status, "{odds} {real}");
        }
    }

    fn answer(test: &str, result: &str) -> Event {
        Event::answer(test, result)
    }

    fn shot(stage: Stage, what: &str) -> Event {
        group(
            stage.id(),
            what,
            "18 m",
            &[(0.0, 0.0), (1.0, 2.0), (2.0, 0.0)],
        )
    }

    fn status(events: Vec<Event>, stage: Stage) -> State {
        let t = timeline(COMPOUND, events);
        let analysis = advice::analyse(&t, Today::now());
        assess(&t, &analysis, stage).status
    }

    #[test]
    fn what_was_left_out_comes_back_once_it_is_shot_or_answered() {
        let skip = |stage: Stage| answer(&format!("proof-{}", stage.id()), "skipped");
        let (bare, broad) = (Stage::BareShaft, Stage::Broadhead);
        assert_eq!(status(vec![skip(bare)], bare), State::Skipped);
        assert_eq!(status(vec![skip(broad)], bare), State::Open);
        // Shot before it was left out: it stays out. Shot since: it is back.
        assert_eq!(
            status(vec![shot(bare, "bare"), skip(bare)], bare),
            State::Skipped
        );
        assert_ne!(
            status(vec![skip(bare), shot(bare, "bare")], bare),
            State::Skipped
        );
        assert_eq!(
            status(vec![skip(bare), shot(broad, "broadhead")], bare),
            State::Skipped
        );
        // Levels are answered, not shot; no other stage comes back with them.
        let levels = || answer("levels", "ok");
        assert_eq!(
            status(vec![levels(), skip(Stage::Levels)], Stage::Levels),
            State::Skipped
        );
        assert_eq!(
            status(vec![skip(Stage::Levels), levels()], Stage::Levels),
            State::Ok
        );
        assert_eq!(status(vec![skip(bare), levels()], bare), State::Skipped);
        assert_eq!(
            status(vec![answer("levels", "off")], Stage::Levels),
            State::Off
        );
        // Without an answer the set-up list's own word counts.
        let listed = |item: &str, result: &str| Event::Setup {
            item: item.into(),
            value: None,
            result: result.into(),
        };
        for (item, result, stands) in [
            ("levels", "ok", State::Ok),
            ("levels", "off", State::Off),
            ("nock-fit", "ok", State::Open),
        ] {
            let found = status(vec![listed(item, result)], Stage::Levels);
            assert_eq!(found, stands, "{item} {result}");
        }
    }

    #[test]
    fn places_of_one_adjuster_are_those_where_all_else_stood_as_now() {
        use AdjusterKind::{RestHeight, RestSideways};
        let bare = Stage::BareShaft;
        let events = vec![
            shot(bare, "bare"),
            moved(RestSideways, -1.0),
            shot(bare, "bare"),
            shot(bare, "fletched"),
            moved(RestHeight, 0.5),
            shot(bare, "bare"),
            moved(RestSideways, 0.5),
            shot(bare, "bare"),
            shot(Stage::Broadhead, "broadhead"),
        ];
        let t = timeline(COMPOUND, events);
        let analysis = advice::analyse(&t, Today::now());
        let context = Context {
            timeline: &t,
            analysis: &analysis,
            stage: bare,
        };
        let places = |kind| -> Vec<f64> {
            context
                .others(kind)
                .iter()
                .map(|(place, _)| *place)
                .collect()
        };
        // Now at -0.5 left and 0.5 up: at this height it also stood at -1.
        assert_eq!(places(RestSideways), [-1.0]);
        // Sideways it never stood at -0.5 before the height was moved.
        assert_eq!(places(RestHeight), [0.0; 0]);
        assert_eq!((context.all().count(), context.at(t.now).len()), (5, 1));
    }

    /// A forecast is said where more are wanted and a figure stands: of each
    /// kind where two are compared, and never for groups, which say it.
    #[test]
    fn a_forecast_is_said_only_where_it_is_one() {
        let of = |stage, status, odds: Option<f64>, shots_wanted| {
            let found = odds.map_or(Found::NotShot, |odds| Found::TwoSettings {
                distance: Length::from_m(18.0),
                here: 1.0,
                there: 1.0,
                setting: 1,
                odds,
            });
            let mut verdict = StageVerdict::new(stage, status, found);
            verdict.shots_wanted = shots_wanted;
            verdict.more_wanted()
        };
        let more = |arrows, of_each, at_least| {
            Some(More {
                arrows,
                of_each,
                at_least,
            })
        };
        let open = State::ShootMore;
        let some = Some(0.5);
        assert_eq!(of(Stage::BareShaft, open, some, 3), more(3, true, false));
        assert_eq!(of(Stage::FinalSight, open, some, 3), more(3, false, false));
        assert_eq!(of(Stage::Groups, open, some, 6), None);
        assert_eq!(of(Stage::BareShaft, open, None, 3), None);
        assert_eq!(of(Stage::BareShaft, open, some, 0), None);
        assert_eq!(of(Stage::BareShaft, State::Off, Some(0.1), 3), None);
        // At the most that is forecast it may take more still.
        assert_eq!(of(Stage::BareShaft, open, some, 12), more(12, true, true));
        assert_eq!(of(Stage::BareShaft, open, some, 11), more(11, true, false));
    }
}
