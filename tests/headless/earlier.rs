//! What the other sessions of a folder teach a new one, on the command line.

use super::{CARD, Shop};
use std::time::Duration;
use tearbench::gear::{AdjusterKind, CardText, Step};
use tearbench::session::{Event, Session, Shot};

/// Writes a session of a bow whose rest moves the tear by `slope` mm a mm.
fn tuned(shop: &Shop, n: usize, slope: f64) {
    let mut card = CardText::from_toml(CARD).unwrap();
    card.set("bow.name", &format!("Thistledown {n}")).unwrap();
    card.set("job.owner", &format!("Quillfeather {n}")).unwrap();
    let path = shop.path(&format!("earlier-{n}.toml"));
    Session::create(&path, &card).unwrap();
    let mut session = Session::open_for_writing(&path, "test", Duration::ZERO).unwrap();
    for (at, step) in [(0.0, 0.0), (-2.0, -2.0), (1.0, 3.0)] {
        if step != 0.0 {
            let steps = vec![Step {
                adjuster: AdjusterKind::RestSideways,
                amount: step,
            }];
            let made = Event::Move {
                steps,
                said: None,
                confirms: None,
            };
            session.record(made).unwrap();
        }
        for noise in [0.7, -0.6] {
            let shot = Shot {
                right: 9.0 + slope * at + noise,
                up: 1.0 - noise,
                ..Shot::default()
            };
            session.record(Event::Shot(shot)).unwrap();
        }
    }
}

fn shop() -> Shop {
    let shop = Shop::new();
    for (n, slope) in [-2.0, -2.6, -1.7, -2.3].into_iter().enumerate() {
        tuned(&shop, n, slope);
    }
    shop
}

#[test]
fn a_new_session_is_told_what_the_folder_teaches_and_says_how_many_bows() {
    let shop = shop();
    let said = shop.good(&["new", "bow.toml", "--card", "card.toml"]);
    assert!(
        said.contains(
            "earlier bows teach: 4 bows of this kind, release and rest in the folder (4 sessions)"
        ),
        "{said}"
    );
    let file = shop.read("bow.toml");
    assert!(
        file.starts_with("format = 2\n") && file.contains("learned = {"),
        "{file}"
    );
    assert!(
        !file.contains("Quillfeather") && !file.contains("Thistledown"),
        "{file}"
    );
    let advice = shop.advice();
    let prior = &advice["estimate"]["prior"];
    assert_eq!(prior["bows"], 4, "{prior}");
    assert!(
        prior["source"]
            .as_str()
            .unwrap()
            .starts_with("4 bows of this kind"),
        "{prior}"
    );
    let gain = &advice["estimate"]["gain"]["rest-sideways"];
    assert!(
        gain["probability_negative"].as_f64().unwrap() > 0.8,
        "{gain}"
    );
}

#[test]
fn no_history_leaves_it_out() {
    let shop = shop();
    let said = shop.good(&["new", "bow.toml", "--card", "card.toml", "--no-history"]);
    assert!(!said.contains("earlier bows"), "{said}");
    assert!(!shop.read("bow.toml").contains("learned"));
    let advice = shop.advice();
    assert_eq!(advice["estimate"]["prior"]["bows"], 0);
    let plain = Shop::with_session().advice();
    assert_eq!(advice["estimate"], plain["estimate"]);
}

#[test]
fn what_was_read_stands_in_the_state_folder_and_can_be_deleted() {
    let shop = shop();
    shop.good(&["new", "bow.toml", "--card", "card.toml"]);
    let kept = || -> Vec<std::path::PathBuf> {
        let folder = std::fs::read_dir(shop.path(".state/tearbench")).unwrap();
        let files = folder.map(|e| e.unwrap().path());
        files
            .filter(|p| {
                p.file_name()
                    .unwrap()
                    .to_string_lossy()
                    .starts_with("lessons-")
            })
            .collect()
    };
    let [file] = &kept()[..] else {
        panic!("{:?}", kept())
    };
    let text = std::fs::read_to_string(file).unwrap();
    assert!(
        !text.contains("uillfeather") && !text.contains("earlier-"),
        "{text}"
    );
    std::fs::remove_file(file).unwrap();
    shop.good(&["new", "again.toml", "--card", "card.toml"]);
    assert_eq!(kept().len(), 1);
    let learned = |name: &str| -> String {
        let line = shop.read(name);
        line.lines()
            .find(|l| l.starts_with("learned"))
            .unwrap()
            .to_owned()
    };
    assert_eq!(learned("bow.toml"), learned("again.toml"));
}

#[test]
fn a_file_that_cannot_be_read_is_named_and_the_rest_still_teach() {
    let shop = shop();
    shop.write("broken.toml", "[bow]\nkind = \"zeppelin\"\n");
    let said = shop.run(&["new", "bow.toml", "--card", "card.toml"]);
    assert_eq!(said.code, 0);
    assert!(
        said.err
            .contains("broken.toml: left out of what earlier bows teach"),
        "{}",
        said.err
    );
    assert!(
        said.out.contains("earlier bows teach: 4 bows"),
        "{}",
        said.out
    );
}
