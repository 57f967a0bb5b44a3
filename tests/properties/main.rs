//! Properties of the program's own: what must hold of every session, whatever
//! was shot. Checks against published values stand in `tests/published`.

mod mirror;

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
