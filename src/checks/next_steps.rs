//! What the trade does next, in its order, when the rest is to be left alone.
//!
//! The order is the trade's practice, cheap and reversible before costly
//! (common practice; bench diaries and tuning guides agree on it). The guided
//! paths in [`crate::remedy`] walk the same steps one at a time.

use crate::question::Refusal;

/// The ordered next steps after a refusal; `None` after a stop.
pub fn after(refusal: Refusal) -> Option<&'static str> {
    Some(match refusal {
        Refusal::Scatter => {
            "next, in this order: call bad shots before looking; rest the archer; check nocks, bolts and every moving part; powder test for contact; a second shooter; another day"
        }
        Refusal::SpineWeak => {
            "next, in this order: weigh the bow; with fingers a firmer plunger; a lighter trial point (never under the safety floor); less draw weight where the bow maker's bolt limits on the card allow it; other shafts; cutting last (cannot be undone), and only where rest contact and full draw were measured"
        }
        Refusal::SpineStiff => {
            "next, in this order: weigh the bow; a softer plunger; a heavier trial point; other shafts. Cutting makes it worse"
        }
        Refusal::NoResponse => {
            "next, in this order: put the rest back to the start; powder test for contact; grip and hand torque; cam timing; cam lean; then the arrow"
        }
        Refusal::Jumps => {
            "next, in this order: check every bolt and the rest's own screws; nock fit and nocking point; powder test for contact; then shoot three more before any move"
        }
        Refusal::TravelLimit => {
            "next, in this order: put the rest back to the start; cam lean, yoke or shim (press work, trained hands); the arrow; draw stops; a twisted limb"
        }
        Refusal::HugeTear => {
            "next, in this order: is it the right arrow; draw length; draw weight on a scale; nocking point and nock fit; cam timing"
        }
        Refusal::NoAdjuster => {
            "next, in this order: what the bow has instead; the arrow; a rest that can be moved"
        }
        Refusal::Contact => {
            "next, in this order: turn the nock a little and set all alike; drop-away timing; cable clearance; lower vanes; then the powder test again"
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cutting_is_last_for_a_weak_arrow_and_never_advised_for_a_stiff_one() {
        let weak = after(Refusal::SpineWeak).unwrap();
        assert!(weak.find("other shafts").unwrap() < weak.find("cutting last").unwrap());
        let stiff = after(Refusal::SpineStiff).unwrap();
        assert!(stiff.contains("worse"));
        // Nothing here knows the maker's limit, so nothing here turns bolts in.
        assert!(!stiff.contains("draw weight"));
        assert!(weak.contains("where the bow maker's bolt limits on the card allow it"));
        assert_eq!(after(Refusal::Incident), None);
    }
}
