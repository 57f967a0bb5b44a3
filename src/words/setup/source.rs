//! The printed sources of the list before paper, by name.

use crate::setup::Source;

/// A source in general terms or by its standard's number, or what sources that
/// disagree say.
pub(super) const fn source(source: Source) -> &'static str {
    match source {
        Source::ArrowSafety => "arrow makers' safety pages; a national federation on carbon arrows",
        Source::LeastWeight => {
            "5 gr/lb: bow makers' warranty pages, arrow makers; agreement of the parts: common practice, no source"
        }
        Source::SetOfArrows => {
            "a coach's article on arrow spine, weight and straightness (2 gr a dozen); hunting sets 3 to 5 gr from memory"
        }
        Source::Straightness => {
            "ASTM F1889 and ATA/ARR-203 for the method; the limit is common practice, no source (trade grades are usually half the reading)"
        }
        Source::PowderTest => "a club's powder-test note, crediting a printed coach's book",
        Source::Marking => "a club journal on marking sight and rest, 2014",
        Source::AllOn => "an arrow maker's tuning guide; FITA coach's manual, recurve tuning",
        Source::OwnerCare => "a bow maker's owner-care sheet",
        Source::StringShots => "about 100 in one magazine, 50 to 60 from a broadhead maker",
        Source::DrawLength => "ASTM F1880 for the measure; fit before tuning: a hunting course",
        Source::MarkedWeight => {
            "a bow maker's note: marked weights can be out by 7 lb or more; the 2 lb is common practice, no source"
        }
        Source::CompoundTiller => {
            "a shop manager's tuning checklist; the 1/16 in is common practice, no source"
        }
        Source::FingerTiller => "a magazine on tiller; a club equipment guide",
        Source::LimbBolts => "a bow maker's warranty page; a shop manager's checklist",
        Source::CamTiming => {
            "dealer workbench column, 2015; a technician's diary, 2010, on 1/16 in"
        }
        Source::CamLean => "at full draw for most; at rest with a straight-edge for one",
        Source::Backstop => "a hunting magazine's tuning course; the figure is worked out here",
        Source::PaperDistance => "5 ft, 6 ft, 6 to 8 ft, 2 to 3 yd",
        Source::SightAxes => "two magazine articles on sight axes, one by a shop manager",
        Source::NockFit => {
            "hang-and-tap; lets go within half an inch of pull; rather loose with a loop"
        }
        Source::ShelfNocking => "a forum of traditional archers (low weight)",
        Source::CentreShot => {
            "an arrow maker's tuning guide; by eye and by a maker's distance can differ"
        }
        Source::PlungerTension => "a club coach's note: 'medium' is no setting",
    }
}
