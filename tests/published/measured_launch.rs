//! What real arrows were measured to do on the string and close to the bow,
//! one check a measurement. Figures are the middle of bows drawn over
//! everything nobody publishes, never one bow's.

use tearbench::gear::AdjusterKind;
use tearbench::physics::drive::Drive;
use tearbench::physics::prior::{Case, response_prior_of};
use tearbench::physics::rng::Rng;
use tearbench::physics::unknowns::Unknowns;
use tearbench::physics::virtual_bow::{Disturbance, Settings, VirtualBow};
use tearbench::physics::{ArrowSpec, BowKind, BowSpec, FreeModes, Hand, RestKind, Setup};

use crate::physics_support::{aid, arrow, compound, fingers, recurve};

/// A longbow shot off its shelf, right-handed.
fn longbow() -> (Setup, BowSpec, ArrowSpec) {
    let setup = Setup {
        kind: BowKind::Longbow,
        rest: RestKind::Shelf,
        ..fingers()
    };
    let bow = BowSpec {
        kind: BowKind::Longbow,
        ..recurve(45.0)
    };
    // The wooden-arrow convention: 45 lb spine is 0.700 on 28 in.
    (setup, bow, arrow(0.700, 28.0, 11.0, 120.0))
}

fn draws(setup: &Setup, n: usize) -> Vec<Unknowns> {
    let mut rng = Rng::new(24);
    (0..n).map(|_| Unknowns::draw(setup, &mut rng)).collect()
}

fn middle(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

fn tears(arrow: &ArrowSpec, bow: &BowSpec, setup: &Setup, at_m: f64) -> [Vec<f64>; 2] {
    let all: Vec<[f64; 2]> = draws(setup, 200)
        .iter()
        .map(|u| {
            let bow = VirtualBow::new(arrow, bow, setup, u);
            bow.tear_mm(
                &Settings::default(),
                &Disturbance::default(),
                &bow.paper(at_m),
            )
        })
        .collect();
    [0, 1].map(|axis| all.iter().map(|t| t[axis]).collect())
}

/// Nock travel at which the nock is farthest right while on the string, m.
fn nock_right_m(arrow: &ArrowSpec, bow: &BowSpec, setup: &Setup, unknowns: &Unknowns) -> f64 {
    let virtual_bow = VirtualBow::new(arrow, bow, setup, unknowns);
    let drive = Drive::new(arrow, bow, setup, unknowns);
    let nock = FreeModes::with_string(arrow, unknowns.string_kg).at(0.0);
    let input = virtual_bow.input(&Settings::default(), &Disturbance::default());
    let (mut most, mut found) = (f64::MIN, 0.0);
    let _ = virtual_bow
        .launch()
        .shoot_watched(&input, |time, state, _| {
            let place: f64 = state.q.iter().zip(&nock).map(|(q, n)| q[0] * n).sum();
            if place > most {
                most = place;
                found = drive.rest_at_draw_m() - drive.at(time).rest_at_m;
            }
        });
    found
}

/// A finger-shot arrow that suits its bow leaves the button before it leaves
/// the string (1 ms allowed: the frames are 0.4 to 1 ms apart). Wanted in nine
/// drawn bows of ten; the model MISSES: its range of unknowns has the tail slap
/// the button after the string has gone in half of them (it left in time in 93
/// of 200). The response prior weighs those down, as the next check shows. One archer and one machine were filmed; size,
/// force and times of the contact are not readable.
/// Source: Kooi, J. Sports Sciences 16, 1998, abstract; Pekalski's film, 1990.
#[test]
fn a_finger_shot_arrow_leaves_the_button_before_the_string_in_some_of_the_bows_only() {
    let (setup, bow) = (fingers(), recurve(40.0));
    let arrow = arrow(0.600, 28.0, 6.5, 100.0);
    let all = draws(&setup, 200);
    let before = all
        .iter()
        .filter(|u| {
            let bow = VirtualBow::new(&arrow, &bow, &setup, u);
            let input = bow.input(&Settings::default(), &Disturbance::default());
            let launch = bow.launch();
            let slack = 1e-3 * launch.speed_m_s();
            launch.touches(&input).last_m <= recurve(40.0).stroke_m() + slack
        })
        .count();
    println!("button left before the string in {before} of {}", all.len());
    assert!((83..=103).contains(&before), "{before} of {}", all.len());
}

/// Before its first shot a finger bow with an arrow that suits is expected to
/// slap the button in no more than one bow of five, whatever the launch model
/// draws: film has the arrow leave the button before the string. The share is
/// a judgement on one archer and one machine; of an arrow that is too weak
/// nothing is known, and its share is left as drawn.
/// Source: Kooi, J. Sports Sciences 16, 1998, abstract; Pekalski's film, 1990.
#[test]
fn no_more_than_one_finger_bow_in_five_is_expected_to_slap_the_button() {
    for hand in [Hand::Right, Hand::Left] {
        for (spine, matched) in [(0.500, true), (0.600, true), (0.650, true), (0.850, false)] {
            let case = Case {
                arrow: arrow(spine, 28.0, 6.5, 100.0),
                bow: recurve(40.0),
                setup: Setup { hand, ..fingers() },
                paper_m: 2.0,
                weighed: true,
            };
            assert_eq!(case.load_ratio() <= 1.2, matched, "{spine}");
            let kinds = [AdjusterKind::RestSideways];
            let prior = response_prior_of(&case, &kinds, 7, 64).expect("a launch");
            println!("{spine} ({:.2}): {:.3}", case.load_ratio(), prior.late);
            assert_eq!(prior.late <= 0.2, matched, "{spine}: {}", prior.late);
        }
    }
}

/// The nock of a hand bow is farthest right about 14 in (360 mm) on; the
/// wording is a little loose, so 60 mm either way, middle of 200 drawn bows
/// (399 mm).
/// Source: Hodgson, *Analyzing the Paradox* 3, in *Archery: the Technical
/// Side*, 1947, read.
#[test]
fn the_nock_of_a_hand_bow_swings_farthest_right_after_fourteen_inches() {
    let (setup, bow, arrow) = longbow();
    let all = draws(&setup, 200);
    let found = middle(
        all.iter()
            .map(|u| 1000.0 * nock_right_m(&arrow, &bow, &setup, u))
            .collect(),
    );
    println!("nock farthest right at {found:.0} mm");
    assert!((300.0..=420.0).contains(&found), "{found}");
}

/// Close to a right-handed hand bow the point cuts low right and the nock high
/// left; the distances are not readable, so 1 m, and nine bows in ten for the
/// side, four in five for the height (185 and 169 of 200).
/// Source: Hodgson, *Analyzing the Paradox* 3, in *Archery: the Technical
/// Side*, 1947, read.
#[test]
fn close_to_a_hand_bow_the_nock_cuts_high_and_left() {
    let (setup, bow, arrow) = longbow();
    let [side, up] = tears(&arrow, &bow, &setup, 1.0);
    let left = side.iter().filter(|x| **x < 0.0).count();
    let high = up.iter().filter(|x| **x > 0.0).count();
    println!("left {left}, high {high} of {}", side.len());
    assert!(
        left >= 180 && high >= 160,
        "{left} {high} of {}",
        side.len()
    );
}

/// A weak arrow tears tail left against a stiff one, fingers, right-handed,
/// close up; middle of 200 drawn bows, 27 mm apart. Said of the spine, without
/// figures.
/// Source: paper-tear chart of a hunting site and coaches' guides, read.
#[test]
fn close_up_a_weak_arrow_tears_to_the_left_of_a_stiff_one() {
    let (setup, bow) = (fingers(), recurve(40.0));
    let side = |spine: f64, per_inch: f64| {
        let arrow = arrow(spine, 28.0, per_inch, 120.0);
        middle(tears(&arrow, &bow, &setup, 2.0)[0].clone())
    };
    let (stiff, weak) = (side(0.400, 8.0), side(0.850, 5.5));
    println!("stiff {stiff:.1}, weak {weak:.1} mm");
    assert!(weak < 0.0 && stiff > 0.0, "stiff {stiff}, weak {weak}");
    assert!(
        (20.0..35.0).contains(&(stiff - weak)),
        "stiff {stiff}, weak {weak}"
    );
}

/// At 21 ft a weaker arrow (340 gr) had swung to the right where a stiff one
/// (460 gr) still had its tail outward: three arrows, one machine, outward
/// taken as left. The model MISSES this sign: its weak arrow is still to the
/// left of the stiff one at 6.4 m, since its tails take longer to swing over
/// (a quarter of a swing is 4 to 6 m with these vanes). Neither the feathers
/// nor the swing of real arrows have a readable figure; the vane's area and
/// the yaw are left as they are.
/// Source: Hodgson, *Analyzing the Paradox* 6, in *Archery: the Technical
/// Side*, 1947, read.
#[test]
fn at_twenty_one_feet_the_weak_arrow_has_not_swung_over_as_hodgson_saw() {
    let (setup, bow, _) = longbow();
    let side = |arrow: ArrowSpec, at: f64| middle(tears(&arrow, &bow, &setup, at)[0].clone());
    let apart = |at: f64| {
        side(arrow(0.950, 28.0, 8.0, 80.0), at) - side(arrow(0.500, 28.0, 12.0, 130.0), at)
    };
    let (near, far) = (apart(2.0), apart(6.4));
    println!("weak less stiff: {near:.1} mm at 2 m, {far:.1} mm at 6.4 m");
    assert!((-22.0..-13.0).contains(&near), "{near}");
    assert!((-6.0..0.0).contains(&far), "no longer missed? {far}");
}

/// The string lets go of the nock 1 to 2 in past brace height; the model lets
/// go at brace height and MISSES this by 25 to 50 mm. What that can do to the
/// side of the response: with 50 mm more of string the sign of the gain turns
/// over in no more than three drawn bows of twenty with an aid (27 of 200), and
/// one of twenty with fingers (6).
/// Source: Hodgson, *Analyzing the Paradox* 2, in *Archery: the Technical
/// Side*, 1947, read (linen string).
#[test]
fn the_string_is_let_go_at_brace_height_two_inches_too_early() {
    let rows = [
        (
            aid(RestKind::DropAway),
            compound(60.0, 19.25),
            arrow(0.400, 28.0, 8.5, 120.0),
            30,
        ),
        (fingers(), recurve(40.0), arrow(0.600, 28.0, 6.5, 100.0), 10),
    ];
    for (setup, bow, arrow, most) in rows {
        let later = BowSpec {
            brace_height_m: bow.brace_height_m - 0.050,
            ..bow
        };
        let middling = Unknowns::middling(&setup);
        let travel = Drive::new(&arrow, &bow, &setup, &middling);
        let past = bow.stroke_m() - (travel.rest_at_draw_m() - travel.rest_at_exit_m());
        assert!(past.abs() < 1e-9, "let go {past} m past brace height");
        let turned = draws(&setup, 200)
            .iter()
            .filter(|u| {
                let gain = |bow: &BowSpec| {
                    let bow = VirtualBow::new(&arrow, bow, &setup, u);
                    let paper = bow.paper(2.0);
                    let at = |rest_side_mm: f64| {
                        let settings = Settings {
                            rest_side_mm,
                            ..Settings::default()
                        };
                        bow.tear_mm(&settings, &Disturbance::default(), &paper)[0]
                    };
                    at(0.5) - at(-0.5)
                };
                (gain(&bow) < 0.0) != (gain(&later) < 0.0)
            })
            .count();
        println!("{:?}: gain turned over in {turned} of 200", setup.release);
        assert!(turned <= most, "{:?}: {turned} of 200", setup.release);
    }
}
