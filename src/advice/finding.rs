//! What the advice rests on: findings with their figures, no sentences.
//!
//! Each has a stable code for scripts; what it says stands in
//! [`crate::words`].

use crate::belief::Powder;
use crate::checks::consistency::Repeats;
use crate::checks::next_steps::NextSteps;
use crate::checks::response::{Known, LONG, Obstacle, Reversal};
use crate::checks::safety::{Danger, Waiting};
use crate::checks::spine::SpineReport;
use crate::checks::{Figure, Unit};
use crate::gear::{AdjusterKind, RestKind, Unconfirmed};
use crate::question::{Code, Note, Refusal};
use crate::range::Due;
use crate::session::Shooter;
use crate::tear::Tear;

/// One finding behind the verdict.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// The range safety list comes before the shot.
    RangeListOpen(Due),
    /// Something forbids the next shot.
    Danger(Danger),
    /// The arrow is too weak or too stiff, or nearly so.
    Spine(SpineReport),
    /// The bow was not weighed, and a label may be out.
    WeighBow,
    /// There are only these arrows to hand.
    OnlyThese,
    /// Repeat shots do not agree.
    Scatter(Repeats),
    /// The shots must repeat before anything is moved.
    RepeatFirst(Repeats),
    /// A bent response, or shots that scatter: two more tell.
    BentOrScatter(Repeats),
    /// Something stands in the way of a move.
    Obstacle(Obstacle),
    /// What the trade does next after the refusal.
    NextSteps(NextSteps),
    /// Other arrows of the set tear as this one does.
    ArrowSame,
    /// Only the owner's own shots make it done.
    OwnerMustShoot,
    /// The chance of being within tolerance is what was asked for.
    Within(Chance),
    /// What "within tolerance" rests on.
    RestsOn(RestsOn),
    /// Proof has set this adjuster, and paper asks one question; the chance of
    /// being out of tolerance, 0 to 1.
    ProofMoved(f64),
    /// Contact could be behind this, and nobody has looked.
    ContactFirst(Behind),
    /// The tear is so long, mm, that arrow and basics are looked at as well.
    LongTear(f64),
    /// Nothing is known of the tear yet.
    NothingShot,
    /// It is not, or too few shots stand here.
    NotSureYet(Chance, Missing),
    /// A test move of an adjuster, and why it goes that way.
    TestMove(FirstMove),
    /// A test move to see what an adjuster does near here.
    Learn,
    /// A correction, by what this bow has shown.
    Correct(Known),
    /// A correction on the word of so many earlier bows.
    EarlierBows(u32, Known),
    /// Both axes could go in one move on the word of earlier bows, where
    /// nothing touches the arrow.
    PowderBeforeBoth,
    /// What a test move can tell.
    TestTells(Telling),
    /// Powder is asked for before the first sideways move.
    PowderFirst(Pad),
    /// The rear of the shaft slaps what it lies against.
    Slap(Pad),
    /// The bow hand is asked about before the first sideways move.
    HandFirst,
    /// The shots so far were not shot with a relaxed hand.
    HandNotRelaxed,
    /// Opening the hand changed the tear sideways, mm, from and to.
    HandChanged(f64, f64),
    /// Values that nobody entered or confirmed.
    NotConfirmed(Vec<Unconfirmed>),
    /// Something else that safety waits for.
    Waits(Waiting),
    /// The shaft's end stands behind the grip pivot at full draw, inches.
    Overdraw(f64),
    /// An adjuster acts against what was expected of it.
    Backwards(Backwards),
    /// The arrow with this mark is odd, two others against one.
    OddArrowOut(String),
    /// The arrow with this mark tears off from the others.
    OddArrow(OddArrow),
    /// Shots of these entries lie far from their neighbours.
    Fliers(Vec<u32>),
    /// So many shots without a rest, of so many.
    RestTheArcher(usize, usize),
    /// The tear creeps from shot to shot.
    Drift,
    /// A move was taken to the bench and is not confirmed.
    PendingMove,
    /// Every shot came from the arrow with this mark, and this was found.
    OneArrow(String, Obstacle),
    /// Ragged or smeared holes.
    Ragged,
    /// A vertical acts the wrong way round, and what is done about it.
    Reversed(AdjusterKind, Reversal, f64),
    /// So many lines of the card cannot be read.
    CardDamaged(usize),
    /// So many entries cannot be read or are not there.
    FileHasHoles(usize),
    /// So many entries changed since they were recorded.
    FileChanged(usize),
}

/// A chance of being within tolerance, against what is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// The chance now, 0 to 1.
    pub now: f64,
    /// What is asked for, 0 to 1.
    pub level: f64,
    /// The tolerance, mm.
    pub(crate) tolerance: f64,
}

/// What is missing before it is called done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// The chance.
    Chance,
    /// Shots at this setting: so many are wanted.
    Shots(usize),
    /// A second repeat: two shots may agree by luck.
    Repeat,
}

/// What "within tolerance" rests on, and what one more shot would change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RestsOn {
    /// Shots at this setting.
    pub here: usize,
    /// Shots at settings on the way.
    pub(crate) on_the_way: usize,
    /// How well the response is known.
    pub response: ResponseKnown,
    /// The chance after one more shot here that agrees, 0 to 1.
    pub(crate) one_more: f64,
}

/// How well the response of what was moved is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResponseKnown {
    /// Nothing was moved.
    NothingMoved,
    /// Its side is known.
    Known,
    /// It is not sure yet.
    Unsure,
}

/// What contact could be behind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Behind {
    /// Repeat shots that do not agree.
    Scatter,
    /// Tears that jump at every move.
    Jumps,
    /// A sideways response against what was expected of this bow.
    Reversed,
}

/// What a test move can tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Telling {
    /// What a usual response would change the tear by, mm.
    pub(crate) change: f64,
    /// Shots there that will show it.
    pub shots: u32,
    /// The chance that they do.
    pub(crate) power: f64,
    /// The chance that is aimed at.
    pub(crate) wanted: f64,
}

/// What the shaft lies against sideways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pad {
    /// A plunger.
    Plunger,
    /// A shelf's side plate.
    SidePlate,
    /// The rest itself.
    Rest,
}

impl Pad {
    /// What it is on a rest of this kind.
    pub const fn of(rest: RestKind) -> Self {
        match rest {
            RestKind::Plunger => Self::Plunger,
            RestKind::Shelf => Self::SidePlate,
            _ => Self::Rest,
        }
    }
}

/// Why a test move of an adjuster goes the way it goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstMove {
    /// Which adjuster.
    pub kind: AdjusterKind,
    /// Whether this bow was shot at two of its positions before, and has not
    /// shown for sure what it does.
    pub(crate) tried: bool,
    /// The ground for its way.
    pub(crate) ground: Ground,
}

/// The ground for the way of a first move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Ground {
    /// Up and down the guides agree.
    Vertical(ByHeight),
    /// With a release aid they contradict each other; what the arrow's load
    /// says of it, where it says anything.
    Aid(Option<ByLoad>),
    /// With fingers they agree.
    Fingers(ByGuides),
}

/// What the guides say of a tear up or down: the rest toward the tail, or the
/// nocking point away from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ByHeight {
    /// Whether the tail is low, or high.
    pub(crate) tail_low: bool,
    /// Why this move goes the other way, where it does.
    pub(crate) against: Option<Against>,
}

/// Why a test move goes the other way than the guides say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Against {
    /// The powder shows a slap, which turns the response round.
    Slap,
    /// The guides' way has no step left, by travel or by a limit of test moves.
    NoRoom,
    /// What this bow has shown so far leans the other way, not for sure.
    OwnMoves,
    /// So many earlier bows of the folder lean the other way, not for sure.
    EarlierBows(u32),
    /// The other way has the better chance by all the figures taken together.
    Likelier,
}

/// Which way a tear more likely goes, by the arrow's load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ByLoad {
    /// With the rest, or against it.
    pub(crate) with_rest: bool,
    /// How likely, 0 to 1.
    pub chance: f64,
    /// Bows drawn to compute it.
    pub(crate) drawn: u32,
}

/// What the guides for fingers say of a tear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ByGuides {
    /// Whether the tail is left, or right.
    pub(crate) tail_left: bool,
    /// What they do about it.
    pub(crate) way: GuideWay,
    /// What the powder showed.
    pub powder: Powder,
    /// Why this move goes the other way, where it does.
    pub(crate) against: Option<Against>,
    /// What the shaft lies against.
    pub(crate) pad: Pad,
}

/// What guides for fingers do about a sideways tear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum GuideWay {
    /// The plunger firmer.
    PlungerFirmer,
    /// The plunger softer.
    PlungerSofter,
    /// The rest in.
    RestIn,
    /// The rest out.
    RestOut,
}

/// An adjuster that acts against what was expected of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Backwards {
    /// What it does.
    pub(crate) known: Known,
    /// Whether its side was open, so that the tail simply goes with it.
    pub open: bool,
    /// How sure that is, 0 to 1.
    pub chance: f64,
}

/// An arrow that tears off from the others.
#[derive(Debug, Clone, PartialEq)]
pub struct OddArrow {
    /// Its mark.
    pub(crate) mark: String,
    /// How far off, mm.
    pub(crate) off: Tear,
    /// How sure that is, 0 to 1.
    pub chance: f64,
}

/// Chance at which an arrow is called odd.
pub(crate) const ODD_SURE: f64 = 0.9;
/// Chance from which an adjuster acts against what was expected of it.
pub(crate) const BACKWARDS: f64 = 0.9;

/// Chance of being outside from which paper moves what proof has set (this
/// project's own figure: four in five).
pub(crate) const OUTSIDE: f64 = 0.8;
/// Chance from which the other way round is acted on.
pub(super) const REVERSED: f64 = 0.9;

impl Finding {
    /// Its stable code.
    pub fn code(&self) -> Code {
        match self {
            Self::RangeListOpen(_) => Code::Note(Note::RangeListOpen),
            Self::Danger(danger) => Code::Refusal(danger.refusal()),
            Self::Spine(report) => match (report.refusal(), report.warning()) {
                (Some(refusal), _) => Code::Refusal(refusal),
                (None, Some(warning)) => Code::Note(warning),
                (None, None) => Code::Note(Note::Spine),
            },
            Self::WeighBow => Code::Note(Note::WeighBow),
            Self::OnlyThese => Code::Note(Note::OnlyThese),
            Self::Scatter(_) => Code::Refusal(Refusal::Scatter),
            Self::RepeatFirst(_) => Code::Note(Note::RepeatFirst),
            Self::BentOrScatter(_) => Code::Note(Note::BentOrScatter),
            Self::Obstacle(obstacle) => Code::Refusal(obstacle.refusal()),
            Self::NextSteps(_) => Code::Note(Note::NextSteps),
            Self::ArrowSame => Code::Note(Note::ArrowSame),
            Self::OwnerMustShoot => Code::Note(Note::OwnerMustShoot),
            Self::Within(_) => Code::Note(Note::Inside),
            Self::RestsOn(_) => Code::Note(Note::RestsOn),
            Self::ProofMoved(_) => Code::Note(Note::ProofMoved),
            Self::ContactFirst(_) => Code::Note(Note::ContactFirst),
            Self::LongTear(_) => Code::Note(Note::LongTear),
            Self::NothingShot => Code::Note(Note::NothingShot),
            Self::NotSureYet(..) => Code::Note(Note::NotSureYet),
            Self::TestMove(_) => Code::Note(Note::TestMove),
            Self::Learn => Code::Note(Note::Learn),
            Self::Correct(_) => Code::Note(Note::Correct),
            Self::EarlierBows(..) | Self::PowderBeforeBoth => Code::Note(Note::EarlierBows),
            Self::TestTells(_) => Code::Note(Note::TestTells),
            Self::PowderFirst(_) => Code::Note(Note::PowderFirst),
            Self::Slap(_) => Code::Note(Note::Slap),
            Self::HandFirst | Self::HandNotRelaxed => Code::Note(Note::HandFirst),
            Self::HandChanged(..) => Code::Note(Note::HandChanged),
            Self::NotConfirmed(_) => Code::Note(Note::NotConfirmed),
            Self::Waits(waiting) => waiting.code(),
            Self::Overdraw(_) => Code::Note(Note::Overdraw),
            Self::Backwards(_) => Code::Note(Note::AnswersBackwards),
            Self::OddArrowOut(_) | Self::OddArrow(_) => Code::Note(Note::OddArrow),
            Self::Fliers(_) => Code::Note(Note::Flier),
            Self::RestTheArcher(..) => Code::Note(Note::RestTheArcher),
            Self::Drift => Code::Note(Note::Drift),
            Self::PendingMove => Code::Note(Note::PendingMove),
            Self::OneArrow(..) => Code::Note(Note::OneArrow),
            Self::Ragged => Code::Note(Note::Ragged),
            Self::Reversed(..) => Code::Note(Note::ReversedVertical),
            Self::CardDamaged(_) => Code::Note(Note::CardDamaged),
            Self::FileHasHoles(_) => Code::Note(Note::FileHasHoles),
            Self::FileChanged(_) => Code::Note(Note::FileChanged),
        }
    }

    /// Its figure, where it has one.
    pub fn figure(&self) -> Option<Figure> {
        let chance = |value, limit| Some(Figure::new(value, limit, Unit::Chance));
        match self {
            Self::Danger(danger) => danger.figure(),
            Self::Spine(report) => report.figure(),
            Self::Scatter(found) | Self::RepeatFirst(found) | Self::BentOrScatter(found) => {
                found.figure()
            }
            Self::Obstacle(obstacle) => obstacle.figure(),
            Self::Within(c) | Self::NotSureYet(c, _) => chance(c.now, c.level),
            Self::ProofMoved(outside) => chance(*outside, OUTSIDE),
            Self::LongTear(off) => Some(Figure::new(*off, LONG, Unit::Mm)),
            Self::TestTells(telling) => chance(telling.power, telling.wanted),
            Self::Overdraw(behind) => Some(Figure::new(-behind, 0.0, Unit::Inch)),
            Self::Backwards(found) => chance(found.chance, BACKWARDS),
            Self::OddArrow(odd) => chance(odd.chance, ODD_SURE),
            Self::RestTheArcher(shots, most) => {
                Some(Figure::new(*shots as f64, *most as f64, Unit::Shots))
            }
            Self::Reversed(_, _, sure) => chance(*sure, REVERSED),
            _ => None,
        }
    }
}

/// The verdict in one line: what its title does not say.
#[derive(Debug, Clone, PartialEq)]
pub enum Headline {
    /// What forbids the shot.
    Stop(Refusal),
    /// The arrow does not suit the bow, or may not: it is weighed first.
    Spine(Refusal, Weighed),
    /// Repeat shots do not agree.
    Scatter,
    /// What stands in the way of a move.
    Obstacle(Obstacle),
    /// The move itself.
    Move,
    /// Two others of the set are shot: every shot was the arrow with this mark.
    OtherArrows(String),
    /// Powder, since contact could be behind this.
    ContactFirst(Behind),
    /// Two more shots tell a bent response from scatter.
    BentOrScatter,
    /// Still within this tolerance, mm, after the move made in proof? In so many shots.
    StillWithin(f64, u32),
    /// So many more shots show better where the tear is.
    MoreWhere(u32),
    /// So many more shots should show whether it is within this tolerance, mm.
    MoreWithin(u32, f64),
    /// Powder after ragged holes.
    Powder,
    /// Powder before a reversed response is believed.
    PowderReversed,
    /// Powder before the first sideways move.
    PowderFirst,
    /// Powder before both axes are moved at once.
    PowderBeforeBoth,
    /// The slap is cleared once.
    ClearSlap,
    /// The bow hand is asked about.
    Hand,
    /// So many shots with an open, relaxed hand.
    OpenHand(usize),
    /// The shots must repeat before anything is moved.
    RepeatFirst,
    /// Within tolerance for this shooter, who is not the owner.
    OwnerMustShoot(Shooter),
    /// Within tolerance, and the card is not certain.
    NotCertain,
    /// Within tolerance, and a part of the card cannot be read.
    CardDamaged,
    /// Within tolerance, and an entry that may have stopped it is lost.
    FileHasHoles,
    /// Within tolerance.
    Done,
    /// Nothing was shot at all.
    FirstShots,
    /// Shots were made, and none of them counts any more.
    NoneCounts,
    /// Nothing was shot at this setting.
    NewSetting,
    /// Nothing was shot since the last move.
    SinceTheMove,
}

/// Whether the draw weight is known where the arrow is judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// It is.
    Known,
    /// It is not since the limb bolts were moved.
    Unknown,
}

/// What a test asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// Powder on shaft, vanes, rest and cables; one shot, and a look.
    Powder,
    /// The same before both axes are moved at once.
    PowderBeforeBoth,
    /// Powder before the first sideways move with fingers; two shots alike.
    PowderFirst(Pad),
    /// One round of clearing a slap, and powder again.
    ClearSlap,
    /// Whether the bow hand was open and relaxed.
    Hand,
    /// Shots with an open, relaxed hand.
    OpenHand,
    /// Two other arrows against the one with this mark: the limit, mm, and how
    /// often in ten it tells.
    OtherArrows(String, f64, u32),
}
