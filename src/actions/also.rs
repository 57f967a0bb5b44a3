//! Everyday words people look for an action by, beside its own name and line.

use super::Action;

/// Words an action is found by as well.
const ALSO: &[(Action, &str)] = &[
    (
        Action::Sheet,
        "export print save report paper write file close finish",
    ),
    (Action::Quit, "exit leave end save stop"),
    (
        Action::LookPage,
        "colour color theme dark light contrast font braille ascii characters",
    ),
    (
        Action::Before,
        "string cable cables peep press setup set-up level nock square witness",
    ),
    (
        Action::Proof,
        "broadhead walk-back group distance bare sight level",
    ),
    (Action::PutBack, "restore return original start reset"),
    (Action::Undo, "mistake wrong delete remove back oops"),
    (
        Action::Log,
        "history entries list past forgot forgotten wrong bow hand over",
    ),
    (
        Action::Card,
        "bow settings setup edit change owner archer weight",
    ),
    (Action::Units, "inch inches metric millimetres imperial"),
    (Action::Spine, "spine weak stiff shaft point load"),
    (
        Action::Files,
        "open load park switch sessions folder recent other bow",
    ),
    (Action::New, "new customer bow create begin"),
    (Action::Letters, "large far screen wall 3 m"),
    (Action::Incident, "dry fire broken damage accident derailed"),
    (Action::Practice, "train learn simulate game exercise"),
    (Action::Range, "safety backstop people eye"),
    (Action::CallBad, "flier pulled bad ignore"),
    (
        Action::NextShots,
        "shooter technician machine arrow distance bare",
    ),
    (Action::Chart, "graph trend sideways plot"),
    (Action::Why, "reason reckoning explain"),
    (Action::Checks, "safety spine scatter response"),
    (Action::Mirror, "swap target side reverse"),
    (Action::Restart, "forget lost likely again"),
    (Action::Note, "comment remark write"),
    (Action::Shot, "tear hole enter type record"),
    (Action::Mark, "mark point nock paper"),
    (Action::Guide, "tutorial learn introduction start"),
    (Action::Reload, "refresh read again"),
    (Action::TakeMove, "rest adjust bench"),
    (Action::OwnMove, "rest adjust moved own"),
];

impl Action {
    /// Whether one of its everyday words begins like this.
    pub(crate) fn is_also(self, wanted: &str) -> bool {
        let words = ALSO.iter().filter(|(action, _)| *action == self);
        let mut words = words.flat_map(|(_, words)| words.split(' '));
        !wanted.is_empty() && words.any(|word| word.starts_with(wanted))
    }
}
