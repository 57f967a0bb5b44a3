//! The stages of proof, as they are named.

use super::said::word_table;

word_table! {
    /// One stage of proof, in their order.
    pub enum Stage {
        /// Bow, arrow and sight level.
        Levels = "levels",
        /// The sight at the nearest distance.
        RoughSight = "rough-sight",
        /// Held as always against pulled hard into the wall: cam timing.
        Creep = "creep",
        /// Bare shafts against fletched, close in.
        BareShaft = "bare-shaft",
        /// One sight setting from growing distances.
        WalkBack = "walk-back",
        /// A near and a far line.
        NearFar = "near-far",
        /// Broadheads against field points.
        Broadhead = "broadhead",
        /// Group size at this and the last setting.
        Groups = "groups",
        /// The bow hand turned a little left against right: the rest's place fore and aft.
        Torque = "torque",
        /// The sight at the end.
        FinalSight = "final-sight",
    }
}

word_table! {
    /// What a group of proof was shot with, or how it was shot.
    pub enum GroupKind {
        /// Fletched arrows.
        Fletched = "fletched",
        /// Bare shafts.
        Bare = "bare",
        /// Field points.
        Field = "field",
        /// Broadheads.
        Broadhead = "broadhead",
        /// Held at the wall as always.
        Normal = "normal",
        /// Pulled hard into the wall.
        Hard = "hard",
        /// The bow hand turned a little left.
        TurnedLeft = "turned-left",
        /// The bow hand turned a little right.
        TurnedRight = "turned-right",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stage_is_read_back_from_its_name() {
        for stage in Stage::ALL {
            assert_eq!(Stage::parse(stage.id()), Some(stage));
        }
        for kind in GroupKind::ALL {
            assert_eq!(GroupKind::parse(kind.id()), Some(kind));
        }
        assert!(Stage::Levels < Stage::RoughSight && Stage::Torque < Stage::FinalSight);
    }
}
