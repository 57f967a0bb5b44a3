//! Lines of the set-up card by name.

use crate::gear::CardProblem;
use crate::gear::field::{self, FieldKind};
use crate::units::System;

/// Lines whose key says too little by itself.
const LABELS: &[(&str, &str)] = &[
    ("bow.kind", "kind of bow"),
    ("bow.hand", "drawing hand"),
    ("rest.kind", "kind of rest"),
    ("rest.click", "one click"),
    ("rest.travel", "travel each way"),
    ("rest.contact_ahead", "rest ahead of grip"),
    ("rest.full_draw_mark", "nock to rest, drawn"),
    ("rest.riser_front", "riser past the rest"),
    ("bow.name", "name of the bow"),
    ("arrow.name", "name of the set"),
    ("archer.name", "who shoots it"),
    ("arrow.count", "arrows in the set"),
    ("arrow.maker_chart", "maker's chart"),
    ("arrow.spine", "static spine"),
    ("arrow.diameter", "shaft diameter"),
    ("archer.junior", "a junior"),
    ("paper.distance", "rest to paper"),
    ("bow.weighed", "weight off a scale"),
    ("bow.speed", "arrow speed"),
    ("bow.maker_min_arrow", "maker's min arrow"),
    ("bow.maker_min_weight", "maker's min weight"),
    ("bow.turns_out", "limb bolts out"),
    ("bow.maker_max_turns", "maker's max turns"),
    ("bow.maker_max_weight", "maker's max weight"),
    ("rest.reading", "calipers sideways"),
    ("rest.height_reading", "calipers height"),
    ("rest.clockwise", "clockwise goes"),
    ("rest.clockwise_height", "clockwise, height"),
    ("arrow.shaft_mass", "shaft weight"),
    ("arrow.point_mass", "point weight"),
    ("arrow.nock_mass", "nock weight"),
    ("arrow.vane_mass", "vane weight"),
    ("arrow.only_these", "no other arrows"),
    ("archer.eye", "aiming eye"),
    ("paper.aim_right", "wanted right"),
    ("paper.aim_up", "wanted up"),
    ("paper.sureness", "chance asked for"),
    ("paper.least_shots", "fewest shots"),
    ("job.contact", "owner's contact"),
    ("job.press_consent", "press work agreed"),
];

/// What a line of the card is called.
pub(crate) fn card_label(key: &str) -> String {
    if let Some((_, label)) = LABELS.iter().find(|(k, _)| *k == key) {
        return (*label).to_owned();
    }
    let name = key.rsplit_once('.').map_or(key, |(_, name)| name);
    name.replace('_', " ")
}

/// What a line of the card may hold, in the units on screen; a bare number is
/// taken in its unit where nothing stood before.
pub(crate) fn card_example(key: &str, system: System) -> &'static str {
    let inches = || {
        INCHES
            .iter()
            .find(|(k, _)| *k == key)
            .map(|(_, text)| *text)
    };
    let example = field::find(key).map_or("", |field| field.example);
    match system {
        System::Mm => example,
        System::Inch => inches().unwrap_or(example),
    }
}

/// Examples of lengths for one who works in inches, near those of the table.
const INCHES: &[(&str, &str)] = &[
    ("rest.click", "0.01 in"),
    ("rest.travel", "5/16 in"),
    ("rest.backlash", "0.008 in"),
    ("rest.reading", "0.81 in"),
    ("rest.height_reading", "0.47 in"),
    ("rest.riser_front", "1 9/16 in"),
    ("arrow.diameter", "0.256 in"),
    ("paper.distance", "7 ft"),
    ("paper.tolerance", "1/4 in"),
    ("paper.aim_right", "0 in"),
    ("paper.aim_up", "1/8 in"),
];

/// That a value on the card is unusual, where it was kept.
pub(crate) fn unusual(found: &CardProblem) -> String {
    let label = super::capital(&card_label(&found.field));
    format!("{label} on the card: {}.", found.message)
}

/// A value of the card as it is shown: yes and no for what is kept as true and
/// false.
pub(crate) fn card_value(key: &str, value: String) -> String {
    let flag = field::find(key).is_some_and(|f| f.kind == FieldKind::Flag);
    match value.as_str() {
        "true" if flag => "yes".into(),
        "false" if flag => "no".into(),
        _ => value,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each reads as a usual value, and none of them is metric.
    #[test]
    fn an_example_in_inches_is_a_usual_value() {
        for field in field::FIELDS {
            let example = card_example(field.key, System::Inch);
            assert!(
                !example.ends_with(" mm") && !example.ends_with(" m"),
                "{example}"
            );
        }
        for (key, text) in INCHES {
            assert_eq!(crate::gear::check_value(key, text), Ok(None), "{key}");
            assert_ne!(card_example(key, System::Mm), *text);
        }
    }
}
