//! What is said when a session is opened.

use crate::session::{LARGEST_FILE, Warning};
use crate::units::clean;

/// One thing there is to know.
pub fn warning(warning: &Warning) -> String {
    match warning {
        Warning::Damage(d) => {
            let rest = if d.torn_tail {
                "; every whole entry before it is loaded, and it will be set aside, not lost"
            } else {
                "; it is left out, the rest is loaded"
            };
            format!("line {}: {}{rest}", d.line, d.problem)
        }
        Warning::Card(problem) => problem.to_string(),
        Warning::Remark(remark) => remark.to_string(),
        Warning::HandedAndHere { entries, to } => {
            let (to, list) = (clean(to), list(entries));
            format!(
                "the shots of entries {list} were being handed to {to} and still count here; they may count in both. To finish: tearbench hand-over FILE --to {to} --entries {list}"
            )
        }
        Warning::CopiedFrom { entries, from } => {
            let from = clean(from);
            format!(
                "the shots of entries {} came from {from}, where they may count still: open {from}, it says whether",
                list(entries)
            )
        }
        Warning::NearlyFull(bytes) => format!(
            "the file is {} MB of at most {}; begin a new one soon: tearbench new NEW --from FILE",
            bytes / 1_000_000,
            LARGEST_FILE / 1_000_000
        ),
        Warning::NumbersLeft(left) => format!(
            "{left} entry numbers are left; begin a new file soon: tearbench new NEW --from FILE"
        ),
        Warning::ReadOnly(why) => why.to_string(),
        Warning::More(n) => format!("and {n} more; tearbench check lists them"),
    }
}

/// Entry numbers as they are typed: `3,4`.
fn list(all: &[u32]) -> String {
    let all: Vec<String> = all.iter().map(ToString::to_string).collect();
    all.join(",")
}

/// Everything there is to know, in one line.
pub fn warnings(all: &[Warning]) -> String {
    let all: Vec<String> = all.iter().map(warning).collect();
    all.join("; ")
}
