//! Random bows and sessions: every kind, rest, release and set of adjusters,
//! with tears that answer to the moves so that sessions come somewhere.

use proptest::prelude::*;

/// One bow and what happens to it.
#[derive(Debug, Clone)]
pub struct Case {
    /// The right-handed card, as text.
    pub card: String,
    /// What the bow truly does.
    pub bow: Bow,
    /// Whether the response prior of the card is recorded first.
    pub with_prior: bool,
    /// What is done, in order.
    pub acts: Vec<Act>,
}

/// What the tear of the virtual bow does, right-handed, mm.
#[derive(Debug, Clone)]
pub struct Bow {
    pub start: [f64; 2],
    /// Mm of tear for each mm of rest, sideways and up.
    pub rest: [f64; 2],
    /// Mm of tear for each turn of the plunger.
    pub plunger: f64,
}

/// Something that is done.
#[derive(Debug, Clone)]
pub enum Act {
    /// Shots through paper: noise of each, mm, with how it was shot.
    Shoot(Vec<([f64; 2], How)>),
    /// The advised move, if there is one.
    Follow,
    /// The bow's adjuster of this number is moved by so many steps.
    Move(usize, i32),
    /// The answer of this number to the test that is asked.
    AnswerTest(usize),
    /// The answer of this number to the next step of troubleshooting.
    AnswerStep(usize),
    /// An answer nobody asked for.
    Answer(&'static str, &'static str),
    /// Groups of a proof stage: second kind off the first by so much.
    Pair {
        stage: &'static str,
        off: [f64; 2],
        scatter: f64,
        metres: f64,
    },
    /// A walk-back or near and far line: mm a metre, and its bow at the middle.
    Line {
        stage: &'static str,
        lean: f64,
        bow: f64,
        scatter: f64,
        distances: usize,
    },
    /// A group at a spot.
    Spot {
        stage: &'static str,
        off: [f64; 2],
        scatter: f64,
    },
    /// The move that this stage of proof suggests.
    Suggested(usize),
    /// Measured before paper.
    Before(&'static str, &'static str),
    /// A change of the card.
    Card(&'static str, &'static str),
    /// Back to the start.
    PutBack,
    /// The last entry no longer counts.
    Undo,
    /// Something happened.
    Incident(&'static str),
}

/// How a shot was made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum How {
    Plain,
    Ragged,
    CalledBad,
    Bare,
    Technician,
    Arrow(u8),
}

const RESTS: [&str; 6] = ["drop-away", "blade", "capture", "plunger", "fixed", "shelf"];

/// Adjusters as a card lists them.
const SETS: [&[&str]; 9] = [
    &[],
    &["plunger-tension", "nocking-point"],
    &["plunger-tension"],
    &["centre-shot", "plunger-tension", "nocking-point"],
    &["rest-sideways", "rest-height"],
    &["rest-sideways", "yoke-twist", "limb-bolts", "nocking-point"],
    &["cam-shim", "yoke-twist", "rest-height"],
    &["brace-height", "nocking-point"],
    &[
        "rest-sideways",
        "plunger-tension",
        "rest-height",
        "limb-bolts",
    ],
];

fn card() -> impl Strategy<Value = String> {
    let bow = (
        prop::sample::select(vec!["compound", "recurve", "longbow"]),
        any::<bool>(),
        0usize..RESTS.len(),
        prop::sample::select(vec![0usize, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8]),
    );
    let fit = (
        // How the arrow suits: spine as a share of what would about suit.
        prop::sample::select(vec![0.6, 0.9, 1.0, 1.0, 1.0, 1.15, 1.6]),
        prop::sample::select(vec!["", "0.25 mm", "0.5 mm"]),
        prop::sample::select(vec!["", "out", "left"]),
        any::<bool>(),
        prop::sample::select(vec!["", "2 mm", "-3 mm"]),
        any::<bool>(),
    );
    (bow, fit).prop_map(
        |((kind, fingers, rest, set), (suits, click, clockwise, read, aim, only))| {
            let compound = kind == "compound";
            let fingers = fingers || kind == "longbow";
            let (weight, spine) = match kind {
                "compound" => (60.0, 0.37 * suits),
                "recurve" => (38.0, 0.62 * suits),
                _ => (45.0, 0.5 * suits),
            };
            let mut card = format!(
                "[bow]\nkind = \"{kind}\"\nhand = \"right\"\nrelease = \"{}\"\npeak_weight = \"{weight} lb\"\ndraw_length = \"28.5 in\"\nbrace_height = \"7 in\"\n",
                if fingers { "fingers" } else { "aid" }
            );
            if compound {
                card.push_str("let_off = \"75 %\"\n");
            }
            card.push_str(&format!("[rest]\nkind = \"{}\"\n", RESTS[rest]));
            if !click.is_empty() {
                card.push_str(&format!("click = \"{click}\"\ntravel = \"8 mm\"\n"));
            }
            if !clockwise.is_empty() {
                card.push_str(&format!("clockwise = \"{clockwise}\"\n"));
            }
            if read {
                card.push_str("reading = \"20.6 mm\"\nbacklash = \"0.2 mm\"\n");
            }
            card.push_str(&format!(
                "[arrow]\nshaft_length = \"29 in\"\nspine = \"{spine:.3}\"\nshaft_mass = \"8.5 gr/in\"\npoint_mass = \"125 gr\"\nnock_mass = \"10 gr\"\nvane_mass = \"21 gr\"\n"
            ));
            if only {
                card.push_str("only_these = true\n");
            }
            card.push_str("[archer]\neye = \"right\"\n");
            card.push_str("[paper]\ndistance = \"2 m\"\n");
            if !aim.is_empty() {
                card.push_str(&format!("aim_right = \"{aim}\"\n"));
            }
            for name in SETS[set] {
                card.push_str(&format!("[[adjuster]]\nname = \"{name}\"\n"));
                if *name == "rest-sideways" && !clockwise.is_empty() {
                    card.push_str(&format!("clockwise = \"{clockwise}\"\n"));
                }
            }
            card
        },
    )
}

fn bow() -> impl Strategy<Value = Bow> {
    (
        prop::array::uniform2(-24i32..=24),
        prop::sample::select(vec![-5.0, -3.0, -1.5, 0.0, 1.5, 3.0, 6.0]),
        prop::sample::select(vec![-3.0, -1.5, 1.5]),
        prop::sample::select(vec![-12.0, -4.0, 0.0, 4.0, 12.0]),
    )
        .prop_map(|(start, side, up, plunger)| Bow {
            start: start.map(f64::from),
            rest: [side, up],
            plunger,
        })
}

fn how() -> impl Strategy<Value = How> {
    prop_oneof![
        14 => Just(How::Plain),
        2 => Just(How::Ragged),
        1 => Just(How::CalledBad),
        1 => Just(How::Bare),
        1 => Just(How::Technician),
        3 => (1u8..4).prop_map(How::Arrow),
    ]
}

fn off() -> impl Strategy<Value = [f64; 2]> {
    prop::array::uniform2(prop::sample::select(vec![
        -260.0, -90.0, -30.0, 0.0, 20.0, 60.0, 140.0, 300.0,
    ]))
}

fn act() -> impl Strategy<Value = Act> {
    let noise = prop::array::uniform2((-4i32..=4).prop_map(f64::from));
    let wide = prop::array::uniform2((-20i32..=20).prop_map(f64::from));
    prop_oneof![
        8 => prop::collection::vec((noise, how()), 1..4).prop_map(Act::Shoot),
        1 => prop::collection::vec((wide, how()), 1..5).prop_map(Act::Shoot),
        7 => Just(Act::Follow),
        1 => (0usize..5, prop::sample::select(vec![-6, -2, -1, 1, 3, 8])).prop_map(|(k, n)| Act::Move(k, n)),
        3 => (0usize..6).prop_map(Act::AnswerTest),
        2 => (0usize..4).prop_map(Act::AnswerStep),
        2 => prop::sample::select(ANSWERS.to_vec()).prop_map(|(t, r)| Act::Answer(t, r)),
        3 => (
            prop::sample::select(vec!["bare-shaft", "broadhead", "creep", "torque"]),
            off(),
            prop::sample::select(vec![4.0, 15.0, 60.0]),
            prop::sample::select(vec![5.0, 18.0, 30.0]),
        ).prop_map(|(stage, off, scatter, metres)| Act::Pair { stage, off, scatter, metres }),
        3 => (
            prop::sample::select(vec!["walk-back", "near-far"]),
            prop::sample::select(vec![-8.0, -2.0, 0.0, 1.0, 5.0]),
            prop::sample::select(vec![-40.0, 0.0, 0.0, 60.0]),
            prop::sample::select(vec![3.0, 15.0]),
            1usize..5,
        ).prop_map(|(stage, lean, bow, scatter, distances)| Act::Line { stage, lean, bow, scatter, distances }),
        2 => (
            prop::sample::select(vec!["rough-sight", "final-sight", "groups"]),
            off(),
            prop::sample::select(vec![4.0, 40.0]),
        ).prop_map(|(stage, off, scatter)| Act::Spot { stage, off, scatter }),
        3 => (0usize..10).prop_map(Act::Suggested),
        2 => prop::sample::select(BEFORE.to_vec()).prop_map(|(i, v)| Act::Before(i, v)),
        1 => prop::sample::select(CARD.to_vec()).prop_map(|(k, v)| Act::Card(k, v)),
        1 => Just(Act::PutBack),
        1 => Just(Act::Undo),
        1 => Just(Act::Incident("dry fire")),
    ]
}

const ANSWERS: [(&str, &str); 20] = [
    ("levels", "ok"),
    ("levels", "ok"),
    ("levels", "ok"),
    ("levels", "off"),
    ("contact", "none"),
    ("contact", "none"),
    ("contact", "button"),
    ("contact", "rest"),
    ("contact", "cable"),
    ("contact", "not-looked"),
    ("hand", "relaxed"),
    ("hand", "not"),
    ("hand", "not-looked"),
    ("arrow", "same"),
    ("arrow", "odd"),
    ("wind", "calm"),
    ("press-work", "done"),
    ("rest-fore-aft", "done"),
    ("inspection", "clear"),
    ("troubleshooting-scatter", "resume"),
];

const BEFORE: [(&str, &str); 8] = [
    ("centre-shot", "2.5 mm out"),
    ("centre-shot", "1 mm in"),
    ("centre-shot", "6 mm out"),
    ("nocking-point", "12 mm high"),
    ("eye-to-pin", "33 in"),
    ("sight-click", "0.2 mm"),
    ("tiller", "190 mm / 187 mm"),
    ("plunger", "4 turns"),
];

const CARD: [(&str, &str); 7] = [
    ("arrow.point_mass", "150 gr"),
    ("arrow.trial_point", "75 gr"),
    ("bow.weighed", "true"),
    ("paper.distance", "2.5 m"),
    ("paper.aim_right", "3 mm"),
    ("job.press_consent", "true"),
    ("paper.tolerance", "4 mm"),
];

/// Any bow and session.
pub fn case() -> impl Strategy<Value = Case> {
    (
        card(),
        bow(),
        prop::bool::weighted(0.3),
        prop::collection::vec(act(), 4..14),
    )
        .prop_map(|(card, bow, with_prior, acts)| Case {
            card,
            bow,
            with_prior,
            acts,
        })
}
