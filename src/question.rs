//! Everything that can be asked and every answer, work on the bow, and what
//! stops: one typed table. `parse` and `Display` are the words of the file
//! and of the command line; nothing else compares them as text.
//!
//! An entry holds [`Said`]: one of these, or an old or foreign word, which
//! stays as it stands in the file and counts for nothing.

mod answer;
mod ask;
mod card;
mod code;
mod contact;
mod inspect;
mod item;
mod refusal;
mod said;
mod stage;

pub use answer::Answer;
pub(crate) use ask::{
    ARROW_ANSWERS, BEFORE_BOTH_ANSWERS, BUTTON_ANSWERS, HAND_ANSWERS, RAGGED_ANSWERS, Test,
};
pub use ask::{Fixed, Question, Work};
pub use card::Taken;
pub use code::Code;
pub(crate) use code::Note;
pub use contact::Contact;
pub(crate) use inspect::{InspectPart, clears_in_one_word};
pub use item::{RangeItem, SetupItem};
pub use refusal::Refusal;
pub use said::{Said, Word};
pub(crate) use stage::GroupKind;
pub use stage::Stage;
