//! The items looked at and measured before paper, and those of the range
//! safety list, as they are named.

use super::said::word_table;

word_table! {
    /// An item of a `setup` entry.
    pub enum SetupItem {
        /// The whole range safety list.
        RangeList = "range-list",
        /// The backstop stands far enough behind the sheet.
        RangeBackstop = "range-backstop",
        /// The backstop is large enough for a miss.
        RangeSize = "range-size",
        /// Nobody is beside or past the sheet.
        RangeClear = "range-clear",
        /// Eye and arm guard are worn.
        RangeEyes = "range-eyes",
        /// Shooting is allowed here, by law and by age.
        RangeLaw = "range-law",
        /// The paper frame, and its distance.
        RangePaper = "range-paper",
        /// The arrows were looked over and flexed.
        RangeArrows = "range-arrows",
        /// The bow was looked over.
        RangeBow = "range-bow",
        /// The bow as it came in.
        AsFound = "as-found",
        /// The safety inspection.
        Inspection = "inspection",
        /// The string was shot in.
        StringSettled = "string-settled",
        /// Draw length of this archer.
        DrawLength = "draw-length",
        /// Draw weight on a scale.
        DrawWeight = "draw-weight",
        /// What hangs on the bow.
        Accessories = "accessories",
        /// Brace height.
        BraceHeight = "brace-height",
        /// Axle to axle.
        AxleToAxle = "axle-to-axle",
        /// Tiller.
        Tiller = "tiller",
        /// Turns of the limb bolts.
        LimbBolts = "limb-bolts",
        /// The cams arrive together.
        CamTiming = "cam-timing",
        /// Cam lean.
        CamLean = "cam-lean",
        /// Bow, arrow and sight level.
        Levels = "levels",
        /// The peep.
        Peep = "peep",
        /// Nock fit.
        NockFit = "nock-fit",
        /// Height of the nocking point.
        NockingPoint = "nocking-point",
        /// Height of the rest.
        RestHeight = "rest-height",
        /// Centre shot.
        CentreShot = "centre-shot",
        /// Timing of a drop-away.
        RestTiming = "rest-timing",
        /// Angle and stiffness of a blade.
        Blade = "blade",
        /// Plunger tension.
        Plunger = "plunger",
        /// Eye to sight pin.
        EyeToPin = "eye-to-pin",
        /// One click of the sight.
        SightClick = "sight-click",
        /// Each arrow looked at, felt and flexed.
        ArrowFlex = "arrow-flex",
        /// A finished arrow on the scale.
        ArrowMass = "arrow-mass",
        /// The set weighed and numbered.
        ArrowMatch = "arrow-match",
        /// Straightness.
        ArrowStraightness = "arrow-straightness",
        /// Balance point.
        ArrowBalance = "arrow-balance",
        /// Ends, nocks, inserts.
        ArrowEnds = "arrow-ends",
        /// Witness marks and starting readings.
        WitnessMarks = "witness-marks",
        /// Clearance, by the powder test.
        Clearance = "clearance",
    }
}

/// One item of the range safety list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RangeItem {
    /// The backstop stands far enough behind the sheet.
    Backstop,
    /// The backstop is large enough for a miss.
    Size,
    /// Nobody is beside or past the sheet.
    Clear,
    /// Eye and arm guard are worn.
    Guards,
    /// Shooting is allowed here, by law and by age.
    Law,
    /// The paper frame stands firm.
    Frame,
    /// The arrows were looked over and flexed.
    Arrows,
    /// The bow was looked over.
    Bow,
}

impl RangeItem {
    /// All eight, in the order of the list.
    pub const ALL: [Self; 8] = [
        Self::Backstop,
        Self::Size,
        Self::Clear,
        Self::Guards,
        Self::Law,
        Self::Frame,
        Self::Arrows,
        Self::Bow,
    ];

    /// The item of an entry that speaks of it.
    pub const fn item(self) -> SetupItem {
        match self {
            Self::Backstop => SetupItem::RangeBackstop,
            Self::Size => SetupItem::RangeSize,
            Self::Clear => SetupItem::RangeClear,
            Self::Guards => SetupItem::RangeEyes,
            Self::Law => SetupItem::RangeLaw,
            Self::Frame => SetupItem::RangePaper,
            Self::Arrows => SetupItem::RangeArrows,
            Self::Bow => SetupItem::RangeBow,
        }
    }

    /// Its name in entries and on the command line.
    pub const fn id(self) -> &'static str {
        self.item().id()
    }

    /// The item of the list that an entry's item speaks of.
    pub fn of(item: SetupItem) -> Option<Self> {
        Self::ALL.into_iter().find(|it| it.item() == item)
    }

    /// The item with this name.
    pub fn parse(id: &str) -> Option<Self> {
        SetupItem::parse(id).and_then(Self::of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_item_is_read_back_from_its_name() {
        for item in SetupItem::ALL {
            assert_eq!(SetupItem::parse(item.id()), Some(item));
        }
        for item in RangeItem::ALL {
            assert_eq!(RangeItem::parse(item.id()), Some(item));
        }
        assert_eq!(RangeItem::parse("range-list"), None);
    }
}
