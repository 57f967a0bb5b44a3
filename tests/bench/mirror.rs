//! The mirror rule over many random sessions: `cargo bench --bench mirror`.
//!
//! `MIRROR_CASES` sets how many (10,000). Prints one row of figures and every
//! difference; ends with 1 where there is any.

#[path = "../properties/mirror/mod.rs"]
mod mirror;

fn main() {
    let cases = std::env::var("MIRROR_CASES")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(10_000);
    let began = std::time::Instant::now();
    let differing = mirror::differing(cases);
    for (case, difference) in &differing {
        println!("{difference}\n{case:#?}\n");
    }
    println!("| cases | differences | seconds |\n|---|---|---|");
    println!(
        "| {cases} | {} | {:.0} |",
        differing.len(),
        began.elapsed().as_secs_f64()
    );
    if !differing.is_empty() {
        std::process::exit(1);
    }
}
