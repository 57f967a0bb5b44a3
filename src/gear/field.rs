//! The one table of what may stand on a card.

/// What kind of value a field takes, with its usual range in the unit named.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum FieldKind {
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A length; usual range in mm.
    Length(f64, f64),
    /// A length that may be zero or negative; usual range in mm.
    Offset(f64, f64),
    /// A mass; usual range in grains.
    Mass(f64, f64),
    /// A draw weight; usual range in pounds.
    Force(f64, f64),
    /// A mass per length; usual range in grains per inch.
    LinearMass(f64, f64),
    /// A speed; usual range in ft/s.
    Speed(f64, f64),
    /// A static spine; usual range in inches of deflection.
    Spine(f64, f64),
    /// A percentage; usual range in percent.
    Share(f64, f64),
    /// Turns of a screw; usual range in turns.
    Turns(f64, f64),
    /// A whole number; usual range.
    Count(u32, u32),
    /// `true` or `false`.
    Flag,
    /// Free text.
    Text,
    /// A minimum arrow mass: a mass, or grains per pound.
    MinimumArrow,
    /// A reading of the arrow maker's chart.
    Chart,
}

/// One field of the card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Field {
    /// Section and key, such as `bow.peak_weight`.
    pub(crate) key: &'static str,
    /// What it takes.
    pub kind: FieldKind,
    /// Whether a card without it is refused.
    pub(crate) required: bool,
    /// One line for the card screen and the reference.
    pub doc: &'static str,
    /// A value that would be right.
    pub(crate) example: &'static str,
}

impl Field {
    /// The section before the dot.
    pub(crate) fn section(&self) -> &'static str {
        self.key.split_once('.').map_or("", |(section, _)| section)
    }
    /// The key after the dot.
    pub(crate) fn name(&self) -> &'static str {
        self.key.split_once('.').map_or(self.key, |(_, name)| name)
    }
}

const fn must(
    key: &'static str,
    kind: FieldKind,
    example: &'static str,
    doc: &'static str,
) -> Field {
    Field {
        key,
        kind,
        required: true,
        doc,
        example,
    }
}
const fn may(
    key: &'static str,
    kind: FieldKind,
    example: &'static str,
    doc: &'static str,
) -> Field {
    Field {
        key,
        kind,
        required: false,
        doc,
        example,
    }
}

use FieldKind::{
    Chart, Choice, Count, Flag, Force, Length, LinearMass, Mass, MinimumArrow, Offset, Share,
    Speed, Spine, Text, Turns,
};

/// Bow kinds.
pub(crate) const BOW_KINDS: &[&str] = &["compound", "recurve", "longbow"];
/// Hands: the hand that draws the string is the archer's; a right-handed bow is held in the left.
pub(crate) const HANDS: &[&str] = &["right", "left"];
/// Releases.
pub(crate) const RELEASES: &[&str] = &["aid", "fingers"];
/// Rest kinds.
pub(crate) const REST_KINDS: &[&str] =
    &["drop-away", "blade", "capture", "plunger", "fixed", "shelf"];
/// Which way a clockwise turn of an adjusting screw moves things.
pub(crate) const TURNS: &[&str] = &[
    "left", "right", "up", "down", "in", "out", "firmer", "softer",
];

/// Every field a card may hold, in the order of the card screen.
///
/// Usual ranges are common practice, no source; outside them a value is kept
/// with a warning, tenfold outside it is refused.
pub(crate) const FIELDS: &[Field] = &[
    must(
        "bow.kind",
        Choice(BOW_KINDS),
        "compound",
        "compound, recurve or longbow",
    ),
    must(
        "bow.hand",
        Choice(HANDS),
        "right",
        "the hand that draws the string; the other holds the bow",
    ),
    must(
        "bow.release",
        Choice(RELEASES),
        "aid",
        "release aid or fingers",
    ),
    must(
        "bow.peak_weight",
        Force(15.0, 80.0),
        "60 lb",
        "compound: peak weight; recurve and longbow: scale weight at this archer's draw",
    ),
    must(
        "bow.draw_length",
        Length(550.0, 850.0),
        "29 in",
        "the trade's figure: pivot point plus 1 3/4 in",
    ),
    must(
        "bow.brace_height",
        Length(120.0, 260.0),
        "7 in",
        "string to grip pivot, undrawn",
    ),
    may(
        "bow.let_off",
        Share(0.0, 90.0),
        "75 %",
        "compound: drop from peak to holding weight",
    ),
    may(
        "bow.weighed",
        Flag,
        "true",
        "whether the weight was read off a scale, not the label",
    ),
    may(
        "bow.speed",
        Speed(100.0, 370.0),
        "282 ft/s",
        "chronograph speed of this arrow",
    ),
    may(
        "bow.maker_min_arrow",
        MinimumArrow,
        "350 gr",
        "the bow maker's least arrow: mass, or gr/lb",
    ),
    may(
        "bow.maker_min_weight",
        Force(10.0, 80.0),
        "50 lb",
        "the least weight the bow maker's limb-bolt turns allow",
    ),
    may(
        "bow.turns_out",
        Turns(0.0, 15.0),
        "2 turns",
        "limb bolts at the start of this session: turns out from fully seated, as counted",
    ),
    may(
        "bow.maker_max_turns",
        Turns(1.0, 15.0),
        "6 turns",
        "the bow maker's greatest turns out of a limb bolt, counted from fully seated",
    ),
    may(
        "bow.maker_max_weight",
        Force(15.0, 90.0),
        "62 lb",
        "the greatest draw weight the bow maker allows",
    ),
    may(
        "bow.axle_to_axle",
        Length(600.0, 1200.0),
        "33 in",
        "compound: axle to axle",
    ),
    may(
        "bow.name",
        Text,
        "blue hunting bow",
        "what to call this bow",
    ),
    must(
        "rest.kind",
        Choice(REST_KINDS),
        "drop-away",
        "drop-away, blade, capture, plunger, fixed or shelf",
    ),
    may(
        "rest.click",
        Length(0.02, 1.0),
        "0.25 mm",
        "one click of the rest; leave out where there is none",
    ),
    may(
        "rest.travel",
        Length(1.0, 20.0),
        "8 mm",
        "how far it goes each way from the start",
    ),
    may(
        "rest.backlash",
        Offset(0.0, 1.0),
        "0.2 mm",
        "lost motion when the screw is reversed",
    ),
    may(
        "rest.clockwise",
        Choice(TURNS),
        "out",
        "which way a clockwise turn of the sideways screw moves the rest",
    ),
    may(
        "rest.clockwise_height",
        Choice(TURNS),
        "up",
        "which way a clockwise turn of the height screw moves the rest",
    ),
    may(
        "rest.reading",
        Length(5.0, 60.0),
        "20.6 mm",
        "calipers at the start: riser to the near side of the shaft",
    ),
    may(
        "rest.height_reading",
        Offset(-40.0, 60.0),
        "12 mm",
        "calipers at the start: height of the rest",
    ),
    may(
        "rest.contact_ahead",
        Offset(-75.0, 75.0),
        "0 in",
        "rest contact ahead of the grip pivot (minus: behind it)",
    ),
    may(
        "rest.full_draw_mark",
        Length(450.0, 850.0),
        "27 1/4 in",
        "nock throat to rest contact at this archer's full draw, measured",
    ),
    may(
        "rest.riser_front",
        Offset(-50.0, 150.0),
        "40 mm",
        "the riser's front past the rest contact; a broadhead must stay ahead of it",
    ),
    must(
        "arrow.shaft_length",
        Length(500.0, 850.0),
        "29 in",
        "nock throat to shaft end, point excluded",
    ),
    must(
        "arrow.spine",
        Spine(0.15, 2.0),
        "0.400",
        "static spine: 28 in span, 1.94 lb",
    ),
    must(
        "arrow.shaft_mass",
        LinearMass(3.0, 18.0),
        "8.5 gr/in",
        "bare shaft, mass per length",
    ),
    must(
        "arrow.point_mass",
        Mass(40.0, 350.0),
        "125 gr",
        "point with its insert",
    ),
    may(
        "arrow.nock_mass",
        Mass(3.0, 40.0),
        "10 gr",
        "nock, with its pin or bushing",
    ),
    may(
        "arrow.vane_mass",
        Mass(0.0, 60.0),
        "21 gr",
        "all vanes together, with a wrap if any",
    ),
    may(
        "arrow.diameter",
        Length(3.5, 10.0),
        "6.5 mm",
        "outside diameter of the shaft",
    ),
    may(
        "arrow.trial_point",
        Mass(40.0, 350.0),
        "100 gr",
        "the point of the next shots while it is on trial; leave it out afterwards",
    ),
    may(
        "arrow.maker_chart",
        Chart,
        crate::gear::CHART_EXAMPLE,
        "the weakest spine the arrow maker's chart gives, and what for",
    ),
    may(
        "arrow.only_these",
        Flag,
        "true",
        "whether these are the only arrows to hand",
    ),
    may("arrow.count", Count(1, 144), "12", "arrows in the set"),
    may("arrow.name", Text, "field set", "what to call this set"),
    may("archer.name", Text, "the owner", "who shoots the bow"),
    may(
        "archer.junior",
        Flag,
        "false",
        "a junior has shorter sittings",
    ),
    may("archer.eye", Choice(HANDS), "right", "aiming eye"),
    must(
        "paper.distance",
        Length(1500.0, 6500.0),
        "2 m",
        "rest to paper",
    ),
    may(
        "paper.tolerance",
        Length(2.0, 30.0),
        "6 mm",
        "how large a tear may remain",
    ),
    may(
        "paper.aim_right",
        Offset(-15.0, 15.0),
        "0 mm",
        "wanted tear, right positive",
    ),
    may(
        "paper.aim_up",
        Offset(-15.0, 15.0),
        "3 mm",
        "wanted tear, up positive: some want the tail a little high",
    ),
    may(
        "paper.sureness",
        Share(80.0, 99.5),
        "95 %",
        "the chance asked for before it says it is done",
    ),
    may(
        "paper.least_shots",
        Count(1, 9),
        "2",
        "fewest shots at the last setting before it is done: without it 1 with a release aid, 2 with fingers",
    ),
    may("job.owner", Text, "", "whose bow it is"),
    may(
        "job.contact",
        Text,
        "",
        "how to reach the owner; left out of reports",
    ),
    may("job.number", Text, "", "job number"),
    may("job.received", Text, "2026-03-02", "date in"),
    may("job.promised", Text, "2026-03-05", "date promised"),
    may("job.reason", Text, "new rest", "why the bow is here"),
    may(
        "job.condition",
        Text,
        "scratch on lower limb",
        "condition on arrival",
    ),
    may("job.technician", Text, "", "who does the work"),
    may(
        "job.press_consent",
        Flag,
        "true",
        "whether the owner agrees to press work",
    ),
];

/// Fields of an `[[adjuster]]` table.
pub(crate) const ADJUSTER_FIELDS: &[&str] = &[
    "name",
    "step",
    "range",
    "backlash",
    "clockwise",
    "reading",
    "clicks",
];

/// The field with this key.
pub(crate) fn find(key: &str) -> Option<&'static Field> {
    FIELDS.iter().find(|field| field.key == key)
}

/// The known key closest in spelling, for "did you mean".
pub(crate) fn nearest(key: &str) -> Option<&'static str> {
    FIELDS
        .iter()
        .map(|field| (distance(key, field.key), field.key))
        .min()
        .filter(|(d, _)| *d <= 4)
        .map(|(_, key)| key)
}

/// Levenshtein distance, on bytes; keys are ASCII.
fn distance(a: &str, b: &str) -> usize {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().take(64).enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let next = (corner + usize::from(x != y))
                .min(row[j] + 1)
                .min(row[j + 1] + 1);
            corner = row[j + 1];
            row[j + 1] = next;
        }
    }
    row[b.len()]
}

/// The draw weights that are usual, lb: those between which the card takes one
/// without a word.
pub(crate) fn usual_weights() -> (f64, f64) {
    match find("bow.peak_weight").map(|field| field.kind) {
        Some(FieldKind::Force(low, high)) => (low, high),
        _ => (0.0, f64::INFINITY),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_a_misspelling_finds_its_field() {
        for (i, field) in FIELDS.iter().enumerate() {
            assert!(FIELDS[i + 1..].iter().all(|other| other.key != field.key));
        }
        assert_eq!(nearest("bow.peak_wieght"), Some("bow.peak_weight"));
        assert_eq!(nearest("arrow.length_of_the_feathers"), None);
    }
}
