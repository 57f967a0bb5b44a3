//! Cautions that belong to a step, each said once and put before it.
//!
//! They are common practice; where there is a source it is named beside the
//! step that carries the caution. The makers' rules and local law come first.

/// Before anybody stands near a drawn bow.
pub const HELPER: &str = "With a helper: helper behind the archer, bow at the backstop, arrow on the string, finger off the trigger. Nobody reaches for cams or string.";
/// Before cams are looked at under load.
pub const CAMS: &str = "Look at cams on a draw board only, eye protection on; never put a hand near them while it is drawn.";
/// Before a bow is weighed.
pub const WEIGHING: &str = "A hook that slips is a dry fire: see that the scale's hook holds, pull slowly, let down slowly, never release.";
/// Before anybody pulls hard into the wall.
pub const HARD_WALL: &str = "Point at the backstop, arrow on the string, finger off the trigger until aimed. Pull straight back and smoothly; stop where an arm shakes, and let down slowly.";
/// Before adjusters are put back.
pub const PUT_BACK: &str = "Take the arrow off the string first; turn nothing on a drawn bow.";
/// Before press work.
pub const PRESS: &str = "Press work is for trained hands: the right press, the maker's rules, eye protection, never a hand between string and limb.";
/// After anything was put back, before the first shot.
pub const FIRST_SHOT_AFTER: &str =
    "Look over screws and marks, then shoot the first arrow close in.";
/// On a sheet that goes to whoever shoots the bow.
pub const MINORS: &str = "A minor shoots only with an adult beside them, a bow and an arrow weight that suit them, and where age rules allow it.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Stage;
    use crate::question::Refusal;
    use crate::setup::tests::{COMPOUND, RECURVE, timeline};
    use crate::trouble;

    /// What a text asks for, and the caution that then stands before it.
    const NEEDS: [(&str, &str); 8] = [
        ("second person", HELPER),
        ("helper marks", HELPER),
        ("helper holds", HELPER),
        ("archer's own anchor", HELPER),
        ("drawn slowly", WEIGHING),
        ("weigh the bow on", WEIGHING),
        ("pulled hard", HARD_WALL),
        ("draw board", CAMS),
    ];

    fn cautioned(place: &str, before: &str, text: &str) {
        for (asks, caution) in NEEDS {
            let at = text.to_lowercase().find(asks);
            let Some(at) = at else { continue };
            let stands = before.contains(caution)
                || text
                    .find(caution)
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
                let before = item.caution.unwrap_or("");
                seen += usize::from(!before.is_empty());
                cautioned(item.id.id(), before, &item.how);
            }
            for reason in Refusal::ALL {
                for (id, text) in trouble::texts(&t, reason) {
                    cautioned(&format!("{reason:?} {id}"), "", &text);
                }
            }
        }
        assert!(seen >= 8, "{seen}");
        let creep = Stage::Creep.instructions(&timeline(COMPOUND, vec![]).card);
        for words in [
            "finger off the trigger",
            "let down slowly",
            "arrow on the string",
        ] {
            assert!(creep.safety.contains(words), "{words}");
        }
    }

    #[test]
    fn cams_are_looked_at_on_a_draw_board_only() {
        let t = timeline(COMPOUND, vec![]);
        for id in ["cam-timing", "cam-lean"] {
            let item = crate::setup::item(&t.card, id).unwrap();
            assert_eq!(item.caution, Some(CAMS), "{id}");
            assert!(!item.how.contains("person"), "{id}");
        }
    }

    #[test]
    fn a_put_back_begins_with_its_cautions() {
        use crate::gear::{AdjusterKind, Step};
        use crate::restore::{Target, put_back};
        let moved = |adjuster, amount| crate::session::Event::Move {
            steps: vec![Step { adjuster, amount }],
            said: None,
            confirms: None,
        };
        let lines = |events| {
            let t = timeline(COMPOUND, events);
            put_back(&t, Target::Start, crate::units::System::Mm)
                .unwrap()
                .lines()
        };
        let rest = lines(vec![moved(AdjusterKind::RestSideways, 1.0)]);
        assert_eq!(rest[0], PUT_BACK);
        assert_ne!(rest[1], PRESS);
        assert_eq!(rest.last().unwrap(), FIRST_SHOT_AFTER);
        let yoke = lines(vec![moved(AdjusterKind::YokeTwist, 1.0)]);
        assert_eq!((yoke[0].as_str(), yoke[1].as_str()), (PUT_BACK, PRESS));
        assert!(lines(vec![])[0].contains("already"));
    }
}
