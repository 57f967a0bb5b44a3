//! The stable codes of the reasons behind a verdict.

use super::Refusal;
use super::said::word_table;

word_table! {
    /// The code of a reason that is no refusal or stop.
    pub enum Note {
        /// The range safety list comes before the next shot.
        RangeListOpen = "range-list-open",
        /// How well the arrow suits the bow.
        Spine = "spine",
        /// The arrow is a little weak for the bow.
        SpineWeakBorderline = "spine-weak-borderline",
        /// The arrow is a little stiff for the bow.
        SpineStiffBorderline = "spine-stiff-borderline",
        /// A label can be out: the bow is weighed first.
        WeighBow = "weigh-bow",
        /// There are only these arrows to hand.
        OnlyThese = "only-these",
        /// The shots must repeat before anything is moved.
        RepeatFirst = "repeat-first",
        /// A bent response, or shots that scatter: two more tell.
        BentOrScatter = "bent-or-scatter",
        /// What the trade does next after the refusal.
        NextSteps = "next-steps",
        /// Other arrows of the set tear as this one does.
        ArrowSame = "arrow-same",
        /// Only the owner's own shots make it done.
        OwnerMustShoot = "owner-must-shoot",
        /// The chance of being within tolerance is what was asked for.
        Inside = "inside",
        /// What "within tolerance" rests on.
        RestsOn = "rests-on",
        /// Proof has moved an adjuster, and paper asks one question.
        ProofMoved = "proof-moved",
        /// Contact could be behind it, and nobody has looked.
        ContactFirst = "contact-first",
        /// The tear is long: arrow and basics are looked at as well.
        LongTear = "long-tear",
        /// Nothing is known of the tear yet.
        NothingShot = "nothing-shot",
        /// The chance is not yet what is asked for.
        NotSureYet = "not-sure-yet",
        /// The first move of an adjuster, and why it goes that way.
        TestMove = "test-move",
        /// A test move, to see what an adjuster does.
        Learn = "learn",
        /// A correction, by what this bow has shown.
        Correct = "correct",
        /// A correction on the word of earlier bows, or what it waits for.
        EarlierBows = "earlier-bows",
        /// What a test move can tell.
        TestTells = "test-tells",
        /// Powder before the first sideways move.
        PowderFirst = "powder-first",
        /// The rear of the shaft slaps what it lies against.
        Slap = "slap",
        /// The bow hand before the first sideways move.
        HandFirst = "hand-first",
        /// Opening the hand changed the tear.
        HandChanged = "hand-changed",
        /// Values that nobody entered or confirmed.
        NotConfirmed = "not-confirmed",
        /// The weight of a part that nobody entered.
        WeightNotGiven = "weight-not-given",
        /// Limb bolts were turned, and nobody counted.
        CountTurns = "count-turns",
        /// The shaft's end stands behind the grip pivot at full draw.
        Overdraw = "overdraw",
        /// An adjuster acts against what was expected of it.
        AnswersBackwards = "answers-backwards",
        /// One arrow tears off from the others.
        OddArrow = "odd-arrow",
        /// Shots far from their neighbours.
        Flier = "flier",
        /// Many shots without a rest.
        RestTheArcher = "rest-the-archer",
        /// The tear creeps from shot to shot.
        Drift = "drift",
        /// A move was taken to the bench and is not confirmed.
        PendingMove = "pending-move",
        /// Every shot came from one arrow, and this was found.
        OneArrow = "one-arrow",
        /// Ragged or smeared holes.
        Ragged = "ragged",
        /// A vertical acts the wrong way round.
        ReversedVertical = "reversed-vertical",
        /// Lines of the card that cannot be read.
        CardDamaged = "card-damaged",
        /// Entries that cannot be read or are not there.
        FileHasHoles = "file-has-holes",
        /// Entries changed since they were recorded.
        FileChanged = "file-changed",
    }
}

/// The stable code of a reason: a refusal or stop, or a note beside one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Code {
    /// Why the rest is left alone, or the bow not shot.
    Refusal(Refusal),
    /// Anything else.
    Note(Note),
}

impl Code {
    /// Every code: the refusals and stops first.
    pub fn all() -> impl Iterator<Item = Self> {
        let refusals = Refusal::ALL.into_iter().map(Self::Refusal);
        refusals.chain(Note::ALL.into_iter().map(Self::Note))
    }

    /// The word that stands for it in JSON.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Refusal(refusal) => refusal.code(),
            Self::Note(note) => note.id(),
        }
    }

    /// The code that this word stands for.
    pub fn parse(word: &str) -> Option<Self> {
        Self::all().find(|c| c.id() == word)
    }
}

impl std::fmt::Display for Code {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.pad(self.id())
    }
}

impl From<Refusal> for Code {
    fn from(refusal: Refusal) -> Self {
        Self::Refusal(refusal)
    }
}

impl From<Note> for Code {
    fn from(note: Note) -> Self {
        Self::Note(note)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_code_is_read_back_and_none_stands_twice() {
        let ids: std::collections::BTreeSet<&str> = Code::all().map(Code::id).collect();
        assert_eq!(ids.len(), Code::all().count());
        for code in Code::all() {
            assert_eq!(Code::parse(code.id()), Some(code));
        }
        assert_eq!(Code::parse("zebra"), None);
    }
}
