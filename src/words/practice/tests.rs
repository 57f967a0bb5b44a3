//! All that practice says, on one page that is read when it changes.

use super::super::tests::{firsts, keeps_to_the_guide};
use super::*;
use crate::advice::Finding;
use crate::gear::{AdjusterKind, Card, CardText};
use crate::practice::standing::Level;
use crate::practice::tell::{MoveGround, Shows, Tail, Why};
use crate::practice::{
    Conclusion, Fault, Guess, Job, Judged, LEVELS, Played, Practice, Reveal, Seen, Struck, Told,
    WasWrong, play,
};
use crate::question::{Answer, Refusal, Test};
use crate::session::Shot;
use crate::units::System;

/// Every why there is: each side of the tail, each ground, each refusal.
fn whys() -> Vec<Why> {
    let (rest, height) = (AdjusterKind::RestSideways, AdjusterKind::RestHeight);
    let shows = |kind, plus, tail_plus| Shows {
        kind,
        plus,
        tail_plus,
    };
    let learn = MoveGround::Learn(rest);
    let sides = [false, true].into_iter().flat_map(|wanted| {
        [(true, true), (true, false), (false, true), (false, false)].map(|(vertical, positive)| {
            let tail = Some(Tail {
                vertical,
                positive,
                wanted,
            });
            let ground = learn;
            Why::Moves { tail, ground }
        })
    });
    let tests = firsts().into_iter().filter_map(|found| match found {
        Finding::TestMove(first) => Some(MoveGround::Test(first)),
        _ => None,
    });
    let grounds = [
        MoveGround::Shown(shows(rest, false, true)),
        MoveGround::Shown(shows(AdjusterKind::PlungerTension, true, false)),
        MoveGround::Shown(shows(AdjusterKind::NockingPoint, false, false)),
        MoveGround::EarlierBows(1, shows(rest, true, false)),
        MoveGround::EarlierBows(11, shows(height, true, false)),
        learn,
        MoveGround::HighStart(height),
    ];
    let grounds = tests.chain(grounds);
    let moves = grounds.map(|ground| Why::Moves { tail: None, ground });
    let refused = Refusal::ALL.into_iter().map(Why::Refused);
    sides.chain(moves).chain(refused).collect()
}

fn ends() -> Vec<Judged> {
    use Conclusion::{Archer, Arrow, Contact, Tuned};
    let mut all: Vec<Judged> = [Tuned, Arrow, Archer, Contact].map(Judged::Right).into();
    all.extend([Judged::WasTuned, Judged::MovesWouldHave]);
    all.extend([Arrow, Archer, Contact].map(Judged::WasThis));
    all.extend([Judged::NotYet, Judged::CanBeTuned]);
    all.extend([Arrow, Archer, Contact].map(Judged::WasOther));
    all
}

fn faults() -> Vec<WasWrong> {
    let (height, nock) = (AdjusterKind::RestHeight, AdjusterKind::NockingPoint);
    let mut all = vec![
        WasWrong::OffCentre(3.42),
        WasWrong::OffCentre(-3.42),
        WasWrong::Height(height, 2.0),
        WasWrong::Height(nock, -2.0),
        WasWrong::Backwards,
        WasWrong::Weak,
        WasWrong::Stiff,
        WasWrong::PoorArcher,
    ];
    all.extend([Struck::Rest, Struck::Cable, Struck::Other].map(WasWrong::Contact));
    all.push(WasWrong::Label(6.2));
    all
}

fn sights() -> Vec<Seen> {
    let mut all = vec![
        Seen::ScaleAgrees(58.0),
        Seen::ScaleShows {
            shows: 51.4,
            said: 57.5,
        },
    ];
    all.extend([Struck::Rest, Struck::Cable, Struck::Other].map(Seen::Wiped));
    all.extend([Seen::Slap, Seen::Clean, Seen::Cleared, Seen::SlapStays]);
    all.extend([Seen::NothingTouched, Seen::Shafts("0.400".into())]);
    all.push(Seen::NoBetterShafts);
    all
}

/// An end with so many shots, moves and guesses.
fn went(end: Conclusion, right: bool, guesses: (usize, usize)) -> Reveal {
    Reveal {
        said: Conclusion::Tuned,
        right,
        judged: Judged::NotYet,
        faults: Vec::new(),
        guesses,
        tear_mm: [-3.0, 1.0],
        inside: right,
        shots: 1,
        moves: 2,
        program: Played {
            end,
            right,
            shots: 6,
            moves: 1,
            story: Vec::new(),
        },
    }
}

/// What practice says in sentences.
fn sentences() -> Vec<String> {
    let mut all: Vec<String> = whys().iter().map(why).collect();
    all.extend(sights().iter().map(seen));
    all.extend(ends().into_iter().map(judged));
    for system in [System::Mm, System::Inch] {
        all.extend(faults().iter().map(|found| was_wrong(found, system)));
    }
    all.extend(Fault::ALL.map(|fault| tell_tale(fault).to_owned()));
    let all_went = [
        went(Conclusion::Tuned, true, (0, 0)),
        went(Conclusion::Arrow, false, (1, 1)),
        went(Conclusion::GaveUp, false, (4, 0)),
    ];
    for found in &all_went {
        all.extend(how_it_went(found, 6.0, System::Mm));
    }
    let rest = Guess::Move(AdjusterKind::RestSideways, false);
    all.push(guessed(rest, None, Some("It is a test.")));
    all.push(guessed(rest, Some("Rest DOWN 3.00 mm (12 clicks)"), None));
    let customer = Customer {
        owner: "Ann",
        bow: "green hunting bow",
        reason: "new arrows",
    };
    all.extend([false, true].map(|lost| welcome(2, customer, ["s", "v"], lost)));
    all.extend([false, true].map(|on| guesses_asked(on, "v")));
    all.push(paper_is_read("s"));
    for then in [
        Then::Verdict,
        Then::Answer("v"),
        Then::Troubleshooting("a", "v"),
    ] {
        all.push(through("12 mm left", then));
    }
    all.extend([NO_ANSWER, COUNTS_LOST, NOTHING_COUNTED].map(str::to_owned));
    all
}

/// The lines of its lists, which are no sentences.
fn labels() -> Vec<String> {
    let card = CardText::from_toml(crate::fixtures::RECURVE).unwrap();
    let (card, _) = Card::read(&card).unwrap();
    let mut all: Vec<String> = Guess::all(&card).into_iter().map(guess).collect();
    all.extend(Conclusion::ALL.map(|said| conclusion(said).to_owned()));
    all.extend(Job::TESTS.map(|j| job(j).to_owned()));
    all.extend(Job::CURES.map(|j| job(j).to_owned()));
    all.extend(LEVELS.map(|n| level(n).to_owned()));
    let counted = |rounds, guesses| Level {
        rounds,
        right: 1,
        shots: 7,
        par: 5,
        guesses,
        guesses_right: guesses.min(1),
    };
    for (rounds, guesses) in [(1, 0), (2, 1), (2, 4)] {
        all.push(level_counts(3, &counted(rounds, guesses)));
    }
    all.push(the_same_again(2, 7));
    all
}

/// A story from the first shot to the end.
fn story() -> Vec<String> {
    let mut practice = Practice::new(7, 1);
    let mut session = practice.session();
    let played = play(&mut practice, &mut session);
    let lines = played.story.iter().map(|event| told(event, System::Mm));
    let shown = [
        Told::Answered(Test::Hand, Answer::Relaxed),
        Told::Bench(Seen::Clean),
    ];
    let shown = shown.iter().map(|event| told(event, System::Mm));
    lines.chain(shown).collect()
}

#[test]
fn all_that_practice_says_keeps_to_the_guide_and_is_as_it_was() {
    let sentences = sentences();
    for line in &sentences {
        keeps_to_the_guide("practice", line);
    }
    let page = [sentences, labels()].concat().join("\n");
    insta::with_settings!({snapshot_path => "../../../snapshots", prepend_module_to_snapshot => false}, {
        insta::assert_snapshot!("words-practice", page);
    });
}

/// A way to go is the opposite of how it stood: 3.4 mm to the right to go was
/// too far left.
#[test]
fn what_was_wrong_is_where_it_stood() {
    let (height, nock) = (AdjusterKind::RestHeight, AdjusterKind::NockingPoint);
    for (found, said) in [
        (
            WasWrong::OffCentre(3.4),
            "The rest stood 3.4 mm too far left.",
        ),
        (
            WasWrong::OffCentre(-3.4),
            "The rest stood 3.4 mm too far right.",
        ),
        (
            WasWrong::Height(height, 2.0),
            "The rest stood 2.0 mm too low.",
        ),
        (
            WasWrong::Height(nock, -2.0),
            "The nocking point stood 2.0 mm too high.",
        ),
    ] {
        assert_eq!(was_wrong(&found, System::Mm), said);
    }
    assert_eq!(
        was_wrong(&WasWrong::OffCentre(5.08), System::Inch),
        "The rest stood 0.20 in too far left."
    );
}

#[test]
fn the_story_is_told_in_order_from_the_first_shot_to_its_end() {
    let story = story();
    assert!(story[0].starts_with("shot 1: "), "{}", story[0]);
    assert!(story.iter().any(|l| l.starts_with("move: ")), "{story:#?}");
    assert_eq!(story[story.len() - 3], "ends: it is tuned: hand it over");
    assert_eq!(story[story.len() - 2], "hand: relaxed");
    let shot = Shot {
        right: -3.0,
        bare: true,
        ragged: true,
        slit_extra: true,
        ..Shot::default()
    };
    assert_eq!(
        told(&Told::Shot(4, shot), System::Mm),
        "shot 4: 3 mm left, bare, ragged, extra slit"
    );
}

/// Each refusal has its own line, and only those that moves were made for
/// speak of moves.
#[test]
fn each_refusal_has_its_own_line() {
    let said: Vec<String> = Refusal::ALL.map(|r| why(&Why::Refused(r))).into();
    for (i, line) in said.iter().enumerate() {
        assert!(said[i + 1..].iter().all(|other| other != line), "{line}");
    }
    for (refusal, line) in Refusal::ALL.iter().zip(&said) {
        let of_moves = matches!(refusal, Refusal::NoResponse | Refusal::Jumps);
        let moved = line.contains("what was moved") || line.contains("from move to move");
        assert_eq!(moved, of_moves, "{line}");
    }
}
