//! Screens by name: what opens one says which, and `screens` makes it.

use std::path::PathBuf;

use crate::actions::Action;
use crate::practice::Conclusion;
use crate::proof::Stage;
use crate::question::Refusal;

/// A screen over the panes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Name {
    /// The card of the open session.
    Card,
    /// The card of a session that is to be made at this place.
    NewCard(PathBuf),
    /// The list of further actions.
    More,
    /// Every entry.
    Log,
    /// Every look side by side.
    Look,
    /// The verdict in block letters.
    Letters,
    /// The bench book.
    Book,
    /// The list before paper.
    Before,
    /// The range safety list.
    Range,
    /// The stages after paper.
    Proof,
    /// One stage after paper.
    Stage(Stage),
    /// Where the bow can be put back to.
    PutBack,
    /// The sheet: read it, write it, close the job.
    Sheet,
    /// Lines to read under a title.
    Page(String, Vec<String>),
    /// What the next shots are recorded with.
    NextShots,
    /// What happened to the bow.
    Incident,
    /// The inspection after an incident.
    Inspection,
    /// The arrow as a column.
    Spine,
    /// The same arrow at other distances.
    Distances,
    /// A virtual bow's tests, cures and end.
    Practice,
    /// What the player would do, before the advice is shown.
    Guess,
    /// What was wrong with the virtual bow, after this answer.
    Reveal(Conclusion),
    /// The pending move at the bench.
    Bench,
    /// The path after a refusal.
    Trouble(Refusal),
    /// The answers of the test that is asked.
    Answers,
    /// The verdict, the checks or the keys explained.
    Explained(HelpPart),
    /// What the folder's sessions taught.
    Taught,
    /// Sessions that can be gone on with.
    GoOn,
}

impl Name {
    /// The screen an action opens.
    pub(crate) const fn opened_by(action: Action) -> Option<Self> {
        Some(match action {
            Action::Card => Self::Card,
            Action::More => Self::More,
            Action::Log => Self::Log,
            Action::LookPage => Self::Look,
            Action::Letters => Self::Letters,
            Action::Files => Self::Book,
            Action::Before => Self::Before,
            Action::Range => Self::Range,
            Action::Proof => Self::Proof,
            Action::PutBack => Self::PutBack,
            Action::Sheet => Self::Sheet,
            Action::NextShots => Self::NextShots,
            Action::Incident => Self::Incident,
            Action::Spine => Self::Spine,
            Action::Distances => Self::Distances,
            Action::Practice => Self::Practice,
            _ => return None,
        })
    }
}

/// One part of the page that explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum HelpPart {
    /// How the verdict was reached.
    Why,
    /// The four checks.
    Checks,
    /// What is on the screen now, and the keys.
    Keys,
}

impl HelpPart {
    /// The three, in their order on the page.
    pub(crate) const ALL: [Self; 3] = [Self::Why, Self::Checks, Self::Keys];

    /// The part an action opens the page at.
    pub const fn of(action: Action) -> Self {
        match action {
            Action::Why => Self::Why,
            Action::Checks => Self::Checks,
            _ => Self::Keys,
        }
    }

    /// The title of the page at this part.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Why => "Why",
            Self::Checks => "Checks",
            Self::Keys => "Help",
        }
    }
}
