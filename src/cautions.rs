//! Cautions that belong to a step. Each is said once, in [`crate::words`], and
//! stands before its step.
//!
//! They are common practice; where there is a source it is named beside the
//! step that carries the caution. The makers' rules and local law come first.

/// A caution, as the step that needs it carries it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Caution {
    /// Before anybody stands near a drawn bow.
    Helper,
    /// Before cams are looked at under load.
    Cams,
    /// Before a bow is weighed.
    Weighing,
    /// Before anybody pulls hard into the wall.
    HardWall,
    /// Before adjusters are put back.
    PutBack,
    /// Before press work.
    Press,
    /// On a sheet that goes to whoever shoots the bow.
    Minors,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Stage;
    use crate::question::Refusal;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::trouble;
    use crate::units::System;
    use crate::words::{self, caution};

    /// What a text asks for, and the caution that then stands before it.
    const NEEDS: [(&str, Caution); 8] = [
        ("second person", Caution::Helper),
        ("helper marks", Caution::Helper),
        ("helper holds", Caution::Helper),
        ("archer's own anchor", Caution::Helper),
        ("drawn slowly", Caution::Weighing),
        ("weigh the bow on", Caution::Weighing),
        ("pulled hard", Caution::HardWall),
        ("draw board", Caution::Cams),
    ];

    fn cautioned(place: &str, before: Option<Caution>, text: &str) {
        for (asks, wanted) in NEEDS {
            let at = text.to_lowercase().find(asks);
            let Some(at) = at else { continue };
            let stands = before == Some(wanted)
                || text
                    .find(caution(wanted))
                    .is_some_and(|c| c < at || asks == "draw board");
            assert!(stands, "{place}: '{asks}' without its caution: {text}");
        }
    }

    #[test]
    fn each_step_near_a_drawn_bow_has_its_caution_before_it() {
        let mut seen = 0;
        for card in [COMPOUND, RECURVE] {
            let t = timeline(card, vec![]);
            for item in crate::setup::items(&t.card) {
                seen += usize::from(item.caution.is_some());
                let told = words::setup::told(item.id, &t.card, System::Mm);
                cautioned(item.id.id(), item.caution, &told.how);
            }
            for reason in Refusal::ALL {
                for step in trouble::all_steps(&t, reason) {
                    let text = words::trouble::text(&step, &t.card);
                    cautioned(&format!("{reason:?} {}", step.id), None, &text);
                }
            }
        }
        assert!(seen >= 8, "{seen}");
        let creep = words::proof::how(Stage::Creep, &timeline(COMPOUND, vec![]).card, System::Mm);
        // Safety stands first.
        for words in [
            "finger off the trigger",
            "let down slowly",
            "arrow on the string",
        ] {
            assert!(creep[0].text.contains(words), "{words}");
        }
    }

    /// The test above is able to fail.
    #[test]
    #[should_panic(expected = "without its caution")]
    fn a_step_without_its_caution_is_found() {
        cautioned("cam-lean", Some(Caution::Helper), "Look on a draw board.");
    }

    #[test]
    fn cams_are_looked_at_on_a_draw_board_only() {
        let t = timeline(COMPOUND, vec![]);
        for id in ["cam-timing", "cam-lean"] {
            let item = crate::setup::item(&t.card, id).unwrap();
            assert_eq!(item.caution, Some(Caution::Cams), "{id}");
            let told = words::setup::told(item.id, &t.card, System::Mm);
            assert!(!told.how.contains("person"), "{id}");
        }
    }
}
