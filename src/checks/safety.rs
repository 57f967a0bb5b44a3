//! Safety: what forbids the next shot. It cannot be waived.
//!
//! The bow maker's own figures, local law and licensed practice come first;
//! these limits are only the floor under them.

use super::{Check, Status};
use crate::gear::{BowKind, Card, RestKind, grains_per_pound};
use crate::session::Timeline;

/// Least arrow mass, grains per pound of draw weight: the floor printed in
/// bow makers' warranty terms and tournament rules, and the test mass of
/// ASTM F1544.
pub const LEAST_GPP: f64 = 5.0;
/// Below this on a traditional bow, ask its bowyer (from memory).
pub const TRADITIONAL_GPP: f64 = 8.0;

/// A longbow, or a recurve shot off its shelf.
fn traditional(card: &Card) -> bool {
    match card.bow.kind {
        BowKind::Longbow => true,
        BowKind::Recurve => card.rest.kind == RestKind::Shelf,
        BowKind::Compound => false,
    }
}
/// Least reach of the shaft past the rest contact at full draw, inches.
pub const LEAST_REACH_IN: f64 = 0.5;
/// What the trade's draw length has beyond the grip pivot, inches (ASTM F1880).
pub const DRAW_BEYOND_PIVOT_IN: f64 = 1.75;

/// What a safety problem is, with its stable code.
#[derive(Debug, Clone, PartialEq)]
pub struct Danger {
    /// Stable code for JSON.
    pub code: &'static str,
    /// In words, with what to do.
    pub text: String,
    /// The figure, its limit and their unit, where there are any.
    pub figure: Option<(f64, f64, &'static str)>,
}

/// Inches of shaft past the rest contact at full draw, by the card's figures
/// or by the mark read at full draw, whichever is less.
pub fn reach_inches(card: &Card) -> f64 {
    let nock_to_pivot = card.bow.draw_length.inches() - DRAW_BEYOND_PIVOT_IN;
    let contact = nock_to_pivot + card.rest.contact_ahead.inches();
    let mark = card.rest.full_draw_mark.map_or(contact, |m| m.inches());
    card.arrow.shaft_length.inches() - contact.max(mark)
}

/// Everything that forbids the next shot, worst first.
pub fn dangers(timeline: &Timeline) -> Vec<Danger> {
    let mut found = Vec::new();
    if let Some(incident) = timeline.open_incident() {
        found.push(Danger {
            code: "incident",
            text: format!(
                "{} (entry {}): every part is looked at before anything is drawn, by a trained person where in doubt. Still open: {}",
                crate::units::clean(&incident.what),
                incident.entry,
                parts_open(timeline, incident)
            ),
            figure: None,
        });
    }
    found.extend(card_dangers(&timeline.card));
    found
}

/// The parts that still wait to be looked at, by name.
fn parts_open(timeline: &Timeline, incident: &crate::session::IncidentAt) -> String {
    let kind = timeline.card.bow.kind;
    let open = timeline.parts_open(incident);
    let names: Vec<&str> = open.iter().map(|p| p.name(kind)).collect();
    names.join("; ")
}

/// A stop of the card that a change of the card lifted.
#[derive(Debug, Clone, PartialEq)]
pub struct Lifted {
    /// The entry of the change.
    pub entry: u32,
    /// What stopped before it.
    pub was: Danger,
}

/// Every stop that a change of the card lifted, in order.
pub fn lifted_by_card(timeline: &Timeline) -> Vec<Lifted> {
    let changes = timeline.card_changes.iter();
    changes
        .flat_map(|change| {
            let after = card_dangers(&change.after);
            let gone = move |d: &Danger| after.iter().all(|a| a.code != d.code);
            let was = card_dangers(&change.before).into_iter().filter(gone);
            was.map(|was| Lifted {
                entry: change.entry,
                was,
            })
        })
        .collect()
}

/// What the card alone forbids.
pub fn card_dangers(card: &Card) -> Vec<Danger> {
    let mut found = Vec::new();
    let weight = card.bow.peak_weight;
    let lightest = card.arrow.lightest_mass();
    let floor = LEAST_GPP * weight.pounds();
    let (least, whose) = match card.bow.maker_min_arrow {
        Some(maker) if maker.grains() > floor => (maker.grains(), "the bow maker's minimum"),
        _ => (floor, "5 gr for each pound"),
    };
    // A hair of rounding in someone's scale is no danger: compare at 0.05 gr.
    if lightest.grains() < least - 0.05 {
        let which = if card.arrow.total_mass().grains() < least - 0.05 {
            "this arrow"
        } else if card.arrow.trial_point.is_some() {
            "the lightest build about to be shot (bare, or with the trial point)"
        } else {
            "this arrow without its fletching (a bare shaft about to be shot)"
        };
        found.push(Danger {
            code: "arrow-too-light",
            text: format!(
                "{which} weighs {:.0} gr on {:.0} lb; {whose} asks for {:.0} gr. A light arrow loads the bow like a dry fire: use a heavier point or shaft",
                lightest.grains(), weight.pounds(), least
            ),
            figure: Some((lightest.grains(), least, "gr")),
        });
    }
    let reach = reach_inches(card);
    if reach < LEAST_REACH_IN - 1e-9 {
        found.push(Danger {
            code: "arrow-too-short",
            text: format!(
                "at full draw the shaft would reach {reach:.2} in past the rest contact; it must be at least {LEAST_REACH_IN} in, or it can fall behind the rest. Use longer arrows, or check the draw length and where the rest stands on the card"
            ),
            figure: Some((reach, LEAST_REACH_IN, "in")),
        });
    }
    found.extend(super::spine::danger(card));
    found
}

/// The safety check.
pub fn check(timeline: &Timeline) -> Check {
    let dangers = dangers(timeline);
    let card = &timeline.card;
    let gpp = grains_per_pound(card.arrow.lightest_mass(), card.bow.peak_weight);
    if let Some(danger) = dangers.first() {
        return match danger.figure {
            Some((value, limit, unit)) => {
                Check::measured(Status::Fail, danger.text.clone(), value, limit, unit)
            }
            None => Check::plain(Status::Fail, danger.text.clone()),
        };
    }
    if traditional(card) && gpp < TRADITIONAL_GPP {
        let text = format!(
            "{gpp:.1} gr/lb is light for a {}: ask its bowyer (many want {TRADITIONAL_GPP} gr/lb, from memory)",
            card.bow.kind.id()
        );
        return Check::measured(Status::Borderline, text, gpp, TRADITIONAL_GPP, "gr/lb");
    }
    let text = format!(
        "{gpp:.1} gr/lb at the lightest build, shaft {:.1} in past the rest; the bow maker's own limits come first",
        reach_inches(card)
    );
    Check::measured(Status::Pass, text, gpp, LEAST_GPP, "gr/lb")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::CardText;

    fn timeline(changes: &[(&str, &str)]) -> Timeline {
        let mut text = CardText::from_toml("[bow]\nkind=\"compound\"\nhand=\"right\"\nrelease=\"aid\"\npeak_weight=\"60 lb\"\ndraw_length=\"29 in\"\nbrace_height=\"7 in\"\nlet_off=\"75 %\"\n[rest]\nkind=\"drop-away\"\n[arrow]\nshaft_length=\"29 in\"\nspine=0.4\nshaft_mass=\"8.5 gr/in\"\npoint_mass=\"125 gr\"\nnock_mass=\"10 gr\"\nvane_mass=\"21 gr\"\n[paper]\ndistance=\"2 m\"\n").unwrap();
        for (key, value) in changes {
            text.set(key, value).unwrap();
        }
        Timeline::new(&text, &[]).unwrap()
    }

    /// Worked rows of makers' warranty terms: 60 lb asks for 300 gr and 80 lb for 400 gr.
    #[test]
    fn five_grains_a_pound_is_the_floor_bare_shaft_included() {
        // 29 in at 8.5 gr/in is 246.5 gr; with a 10 gr nock 43.5 gr of point make 300 gr bare.
        assert!(card_dangers(&timeline(&[("arrow.point_mass", "43.6 gr")]).card).is_empty());
        let light = timeline(&[("arrow.point_mass", "43 gr")]);
        let danger = &card_dangers(&light.card)[0];
        assert_eq!(danger.code, "arrow-too-light");
        assert!(
            danger.text.contains("without its fletching"),
            "{}",
            danger.text
        );
        assert_eq!(danger.figure.unwrap().1.round(), 300.0);
        assert_eq!(
            card_dangers(&timeline(&[("bow.peak_weight", "80 lb")]).card)[0]
                .figure
                .unwrap()
                .1
                .round(),
            400.0
        );
        assert_eq!(
            card_dangers(&timeline(&[("arrow.trial_point", "40 gr")]).card)[0].code,
            "arrow-too-light"
        );
    }

    #[test]
    fn the_makers_minimum_overrides_upward_only() {
        assert_eq!(
            card_dangers(&timeline(&[("bow.maker_min_arrow", "420 gr")]).card)[0]
                .figure
                .unwrap()
                .1
                .round(),
            420.0
        );
        assert!(card_dangers(&timeline(&[("bow.maker_min_arrow", "250 gr")]).card).is_empty());
        assert_eq!(
            card_dangers(
                &timeline(&[
                    ("bow.maker_min_arrow", "250 gr"),
                    ("arrow.point_mass", "40 gr")
                ])
                .card
            )[0]
            .figure
            .unwrap()
            .1
            .round(),
            300.0
        );
    }

    #[test]
    fn an_arrow_shorter_than_the_draw_length_is_no_fault_until_it_nears_the_rest() {
        // 29 in draw is 27.25 in to the pivot: a 28 in shaft reaches 0.75 in past it.
        assert!(card_dangers(&timeline(&[("arrow.shaft_length", "28 in")]).card).is_empty());
        let short = timeline(&[("arrow.shaft_length", "27.5 in")]);
        assert_eq!(card_dangers(&short.card)[0].code, "arrow-too-short");
        assert!(
            card_dangers(
                &timeline(&[
                    ("arrow.shaft_length", "27.5 in"),
                    ("rest.contact_ahead", "-1 in")
                ])
                .card
            )
            .is_empty()
        );
    }

    #[test]
    fn a_mark_read_at_full_draw_counts_where_it_lies_further_out() {
        // 28.5 in of shaft, contact at 27.25 in by the card: 1.25 in past it.
        let reach = |mark: &str| {
            let changes = [
                ("arrow.shaft_length", "28.5 in"),
                ("rest.full_draw_mark", mark),
            ];
            let card = timeline(&changes).card;
            (reach_inches(&card), card_dangers(&card).len())
        };
        let near = |(found, dangers): (f64, usize), wanted: f64, stopped: usize| {
            assert!((found - wanted).abs() < 1e-9, "{found}");
            assert_eq!(dangers, stopped);
        };
        near(reach(""), 1.25, 0);
        near(reach("27 in"), 1.25, 0);
        near(reach("27 3/4 in"), 0.75, 0);
        near(reach("28 1/8 in"), 0.375, 1);
    }

    #[test]
    fn a_target_recurve_is_no_traditional_bow() {
        let recurve = |rest| {
            timeline(&[
                ("bow.kind", "recurve"),
                ("bow.release", "fingers"),
                ("rest.kind", rest),
                ("bow.let_off", ""),
            ])
        };
        assert_eq!(check(&recurve("plunger")).status, Status::Pass);
        assert_eq!(check(&recurve("shelf")).status, Status::Borderline);
    }

    #[test]
    fn a_light_arrow_on_a_traditional_bow_is_a_question_for_the_bowyer() {
        let t = timeline(&[
            ("bow.kind", "longbow"),
            ("bow.release", "fingers"),
            ("rest.kind", "shelf"),
            ("bow.let_off", ""),
        ]);
        assert_eq!(check(&t).status, Status::Borderline);
    }
}
