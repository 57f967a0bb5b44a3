//! A new session from an old card: the same bow, a new visit.

use crate::checks::safety::{self, Danger, MOST_LB_A_TURN, Waiting};
use crate::gear::{AdjusterKind, BowKind, Card, CardText};
use crate::session::Timeline;
use crate::units::trim_number;

/// What belongs to a visit and not to the bow.
const OF_THE_VISIT: &[&str] = &[
    "job.number",
    "job.received",
    "job.promised",
    "job.reason",
    "job.condition",
    "job.press_consent",
    "arrow.trial_point",
];

/// The card of a new session.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FreshCard {
    /// The card.
    pub card: CardText,
    /// What differs from the old one, to be looked at.
    pub(crate) notes: Vec<String>,
}

/// Whether the bow of a session may begin another one.
///
/// # Errors
/// In words, while an incident stops it.
pub(crate) fn no_incident(timeline: &Timeline) -> Result<(), String> {
    match timeline.open_incident() {
        None => Ok(()),
        Some(incident) => Err(format!(
            "DO NOT SHOOT: {} (entry {}) stops this bow, and a new session does not clear it. Go through its parts in that session first",
            crate::units::clean(&incident.what),
            incident.entry
        )),
    }
}

/// Whether the weight of a bow whose bolts were turned in is bounded, so that a
/// card can say what it draws at most.
fn weighed_where_nothing_bounds_it(timeline: &Timeline) -> Result<(), String> {
    let bounded = timeline.card.bow.kind == BowKind::Compound;
    let stopped = safety::dangers(timeline)
        .iter()
        .any(|d| matches!(d, Danger::WeighFirst { .. }));
    if bounded || !stopped {
        return Ok(());
    }
    Err("DO NOT SHOOT: the limb bolts were turned in and the bow was not weighed since, and a new session does not clear it. Weigh it in that session first".into())
}

/// Whether the card says what was measured before paper: a new session has the
/// card alone.
fn as_measured(timeline: &Timeline) -> Result<(), String> {
    let waits = safety::waiting(timeline);
    let mut differs = waits
        .iter()
        .filter(|w| matches!(w, Waiting::CardDiffers(_)));
    differs.next().map_or(Ok(()), |what| {
        Err(format!(
            "DO NOT SHOOT: {} A new session has the card alone",
            crate::words::waiting(what)
        ))
    })
}

/// Whether the card at the head of a session still says of bow and arrow what
/// its entries came to, so that it may begin another session as it stands.
///
/// # Errors
/// In words, where a new session would leave behind what changed since.
pub(crate) fn head_still_holds(head: &CardText, timeline: &Timeline) -> Result<(), String> {
    let now = fresh_card(timeline)?.card;
    let mut head = head.clone();
    for key in OF_THE_VISIT {
        head.fields.remove(*key);
    }
    let same = match (Card::read(&head), Card::read(&now)) {
        (Ok((head, _)), Ok((now, _))) => same_build(&head, &now),
        _ => false,
    };
    if same && !timeline.weight_unknown() {
        return Ok(());
    }
    Err("is a session whose card or limb bolts changed since it began. Begin from how they stand now: tearbench new FILE --from SESSION".into())
}

/// Whether two cards say the same of everything that safety rests on.
fn same_build(a: &Card, b: &Card) -> bool {
    let named = |card: &Card| {
        let (mut bow, mut arrow) = (card.bow.clone(), card.arrow.clone());
        (bow.name, arrow.name, arrow.count) = (None, None, None);
        let rest = &card.rest;
        let contact = (rest.contact_ahead, rest.full_draw_mark, rest.riser_front);
        (bow, arrow, rest.kind, contact)
    };
    named(a) == named(b)
}

/// Makes the card of a new session for the bow of an old one: as it stood at
/// the end, the visit's own fields taken off, calipers readings moved to
/// where the rest was left, which is the new start.
///
/// # Errors
/// In words, while something stops the bow that a card cannot say: a new
/// session would leave it behind.
pub(crate) fn fresh_card(timeline: &Timeline) -> Result<FreshCard, String> {
    no_incident(timeline)?;
    as_measured(timeline)?;
    weighed_where_nothing_bounds_it(timeline)?;
    let mut card = timeline.card_text.clone();
    let mut notes: Vec<String> = unweighed(timeline, &mut card).into_iter().collect();
    notes.extend(lost(timeline, &mut card));
    let taken: Vec<&str> = OF_THE_VISIT
        .iter()
        .copied()
        .filter(|key| card.fields.remove(*key).is_some())
        .collect();
    if !taken.is_empty() {
        notes.push(format!(
            "left out as of the last visit: {}",
            taken.join(", ")
        ));
    }
    for kind in AdjusterKind::ALL {
        let moved = timeline.now.get(kind);
        let Some(adjuster) = timeline.card.adjuster(kind).filter(|_| moved != 0.0) else {
            continue;
        };
        match adjuster.reading_at(moved, timeline.card.bow.hand) {
            Some(reading) => {
                let text = format!("{} mm", trim_number(reading, 3));
                if put_reading(&mut card, kind, &text) {
                    notes.push(format!("{}: reading at the new start {text}; check it with calipers", kind.id()));
                }
            }
            None => notes.push(format!(
                "{}: the new start is where it was left; measure it, and see that its travel each way still holds",
                kind.id()
            )),
        }
    }
    Ok(FreshCard { card, notes })
}

/// A new session begins with the limb bolts where they stand. A bow whose bolts
/// were moved and that was not weighed since starts with the greatest weight it
/// may have, which nobody confirmed.
fn unweighed(timeline: &Timeline, card: &mut CardText) -> Option<String> {
    let (out, counted) = timeline.turns_out();
    let turns = format!("{} turns", trim_number(out, 3));
    if counted {
        card.set("bow.turns_out", &turns).ok()?;
    } else if out > 0.0 {
        card.fill("bow.turns_out", &turns).ok()?;
    }
    if !timeline.weight_unknown() {
        return None;
    }
    let a_turn = match timeline.card.bow.kind {
        BowKind::Compound => MOST_LB_A_TURN,
        _ => 0.0,
    };
    let most = timeline.card_at_worst(a_turn).bow.peak_weight;
    let text = format!("{} lb", trim_number(most.pounds(), 1));
    card.fill("bow.peak_weight", &text).ok()?;
    Some(format!(
        "weigh the bow: its limb bolts were moved and it was not weighed since; the card takes {text} until then"
    ))
}

/// Of a file that lost what a stop may have rested on, the draw weight stands
/// unconfirmed in the new session.
fn lost(timeline: &Timeline, card: &mut CardText) -> Option<String> {
    let holes = timeline.holes;
    if holes.grave == 0 && holes.card == 0 {
        return None;
    }
    let weight = card.get("bow.peak_weight")?.to_owned();
    card.fill("bow.peak_weight", &weight).ok()?;
    Some("something in that file is lost, and it may have stopped this bow: look the bow over, then confirm its draw weight on the card".into())
}

/// Puts a reading where the card keeps it: on the adjuster's own table, or on
/// the rest.
fn put_reading(card: &mut CardText, kind: AdjusterKind, text: &str) -> bool {
    let own = card
        .adjusters
        .iter()
        .any(|a| a.get("name").is_some_and(|n| n.text == kind.id()));
    let key = match kind {
        _ if own => format!("adjuster.{}.reading", kind.id()),
        AdjusterKind::RestSideways => "rest.reading".to_owned(),
        AdjusterKind::RestHeight => "rest.height_reading".to_owned(),
        _ => return false,
    };
    card.set(&key, text).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::Step;
    use crate::session::Event;
    use crate::setup::tests::{COMPOUND, timeline};

    #[test]
    fn a_new_session_is_no_way_round_an_incident() {
        let t = timeline(
            COMPOUND,
            vec![Event::Incident {
                what: "dry fire".into(),
            }],
        );
        let refused = fresh_card(&t).unwrap_err();
        assert!(
            refused.starts_with("DO NOT SHOOT: dry fire (entry 1)"),
            "{refused}"
        );
        let mut events = vec![Event::Incident {
            what: "dry fire".into(),
        }];
        let parts = crate::question::InspectPart::ALL;
        events.extend(parts.map(|p| crate::trouble::found(p, crate::question::Answer::Sound)));
        assert!(fresh_card(&timeline(COMPOUND, events)).is_ok());
    }

    #[test]
    fn a_new_session_starts_where_the_bow_was_left() {
        let source = COMPOUND.replace(
            "click=\"0.25 mm\"",
            "click=\"0.25 mm\"\nreading=\"20.6 mm\"",
        );
        let source = format!("{source}[job]\nowner=\"Ann\"\nreason=\"new rest\"\n");
        let t = timeline(
            &source,
            vec![Event::Move {
                steps: vec![
                    Step {
                        adjuster: AdjusterKind::RestSideways,
                        amount: -1.5,
                    },
                    Step {
                        adjuster: AdjusterKind::RestHeight,
                        amount: 0.5,
                    },
                ],
                said: None,
                confirms: None,
            }],
        );
        let fresh = fresh_card(&t).unwrap();
        let (card, _) = Card::read(&fresh.card).unwrap();
        assert_eq!(
            card.adjuster(AdjusterKind::RestSideways).unwrap().reading,
            Some(22.1)
        );
        assert_eq!(card.job.owner.as_deref(), Some("Ann"));
        assert_eq!(card.job.reason, None);
        assert!(
            fresh
                .notes
                .iter()
                .any(|n| n.starts_with("rest-height: the new start")),
            "{:?}",
            fresh.notes
        );
        // It reads back from its own text.
        let again = CardText::from_toml(&fresh.card.to_toml()).unwrap();
        assert!(Card::read(&again).is_ok());
    }
}
