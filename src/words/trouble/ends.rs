//! What is left when every step of a path was harmless.

use super::super::moves::bolts_limit;
use super::resumed;
use crate::trouble::{End, NoSuchArrow};

/// What is left, without the full stop.
pub(super) fn end(left: End) -> String {
    match left {
        End::Resume(why) => resumed(why).into(),
        End::NoSuchArrow(NoSuchArrow::Stopped) => "stiffer shafts, or another bow. These arrows are not shot on this bow, not even as a test, and the owner is told so. This cannot be waived".into(),
        End::NoSuchArrow(NoSuchArrow::OnlyThese) => "with only these arrows your own moves can be recorded. Three good shots in a row within tolerance by the owner lift this, as long as later shots agree. Or close as best with these arrows, not matched".into(),
        End::NoSuchArrow(NoSuchArrow::Others) => "other shafts. Until then no rest move is advised; your own can be recorded".into(),
        End::Scatter(well, little) => format!(
            "nothing cheap explains it. Try another day, or a borderline arrow (it looks like the archer): weigh the bow, try another spine. About {well} shots will show it afterwards if they scatter well under the limit (six tenths), {little} if a little under (eight tenths)"
        ),
        End::NoResponse => "nothing on the bench explains it. Ask the bow's maker or a second technician".into(),
        End::Travel => "the rest cannot reach and nothing on the bench explains it. If the card's travel is less than the rest really has, correct the travel on the card; otherwise ask the bow's maker".into(),
        End::HugeTear => "basics look right and the tear is still huge. Try an arrow of another stiffness, and let a second person shoot the bow".into(),
        End::NothingToMove { brace: true } => "brace height in half twists of the string, within its maker's band; or a rest that can be moved".into(),
        End::NothingToMove { brace: false } => "other shafts, or a rest that can be moved. Or close as best with these arrows".into(),
        End::TooLight { least, pounds } => format!(
            "heavier point or shaft, or less draw weight: at least {least:.0} gr for {pounds:.0} lb, with the point that is shot, or the bow maker's own figure. This cannot be waived"
        ),
        End::TooShort => "longer arrows: the shaft must reach at least half an inch past the rest at full draw, or it can fall behind the rest and into the hand. This cannot be waived".into(),
        End::WeighFirst => "turn the limb bolts back to where the bow was weighed and record that, then weigh it. This cannot be waived".into(),
        End::PastLimit(limit) => format!(
            "{}. Draw nothing before they are back inside the limit, and record the move. This cannot be waived",
            bolts_limit(&limit)
        ),
    }
}
