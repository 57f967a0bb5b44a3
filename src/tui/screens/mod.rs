//! One file a screen, and the one place where a screen is made from its name.
//! A new screen is a file here, a name, an arm below and a row in the table of
//! actions.

pub(crate) mod answers;
pub(crate) mod bench;
pub(crate) mod book;
pub(crate) mod card;
pub(crate) mod distances;
pub(crate) mod go_on;
pub(crate) mod guess;
pub(crate) mod help;
pub(crate) mod incident;
pub mod inspection;
pub(crate) mod letters;
pub(crate) mod log;
pub(crate) mod look;
pub(crate) mod more;
pub(crate) mod next_shots;
pub(crate) mod page;
pub(crate) mod pair;
pub(crate) mod practice;
pub mod proof;
pub mod range;
pub(crate) mod remedy;
pub mod restore;
pub(crate) mod reveal;
pub mod setup;
pub(crate) mod sheet;
pub(crate) mod spine;
pub(crate) mod taught;

use crate::tui::model::Model;
use crate::tui::names::Name;
use crate::tui::screen::Screen;

/// The screen of a name, where there is something to show on it.
pub(crate) fn make(name: Name, model: &Model) -> Option<Box<dyn Screen>> {
    Some(match name {
        Name::Card => Box::new(card::CardScreen::of(model)),
        Name::NewCard(path) => Box::new(card::CardScreen::fresh(path)),
        Name::More => Box::new(more::MoreScreen::default()),
        Name::Log => Box::new(log::LogScreen::of(model)),
        Name::Look => Box::new(look::LookScreen::default()),
        Name::Letters => Box::new(letters::LettersScreen),
        Name::Book => Box::new(book::BookScreen::of(model)),
        Name::Before => Box::new(setup::SetupScreen::of(model)),
        Name::Range => Box::new(range::RangeScreen::default()),
        Name::Proof => Box::new(proof::ProofScreen::of(model)),
        Name::Stage(stage) => Box::new(proof::stage::StageScreen::new(stage, model)),
        Name::PutBack => Box::new(restore::PutBackScreen::default()),
        Name::Sheet => Box::new(sheet::SheetScreen::default()),
        Name::Page(title, lines) => Box::new(page::Page::new(title, lines)),
        Name::NextShots => Box::new(next_shots::NextShotsScreen::default()),
        Name::Incident => Box::new(incident::IncidentScreen::default()),
        Name::Inspection => Box::new(inspection::InspectionScreen::of(model)),
        Name::Spine => Box::new(spine::SpineScreen::default()),
        Name::Distances => Box::new(distances::DistancesScreen::of(model)),
        Name::Practice => Box::new(practice::PracticeScreen::of(model)),
        Name::Guess => Box::new(guess::GuessScreen::of(model)),
        Name::Reveal(said) => {
            let bow = model.practice.as_ref()?;
            let reveal = bow.reveal(said, model.timeline());
            let counted = model.first_steps.is_none();
            let done = counted.then(|| model.practice_standing().0);
            let done = done.map(|all| *all.level(bow.level()));
            let done = done.filter(|level| level.rounds > 0);
            Box::new(reveal::RevealScreen::new(
                reveal,
                done.map(|d| crate::words::practice::counts(&d)),
            ))
        }
        Name::Bench => Box::new(bench::BenchScreen::default()),
        Name::Trouble(reason) => Box::new(remedy::RemedyScreen::new(reason)),
        Name::Answers => {
            let probe = model.analysis.advice.probe.clone()?;
            Box::new(answers::AnswersScreen::new(probe))
        }
        Name::Explained(part) => Box::new(help::HelpScreen::of(model, part)),
        Name::Taught => {
            let lessons = model.lessons(&model.look.folder, None);
            Box::new(taught::TaughtScreen::new(&lessons))
        }
        Name::GoOn => Box::new(go_on::GoOnScreen::of(model)?),
    })
}
