//! Response: whether the tear answers to the adjusters at all.

use super::{Check, Status};
use crate::belief::Gain;
use crate::gear::{AdjusterKind, Axis, Card};
use crate::question::{Answer, Refusal, Said};
use crate::tuner::gates::Unfit;
use crate::units::System;

/// A mean tear longer than this, mm, is worth a look at arrow and basics
/// before the rest is moved (published advice: over about 2 in, recheck
/// them). It stops nothing: what travel can reach does.
pub const LONG: f64 = 50.0;

/// What stands in the way of a rest move.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// The mean tear, and the longest that a likely response of this bow
    /// brings inside within travel, mm; nothing was moved that way yet.
    HugeTear(f64, f64),
    /// This adjuster was moved and hardly moves the tear: how far out it is
    /// there, and the longest tear it can still bring inside, mm.
    Weak(AdjusterKind, f64, f64),
    /// This adjuster does nothing.
    NoResponse(AdjusterKind, f64),
    /// So many moves of this adjuster would have shown a usual response, with
    /// this chance, and none showed.
    Silent(AdjusterKind, usize, f64),
    /// The mean jumps between moves.
    Jumps(f64),
    /// The best place within travel is unlikely to be inside.
    Travel(f64),
    /// There is nothing on the card to move that way.
    NoAdjuster(Axis),
    /// Something touches the arrow, as the powder test found.
    Contact(Said<Answer>),
}

impl Obstacle {
    /// From what the tuner found.
    pub fn of(unfit: Unfit, kinds: &[AdjusterKind]) -> Self {
        match unfit {
            Unfit::Dead(k, p) => Self::NoResponse(kinds[k], p),
            Unfit::Silent(s) => Self::Silent(kinds[s.adjuster], s.moves, s.power),
            Unfit::Jumps(p) => Self::Jumps(p),
            Unfit::Clipped(p) => Self::Travel(p),
            Unfit::Huge(reach) => Self::HugeTear(reach.off, reach.longest),
            Unfit::Weak(k, reach) => Self::Weak(kinds[k], reach.off, reach.longest),
        }
    }

    /// The refusal it is.
    pub const fn refusal(&self) -> Refusal {
        match self {
            Self::HugeTear(..) => Refusal::HugeTear,
            Self::NoResponse(..) | Self::Silent(..) => Refusal::NoResponse,
            Self::Jumps(_) => Refusal::Jumps,
            Self::Travel(_) | Self::Weak(..) => Refusal::TravelLimit,
            Self::NoAdjuster(_) => Refusal::NoAdjuster,
            Self::Contact(_) => Refusal::Contact,
        }
    }

    /// In words, with what to do.
    pub fn text(&self, card: &Card, system: System) -> String {
        match self {
            Self::HugeTear(mm, longest) => format!("the tear is {} out one way; within its travel no likely response of this bow brings in more than about {}: check arrow, draw length, draw weight and nocking point first", system.tear(*mm), system.tear(*longest)),
            Self::Weak(kind, mm, longest) if mm <= longest => format!("the {} hardly moves the tear on this bow: {} out that way, and many shots at several places do not show it coming in. Put it back to the start. {}", name(*kind), system.tear(*mm), instead(kind.axis(), card)),
            Self::Weak(kind, mm, longest) => format!("the {} hardly moves the tear on this bow: {} out that way, and its whole travel brings in about {} at most. Put it back to the start. {}", name(*kind), system.tear(*mm), system.tear(*longest), instead(kind.axis(), card)),
            Self::NoResponse(kind, _) => format!("the tear does not answer to the {}: put it back to the start and look elsewhere", name(*kind)),
            Self::Silent(kind, moves, power) => format!("{moves} moves of the {} would have shown a usual response (chance {}), and none showed: put it back to the start and look elsewhere", name(*kind), crate::words::odds(*power)),
            Self::Jumps(_) => "the tear jumps whenever something is moved, more than any move explains: look for a loose part or something touching the arrow".into(),
            Self::Travel(p) => format!("no place within the rest's travel is likely to be inside (best about {}): put it back to the start and look elsewhere", crate::words::odds(*p)),
            Self::NoAdjuster(axis) => no_adjuster(*axis, card),
            Self::Contact(what) => format!("the powder test found contact ({}): cure that first, then test again", crate::units::clean(&what.word())),
        }
    }
}

fn name(kind: AdjusterKind) -> &'static str {
    match kind {
        AdjusterKind::RestSideways => "rest sideways",
        AdjusterKind::RestHeight => "rest height",
        other => other.noun(),
    }
}

/// What a bow has besides the screw that does not do: its other adjusters of
/// that axis, or what the trade does without one.
fn instead(axis: Axis, card: &Card) -> String {
    let (_, otherwise) = without_a_screw(axis, card);
    format!("What this bow has instead: {otherwise}")
}

/// The side an axis is named by, and what moves the arrow there otherwise.
fn without_a_screw(axis: Axis, card: &Card) -> (&'static str, &'static str) {
    // Brace height is a matter of string twists, except on a compound.
    let strings = !card.needs_press(AdjusterKind::BraceHeight);
    match axis {
        Axis::Vertical if strings => (
            "up and down",
            "brace height, or the nocking point once it is on the card",
        ),
        Axis::Vertical => (
            "up and down",
            "the nocking point once it is on the card, or a rest that can be moved",
        ),
        _ if strings => (
            "sideways",
            "arrow match (point, draw weight), brace height, or a rest that can be moved",
        ),
        _ => (
            "sideways",
            "arrow match (point, draw weight), or a rest that can be moved",
        ),
    }
}

fn no_adjuster(axis: Axis, card: &Card) -> String {
    let (side, instead) = without_a_screw(axis, card);
    let has: Vec<&str> = card
        .adjusters
        .iter()
        .filter(|a| a.kind.axis() == axis || a.kind.axis() == Axis::Whole)
        .filter(|a| a.kind.axis() == axis || !card.needs_press(a.kind))
        .map(|a| a.kind.id())
        .collect();
    if has.is_empty() {
        format!("this bow's card has nothing to move {side}; what it has instead: {instead}")
    } else {
        format!(
            "this bow has no screw that moves the arrow {side}; what it has instead: {}",
            has.join(", ")
        )
    }
}

/// The response check.
pub fn check(
    obstacle: Option<&Obstacle>,
    gains: &[(AdjusterKind, Gain, bool)],
    moved: bool,
    far: Option<f64>,
    card: &Card,
    system: System,
) -> Check {
    if let Some(obstacle) = obstacle {
        let text = obstacle.text(card, system);
        return match obstacle {
            Obstacle::HugeTear(mm, longest) | Obstacle::Weak(_, mm, longest) => {
                Check::measured(Status::Fail, text, *mm, *longest, "mm")
            }
            Obstacle::NoResponse(_, p) | Obstacle::Jumps(p) => {
                Check::measured(Status::Fail, text, *p, 0.9, "chance")
            }
            Obstacle::Silent(_, _, power) => {
                Check::measured(Status::Fail, text, *power, 0.8, "chance")
            }
            Obstacle::Travel(p) => Check::measured(Status::Fail, text, *p, 0.5, "chance"),
            Obstacle::NoAdjuster(_) | Obstacle::Contact(_) => Check::plain(Status::Fail, text),
        };
    }
    if !moved {
        return Check::plain(
            Status::Pending,
            "nothing moved yet: the first move will show how this bow answers",
        );
    }
    let known: Vec<String> = gains
        .iter()
        .filter(|(_, _, used)| *used)
        .map(|(kind, gain, _)| sentence(*kind, gain, system))
        .collect();
    if let Some(share) = far {
        let text = format!(
            "the rest stands at {} of its travel from the start: look whether it makes up for something else. {}",
            crate::words::odds(share),
            known.join("; ")
        );
        return Check::measured(Status::Borderline, text, share, 0.75, "travel");
    }
    if known.is_empty() {
        return Check::plain(
            Status::Pending,
            "moved, and not shot since: the next shot will show how this bow answers",
        );
    }
    // One adjuster whose side nobody knows yet, and the whole is not known.
    let open = gains.iter().any(|(_, gain, used)| *used && unsure(gain));
    let status = if open { Status::Pending } else { Status::Pass };
    Check::plain(status, known.join("; "))
}

/// What is done about a vertical that answers the wrong way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reversal {
    /// Powder is looked at first.
    Powder,
    /// Then the nock is tried from high.
    HighStart,
}

/// Why, in words.
pub fn reversal(kind: AdjusterKind, step: Reversal) -> String {
    let seen = match kind {
        AdjusterKind::NockingPoint => "The nocking point up lowers the tail",
        _ => "The rest up raises the tail",
    };
    let then = match step {
        Reversal::Powder => "look for contact first",
        Reversal::HighStart => {
            "no contact was found. A nock set too low bounces off the rest and shows high: start from high and come down (common practice)"
        }
    };
    format!("{seen} on this bow, and guides agree on the opposite: {then}")
}

/// Odds of the other way above which it is not known which way that is.
const UNSURE: f64 = 0.1;

/// Whether it is not known which way an adjuster answers.
fn unsure(gain: &Gain) -> bool {
    let negative = gain.probability_negative;
    negative.min(1.0 - negative) > UNSURE
}

/// What an adjuster does to the tail: `1 mm of rest sideways moves the tail
/// about 3 mm the same way`. The words hold for either hand: only a plunger,
/// which has no side of its own, names left or right.
pub fn sentence(kind: AdjusterKind, gain: &Gain, system: System) -> String {
    let unit = match (kind.unit(), system) {
        (crate::gear::AdjusterUnit::Mm, System::Mm) => "1 mm",
        (crate::gear::AdjusterUnit::Mm, System::Inch) => "1/16 in",
        (crate::gear::AdjusterUnit::Turn, _) => "1 turn firmer",
        (crate::gear::AdjusterUnit::Twist, _) => "1 twist",
    };
    let what = format!("{unit} of {}", name(kind));
    if unsure(gain) {
        return format!("what {what} does to the tail is not known yet");
    }
    let size = system.tear(
        gain.mean.abs()
            * if kind.unit() == crate::gear::AdjusterUnit::Mm {
                system_step(system)
            } else {
                1.0
            },
    );
    format!("{what} moves the tail about {size} {}", way(kind, gain))
}

/// Which way the tail goes with an adjuster's positive way.
fn way(kind: AdjusterKind, gain: &Gain) -> &'static str {
    match (kind, gain.mean < 0.0) {
        (AdjusterKind::PlungerTension, false) => "right",
        (AdjusterKind::PlungerTension, true) => "left",
        (_, false) => "the same way",
        (_, true) => "the other way",
    }
}

/// The chance of the likelier way: `chance of the same way: 70 %`.
pub fn likelier_way(kind: AdjusterKind, gain: &Gain) -> String {
    let negative = gain.probability_negative;
    let chance = crate::words::odds(negative.max(1.0 - negative));
    format!("chance of {}: {chance}", way(kind, gain))
}

/// Millimetres in the step named in the sentence.
fn system_step(system: System) -> f64 {
    match system {
        System::Mm => 1.0,
        System::Inch => crate::units::MM_PER_INCH / 16.0,
    }
}
