//! What the list before paper found, on the range safety list.

use super::*;
use crate::question::Answer;
use crate::session::{Event, Shooter};
use crate::setup::tests::{COMPOUND, RECURVE, timeline};

fn found(item: &str, result: Answer) -> Event {
    Event::Setup {
        item: item.into(),
        value: None,
        result: result.into(),
    }
}

fn read() -> Event {
    RangeSaid::AllInOrder(Shooter::Owner).event()
}

/// Why the list is due after these events, and a day later.
fn due_after(events: &[Event]) -> [Option<Due>; 2] {
    let of = |card: &str| {
        let t = timeline(card, events.to_vec());
        let today = Today::now();
        let tomorrow = Today::on(today.day.succ_opt().unwrap());
        [due(&t, today), due(&t, tomorrow)]
    };
    let left = RECURVE.replace("hand=\"right\"", "hand=\"left\"");
    assert_eq!(of(COMPOUND), of(&left), "{events:?}");
    of(COMPOUND)
}

#[test]
fn what_was_found_off_before_paper_keeps_the_list_open_until_it_is_looked_at() {
    let on_the_day = |item| [Some(Due::Off(item)), Some(Due::Off(item))];
    for (listed, item) in [
        ("inspection", RangeItem::Bow),
        ("arrow-flex", RangeItem::Arrows),
        ("nock-fit", RangeItem::Arrows),
    ] {
        let off = || found(listed, Answer::Off);
        assert_eq!(due_after(&[read(), off()]), on_the_day(item), "{listed}");
        // Neither the whole list in one key nor another place gets rid of it.
        assert_eq!(due_after(&[off(), read()]), on_the_day(item), "{listed}");
        let moved = [off(), RangeSaid::OtherPlace.event(), read()];
        assert_eq!(due_after(&moved), on_the_day(item), "{listed}");
        let t = timeline(COMPOUND, vec![off()]);
        assert!(is_off(&t, Today::now(), item));
        assert_eq!(all_in_order(&t, Today::now()), Err(item));
        // Looked at again, by either name.
        for good in [found(listed, Answer::Ok), RangeSaid::InOrder(item).event()] {
            let stands = [None, Some(Due::Day)];
            assert_eq!(
                due_after(&[off(), good.clone(), read()]),
                stands,
                "{listed}"
            );
            let t = timeline(COMPOUND, vec![off(), good]);
            assert!(!is_off(&t, Today::now(), item));
        }
        // What is undone was never found.
        let undone = [off(), Event::Undo { target: 1 }, read()];
        assert_eq!(due_after(&undone), [None, Some(Due::Day)], "{listed}");
    }
    // What says nothing of bow or arrows keeps nothing open.
    assert_eq!(
        due_after(&[read(), found("cam-lean", Answer::Off)])[0],
        None
    );
}
