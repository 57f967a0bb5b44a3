//! A clock that jumps back, to before the card or to 1970: entries are in the
//! order of their numbers whatever time they carry.

use crate::Shop;

/// Times no bench should see, in the order they are given to the entries.
const CLOCKS: &[(&str, &[&str])] = &[
    (
        "an hour back after every entry",
        &[
            "2026-03-02T18:15:00+00:00",
            "2026-03-02T17:15:00+00:00",
            "2026-03-02T16:15:00+00:00",
            "2026-03-02T15:15:00+00:00",
        ],
    ),
    (
        "to 1970 and on from there",
        &[
            "2026-03-02T10:15:00+00:00",
            "1970-01-01T00:00:00+00:00",
            "1970-01-01T00:00:40+00:00",
        ],
    ),
    (
        "from end to end, zone by zone",
        &[
            "9999-12-31T23:59:59-14:00",
            "0000-01-01T00:00:00+14:00",
            "2026-03-02T10:15:00+05:45",
        ],
    ),
];

/// A session with shots and moves, and a bare one beside it.
fn tuned() -> Shop {
    let shop = Shop::with_session();
    for (command, text) in [
        ("shot", "12l4h; 11l5h; 13l4h"),
        ("move", "rest left 1.5 mm"),
        ("shot", "6l2h; 7l2h"),
        ("note", "string waxed"),
    ] {
        shop.good(&[command, "bow.toml", text]);
    }
    shop.good(&["proof", "bow.toml", "levels", "ok"]);
    shop
}

fn at_times(text: &str, times: &[&str]) -> String {
    let mut next = times.iter().cycle();
    text.split_inclusive('\n')
        // Whoever mends an entry by hand takes its check sum off.
        .filter(|line| !line.starts_with("sum = "))
        .map(|line| match line.strip_prefix("at = \"") {
            Some(_) => format!("at = \"{}\"\n", next.next().unwrap()),
            None => line.to_owned(),
        })
        .collect()
}

#[test]
fn a_clock_that_jumps_back_loses_nothing_orders_nothing_and_changes_no_advice() {
    for (what, times) in CLOCKS {
        let shop = tuned();
        let sound = shop.advice();
        let text = at_times(&shop.read("bow.toml"), times);
        shop.write("bow.toml", &text);
        assert_eq!(shop.advice(), sound, "{what}");
        let (json, sheet) = (["--format", "json"], ["--format", "html"]);
        for args in [
            &["check", "bow.toml"][..],
            &["advise", "bow.toml"],
            &["report", "bow.toml"],
            &["report", "bow.toml", json[0], json[1]],
            &["report", "bow.toml", sheet[0], sheet[1]],
            &["sheet", "bow.toml"],
            &["before", "bow.toml"],
            &["proof", "bow.toml"],
            &["next", "bow.toml"],
            &["card", "bow.toml"],
            &["list", "."],
            &["compare", "bow.toml", "bow.toml"],
        ] {
            let said = shop.run(args);
            assert_eq!(said.code, 0, "{what}, {args:?}: {}", said.err);
            assert!(said.err.is_empty(), "{what}, {args:?}: {}", said.err);
        }
        // The shots in the report stand in the order they were entered.
        let report: serde_json::Value =
            serde_json::from_str(&shop.good(&["report", "bow.toml", "--format", "json"])).unwrap();
        let entries: Vec<u64> = report["shots"]
            .as_array()
            .unwrap()
            .iter()
            .map(|s| s["entry"].as_u64().unwrap())
            .collect();
        assert_eq!(entries.len(), 5, "{what}");
        assert!(entries.is_sorted(), "{what}: {entries:?}");
        // What is recorded now, before or after all of that, is the latest.
        shop.good(&["shot", "bow.toml", "1l"]);
        let after = shop.read("bow.toml");
        assert!(after.starts_with(&text), "{what}");
        let number = after.trim_end().rsplit(" = ").next().unwrap();
        let undone = shop.good(&["undo", "bow.toml"]);
        assert!(
            undone.contains(&format!("entry {number} ")),
            "{what}: {undone}"
        );
        assert_eq!(shop.advice(), sound, "{what}");
        shop.good(&["check", "bow.toml"]);
    }
}

#[test]
fn the_days_on_the_sheet_run_from_the_earliest_to_the_latest() {
    let shop = tuned();
    let times = ["2026-03-02T10:15:00+00:00", "2026-02-27T10:15:00+00:00"];
    shop.write("bow.toml", at_times(&shop.read("bow.toml"), &times));
    let sheet = shop.good(&["report", "bow.toml"]);
    assert!(
        sheet.contains("shot 2026-02-27 to 2026-03-02"),
        "{}",
        sheet.lines().take(8).collect::<Vec<_>>().join("\n")
    );
    // A session worked on in March is listed as of March.
    let list = shop.good(&["list", "."]);
    assert!(list.contains("2026-03-02"), "{list}");
}

#[test]
fn a_time_that_is_none_is_named_by_line_and_costs_its_entry_alone() {
    let shop = tuned();
    let text = shop.read("bow.toml");
    let line = text.lines().position(|l| l.starts_with("at = ")).unwrap();
    let bad: String = text
        .split_inclusive('\n')
        .enumerate()
        .map(|(i, l)| if i == line { "at = \"noon\"\n" } else { l })
        .collect();
    shop.write("bow.toml", bad);
    let said = shop.run(&["check", "bow.toml"]);
    assert_eq!(said.code, 1);
    let all = format!("{}{}", said.out, said.err);
    assert!(all.contains(&format!("line {}", line + 1)), "{all}");
    assert!(all.contains("noon"), "{all}");
}
