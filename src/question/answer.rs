//! Every answer in one word.

use super::said::word_table;

word_table! {
    /// An answer, as it is recorded and typed. What it means depends on what
    /// was asked; the question's own table says which may be given.
    pub enum Answer {
        /// In order, of an item looked at or measured.
        Ok = "ok",
        /// Not in order.
        Off = "off",
        /// Left out knowingly.
        Skipped = "skipped",
        /// Due again; and of a path: look through it once more.
        Again = "again",
        /// It was done.
        Done = "done",
        /// The path is at its end: paper goes on.
        Resume = "resume",
        /// Yes.
        Yes = "yes",
        /// No; of older powder tests: no contact.
        No = "no",
        /// None, nothing.
        None = "none",
        /// Some.
        Some = "some",
        /// Nothing else.
        Nothing = "nothing",
        /// There is more.
        More = "more",
        /// The plunger's button.
        Button = "button",
        /// The rest.
        Rest = "rest",
        /// A cable or its guard.
        Cable = "cable",
        /// Something else.
        Other = "other",
        /// Nobody looked.
        NotLooked = "not-looked",
        /// Open and relaxed.
        Relaxed = "relaxed",
        /// It was not.
        Not = "not",
        /// The same, unchanged.
        Same = "same",
        /// An odd one.
        Odd = "odd",
        /// Different.
        Different = "different",
        /// It changes with it.
        Changes = "changes",
        /// Better.
        Better = "better",
        /// Tighter.
        Tighter = "tighter",
        /// Steady.
        Steady = "steady",
        /// Undamaged.
        Sound = "sound",
        /// Damaged.
        Damaged = "damaged",
        /// Damage, reported in general.
        Damage = "damage",
        /// In doubt, reported in general.
        Doubt = "doubt",
        /// Cleared in one word by an older program.
        Clear = "clear",
        /// Passed in one word by an older program.
        Passed = "passed",
        /// Tight.
        Tight = "tight",
        /// Loose.
        Loose = "loose",
        /// Both cams together.
        Together = "together",
        /// The cams apart.
        Apart = "apart",
        /// Upright.
        Upright = "upright",
        /// Leaning.
        Leans = "leans",
        /// True, straight.
        True = "true",
        /// Twisted.
        Twisted = "twisted",
        /// As it should be.
        Right = "right",
        /// Not as it should be.
        Wrong = "wrong",
        /// As the card says.
        AsCard = "as-card",
        /// There is no scale.
        NoScale = "no-scale",
        /// It was weighed.
        Weighed = "weighed",
        /// The plunger was set.
        Plunger = "plunger",
        /// Another point was put in.
        Point = "point",
        /// The draw weight was changed.
        Weight = "weight",
        /// Other shafts were taken.
        Shafts = "shafts",
        /// The shafts were cut.
        Cut = "cut",
        /// There is no such bow.
        Virtual = "virtual",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_answer_is_read_back_from_its_word() {
        for answer in Answer::ALL {
            assert_eq!(Answer::parse(answer.id()), Some(answer));
            assert_eq!(answer.to_string(), answer.id());
        }
        assert_eq!(Answer::parse("Ok"), None);
    }
}
