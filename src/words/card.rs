//! Lines of the set-up card by name.

use crate::gear::field::{self, FieldKind};

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
