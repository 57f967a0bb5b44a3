//! The one place where a screen is made from its name. A new screen is a file
//! under `view/`, a name, an arm here and a row in the table of actions.

use super::model::Model;
use super::names::Name;
use super::screen::Screen;
use super::view;

/// The screen of a name, where there is something to show on it.
pub fn make(name: Name, model: &Model) -> Option<Box<dyn Screen>> {
    Some(match name {
        Name::Card => Box::new(view::card::CardScreen::of(model)),
        Name::NewCard(path) => Box::new(view::card::CardScreen::fresh(path)),
        Name::More => Box::new(view::more::MoreScreen::default()),
        Name::Log => Box::new(view::log::LogScreen::of(model)),
        Name::Look => Box::new(view::look_page::LookScreen::default()),
        Name::Letters => Box::new(view::letters::LettersScreen),
        Name::Book => Box::new(view::book::BookScreen::of(model)),
        Name::Before => Box::new(view::setup::SetupScreen::of(model)),
        Name::Range => Box::new(view::range::RangeScreen::default()),
        Name::Proof => Box::new(view::proof::ProofScreen::of(model)),
        Name::Stage(stage) => Box::new(view::proof_stage::StageScreen::new(stage, model)),
        Name::PutBack => Box::new(view::restore::PutBackScreen::default()),
        Name::Sheet => Box::new(view::report::SheetScreen::default()),
        Name::Page(title, lines) => Box::new(view::report_page::Page::new(title, lines)),
        Name::NextShots => Box::new(view::next_shots::NextShotsScreen::default()),
        Name::Incident => Box::new(view::incident::IncidentScreen::default()),
        Name::Inspection => Box::new(view::inspection::InspectionScreen::of(model)),
        Name::Spine => Box::new(view::spine::SpineScreen::default()),
        Name::Distances => Box::new(view::distances::DistancesScreen::of(model)),
        Name::Practice => Box::new(view::practice::PracticeScreen::of(model)),
        Name::Guess => Box::new(view::guess::GuessScreen::of(model)),
        Name::Reveal(said) => {
            let bow = model.practice.as_ref()?;
            let reveal = bow.reveal(said, model.timeline());
            let counted = model.first_steps.is_none();
            let done = counted.then(|| model.practice_standing().0);
            let done = done.map(|all| *all.level(bow.level()));
            let done = done.filter(|level| level.rounds > 0);
            Box::new(view::reveal::RevealScreen::new(
                reveal,
                done.map(|d| d.words()),
            ))
        }
        Name::Bench => Box::new(view::bench::BenchScreen::default()),
        Name::Trouble(reason) => Box::new(view::remedy::RemedyScreen::new(reason)),
        Name::Answers => {
            let probe = model.analysis.advice.probe.clone()?;
            Box::new(view::answers::AnswersScreen::new(probe))
        }
        Name::Explained(part) => Box::new(view::help::HelpScreen::of(model, part)),
        Name::Taught => {
            let lessons = model.lessons(&model.look.folder, None);
            Box::new(view::taught::TaughtScreen::new(&lessons))
        }
        Name::GoOn => Box::new(view::go_on::GoOnScreen::of(model)?),
    })
}
