//! The sheet as JSON, schema 1: right and up positive, lengths in mm.

use serde_json::{Value, json};

use super::options::Options;
use super::record::by;
use crate::advice::Analysis;
use crate::proof;
use crate::restore;
use crate::session::Timeline;
use crate::setup;
use crate::units::System;
use crate::units::visible;
use crate::words;

/// Version of this JSON.
const SCHEMA: u32 = 1;

pub(super) fn write(timeline: &Timeline, analysis: &Analysis, options: &Options) -> String {
    let value = json!({
        "schema": SCHEMA,
        "title": super::verdict::title(timeline),
        "closed": timeline.closed,
        "advice": crate::words::said_here(timeline, analysis, options.system),
        "card": card(timeline, options),
        "shots": shots(timeline, analysis),
        "moves": moves(timeline),
        "settings": settings(timeline),
        "to_start": to_start(timeline, options),
        "setup": checklist(timeline),
        "proof": proof_stages(timeline, analysis, options.system),
        "safety_record": super::safety::lines(timeline),
        "paper_check_due": proof::paper_check_due(timeline),
        "answers": timeline.answers.iter().map(|a| json!({
            "entry": a.entry, "test": a.test, "result": a.result, "detail": a.detail,
        })).collect::<Vec<_>>(),
    });
    crate::units::visible_json(&serde_json::to_string_pretty(&value).unwrap_or_default()) + "\n"
}

/// The card's texts as entered, the owner's contact left out unless asked for.
fn card(timeline: &Timeline, options: &Options) -> Value {
    let fields: serde_json::Map<String, Value> = timeline
        .card_text
        .fields
        .iter()
        .filter(|(key, _)| options.contact || key.as_str() != "job.contact")
        .map(|(key, entered)| (key.clone(), Value::from(visible(&entered.text))))
        .collect();
    Value::Object(fields)
}

fn shots(timeline: &Timeline, analysis: &Analysis) -> Vec<Value> {
    timeline
        .shots
        .iter()
        .enumerate()
        .map(|(i, s)| {
            json!({
                "entry": s.entry,
                "at": s.at.to_rfc3339(),
                "setting": timeline.settings[s.setting].number,
                "right": s.shot.right,
                "up": s.shot.up,
                "distance_m": s.distance.m(),
                "bare": s.shot.bare,
                "called_bad": s.shot.called_bad,
                "under_stop": s.shot.under_stop,
                "arrow": s.shot.arrow,
                "by": if by(s.shot.by).is_empty() { "owner" } else { by(s.shot.by) },
                "probability_bad": analysis.bad.get(i),
            })
        })
        .collect()
}

fn moves(timeline: &Timeline) -> Vec<Value> {
    timeline
        .moves
        .iter()
        .map(|m| {
            json!({
                "entry": m.entry,
                "shots_before": m.shots_before,
                "steps": m.steps.iter().map(|s| json!({
                    "adjuster": s.adjuster.id(), "amount": s.amount, "unit": s.adjuster.unit().id(),
                })).collect::<Vec<_>>(),
            })
        })
        .collect()
}

fn settings(timeline: &Timeline) -> Vec<Value> {
    timeline
        .settings
        .iter()
        .map(|s| {
            let positions: serde_json::Map<String, Value> = crate::gear::AdjusterKind::ALL
                .into_iter()
                .filter(|k| timeline.card.adjuster(*k).is_some() || s.positions.get(*k) != 0.0)
                .map(|k| (k.id().to_owned(), Value::from(s.positions.get(k))))
                .collect();
            json!({ "number": s.number, "positions": positions })
        })
        .collect()
}

fn to_start(timeline: &Timeline, options: &Options) -> Value {
    let back = restore::to_the_start(timeline);
    json!({
        "command": words::put_back_command(&back),
        "lines": words::put_back(&back, options.system),
    })
}

/// The checklist before paper: one object an item, in order.
pub fn checklist(timeline: &Timeline) -> Vec<Value> {
    setup::checklist(timeline)
        .into_iter()
        .map(|s| {
            json!({
                "item": s.item.id,
                "title": words::setup::title(s.item.id),
                "state": s.state.code(),
                "value": s.value.as_deref().map(visible),
                "note": s.note.as_ref().map(|n| words::setup::judged(n, &timeline.card, System::Mm)),
                "standing": words::setup::standing(s.item.standing),
            })
        })
        .collect()
}

/// The stages of proof: one object a stage, in order.
pub(crate) fn proof_stages(timeline: &Timeline, analysis: &Analysis, system: System) -> Vec<Value> {
    proof::stages(timeline, analysis)
        .into_iter()
        .map(|s| {
            let v = s.verdict;
            json!({
                "stage": v.stage.id(),
                "status": v.status.code(),
                "text": words::proof::found(&v, &timeline.card, system),
                "distance_m": v.distance().map(crate::units::Length::m),
                "difference_mm": v.difference().map(|d| json!({
                    "right": d.right, "up": d.up, "se_right": d.se_right(), "se_up": d.se_up(), "chance": d.judged_chance(),
                })),
                "limit_mm": v.limit_mm(),
                "odds": v.odds(),
                "shots_wanted": v.shots_wanted,
                "move": v.suggestion().map(|m| json!({
                    "command": words::step_command(&m.step()), "odds": m.odds(), "why": words::proof::why(m),
                })),
            })
        })
        .collect()
}
