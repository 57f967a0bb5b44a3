//! What is believed of an adjuster's response before this bow has shown it.
//!
//! Up and down the trade agrees and its side stands. Sideways with a release
//! aid the side leans with the arrow's load, by the launch model; with fingers
//! it leans to the printed guides, and on the powder where somebody looked.
//! Nobody has measured a side, so none is more than 80 % from mechanics
//! and guides alone ([`SlopePrior::leaning`]).

use super::asked;
use super::usual::axis;
use crate::belief::{AdjusterPrior, Powder, Prior, SlopePrior};
use crate::gear::{AdjusterKind, Axis, Card, Release};
use crate::physics::prior::MODEL_VERSION;
use crate::session::{PriorGain, PriorRecord, Timeline};

/// With fingers and no powder looked at, the printed side is believed at
/// least so much: the guides agree, and film has the arrow clear the button.
const GUIDES: f64 = 0.65;
/// Sd of a response across the other axis, mm per mm.
const CROSS_SD: f64 = 0.35;

/// What is believed of this bow before its first shot: the kind's own wide
/// figures, leaning on the response prior where the session holds one.
pub fn prior(timeline: &Timeline, kinds: &[AdjusterKind]) -> Prior {
    let card = &timeline.card;
    let powder = asked::powder(timeline);
    let base = match card.bow.release {
        Release::Aid => Prior::aid(),
        Release::Fingers => Prior::fingers_after(powder),
    };
    let record = timeline.prior.as_ref().filter(|r| counts(r));
    let adjusters = kinds
        .iter()
        .map(|kind| {
            let usual = usual_slope(*kind, card, powder, &base);
            let gain = record.and_then(|r| r.gains.iter().find(|g| g.adjuster == *kind));
            let slope = gain.map_or(usual, |g| lean(*kind, card, powder, usual, g));
            AdjusterPrior::new(axis(*kind), slope, CROSS_SD)
        })
        .collect();
    Prior {
        adjusters,
        distance_m: card.paper.distance.m(),
        ..base
    }
}

/// Whether the figures of a record are still believed: those of the earlier
/// model took the string to hold up to six times as stiffly as it does.
fn counts(record: &PriorRecord) -> bool {
    record.model >= MODEL_VERSION
}

/// What the side of an adjuster leans on before this bow has shown it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeansOn {
    /// A record of an earlier model, which is not used.
    EarlierModel(u32),
    /// The arrow's load, by so many drawn bows.
    Load(u32),
    /// The printed guides and the powder, by so many drawn bows.
    Guides(u32),
}

/// What the record behind the lean is; `None` where there is none.
pub(crate) fn about(timeline: &Timeline) -> Option<LeansOn> {
    let record = timeline.prior.as_ref().filter(|r| r.draws > 0)?;
    Some(match (counts(record), timeline.card.bow.release) {
        (false, _) => LeansOn::EarlierModel(record.model),
        (true, Release::Aid) => LeansOn::Load(record.draws),
        (true, Release::Fingers) => LeansOn::Guides(record.draws),
    })
}

/// What is usual of an adjuster of this kind of bow before any bow has shown
/// it: the wide prior that earlier bows are pooled against.
pub(super) fn usual(card: &Card, kind: AdjusterKind, powder: Powder) -> SlopePrior {
    let base = match card.bow.release {
        Release::Aid => Prior::aid(),
        Release::Fingers => Prior::fingers_after(powder),
    };
    usual_slope(kind, card, powder, &base)
}

/// The usual slope leaning on the mechanics, never narrower than usual.
fn lean(
    kind: AdjusterKind,
    card: &Card,
    powder: Powder,
    usual: SlopePrior,
    gain: &PriorGain,
) -> SlopePrior {
    if kind.axis() == Axis::Vertical {
        return usual;
    }
    let walk = gain.wander.clamp(usual.walk, 3.0 * usual.walk);
    let sd = usual.sd.max(gain.sd.min(1.5 * usual.sd));
    match (card.bow.release, kind) {
        // Guides name the spring's side with fingers, powder turns it round;
        // with an aid the model has little to say of it.
        (_, AdjusterKind::PlungerTension) => usual,
        (Release::Aid, _) => SlopePrior::leaning(gain.negative, sd, walk),
        (Release::Fingers, _) if powder == Powder::NotLooked => {
            SlopePrior::leaning(gain.negative.max(GUIDES), sd, walk)
        }
        (Release::Fingers, _) => SlopePrior { walk, ..usual },
    }
}

/// The slope believed of an adjuster from the kind of release alone: raising
/// the nocking point does what lowering the rest does (trade practice:
/// tail high, nocking point down or rest up).
fn usual_slope(kind: AdjusterKind, card: &Card, powder: Powder, base: &Prior) -> SlopePrior {
    let [sideways, height] = [base.adjusters[0].slope[0], base.adjusters[1].slope[1]];
    match (kind, card.bow.release) {
        (AdjusterKind::RestHeight, _) => height,
        (AdjusterKind::NockingPoint, _) => SlopePrior {
            mean: -height.mean,
            ..height
        },
        (AdjusterKind::PlungerTension, Release::Fingers) => {
            let right_handed = powder.plunger_tension();
            SlopePrior {
                mean: card.bow.hand.in_sign() * right_handed.mean,
                ..right_handed
            }
        }
        // With an aid nobody names a side of the spring: it hardly leans the
        // way that is named for fingers.
        (AdjusterKind::PlungerTension, Release::Aid) => SlopePrior {
            mean: card.bow.hand.in_sign(),
            sd: 6.0,
            walk: 2.0,
        },
        _ => sideways,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixtures::{COMPOUND, RECURVE};
    use crate::gear::CardText;
    use crate::session::Event;
    use crate::session::told::{timeline, timeline_of};
    use crate::stats::normal;

    const REST: AdjusterKind = AdjusterKind::RestSideways;
    const SPRING: AdjusterKind = AdjusterKind::PlungerTension;

    fn record(model: u32, negative: f64) -> Event {
        Event::Prior(PriorRecord {
            model,
            seed: 1,
            draws: 128,
            gains: vec![PriorGain {
                adjuster: REST,
                mean: 9.0,
                sd: 3.0,
                wander: 0.1,
                negative,
            }],
            learned: None,
        })
    }

    fn powder(result: &str) -> Event {
        Event::Answer {
            test: "contact".into(),
            result: result.into(),
            detail: None,
        }
    }

    /// Chance that a slope is negative, in whole per cent.
    fn against(hand: &str, card: &str, events: Vec<Event>, kind: AdjusterKind) -> u32 {
        let mut card = CardText::from_toml(card).unwrap();
        card.set("bow.hand", hand).unwrap();
        let timeline = timeline_of(&card, events);
        let own = usize::from(kind.axis() == Axis::Vertical);
        let slope = prior(&timeline, &[kind]).adjusters[0].slope[own];
        (100.0 * normal::below(-slope.mean / slope.sd)).round() as u32
    }

    #[test]
    fn with_an_aid_the_side_leans_with_the_record_and_never_past_80() {
        for hand in ["right", "left"] {
            let aid = |negative| against(hand, COMPOUND, vec![record(2, negative)], REST);
            assert_eq!(aid(0.5), 50);
            assert_eq!(aid(0.6), 60);
            assert_eq!(aid(0.8), 80);
            assert_eq!(aid(0.98), 80);
            assert_eq!(aid(0.11), 20);
            assert_eq!(against(hand, COMPOUND, vec![], REST), 50);
        }
    }

    /// The usual sd is 2.8 mm a mm, and its walk 0.15: the record may widen
    /// them to one and a half and to three times as much, and never narrow them.
    #[test]
    fn the_records_own_spread_widens_the_usual_one_up_to_a_bound() {
        for (sd, wander, wanted) in [
            (1.0, 0.01, (2.8, 0.15)),
            (3.5, 0.3, (3.5, 0.3)),
            (4.2, 0.45, (4.2, 0.45)),
            (9.0, 2.0, (4.2, 0.45)),
        ] {
            let mut said = record(2, 0.6);
            if let Event::Prior(prior) = &mut said {
                (prior.gains[0].sd, prior.gains[0].wander) = (sd, wander);
            }
            let slope = prior(&timeline(COMPOUND, [said]), &[REST]).adjusters[0].slope[0];
            assert!((slope.sd - wanted.0).abs() < 1e-9, "{sd}: {slope:?}");
            assert!((slope.walk - wanted.1).abs() < 1e-9, "{wander}: {slope:?}");
        }
    }

    #[test]
    fn an_earlier_record_is_not_leant_on_and_is_said_to_be_one() {
        assert_eq!(against("right", COMPOUND, vec![record(1, 0.98)], REST), 50);
        let old = timeline(COMPOUND, [record(1, 0.98)]);
        assert_eq!(about(&old), Some(LeansOn::EarlierModel(1)));
        let new = timeline(COMPOUND, [record(2, 0.98)]);
        assert_eq!(about(&new), Some(LeansOn::Load(128)));
    }

    #[test]
    fn with_fingers_the_rest_leans_to_the_guides_and_turns_round_after_a_slap() {
        for hand in ["right", "left"] {
            let rest = |events| against(hand, RECURVE, events, REST);
            // Printed: rest toward the tail, which is a negative slope.
            assert_eq!(rest(vec![]), 69);
            assert_eq!(rest(vec![record(2, 0.55)]), 65);
            assert_eq!(rest(vec![record(2, 0.75)]), 75);
            assert_eq!(rest(vec![powder("not-looked")]), 69);
            assert_eq!(rest(vec![powder("none")]), 80);
            assert_eq!(rest(vec![record(2, 0.55), powder("none")]), 80);
            assert_eq!(rest(vec![powder("button")]), 20);
            assert_eq!(rest(vec![powder("button"), powder("button")]), 20);
            assert_eq!(rest(vec![powder("button"), powder("not-looked")]), 20);
            assert_eq!(rest(vec![powder("button"), powder("none")]), 80);
        }
    }

    #[test]
    fn a_firmer_spring_sends_the_tail_in_when_clear_and_out_after_a_slap() {
        let spring = |hand, events| against(hand, RECURVE, events, SPRING);
        // Right-handed, tail left: firmer, so firmer sends it right (positive).
        assert_eq!(spring("right", vec![]), 31);
        assert_eq!(spring("left", vec![]), 69);
        assert_eq!(spring("right", vec![powder("none")]), 20);
        assert_eq!(spring("left", vec![powder("none")]), 80);
        assert_eq!(spring("right", vec![powder("button")]), 69);
        assert_eq!(spring("left", vec![powder("button")]), 31);
    }

    #[test]
    fn with_an_aid_a_spring_hardly_leans_whatever_the_record_says() {
        let card = RECURVE.replace("\"fingers\"", "\"aid\"");
        let events = || {
            let Event::Prior(mut record) = record(2, 0.9) else {
                unreachable!("a prior")
            };
            record.gains[0].adjuster = SPRING;
            vec![Event::Prior(record)]
        };
        assert_eq!(against("right", &card, events(), SPRING), 43);
        assert_eq!(against("left", &card, events(), SPRING), 57);
    }

    /// Guides agree: the rest up lowers the tail, the nocking point up raises
    /// it. One sd from nothing is 84 % of the normal distribution.
    #[test]
    fn up_and_down_lean_the_guides_way_for_either_hand_and_release() {
        use AdjusterKind::{NockingPoint, RestHeight};
        for hand in ["right", "left"] {
            for card in [COMPOUND, RECURVE] {
                for events in [vec![], vec![record(2, 0.1)]] {
                    assert_eq!(against(hand, card, events.clone(), RestHeight), 84);
                    assert_eq!(against(hand, card, events, NockingPoint), 16);
                }
            }
        }
    }
}
