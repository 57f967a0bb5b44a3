//! What a change of the card is taken for.

use super::said::word_table;

word_table! {
    /// A corrected typo and a changed bow or arrow are different: only the
    /// second makes anything unknown.
    pub enum Taken {
        /// A typo was corrected: what was shot was shot with the card as it
        /// stands after it.
        Corrected = "corrected",
        /// The bow or the arrow itself was changed.
        Changed = "changed",
    }
}
