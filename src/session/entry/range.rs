//! The range safety list as it is recorded: a set-up entry of its own name,
//! so that programs which do not know it load it as an item they do not have.
//! Only this file writes and reads its words.

use super::{Event, Shooter};
use crate::question::{Answer, RangeItem, SetupItem};

/// The word in place of a shooter: the bench stands somewhere else now.
const OTHER_PLACE: &str = "other-place";

/// What an entry says of the range safety list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RangeSaid {
    /// The list was read and all was in order, with this shooter.
    AllInOrder(Shooter),
    /// The bench stands at another place: nothing said before holds there.
    OtherPlace,
    /// One item is in order.
    InOrder(RangeItem),
    /// One item is not in order.
    Off(RangeItem),
}

impl RangeSaid {
    /// The entry that records it.
    #[must_use]
    pub fn event(self) -> Event {
        let setup = |item: SetupItem, value: Option<&str>, result: Answer| Event::Setup {
            item: item.into(),
            value: value.map(Into::into),
            result: result.into(),
        };
        let list = SetupItem::RangeList;
        match self {
            Self::AllInOrder(by) => setup(list, Some(by.id()), Answer::Ok),
            // With it everything on the list is due again.
            Self::OtherPlace => setup(list, Some(OTHER_PLACE), Answer::Again),
            Self::InOrder(item) => setup(item.item(), None, Answer::Ok),
            Self::Off(item) => setup(item.item(), None, Answer::Off),
        }
    }

    /// What an entry says of the list, if it speaks of it.
    #[must_use]
    pub fn of(event: &Event) -> Option<Self> {
        let Event::Setup {
            item,
            value,
            result,
        } = event
        else {
            return None;
        };
        let item = item.known()?;
        if item == SetupItem::RangeList {
            return match (result.known(), value.as_deref()) {
                (Some(Answer::Ok), by) => Some(Self::AllInOrder(
                    by.and_then(Shooter::from_id).unwrap_or_default(),
                )),
                _ => Some(Self::OtherPlace),
            };
        }
        let item = RangeItem::of(item)?;
        // An item that is skipped is not said to be in order, and not off.
        match result.known() {
            Some(Answer::Ok) => Some(Self::InOrder(item)),
            Some(Answer::Off) => Some(Self::Off(item)),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_said_of_the_list_is_read_back_from_its_entry() {
        let mut all = vec![RangeSaid::OtherPlace];
        all.extend(Shooter::ALL.map(RangeSaid::AllInOrder));
        all.extend(RangeItem::ALL.map(RangeSaid::InOrder));
        all.extend(RangeItem::ALL.map(RangeSaid::Off));
        for said in all {
            assert_eq!(RangeSaid::of(&said.event()), Some(said));
        }
    }

    #[test]
    fn the_words_of_the_file_stay_as_they_are() {
        let written = |said: RangeSaid| {
            let block = super::super::Entry::now(4, said.event()).to_toml();
            let own = |l: &&str| !l.starts_with("at =") && !l.starts_with("sum =");
            let lines: Vec<&str> = block.lines().filter(own).collect();
            lines.join("\n")
        };
        assert_eq!(
            written(RangeSaid::AllInOrder(Shooter::Technician)),
            "\n[[entry]]\nkind = \"setup\"\nitem = \"range-list\"\nresult = \"ok\"\nvalue = \"technician\"\nend = 4"
        );
        assert_eq!(
            written(RangeSaid::OtherPlace),
            "\n[[entry]]\nkind = \"setup\"\nitem = \"range-list\"\nresult = \"again\"\nvalue = \"other-place\"\nend = 4"
        );
        assert_eq!(
            written(RangeSaid::Off(RangeItem::Clear)),
            "\n[[entry]]\nkind = \"setup\"\nitem = \"range-clear\"\nresult = \"off\"\nend = 4"
        );
    }

    #[test]
    fn other_items_and_skipped_ones_say_nothing_of_the_list() {
        let setup = |item: &str, result: &str| Event::Setup {
            item: item.into(),
            value: None,
            result: result.into(),
        };
        assert_eq!(RangeSaid::of(&setup("cam-lean", "ok")), None);
        assert_eq!(RangeSaid::of(&setup("range-clear", "skipped")), None);
    }
}
