//! Killed outright while it records, again and again: what it said was
//! recorded is on disk, in order, and the next start goes on.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::Stdio;

use super::{Shop, command};
use tearbench::session::{Event, Session};

/// How many recorded lines are waited for before the kill.
const KILLS: [usize; 8] = [0, 1, 2, 3, 5, 8, 13, 21];

#[test]
fn killed_while_it_records_nothing_it_spoke_of_is_lost() {
    let shop = Shop::with_session();
    let mut known = Session::open(&shop.path("bow.toml"))
        .unwrap()
        .entries()
        .len();
    for wait in KILLS {
        let mut child = command(shop.path(".").as_path())
            .args(["--plain", "bow.toml"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        let typed: String = (0..60).map(|n| format!("{}l{}h\n", n % 9, n % 5)).collect();
        // It may be gone before all of it is taken.
        let typing = std::thread::spawn(move || {
            let _ = input.write_all(typed.as_bytes());
            input
        });
        let mut said = 0;
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        while said < wait {
            let line = lines.next().unwrap().unwrap();
            said += usize::from(line.contains("recorded: "));
        }
        child.kill().unwrap();
        child.wait().unwrap();
        // What was still on its way to the reader was said too.
        let rest = lines.map_while(Result::ok);
        said += rest.filter(|l| l.contains("recorded: ")).count();
        let _ = typing.join();
        let session = Session::open(&shop.path("bow.toml")).unwrap();
        let entries = session.entries();
        assert!(entries.len() >= known + said, "{wait}: {said} said");
        assert!(session.damage().iter().all(|d| d.torn_tail));
        let shots = entries[known..].iter().enumerate();
        for (n, entry) in shots {
            let Event::Shot(shot) = &entry.event else {
                panic!("{:?}", entry.event)
            };
            assert_eq!(shot.right, -((n % 9) as f64));
        }
        known = entries.len();
    }
    shop.good(&["shot", "bow.toml", "1l"]);
    shop.good(&["check", "bow.toml"]);
}
