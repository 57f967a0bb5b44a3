//! `tearbench print contract`: what scripts may rely on, as one JSON object.
//! The names are read off the program's own tables, so they cannot drift from
//! it; tests hold the schemas against what the commands print.

use serde_json::{Value, json};

use crate::advice::{ProbeKind, Verdict};
use crate::gear::AdjusterKind;
use crate::proof::Stage;
use crate::question::{Code, InspectPart, RangeItem};
use crate::session::Shooter;

/// The JSON schema of `advise --json`.
pub(crate) const SCHEMA: &str = include_str!("advice.schema.json");

/// The schema of every JSON but that of `advise`.
const OUTPUTS: &str = include_str!("outputs.schema.json");

/// The contract as text.
pub fn text() -> String {
    serde_json::to_string_pretty(&contract()).unwrap_or_default() + "\n"
}

fn contract() -> Value {
    let mut outputs = parsed(OUTPUTS);
    outputs["advise --json"] = parsed(SCHEMA);
    json!({
        "contract": 1,
        "signs": "seen from the shooter's side of the paper: right and up positive; a tear is nock hole minus point hole, mm; amounts are relative to where the adjuster is now",
        "exit_codes": {
            "0": "done as asked; a refusal is an answer",
            "1": "anything else: no space, no permission, another program holds the file, no move is advised",
            "2": "bad input; the error names file, line and field, and what would be right",
        },
        "exit_codes_of_advise_with_exit_code": exit_codes(),
        "verdicts": Verdict::ALL.map(Verdict::id),
        "reasons": Code::all().map(Code::id).collect::<Vec<_>>(),
        "probes": ProbeKind::ALL.map(ProbeKind::id),
        "adjusters": AdjusterKind::ALL.map(|k| json!({ "name": k.id(), "unit": k.unit().id() })),
        "shooters": Shooter::ALL.map(Shooter::id),
        "stages_of_proof": Stage::ALL.map(Stage::id),
        "range_items": RangeItem::ALL.map(RangeItem::id),
        "parts_of_the_inspection": InspectPart::ALL.map(InspectPart::id),
        "session_file": { "format": crate::gear::FORMAT, "described_by": "tearbench print format" },
        "outputs": outputs,
    })
}

fn exit_codes() -> Value {
    let all = Verdict::ALL.map(|v| (super::advise::code(v).to_string(), Value::from(v.id())));
    Value::Object(all.into_iter().collect())
}

fn parsed(source: &str) -> Value {
    serde_json::from_str(source).unwrap_or_default()
}
