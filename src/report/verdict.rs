//! The verdict, the card, what to watch, cautions.

use super::document::{Block, Cell, Section};
use super::options::Options;
use crate::advice::{Analysis, Finding, Verdict};
use crate::cautions::Caution;
use crate::checks::response::Response;
use crate::checks::safety::Safety;
use crate::checks::{CheckKind, Checks, Status, safety, spine};
use crate::gear::{
    Adjuster, AdjusterKind, AdjusterUnit, BowKind, Card, Release, RestKind, grains_per_pound,
};
use crate::session::Timeline;
use crate::setup::compute;
use crate::tear::Tear;
use crate::units::visible;
use crate::units::{Length, MM_PER_INCH, System, trim_number};
use crate::words;

/// Heading of the sheet.
pub(super) fn title(timeline: &Timeline) -> String {
    format!("{}{}", super::file::TITLE, visible(&timeline.card.title()))
}

/// Lines under the heading.
pub(super) fn lead(timeline: &Timeline, options: &Options) -> Vec<String> {
    let job = &timeline.card.job;
    // A clock may jump back: the earliest and the latest day, not the first
    // and the last entry's.
    let days = timeline.shots.iter().map(|s| s.at.date_naive());
    let dates = match (days.clone().min(), days.max()) {
        (Some(first), Some(last)) if first == last => Some(format!("shot {first}")),
        (Some(first), Some(last)) => Some(format!("shot {first} to {last}")),
        _ => None,
    };
    let named = |label: &str, value: &Option<String>| {
        value.as_ref().map(|v| format!("{label} {}", visible(v)))
    };
    let contact = options
        .contact
        .then(|| named("contact", &job.contact))
        .flatten();
    [
        named("job", &job.number),
        named("received", &job.received),
        dates,
        named("promised", &job.promised),
        named("technician", &job.technician),
        named("reason", &job.reason),
        named("condition on arrival:", &job.condition),
        contact,
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The verdict with its odds and the four checks.
pub(super) fn section(timeline: &Timeline, analysis: &Analysis, options: &Options) -> Section {
    let advice = &analysis.advice;
    let said = words::said_here(timeline, analysis, options.system);
    let title = words::title(advice);
    let done = advice.verdict == Verdict::Done;
    // Once the job is closed nobody is asked to prove anything.
    let (title, text) = if done && timeline.closed.is_some() {
        let stages = crate::proof::stages(timeline, analysis);
        let proved = format!(
            "proof at distance: {}",
            words::proof::summary(&crate::proof::summary(&stages))
        );
        ("WITHIN TOLERANCE", proved)
    } else {
        (title, visible(&said.headline))
    };
    let mut blocks = vec![Block::Banner {
        verdict: title.into(),
        text,
        good: advice.verdict == Verdict::Done,
    }];
    let mut facts = Vec::new();
    if let Some(tear) = advice.estimate.tear_mm {
        facts.push((
            "Likely tear here".into(),
            format!(
                "{}, ± {}",
                words::tear_with_unit(Tear::new(tear.right, tear.up), options.system),
                options
                    .system
                    .tear(tear.sd.max(if options.system == System::Mm {
                        1.0
                    } else {
                        1.6
                    }))
            ),
        ));
    }
    // Beside a refusal or a stop no chance of success stands.
    let refused = matches!(advice.verdict, Verdict::Refuse | Verdict::Stop);
    let odds = advice.estimate.probability_within_tolerance;
    if let Some(odds) = odds.filter(|_| !refused) {
        facts.push((
            format!(
                "Chance within {}",
                options.system.tear(timeline.card.paper.tolerance)
            ),
            words::percent(odds),
        ));
    }
    let who = if analysis.judged_by_technician {
        "the technician's"
    } else {
        "the owner's"
    };
    // What was shot before a rest was mended no longer counts.
    let mended = crate::advice::shots_before_mending(timeline);
    let since = timeline.shots.iter().skip(mended);
    let counted = since.filter(|s| !s.shot.called_bad).count();
    let mut rests_on = format!(
        "{} counted, {who} judged; {} made",
        words::count(counted, "shot"),
        words::count(timeline.moves.len(), "move")
    );
    if done {
        let here = words::count(advice.shots_here, "shot");
        rests_on.push_str(&format!("; {here} at the last setting"));
    }
    if mended > 0 {
        let before = words::count(mended, "shot");
        rests_on.push_str(&format!("; {before} before the rest was fixed left out"));
    }
    facts.push(("Rests on".into(), rests_on));
    if let Some(how) = &timeline.closed {
        facts.push(("Closed".into(), closed(how)));
    }
    blocks.push(Block::Facts(facts));
    let checks = said.checks.each();
    let stood = words::safety_that_stood(&advice.checks.safety);
    let rows = checks.iter().map(|(kind, check)| {
        let text = match kind {
            CheckKind::Safety => &stood,
            _ => &check.text,
        };
        vec![
            words::check_name(*kind).into(),
            Cell::state(words::status(check.status), check.status == Status::Fail),
            visible(text).into(),
        ]
    });
    blocks.push(Block::table(&["Check", "", "Why"], rows.collect()));
    let reasons: Vec<String> = advice
        .findings
        .iter()
        .filter(|found| !is_said(found, &advice.checks))
        .map(|found| visible(&words::say(found, options.system)))
        .collect();
    if !reasons.is_empty() {
        blocks.push(Block::Lines(reasons));
    }
    Section::new("Verdict", blocks)
}

/// What a check, the chance or a section of its own says already.
fn is_said(found: &Finding, checks: &Checks) -> bool {
    match found {
        Finding::RangeListOpen(_) | Finding::Within(_) | Finding::Spine(_) => true,
        Finding::Danger(danger) => checks.safety == Safety::Danger(danger.clone()),
        Finding::Overdraw(_) => matches!(checks.safety, Safety::Overdraw(_)),
        Finding::Waits(what) => {
            matches!(&checks.safety, Safety::Waits(all) if all.contains(what))
        }
        Finding::Scatter(found) | Finding::RepeatFirst(found) | Finding::BentOrScatter(found) => {
            checks.consistency == *found
        }
        Finding::Obstacle(found) => checks.response == Response::Obstacle(found.clone()),
        _ => false,
    }
}

fn closed(how: &str) -> String {
    super::Closing::from_id(how).map_or_else(|| visible(how), |c| c.words().into())
}

/// Bow, arrow, archer and paper.
pub(super) fn card(timeline: &Timeline, options: &Options) -> Section {
    let card = &timeline.card;
    let fact = |name: &str, value: String| (name.to_owned(), value);
    let mut facts = vec![
        fact("Bow", bow(card)),
        fact(
            "Weight",
            format!(
                "{} lb{}",
                trim_number(card.bow.peak_weight.pounds(), 1),
                if card.bow.weighed {
                    ", weighed"
                } else if timeline.weight_unknown() {
                    ", not weighed since the limb bolts were moved"
                } else {
                    ", not weighed"
                }
            ),
        ),
        fact(
            "Draw length",
            entered(timeline, "bow.draw_length", card.bow.draw_length, options),
        ),
        fact(
            "Brace height",
            entered(timeline, "bow.brace_height", card.bow.brace_height, options),
        ),
        fact(
            "Rest",
            format!("{}{}", card.rest.kind.id(), adjusters(card, options.system)),
        ),
        fact("Arrow", arrow(timeline, options)),
        fact(
            "Arrow weight",
            format!(
                "{} gr, {:.1} gr/lb, front of centre {:.1} %",
                trim_number(card.arrow.total_mass().grains(), 0),
                grains_per_pound(card.arrow.total_mass(), card.bow.peak_weight),
                compute::card_foc_percent(card)
            ),
        ),
        fact(
            "Paper",
            format!(
                "{} from the rest, tolerance {}",
                entered(timeline, "paper.distance", card.paper.distance, options),
                options.system.tear(card.paper.tolerance)
            ),
        ),
    ];
    let open = crate::checks::rests::open(timeline);
    if !open.is_empty() {
        let what = words::unconfirmed(&open);
        facts.push(fact(
            "Not confirmed",
            format!("{what}: usual values, which nobody entered"),
        ));
    }
    if let Some(name) = &card.archer.name {
        facts.push(fact("Archer", visible(name)));
    }
    Section::new("Bow and arrow", vec![Block::Facts(facts)])
}

fn bow(card: &Card) -> String {
    let release = match card.bow.release {
        Release::Aid => "release aid",
        Release::Fingers => "fingers",
    };
    let name = card
        .bow
        .name
        .as_ref()
        .map_or(String::new(), |n| format!("{}: ", visible(n)));
    format!(
        "{name}{}, {} hand, {release}",
        card.bow.kind.id(),
        card.bow.hand.id()
    )
}

fn adjusters(card: &Card, system: System) -> String {
    let step = |a: &Adjuster| match (a.kind.unit(), system) {
        (AdjusterUnit::Mm, System::Mm) => format!("{} mm", trim_number(a.step, 3)),
        (AdjusterUnit::Mm, System::Inch) => {
            format!("{} in", trim_number(a.step / MM_PER_INCH, 4))
        }
        (unit, _) => format!("{} {}", trim_number(a.step, 3), unit.id()),
    };
    let moved: Vec<String> = card
        .adjusters
        .iter()
        .filter(|a| a.clicks)
        .map(|a| format!("{} click {}", a.kind.spoken(), step(a)))
        .collect();
    if moved.is_empty() {
        String::new()
    } else {
        format!("; {}", moved.join(", "))
    }
}

/// A length as it was entered on the card: 29 in stays 29 in.
fn entered(timeline: &Timeline, key: &str, length: Length, options: &Options) -> String {
    let text = timeline.card_text.get(key).unwrap_or_default().trim();
    if text.is_empty() {
        options.system.long(length)
    } else {
        visible(text)
    }
}

fn arrow(timeline: &Timeline, options: &Options) -> String {
    let a = &timeline.card.arrow;
    let name = a
        .name
        .as_ref()
        .map_or(String::new(), |n| format!("{}: ", visible(n)));
    format!(
        "{name}{} shaft, spine {}, point {} gr, nock {} gr, vanes {} gr",
        entered(timeline, "arrow.shaft_length", a.shaft_length, options),
        a.spine,
        trim_number(a.point_mass.grains(), 0),
        trim_number(a.nock_mass.grains(), 0),
        trim_number(a.vane_mass.grains(), 0)
    )
}

/// What the owner should watch.
pub(super) fn watch(timeline: &Timeline) -> Section {
    let card = &timeline.card;
    let unusual = crate::gear::unusual(&timeline.card_text);
    let mut lines: Vec<String> = unusual.iter().map(words::unusual).collect();
    lines.extend([
        "Witness marks: look at them before shooting and after any knock.".to_owned(),
        "Come back after 50 to 100 shots, sooner after a new string or cable: it stretches (common practice).".into(),
    ]);
    if card.bow.kind == BowKind::Compound {
        lines.push("Peep turned, serving gaps at the cams, axle-to-axle grown: stop and have it looked at.".into());
    }
    if card.rest.kind == RestKind::DropAway {
        lines.push("Drop-away cord: still snug, arm up early and down before the vanes.".into());
    }
    if card.adjuster(AdjusterKind::PlungerTension).is_some() {
        lines.push("Plunger: count its turns from fully soft once in a while.".into());
    }
    if timeline.pending.is_some() {
        lines.push(
            "A move was taken to the bench and is not confirmed: see that it was made or not."
                .into(),
        );
    }
    Section::new("What to watch", vec![Block::Lines(lines)])
}

/// Cautions.
pub(super) fn cautions(timeline: &Timeline) -> Section {
    let card = &timeline.card;
    let floor = (safety::LEAST_GPP * card.bow.peak_weight.pounds()).max(
        card.bow
            .maker_min_arrow
            .map_or(0.0, crate::units::Mass::grains),
    );
    let mut lines = Vec::new();
    if spine::stops(card) {
        lines.push("Do not shoot these arrows from this bow: they are far too weak for it and may break as they are shot.".to_owned());
    }
    lines.extend([
        format!("Never shoot an arrow under {floor:.0} gr from this bow (5 gr/lb, or its maker's figure where that is more), and never let the string go without an arrow."),
        "Look at, feel and flex every arrow away from people before it is shot; a crack, a soft spot or a split nock: destroy it.".into(),
        "After a dry fire, a lost nock or a struck arrow: do not draw the bow until every part was looked at.".into(),
        words::caution(Caution::Minors).into(),
        "Backstop larger than the worst miss, nobody beside or beyond the target, eye protection; local law and range rules hold.".into(),
        "Limb bolts never past the maker's turns; press work by trained hands. The bow maker's own figures and rules come first.".into(),
    ]);
    Section::new("Cautions", vec![Block::Lines(lines)])
}
