//! What the trade does next, in its order, when the rest is to be left alone.
//!
//! The order is the trade's practice, cheap and reversible before costly
//! (common practice; bench diaries and tuning guides agree on it). The guided
//! paths in [`crate::remedy`] walk the same steps one at a time.

/// The ordered next steps for a reason code; `None` for a code that stops nothing.
pub fn after(code: &str) -> Option<&'static str> {
    Some(match code {
        "scatter" => {
            "next, in this order: call bad shots before looking; rest the archer; check nocks, bolts and every moving part; powder test for contact; a second shooter; another day"
        }
        "spine-weak" => {
            "next, in this order: weigh the bow; with fingers a firmer plunger; a lighter trial point (never under the safety floor); less draw weight where the bow maker's bolt limits on the card allow it; other shafts; cutting last (cannot be undone), and only where rest contact and full draw were measured"
        }
        "spine-stiff" => {
            "next, in this order: weigh the bow; a softer plunger; a heavier trial point; other shafts. Cutting makes it worse"
        }
        "no-response" => {
            "next, in this order: put the rest back to the start; powder test for contact; grip and hand torque; cam timing; cam lean; then the arrow"
        }
        "jumps" => {
            "next, in this order: check every bolt and the rest's own screws; nock fit and nocking point; powder test for contact; then shoot three more before any move"
        }
        "travel" => {
            "next, in this order: put the rest back to the start; cam lean, yoke or shim (press work, trained hands); the arrow; draw stops; a twisted limb"
        }
        "huge-tear" => {
            "next, in this order: is it the right arrow; draw length; draw weight on a scale; nocking point and nock fit; cam timing"
        }
        "no-adjuster" => {
            "next, in this order: what the bow has instead; the arrow; a rest that can be moved"
        }
        "contact" => {
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
        let weak = after("spine-weak").unwrap();
        assert!(weak.find("other shafts").unwrap() < weak.find("cutting last").unwrap());
        let stiff = after("spine-stiff").unwrap();
        assert!(stiff.contains("worse"));
        // Nothing here knows the maker's limit, so nothing here turns bolts in.
        assert!(!stiff.contains("draw weight"));
        assert!(weak.contains("where the bow maker's bolt limits on the card allow it"));
        assert_eq!(after("inside"), None);
    }
}
