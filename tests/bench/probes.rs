//! How well each probe tells what it is asked for, on virtual bows of the
//! launch model.
//!
//! `cargo bench --bench probes` prints one table. Settings in the
//! environment: `PROBE_BOWS` (bows of each kind, default 300), `PROBE_SEED`
//! (first seed of the bows reported, default 900000). Figure, side and limit
//! of each rule are settled on bows from seed 1000 and reported on the others.

#[allow(dead_code)]
#[path = "judge/bow.rs"]
mod bow;
#[allow(dead_code)]
#[path = "judge/hard.rs"]
mod hard;
#[allow(dead_code)]
#[path = "judge/mechanics.rs"]
mod mechanics;
#[path = "judge/rng.rs"]
mod rng;
#[path = "probes/separate.rs"]
mod separate;
#[path = "probes/state.rs"]
mod state;
#[path = "probes/subject.rs"]
mod subject;
#[allow(dead_code)]
#[path = "judge/world.rs"]
mod world;

use rng::Rng;
use separate::{Case, HERE_SHOTS, MOST, NAMES};
use state::State;
use subject::{Fault, Probe, Subject, length};
use world::{Kind, TOLERANCE};

/// Shots a probe is asked for: AUC, share caught, mix and limit are for these.
const ASKED: usize = 2;
const MATCHED: [f64; 2] = [0.85, 1.15];
const WEAK: [f64; 2] = [1.25, 1.7];
/// First seed of the bows the rules are settled on.
const TUNING: u64 = 1000;

fn number(name: &str, default: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|v| v.parse().ok())
        .unwrap_or(default)
}

/// A bow, the states it is in, and whether it is of the kind looked for.
type Drawn = (Subject, Vec<(State, [f64; 2])>, bool);

/// Bows of two kinds, told apart by load ratio or by what is hidden in them.
fn draw(kind: Kind, sides: [([f64; 2], Fault); 2], first: u64, bows: u64) -> Vec<Drawn> {
    let mut all = Vec::new();
    for (which, (ratio, fault)) in sides.into_iter().enumerate() {
        for seed in first..first + bows {
            let mut rng = Rng::new(seed ^ (which as u64 + 1) << 40);
            let subject = Subject::draw(&mut rng, kind, ratio, fault);
            let states = state::of(&subject, &mut rng);
            all.push((subject, states, which == 1));
        }
    }
    all
}

/// Asks every bow that is in this state.
fn ask(bows: &[Drawn], state: State, probe: Probe) -> Vec<Case> {
    let mut cases = Vec::new();
    for (i, (subject, states, positive)) in bows.iter().enumerate() {
        let Some((_, at)) = states.iter().find(|s| s.0 == state) else {
            continue;
        };
        let mut rng = Rng::new(i as u64 ^ 0x5107);
        cases.push(case(subject, *at, probe, *positive, &mut rng));
    }
    cases
}

fn case(subject: &Subject, at: [f64; 2], probe: Probe, positive: bool, rng: &mut Rng) -> Case {
    let mean = |shots: &[[f64; 2]]| {
        [0, 1].map(|a| shots.iter().map(|s| s[a]).sum::<f64>() / shots.len() as f64)
    };
    let here: Vec<[f64; 2]> = (0..HERE_SHOTS)
        .map(|_| subject.shoot(at, None, rng))
        .collect();
    let there: Vec<[f64; 2]> = (0..MOST)
        .map(|_| subject.shoot(at, Some(probe), rng))
        .collect();
    Case {
        positive,
        hand: subject.hand,
        here: mean(&here),
        there: std::array::from_fn(|n| mean(&there[..=n])),
    }
}

const HEADING: &str = "  state       probe      bows     AUC   caught at 5 %   right % of 1, 2, 3 shots  best mix: AUC, right   figure";

fn line(state: State, probe: Probe, tuning: &[Case], judged: &[Case]) {
    let count = |cases: &[Case], kind| cases.iter().filter(|c| c.positive == kind).count();
    let few = [true, false]
        .iter()
        .any(|k| count(tuning, *k) < 20 || count(judged, *k) < 20);
    let place = format!("  {:<11} {:<9}", format!("{state:?}"), format!("{probe:?}"));
    let sizes = format!("{:>4}/{:<4}", count(judged, false), count(judged, true));
    if few {
        println!("{place} {sizes}  too few");
        return;
    }
    let each: Vec<(separate::Rule, separate::Result)> = (1..=MOST)
        .map(|n| {
            let rule = separate::tune(tuning, n);
            (rule, separate::report(&rule, judged, n))
        })
        .collect();
    let (mix_auc, mix_right) = separate::mixture(tuning, judged, ASKED);
    let (rule, last) = each[ASKED - 1];
    let right: Vec<String> = each
        .iter()
        .map(|(_, r)| format!("{:>3.0}", 100.0 * r.right))
        .collect();
    println!(
        "{place} {sizes} {:.2}   {:>3.0} ({:.0} false)   {}              {mix_auc:.2}, {:.0}        {} {} {:.1}",
        last.auc,
        100.0 * last.caught,
        100.0 * last.false_alarm,
        right.join(" "),
        100.0 * mix_right,
        NAMES[rule.figure],
        if rule.way > 0.0 { ">" } else { "<" },
        rule.way * rule.limit
    );
}

fn question(name: &str, tuning: &[Drawn], judged: &[Drawn], states: &[State], probes: &[Probe]) {
    println!("\n{name}\n{HEADING}");
    for state in states {
        for probe in probes {
            line(
                *state,
                *probe,
                &ask(tuning, *state, *probe),
                &ask(judged, *state, *probe),
            );
        }
    }
}

/// Suited bows at settings whose tear is of angle, or of flex by a quarter and more.
fn by_sort(kind: Kind, first: u64, bows: u64) -> Vec<Drawn> {
    let mut all = Vec::new();
    for seed in first..first + bows {
        let mut rng = Rng::new(seed ^ 7 << 40);
        let subject = Subject::draw(&mut rng, kind, MATCHED, Fault::None);
        let flex = seed % 2 == 1;
        if let Some(at) = subject.made_of(flex, &mut rng) {
            all.push((subject, vec![(State::Sort, at)], flex));
        }
    }
    all
}

/// How often a probe of flex or distance would find what it looks for.
fn sorts(bows: &[Drawn]) {
    for state in [State::Stuck, State::Far, State::Done] {
        let at: Vec<(&Subject, [f64; 2])> = bows
            .iter()
            .filter_map(|b| Some((&b.0, b.1.iter().find(|s| s.0 == state)?.1)))
            .collect();
        let share = |f: &dyn Fn(&Subject, [f64; 2]) -> bool| {
            let n = at.iter().filter(|(s, x)| f(s, *x)).count();
            100.0 * n as f64 / at.len().max(1) as f64
        };
        let flex = share(&|s, x| {
            let (angle, flex) = s.angle_and_flex(x);
            flex > angle
        });
        let out = |probe| share(&move |s: &Subject, x| length(s.mean(x, Some(probe))) > TOLERANCE);
        println!(
            "  {state:?} ({}): flex is the larger part of the tear in {flex:.0} %; the true tear is out of \
             tolerance half a wavelength further in {:.0} %, at 4.5 m in {:.0} %, bare in {:.0} %",
            at.len(),
            out(Probe::Half),
            out(Probe::Far),
            out(Probe::Bare)
        );
    }
}

fn main() {
    let (bows, first) = (number("PROBE_BOWS", 300), number("PROBE_SEED", 900_000));
    println!(
        "{bows} bows of each kind, rules settled on seeds from {TUNING}, reported on seeds from {first}; \
         {HERE_SHOTS} shots here, average archers, read to 1 mm"
    );
    for (name, kind) in [
        ("compound, aid", Kind::Aid),
        ("recurve, fingers", Kind::Fingers),
    ] {
        let clock = std::time::Instant::now();
        let sides = [(MATCHED, Fault::None), (WEAK, Fault::None)];
        let (tuning, judged) = (
            draw(kind, sides, TUNING, bows),
            draw(kind, sides, first, bows),
        );
        question(
            &format!("{name}: weak arrow, or one that suits"),
            &tuning,
            &judged,
            &[
                State::NoResponse,
                State::Backwards,
                State::Far,
                State::Stuck,
            ],
            &[Probe::Half, Probe::Far, Probe::Bare],
        );
        question(
            &format!("{name}: weak arrow, or one that suits, from the tears alone"),
            &tuning,
            &judged,
            &[State::Start],
            &[
                Probe::Sideways,
                Probe::Upward,
                Probe::Half,
                Probe::Far,
                Probe::Bare,
            ],
        );
        shares(name, &judged);
        sorts(&judged);
        question(
            &format!("{name}: a quarter or more of the tear is flex, or less is"),
            &by_sort(kind, TUNING, bows),
            &by_sort(kind, first, bows),
            &[State::Sort],
            &[Probe::Half, Probe::Far, Probe::Bare],
        );
        let sides = [(MATCHED, Fault::None), (MATCHED, Fault::Contact)];
        question(
            &format!("{name}: vanes touch something, or nothing does"),
            &draw(kind, sides, TUNING, bows),
            &draw(kind, sides, first, bows),
            &[State::Start, State::NoResponse, State::Stuck],
            &[Probe::Bare, Probe::Half, Probe::Far],
        );
        let sides = [(MATCHED, Fault::None), (MATCHED, Fault::OddArrow)];
        question(
            &format!("{name}: the arrow shot so far is odd, or it is the bow"),
            &draw(kind, sides, TUNING, bows),
            &draw(kind, sides, first, bows),
            &[State::Start, State::NoResponse, State::Stuck],
            &[Probe::Other],
        );
        eprintln!("({:.0} s)", clock.elapsed().as_secs_f64());
    }
}

/// How often each state is met at all.
fn shares(name: &str, bows: &[Drawn]) {
    println!("\n{name}: share of bows in each state, suited and weak, %");
    for state in [
        State::NoResponse,
        State::Backwards,
        State::Far,
        State::Stuck,
    ] {
        let share = |kind: bool| {
            let of: Vec<&Drawn> = bows.iter().filter(|b| b.2 == kind).collect();
            let met = of.iter().filter(|b| b.1.iter().any(|s| s.0 == state));
            100.0 * met.count() as f64 / of.len().max(1) as f64
        };
        println!(
            "  {:<11} {:>3.0} {:>3.0}",
            format!("{state:?}"),
            share(false),
            share(true)
        );
    }
}
