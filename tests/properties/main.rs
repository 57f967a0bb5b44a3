//! Properties of the program's own: what must hold of every session, whatever
//! was shot, symmetries, orders, agreement of two of its ways. Nothing here is
//! a measurement; those are in `tests/published`.

mod advice;
mod belief;
mod bow;
mod circles;
mod epochs;
mod figures;
#[path = "../fixtures/mod.rs"]
mod fixtures;
mod flight;
mod launch;
mod launch_fine;
mod mirror;
mod rooms;
mod signs;
mod sources;
#[path = "../published/physics_support.rs"]
mod support;

/// Of the mirror bench's cases, the first so many: always the same ones.
const MIRRORED: usize = 300;

#[test]
fn a_reflected_session_gives_reflected_advice() {
    let differing = mirror::differing(MIRRORED);
    let all: Vec<String> = differing.iter().map(|d| d.1.clone()).collect();
    let first = differing.first().map(|d| format!("{:#?}", d.0));
    assert!(
        all.is_empty(),
        "{} of {MIRRORED} differ:\n{}\nthe first: {}",
        all.len(),
        all.join("\n"),
        first.unwrap_or_default()
    );
}
