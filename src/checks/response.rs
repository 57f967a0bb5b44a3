//! Response: what the adjusters do to the tear, and whether they do anything.

use super::{Figure, Status, Unit};
use crate::belief::Gain;
use crate::gear::{AdjusterKind, Axis, Card, Unconfirmed};
use crate::question::{Answer, Refusal, Said};
use crate::tuner::care::POWER;
use crate::tuner::gates::{JUMPS_SURE, Unfit};
use crate::tuner::reach::Reach;
use crate::tuner::untried::OUT_OF_IDEAS;

/// A mean tear longer than this, mm, is worth a look at arrow and basics
/// before the rest is moved (published advice: over about 2 in, recheck
/// them). It stops nothing: what travel can reach does.
pub(crate) const LONG: f64 = 50.0;

/// A chance, and the least that is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// How likely it is.
    pub(crate) is: f64,
    /// From where on it is said.
    pub(crate) wanted: f64,
}

/// What stands in the way of a rest move.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// The mean tear, and the longest that a likely response of this bow
    /// brings inside within travel, mm; nothing was moved that way yet.
    HugeTear(f64, f64),
    /// This adjuster was moved and hardly moves the tear.
    Weak(OutOfReach),
    /// This adjuster moves the tear, and no likely place within its travel
    /// brings it inside.
    Short(OutOfReach),
    /// This adjuster does nothing, this likely.
    NoResponse(AdjusterKind, Chance),
    /// So many moves of this adjuster would have shown a usual response, with
    /// this chance, and none showed.
    Silent(AdjusterKind, usize, f64),
    /// The mean jumps between moves.
    Jumps(f64),
    /// The best place within travel is unlikely to be inside.
    Travel(f64),
    /// There is nothing on the card to move that way.
    NoAdjuster(Instead),
    /// Something touches the arrow, as the powder test found.
    Contact(Said<Answer>),
}

impl Obstacle {
    /// From what the tuner found.
    pub fn of(unfit: Unfit, kinds: &[AdjusterKind], card: &Card) -> Self {
        match unfit {
            Unfit::Dead(k, is, wanted) => Self::NoResponse(kinds[k], Chance { is, wanted }),
            Unfit::Silent(s) => Self::Silent(kinds[s.adjuster], s.moves, s.power),
            Unfit::Jumps(p) => Self::Jumps(p),
            Unfit::Clipped(p) => Self::Travel(p),
            Unfit::Huge(reach) => Self::HugeTear(reach.off, reach.longest),
            Unfit::Weak(k, reach) => Self::Weak(OutOfReach::of(kinds[k], reach, card)),
            Unfit::Short(k, reach) => Self::Short(OutOfReach::of(kinds[k], reach, card)),
        }
    }

    /// The refusal it is.
    pub const fn refusal(&self) -> Refusal {
        match self {
            Self::HugeTear(..) => Refusal::HugeTear,
            Self::NoResponse(..) | Self::Silent(..) => Refusal::NoResponse,
            Self::Jumps(_) => Refusal::Jumps,
            Self::Travel(_) | Self::Weak(_) | Self::Short(_) => Refusal::TravelLimit,
            Self::NoAdjuster(_) => Refusal::NoAdjuster,
            Self::Contact(_) => Refusal::Contact,
        }
    }

    /// Its figure, where it has one.
    pub const fn figure(&self) -> Option<Figure> {
        Some(match self {
            Self::HugeTear(off, longest) => Figure::new(*off, *longest, Unit::Mm),
            Self::Weak(tear) | Self::Short(tear) => Figure::new(tear.off, tear.longest, Unit::Mm),
            Self::NoResponse(_, p) => Figure::new(p.is, p.wanted, Unit::Chance),
            Self::Jumps(p) => Figure::new(*p, JUMPS_SURE, Unit::Chance),
            Self::Silent(_, _, power) => Figure::new(*power, POWER, Unit::Chance),
            Self::Travel(p) => Figure::new(*p, OUT_OF_IDEAS, Unit::Chance),
            Self::NoAdjuster(_) | Self::Contact(_) => return None,
        })
    }
}

/// A tear that the adjuster which was moved does not bring inside.
#[derive(Debug, Clone, PartialEq)]
pub struct OutOfReach {
    /// Which adjuster.
    pub kind: AdjusterKind,
    /// How far out the tear is that way, mm.
    pub(crate) off: f64,
    /// The longest tear it can still bring within tolerance, mm.
    pub(crate) longest: f64,
    /// What this bow has instead.
    pub(crate) instead: Instead,
}

impl OutOfReach {
    fn of(kind: AdjusterKind, reach: Reach, card: &Card) -> Self {
        Self {
            kind,
            off: reach.off,
            longest: reach.longest,
            instead: Instead::of(kind.axis(), card),
        }
    }
}

/// What a bow without a screw that way has instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instead {
    /// The way nothing moves.
    pub axis: Axis,
    /// What the card lists that acts there without being a screw for it.
    pub(crate) has: Vec<AdjusterKind>,
    /// Whether twisting the string changes the brace height, without a press.
    pub(crate) strings: bool,
}

impl Instead {
    /// What this bow has that way.
    pub fn of(axis: Axis, card: &Card) -> Self {
        let acts = |kind: AdjusterKind| match kind.axis() {
            Axis::Whole => !card.needs_press(kind),
            other => other == axis,
        };
        let listed = card.adjusters.iter().map(|a| a.kind);
        Self {
            axis,
            has: listed.filter(|kind| acts(*kind)).collect(),
            // Brace height is a matter of string twists, except on a compound.
            strings: !card.needs_press(AdjusterKind::BraceHeight),
        }
    }
}

/// What an adjuster does to the tear, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// Which adjuster.
    pub kind: AdjusterKind,
    /// What a unit of it does.
    pub gain: Gain,
}

impl Known {
    /// Whether it is not known which way it acts.
    pub(crate) fn is_unsure(&self) -> bool {
        let negative = self.gain.probability_negative;
        negative.min(1.0 - negative) > UNSURE
    }
}

/// Chance of the other way above which it is not known which way an adjuster acts.
const UNSURE: f64 = 0.1;

/// What the response check found.
#[derive(Debug, Clone, PartialEq)]
pub enum Response {
    /// Something stands in the way of a move.
    Obstacle(Obstacle),
    /// Nothing was moved.
    NothingMoved,
    /// Moved, and not shot since.
    NotShot,
    /// What the moved adjusters do, and how far the rest stands from the start
    /// as a share of its travel where that is far.
    Known(Vec<Known>, Option<f64>),
    /// Values behind it were never confirmed.
    NotConfirmed(Vec<Unconfirmed>),
}

impl Response {
    /// How the check stands: never ok while one adjuster that was moved is
    /// unsure of its side.
    pub fn status(&self) -> Status {
        match self {
            Self::Obstacle(_) => Status::Fail,
            Self::NothingMoved | Self::NotShot | Self::NotConfirmed(_) => Status::Pending,
            Self::Known(all, _) if all.iter().any(Known::is_unsure) => Status::Pending,
            Self::Known(_, Some(_)) => Status::Borderline,
            Self::Known(..) => Status::Pass,
        }
    }

    /// Its figure, where it has one.
    pub const fn figure(&self) -> Option<Figure> {
        match self {
            Self::Obstacle(obstacle) => obstacle.figure(),
            Self::Known(_, Some(share)) => Some(Figure::new(*share, FAR, Unit::Travel)),
            _ => None,
        }
    }

    /// Not known yet where it would be good enough and rests on these values.
    pub(crate) fn held(self, open: Vec<Unconfirmed>) -> Self {
        match self.status() {
            Status::Pass | Status::Borderline if !open.is_empty() => Self::NotConfirmed(open),
            _ => self,
        }
    }
}

/// Share of its travel from which an adjuster stands far from the start.
pub(crate) const FAR: f64 = 0.75;

/// The response check. Each adjuster comes with what is known of it and
/// whether it was shot at another setting; `moved` are those that were moved.
pub(crate) fn check(
    obstacle: Option<&Obstacle>,
    gains: &[(AdjusterKind, Gain, bool)],
    moved: &[AdjusterKind],
    far: Option<f64>,
) -> Response {
    if let Some(obstacle) = obstacle {
        return Response::Obstacle(obstacle.clone());
    }
    if moved.is_empty() {
        return Response::NothingMoved;
    }
    if gains.iter().all(|(_, _, shot)| !shot) {
        return Response::NotShot;
    }
    let known = gains
        .iter()
        .filter(|(kind, _, shot)| *shot || moved.contains(kind));
    let known = known.map(|(kind, gain, _)| Known {
        kind: *kind,
        gain: *gain,
    });
    Response::Known(known.collect(), far)
}

/// What is done about a vertical that acts the wrong way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reversal {
    /// Powder is looked at first.
    Powder,
    /// Then the nock is tried from high.
    HighStart,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gain(negative: f64) -> Gain {
        Gain {
            mean: -3.0,
            sd: 1.0,
            probability_negative: negative,
        }
    }

    /// Exact limits: 90 % sure of its side is known, less is not, either way round.
    #[test]
    fn it_is_never_ok_while_a_moved_adjuster_is_under_90_percent_sure_of_its_side() {
        use AdjusterKind::{RestHeight, RestSideways};
        let status = |sideways: f64, shot: bool, moved: &[AdjusterKind], far| {
            let gains = [
                (RestHeight, gain(0.99), true),
                (RestSideways, gain(sideways), shot),
            ];
            check(None, &gains, moved, far).status()
        };
        let both = [RestHeight, RestSideways];
        for (negative, wanted) in [
            (0.9, Status::Pass),
            (0.1, Status::Pass),
            (0.899, Status::Pending),
            (0.101, Status::Pending),
            (0.5, Status::Pending),
        ] {
            assert_eq!(status(negative, true, &both, None), wanted, "{negative}");
            // Moved, and no shot since: its side is as unsure.
            assert_eq!(status(negative, false, &both, None), wanted, "{negative}");
        }
        // Far from the start warns, and does not hide that a side is unsure.
        assert_eq!(status(0.95, true, &both, Some(0.8)), Status::Borderline);
        assert_eq!(status(0.5, true, &both, Some(0.8)), Status::Pending);
        // One that was never moved may be as unsure as it is.
        assert_eq!(status(0.5, false, &[RestHeight], None), Status::Pass);
    }

    #[test]
    fn nothing_moved_and_moved_but_not_shot_are_not_known_yet() {
        let rest = AdjusterKind::RestSideways;
        let gains = [(rest, gain(0.99), false)];
        assert_eq!(check(None, &gains, &[], None), Response::NothingMoved);
        assert_eq!(check(None, &gains, &[rest], None), Response::NotShot);
        let wild = Obstacle::Jumps(0.95);
        let found = check(Some(&wild), &gains, &[rest], None);
        assert_eq!(found.status(), Status::Fail);
        assert_eq!(found.figure(), Some(Figure::new(0.95, 0.9, Unit::Chance)));
    }
}
