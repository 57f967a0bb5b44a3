use super::*;
use crate::session::entry::{Event, Shot};

const CARD: &str = "format = 1\n\n[bow]\nkind = \"compound\"\n";

fn shot(right: f64) -> Event {
    Event::Shot(Shot {
        right,
        ..Shot::default()
    })
}

fn entries(last: u32) -> String {
    (1..=last)
        .map(|n| Entry::now(n, shot(f64::from(n))).to_toml())
        .collect()
}

fn sample() -> String {
    format!("{CARD}{}", entries(3))
}

fn numbers(journal: &Journal) -> Vec<u32> {
    journal.entries.iter().map(|e| e.number).collect()
}

/// The shots that count, by their tear, which is their number as recorded.
fn rights(journal: &Journal) -> Vec<f64> {
    let shots = journal.entries.iter().map(|e| match &e.event {
        Event::Shot(shot) => shot.right,
        _ => -1.0,
    });
    shots.collect()
}

#[test]
fn a_file_cut_at_any_byte_keeps_every_whole_entry() {
    let text = sample();
    let header = text.find("[[entry]]").unwrap();
    let ends: Vec<usize> = text
        .match_indices("\nend = ")
        .map(|(i, m)| i + m.len() + 2)
        .collect();
    for cut in header..=text.len() {
        let journal = Journal::from_text(&text[..cut]);
        let whole = ends.iter().filter(|end| **end <= cut).count();
        assert_eq!(
            journal.entries.len(),
            whole,
            "cut at {cut}: {:?}",
            &text[cut.saturating_sub(20)..cut]
        );
        assert!(journal.damage.iter().all(|d| d.torn_tail));
        assert!(journal.sound_len <= cut as u64);
        assert_eq!(journal.header.trim_end(), CARD.trim_end(), "cut at {cut}");
    }
}

#[test]
fn what_follows_the_last_end_line_never_takes_the_entry_with_it() {
    let whole = sample();
    for tail in [
        &[0_u8; 100][..],
        b"right = 9.0\nend = 3\n",
        b"bought on a Friday\n",
        b"\xff",
        b"\n\n  # a remark\nand no remark",
        b"[[ent",
    ] {
        let bytes = [whole.as_bytes(), tail].concat();
        let journal = Journal::from_bytes(&bytes);
        assert_eq!(numbers(&journal), [1, 2, 3], "{tail:?}");
        assert_eq!(journal.damage.len(), 1, "{tail:?}");
        assert!(journal.damage[0].torn_tail, "{tail:?}");
        assert_eq!(journal.next_number(), Some(4));
        assert!(journal.sound_len >= whole.len() as u64);
    }
    // A remark and empty lines belong where they stand.
    for quiet in ["# bought on a Friday\n", "\n\n", "   \n# ä\n"] {
        let journal = Journal::from_text(&format!("{whole}{quiet}"));
        assert!(journal.damage.is_empty(), "{quiet:?}");
        assert_eq!(journal.sound_len as usize, whole.len() + quiet.len());
    }
}

#[test]
fn what_stands_between_entries_is_a_piece_of_its_own() {
    let text = sample();
    let second = text.match_indices("\n[[entry]]").nth(1).unwrap().0;
    for junk in ["scribble\n", "\u{0}\u{0}\n", "end = 7\n"] {
        let spoiled = format!("{}{junk}{}", &text[..second], &text[second..]);
        let journal = Journal::from_text(&spoiled);
        assert_eq!(numbers(&journal), [1, 2, 3], "{junk:?}");
        assert_eq!(journal.damage.len(), 1);
        assert_eq!(journal.damage[0].problem, Harm::Strange);
        assert!(!journal.damage[0].torn_tail);
        let line = text[..second].lines().count() + 1;
        assert_eq!(journal.damage[0].line, line, "{junk:?}");
        assert_eq!(journal.sound_len as usize, spoiled.len());
    }
}

#[test]
fn behind_the_card_too_what_was_never_an_entry_is_set_aside() {
    for card in [format!("{CARD}\n# end of card\n"), CARD.to_owned()] {
        for tail in [
            &[0_u8; 40][..],
            b"\xff\xfe",
            b"[[entry]",
            b"\n[[entry]]\nkind",
        ] {
            let journal = Journal::from_bytes(&[card.as_bytes(), tail].concat());
            assert!(journal.header.starts_with("format = 1"));
            assert!(!journal.header.contains(['\u{0}', '\u{fffd}']), "{tail:?}");
            assert!(journal.damage.iter().all(|d| d.torn_tail), "{tail:?}");
            assert_eq!(journal.damage.len(), 1, "{tail:?}");
            assert_eq!(journal.next_number(), Some(1));
        }
    }
    let closed = format!("{CARD}\n# end of card\nend = 4 of something old\n");
    let journal = Journal::from_text(&closed);
    assert_eq!(journal.damage.len(), 1);
    assert!(!journal.header.contains("something"));
}

#[test]
fn one_byte_that_is_no_text_costs_its_own_piece() {
    let text = sample();
    let header = text.find("[[entry]]").unwrap();
    for at in header..text.len() {
        let mut bytes = text.clone().into_bytes();
        bytes[at] = 0xff;
        let journal = Journal::from_bytes(&bytes);
        assert!(journal.entries.len() >= 2, "at {at}");
        let kept = rights(&journal);
        assert!([1.0, 2.0, 3.0].iter().filter(|r| kept.contains(r)).count() >= 2);
    }
}

#[test]
fn one_wrong_digit_on_an_end_line_costs_nothing() {
    let text = format!("{CARD}{}", entries(41));
    for wrong in ["92", "17", "2", "1", "4294967295", "0"] {
        let spoiled = text.replacen("\nend = 12\n", &format!("\nend = {wrong}\n"), 1);
        let journal = Journal::from_text(&spoiled);
        assert_eq!(journal.entries.len(), 41, "{wrong}");
        assert_eq!(numbers(&journal), (1..=41).collect::<Vec<u32>>());
        assert!(journal.damage.is_empty());
        let line = spoiled[..spoiled.find(&format!("end = {wrong}\n")).unwrap()]
            .rfind("[[entry]]")
            .map(|i| spoiled[..i].lines().count() + 1);
        let renumbered = journal.remarks.iter().find_map(|r| match r {
            Remark::Renumbered {
                line,
                claimed,
                number: 12,
            } => Some((*line, claimed.to_string())),
            _ => None,
        });
        if wrong == "92" {
            assert_eq!(renumbered, Some((line.unwrap(), wrong.to_owned())));
        }
        // Its sum is that of the number it has.
        let changed = |r: &Remark| matches!(r, Remark::Changed { .. });
        assert!(!journal.remarks.iter().any(changed), "{wrong}");
        assert_eq!(journal.next_number(), Some(42));
    }
    let twice = text.replacen("\nend = 12\n", "\nend = 17\n", 1);
    assert!(Journal::from_text(&twice).claimed_twice.contains(&17));
}

#[test]
fn a_number_that_may_be_any_of_several_is_set_aside_and_its_entry_alone() {
    let text = format!("{CARD}{}", entries(4)).replace("\nend = 4\n", "\nend = 2\n");
    let journal = Journal::from_text(&text);
    assert_eq!(numbers(&journal), [1, 2, 3]);
    assert_eq!(journal.damage[0].problem, Harm::Number(2));
    assert!(!journal.damage[0].torn_tail);
    // Its place in the order stays taken.
    assert_eq!(journal.next_number(), Some(5));
}

#[test]
fn a_bad_entry_in_the_middle_is_named_by_line_and_the_rest_loads() {
    let text = sample().replacen("right = 2.0", "right = two", 1);
    let journal = Journal::from_text(&text);
    assert_eq!(journal.entries.len(), 2);
    let line = text.lines().position(|l| l == "right = two").unwrap() + 1;
    assert_eq!(journal.damage[0].line, line);
    assert_eq!(journal.next_number(), Some(4));
}

#[test]
fn an_entry_that_was_changed_is_said_and_counts() {
    let text = sample().replacen("right = 2.0", "right = 9.0", 1);
    let journal = Journal::from_text(&text);
    assert_eq!(rights(&journal), [1.0, 9.0, 3.0]);
    assert_eq!(journal.remarks, [Remark::Changed { number: 2 }]);
    let by_hand: String = text
        .split_inclusive('\n')
        .filter(|l| !l.starts_with("sum = "))
        .collect();
    assert!(Journal::from_text(&by_hand).remarks.is_empty());
}

#[test]
fn numbers_that_nothing_stands_for_are_missed() {
    let text = format!("{CARD}{}", entries(5));
    let cut = |from: u32, to: u32| {
        let at = |n: u32| text.find(&format!("\nend = {n}\n")).unwrap() + 9;
        format!("{}{}", &text[..at(from - 1)], &text[at(to)..])
    };
    let journal = Journal::from_text(&cut(2, 3));
    assert_eq!(journal.remarks, [Remark::Missing { from: 2, to: 3 }]);
    assert_eq!(journal.next_number(), Some(6));
    assert!(Journal::from_text(&text).remarks.is_empty());
}

/// Three entries recorded together after two single ones.
fn group() -> (String, String) {
    let mark = Together {
        first: 3,
        members: 3,
    };
    let members = (3..=5).map(|n| {
        let entry = Entry {
            together: Some(mark),
            ..Entry::now(n, shot(f64::from(n)))
        };
        entry.to_toml()
    });
    (format!("{CARD}{}", entries(2)), members.collect())
}

#[test]
fn a_group_counts_whole_or_not_at_all_wherever_it_is_cut() {
    let (before, members) = group();
    for cut in 2..members.len() {
        let text = format!("{before}{}", &members[..cut]);
        let journal = Journal::from_text(&text);
        assert_eq!(numbers(&journal), [1, 2], "cut at {cut}");
        assert!(journal.damage.iter().all(|d| d.torn_tail), "cut at {cut}");
        assert_eq!(journal.next_number(), Some(3), "cut at {cut}");
        // All of it is set aside, nothing of what was before.
        let sound = journal.sound_len as usize;
        assert!(sound >= before.len() && sound <= before.len() + 1);
    }
    let whole = Journal::from_text(&format!("{before}{members}"));
    assert_eq!(numbers(&whole), [1, 2, 3, 4, 5]);
    assert!(whole.damage.is_empty() && whole.remarks.is_empty());
}

#[test]
fn a_group_that_lost_a_member_later_counts_for_nothing_and_stays_in_the_file() {
    let (before, members) = group();
    let after = Entry::now(6, shot(6.0)).to_toml();
    let spoiled = members.replacen("right = 4.0", "right = x", 1);
    let journal = Journal::from_text(&format!("{before}{spoiled}{after}"));
    assert_eq!(rights(&journal), [1.0, 2.0, 6.0]);
    assert_eq!(journal.damage.len(), 3);
    assert!(journal.damage.iter().all(|d| !d.torn_tail));
    assert_eq!(journal.next_number(), Some(7));
    // At the end of the file as well: it was written to its last member.
    let journal = Journal::from_text(&format!("{before}{spoiled}"));
    assert!(journal.damage.iter().all(|d| !d.torn_tail));
    assert_eq!(journal.next_number(), Some(6));
    // A member whose mark says something else leaves all of them out.
    let other = members.replacen("together = [3, 3]", "together = [3, 4]", 1);
    assert_eq!(
        numbers(&Journal::from_text(&format!("{before}{other}{after}"))),
        [1, 2, 6]
    );
}

#[test]
fn an_incident_stops_shooting_whatever_became_of_its_group() {
    let mark = Together {
        first: 1,
        members: 2,
    };
    let member = |n: u32, event: Event| Entry {
        together: Some(mark),
        ..Entry::now(n, event)
    };
    let incident = Event::Incident {
        what: "dry fire".into(),
    };
    let text = format!(
        "{CARD}{}{}{}",
        member(1, incident).to_toml(),
        member(2, shot(1.0))
            .to_toml()
            .replace("right = 1.0", "right = x"),
        Entry::now(3, shot(2.0)).to_toml()
    );
    assert_eq!(numbers(&Journal::from_text(&text)), [1, 3]);
}

#[test]
fn an_entry_of_a_newer_program_is_kept_and_not_called_lost() {
    let other = "\n[[entry]]\nkind = \"hologram\"\nat = \"2026-03-02T10:15:00+00:00\"\ndepth = 3\nend = 4\n";
    let journal = Journal::from_text(&format!("{}{other}", sample()));
    assert!(journal.damage.is_empty());
    assert_eq!(journal.entries.len(), 3);
    let newer = journal.newer().unwrap().to_string();
    assert!(
        newer.contains("hologram") && newer.contains("newer program"),
        "{newer}"
    );
    assert_eq!(journal.next_number(), Some(5));
}

#[test]
fn a_text_over_several_lines_may_hold_what_looks_like_an_end() {
    let by_hand = "\n[[entry]]\nkind = \"note\"\nat = \"2026-03-02T10:15:00+00:00\"\ntext = \"\"\"\nend = 9\n\"\"\"\nend = 4\n";
    let journal = Journal::from_text(&format!("{}{by_hand}", sample()));
    assert_eq!(numbers(&journal), [1, 2, 3, 4]);
    assert!(journal.damage.is_empty());
}

#[test]
fn reading_a_hostile_file_stays_linear() {
    // As many tiny blocks as fit, numbers falling, many ends in one block.
    let falling: String = (0..60_000)
        .rev()
        .map(|n| {
            format!("[[entry]]\nkind=\"note\"\nat=\"2026-03-02T10:15:00Z\"\ntext=\"\"\nend={n}\n")
        })
        .collect();
    let ends = format!("[[entry]]\n{}", "end = 1\n".repeat(300_000));
    let began = std::time::Instant::now();
    for text in [falling, ends] {
        let journal = Journal::from_text(&text);
        assert!(journal.sound_len <= text.len() as u64);
    }
    assert!(began.elapsed().as_secs() < 20, "{:?}", began.elapsed());
}
