//! Everything the program says of a session, piece by piece.

use serde_json::{Value, json};
use tearbench::advice::{self, Analysis, running_record};
use tearbench::bench_plan::BenchPlan;
use tearbench::gear::Card;
use tearbench::practice::tell;
use tearbench::proof::{self, Found, StageVerdict};
use tearbench::question::Refusal;
use tearbench::report::{self, Format};
use tearbench::restore::{self, Target};
use tearbench::session::{Session, Timeline};
use tearbench::step::State;
use tearbench::trouble;
use tearbench::units::System;
use tearbench::words;

/// The advice and why, as practice tells it: asked after every act.
pub fn advice(session: &Session) -> Value {
    let timeline = session.timeline();
    let found = advice::advise(timeline, tearbench::range::Today::now());
    let why = tell::why(&found, timeline);
    json!({
        "said": serde_json::to_value(words::said(&found, System::Mm)).unwrap(),
        "why": why.map(|why| words::practice::why(&why)),
    })
}

/// All of it.
pub fn everything(session: &Session) -> Value {
    let timeline = session.timeline();
    let analysis = advice::analyse(timeline, tearbench::range::Today::now());
    let back: Vec<Value> = [Target::Start, Target::Setting(1), Target::Setting(2)]
        .into_iter()
        .map(|target| match restore::put_back(timeline, target) {
            Ok(back) => {
                json!({ "command": words::put_back_command(&back), "lines": back_lines(&back) })
            }
            Err(problem) => json!(problem.to_string()),
        })
        .collect();
    json!({
        "advice": serde_json::to_value(words::said(&analysis.advice, System::Mm)).unwrap(),
        "bench": bench(timeline, &analysis),
        "reckoning": analysis.reckoning.iter().map(|line| words::reckoned(line, System::Mm)).collect::<Vec<_>>(),
        "figures": figures(timeline, &analysis),
        "steps": steps(session, &analysis),
        "proof": proof::stages(timeline, &analysis)
            .iter()
            .map(|s| stage(&s.verdict, words::proof::state(s), &timeline.card))
            .collect::<Vec<_>>(),
        "back": back,
        "restore": put_back(timeline),
        "sheet": sheet(session, &analysis),
    })
}

/// The words of the put-back sheet: its columns are as wide as "left" or
/// "right" makes them.
fn put_back(timeline: &Timeline) -> Vec<String> {
    let sheet = report::page(&report::put_back_sheet(timeline, System::Mm), 1000);
    let words = |line: String| line.split_whitespace().collect::<Vec<_>>().join(" ");
    sheet.into_iter().map(words).collect()
}

fn figures(timeline: &Timeline, analysis: &Analysis) -> Value {
    let track: Vec<Value> = running_record(timeline)
        .iter()
        .map(|p| {
            json!(p.map(|p| json!({
                "right": p.right, "up": p.up, "low": p.band.0, "high": p.band.1, "within": p.within
            })))
        })
        .collect();
    let next = analysis
        .next_shot
        .map(|n| json!({ "right": n.right, "up": n.up, "sd": [n.sd_right, n.sd_up] }));
    json!({ "track": track, "next": next, "bad": analysis.bad, "scatter": analysis.scatter })
}

/// The next step of troubleshooting, for the reason that stands and for every other.
fn bench(timeline: &Timeline, analysis: &Analysis) -> Vec<String> {
    let steps = analysis
        .advice
        .movement
        .as_ref()
        .map(tearbench::advice::MoveAdvice::moves);
    steps.map_or_else(Vec::new, |steps| {
        words::bench_plan(&BenchPlan::of(&steps, timeline, analysis), System::Mm)
    })
}

fn steps(session: &Session, analysis: &Analysis) -> Vec<Value> {
    Refusal::of(analysis)
        .into_iter()
        .chain(Refusal::ALL)
        .map(|reason| {
            let step = trouble::next_step(session.timeline(), reason);
            json!(step.map(|s| json!({
                "text": words::trouble::text(&s, &session.timeline().card),
                "answers": s.answers.iter().map(|a| json!({ "code": a, "means": words::trouble::means(&s, *a) })).collect::<Vec<_>>(),
                "back": s.put_back.as_ref().map(back_lines),
                "offers": s.offers.iter().map(|o| json!([words::trouble::offer_title(o), words::trouble::offer(o)])).collect::<Vec<_>>(),
            })))
        })
        .collect()
}

fn back_lines(back: &restore::PutBack) -> Vec<String> {
    words::put_back(back, System::Mm)
}

fn stage(v: &StageVerdict, word: &str, card: &Card) -> Value {
    // How a stage is shot holds for either hand.
    let how_it_is_shot = v.status == State::Open;
    let found = words::proof::found(v, card, System::Mm);
    let per_m = match &v.found {
        Found::Line(line) => Some(line.drift.per_m),
        _ => None,
    };
    json!({
        "name": v.stage.id(),
        "word": word,
        "text": if how_it_is_shot { String::new() } else { found },
        "odds": v.odds(),
        "limit": v.limit_mm(),
        "shots": v.shots_wanted,
        "drift": per_m.map(|per_m| json!({ "per_m": per_m })),
        "suggestion": v.suggestion().map(|s| json!({
            "steps": [{ "adjuster": s.step().adjuster.id(), "amount": s.step().amount }],
            "command": words::step_command(&s.step()), "odds": s.odds(), "test": s.test(),
            "said": words::proof::suggestion(s, System::Mm),
        })),
        "back": v.put_back.as_ref().map(back_lines),
    })
}

/// The sheet without the lines that carry the time of day.
fn sheet(session: &Session, analysis: &Analysis) -> Vec<String> {
    let options = report::Options::default();
    report::render(session.timeline(), analysis, Format::Markdown, &options)
        .lines()
        .filter(|l| !l.contains(" 20"))
        .map(str::to_owned)
        .collect()
}
