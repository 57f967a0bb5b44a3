//! Several programs at one file, by several names, and killed while they write.

use std::collections::BTreeSet;
use std::process::Stdio;
use std::time::Duration;

use super::{Shop, command, said};
use tearbench::session::lock::Lock;
use tearbench::session::{Event, Session, Shot};

/// A program that another test starts may hold a copy of the lock until it is
/// another program: between fork and exec.
pub(super) const PATIENCE: Duration = Duration::from_secs(5);

fn shot(right: f64) -> Event {
    Event::Shot(Shot {
        right,
        ..Shot::default()
    })
}

fn shop_with_three_names() -> Shop {
    let shop = Shop::with_shots(1);
    std::os::unix::fs::symlink("bow.toml", shop.path("link.toml")).unwrap();
    std::fs::hard_link(shop.path("bow.toml"), shop.path("second.toml")).unwrap();
    shop
}

#[test]
fn one_file_by_any_name_has_one_lock() {
    let shop = shop_with_three_names();
    let names = ["bow.toml", "link.toml", "second.toml"];
    for holder in names {
        let held = Lock::take(&shop.path(holder), "the tearbench console", PATIENCE);
        let held = held.unwrap();
        for other in names {
            let said = shop.run(&["shot", other, "clean"]);
            assert_eq!(said.code, Some(1), "{holder}, {other}");
            assert!(said.err.contains("is in use by"), "{}", said.err);
            assert!(said.err.contains("not recorded"), "{}", said.err);
            shop.good(&["advise", other]);
        }
        drop(held);
        shop.good(&["shot", holder, "clean"]);
    }
    assert_eq!(shop.journal().entries.len(), 5);
    assert!(!shop.files().iter().any(|f| f.ends_with(".lock")));
}

#[test]
fn the_holder_is_named_and_an_older_program_is_kept_out_and_kept_waiting_for() {
    let shop = Shop::with_shots(1);
    let path = shop.path("bow.toml");
    let held = Lock::take(&path, "the tearbench console", PATIENCE).unwrap();
    let refused = Lock::take(&path, "a command", Duration::from_millis(60)).unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("the tearbench console, process"),
        "{refused}"
    );
    // An older program locks the file beside it, and nothing else.
    let old = std::fs::File::open(shop.path(".bow.toml.lock")).unwrap();
    assert!(old.try_lock().is_err(), "the old lock is held too");
    drop(held);
    shop.write(".bow.toml.lock", "tearbench (a command), process 1\n");
    let old = std::fs::File::open(shop.path(".bow.toml.lock")).unwrap();
    old.lock().unwrap();
    assert!(tearbench::session::lock::is_held(&path));
    let refused = Lock::take(&path, "x", Duration::from_millis(60)).unwrap_err();
    assert!(refused.to_string().contains("process 1"), "{refused}");
    drop(old);
    assert!(!tearbench::session::lock::is_held(&path));
    assert!(Lock::take(&path, "x", PATIENCE).is_ok());
}

#[test]
fn eight_writers_by_three_names_lose_nothing_they_were_told_was_recorded() {
    let shop = shop_with_three_names();
    let names = ["bow.toml", "link.toml", "second.toml"];
    let rounds = if std::env::var_os("TEARBENCH_CRASH").is_some() {
        40
    } else {
        5
    };
    let told: Vec<u32> = std::thread::scope(|scope| {
        let writers: Vec<_> = (0..8_usize)
            .map(|w| {
                let (folder, name) = (shop.folder(), names[w % names.len()]);
                scope.spawn(move || {
                    let mut told = Vec::new();
                    for _ in 0..rounds {
                        let args = ["shot", name, "3 left"];
                        let said = said(&command(folder).args(args).output().unwrap());
                        if said.code == Some(0) {
                            let number = said.out.split("(entry ").nth(1).unwrap();
                            let number = number.split(')').next().unwrap();
                            told.push(number.parse::<u32>().unwrap());
                        } else {
                            assert!(said.err.contains("not recorded"), "{}", said.err);
                        }
                    }
                    told
                })
            })
            .collect();
        writers
            .into_iter()
            .flat_map(|w| w.join().unwrap())
            .collect()
    });
    let unique: BTreeSet<u32> = told.iter().copied().collect();
    assert_eq!(unique.len(), told.len(), "a number was given twice");
    let journal = shop.journal();
    let there: BTreeSet<u32> = journal.entries.iter().map(|e| e.number).collect();
    assert!(unique.is_subset(&there));
    assert!(journal.damage.is_empty() && journal.remarks.is_empty());
    assert_eq!(there.len(), 2 + told.len());
    assert!(told.len() >= 8, "only {} were recorded", told.len());
}

#[test]
fn killed_while_a_command_records_what_was_told_is_there() {
    let shop = Shop::with_shots(1);
    let mut told = 0;
    for n in 0..24_u64 {
        let mut child = command(shop.folder())
            .args(["shot", "bow.toml", "1l; 2l; 3l"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(n * 700));
        let _ = child.kill();
        let out = child.wait_with_output().unwrap();
        told += String::from_utf8_lossy(&out.stdout)
            .matches("recorded shot")
            .count()
            / 3;
        let session = Session::open(&shop.path("bow.toml")).unwrap();
        let shots = session.timeline().shots.len();
        assert!(
            shots > 3 * told && (shots - 1).is_multiple_of(3),
            "{shots} of {told}"
        );
        assert!(session.damage().iter().all(|d| d.torn_tail));
    }
    shop.good(&["shot", "bow.toml", "clean"]);
    shop.good(&["check", "bow.toml"]);
}

#[test]
fn a_file_that_is_replaced_under_its_writer_is_noticed_and_followed() {
    let shop = Shop::with_shots(2);
    let path = shop.path("bow.toml");
    let mut session = Session::open_for_writing(&path, "a test", PATIENCE).unwrap();
    // As editors save: a new file takes the name, here with the same content.
    std::fs::copy(&path, shop.path("other")).unwrap();
    std::fs::rename(shop.path("other"), &path).unwrap();
    assert!(!session.is_unchanged().unwrap());
    let refused = session.record(shot(4.0)).unwrap_err().to_string();
    assert!(refused.contains("changed by another program"), "{refused}");
    session.reload().unwrap();
    session.record(shot(4.0)).unwrap();
    assert_eq!(shop.journal().entries.len(), 4);
    // The lock is on the file that has the name now.
    let said = shop.run(&["shot", "bow.toml", "clean"]);
    assert_eq!(said.code, Some(1), "{}", said.err);
    drop(session);
    shop.good(&["shot", "bow.toml", "clean"]);
}

#[test]
fn a_file_raised_to_another_format_stays_locked_and_keeps_its_link_and_rights() {
    use std::os::unix::fs::PermissionsExt as _;
    let shop = Shop::with_shots(2);
    std::os::unix::fs::symlink("bow.toml", shop.path("link.toml")).unwrap();
    let rights = std::fs::Permissions::from_mode(0o640);
    std::fs::set_permissions(shop.path("bow.toml"), rights).unwrap();
    let link = shop.path("link.toml");
    let mut session = Session::open_for_writing(&link, "a test", PATIENCE).unwrap();
    session.record_all(vec![shot(1.0), shot(2.0)]).unwrap();
    session.record(shot(3.0)).unwrap();
    assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
    let mode = std::fs::metadata(&link).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
    for name in ["bow.toml", "link.toml"] {
        assert_eq!(shop.run(&["shot", name, "clean"]).code, Some(1), "{name}");
    }
    drop(session);
    assert_eq!(shop.journal().entries.len(), 6);
    assert!(shop.read("bow.toml").starts_with("format = 2\n"));
}

#[test]
fn a_file_with_a_second_name_is_never_written_anew() {
    let shop = shop_with_three_names();
    shop.good(&["shot", "second.toml", "1l; 2l; 3l"]);
    assert_eq!(shop.read("bow.toml"), shop.read("second.toml"));
    assert_eq!(shop.journal().entries.len(), 5);
    assert!(shop.read("bow.toml").starts_with("format = 1\n"));
}
