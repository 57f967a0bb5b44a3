//! Reading a card's texts into quantities, with every problem named.

mod adjusters;
mod values;

use super::card::{Archer, Arrow, Bow, BowKind, Card, Hand, Job, Paper, Release, Rest, RestKind};
use super::chart::MakerChart;
use super::field::{self, FieldKind};
use super::text::{CardProblem, CardText};
use crate::units::{Force, Length, LinearMass, Mass, Share, Speed, Spine, System};
pub(super) use values::read_amount;
pub(crate) use values::turns_counted;

/// A card, and warnings about values that are kept but unusual.
pub(crate) type CardAndWarnings = (Card, Vec<CardProblem>);

impl Card {
    /// Reads a card from its texts.
    ///
    /// # Errors
    /// Every missing required field, unreadable value, and value that is not
    /// finite, not positive, or tenfold outside what is usual. Values merely
    /// outside the usual range are kept and returned as warnings.
    pub fn read(text: &CardText) -> Result<CardAndWarnings, Vec<CardProblem>> {
        let mut reader = Reader {
            text,
            errors: Vec::new(),
            warnings: Vec::new(),
        };
        let card = reader.card();
        match card {
            Some(card) if reader.errors.is_empty() => Ok((card, reader.warnings)),
            _ => Err(reader.errors),
        }
    }
}

/// The values of a card that are unusual and were kept.
pub(crate) fn unusual(text: &CardText) -> Vec<CardProblem> {
    Card::read(text).map_or_else(|_| Vec::new(), |(_, warnings)| warnings)
}

/// Checks one value of one field on its own, for the card screen.
///
/// # Errors
/// The same message reading the whole card would give.
pub(crate) fn check_value(key: &str, value: &str) -> Result<Option<CardProblem>, CardProblem> {
    let mut text = CardText::default();
    text.set(key, value)?;
    let mut reader = Reader {
        text: &text,
        errors: Vec::new(),
        warnings: Vec::new(),
    };
    let Some(field) = field::find(key) else {
        return Ok(None);
    };
    match field.kind {
        FieldKind::Choice(words) => drop(reader.choice(key, words)),
        FieldKind::Flag => drop(reader.flag(key)),
        FieldKind::Count(..) => drop(reader.count(key)),
        FieldKind::Text => {}
        FieldKind::Chart => drop(reader.chart(key)),
        FieldKind::MinimumArrow => drop(reader.minimum(key, Force::from_pounds(50.0))),
        _ => drop(reader.number(key)),
    }
    match reader.errors.pop() {
        Some(error) => Err(error),
        None => Ok(reader.warnings.pop()),
    }
}

struct Reader<'a> {
    text: &'a CardText,
    errors: Vec<CardProblem>,
    warnings: Vec<CardProblem>,
}

impl Reader<'_> {
    fn card(&mut self) -> Option<Card> {
        for field in field::FIELDS.iter().filter(|f| f.required) {
            if self.text.get(field.key).is_none() {
                let message = format!(
                    "missing; write for example {} = \"{}\" under [{}]",
                    field.name(),
                    field.example,
                    field.section()
                );
                self.errors.push(CardProblem::new(None, field.key, message));
            }
        }
        let bow = self.bow();
        let rest = self.rest();
        let arrow = self.arrow();
        let paper = self.paper(bow.as_ref().map(|b| b.release));
        let (archer, job) = (self.archer(), self.job());
        let (bow, rest) = (bow?, rest?);
        let adjusters = self.adjusters(rest.kind, &bow);
        self.consistency(&bow, &rest);
        self.measured(&bow, &rest, arrow.as_ref());
        Some(Card {
            bow,
            rest,
            arrow: arrow?,
            archer,
            paper: paper?,
            job,
            adjusters,
        })
    }

    fn bow(&mut self) -> Option<Bow> {
        let kind = self
            .choice("bow.kind", field::BOW_KINDS)
            .and_then(|w| BowKind::from_id(&w));
        let hand = self
            .choice("bow.hand", field::HANDS)
            .and_then(|w| Hand::from_id(&w));
        let release = self
            .choice("bow.release", field::RELEASES)
            .and_then(|w| Release::from_id(&w));
        let peak_weight = self.number("bow.peak_weight").map(Force::from_pounds);
        let draw_length = self.number("bow.draw_length").map(Length::from_mm);
        let brace_height = self.number("bow.brace_height").map(Length::from_mm);
        let let_off = self
            .number("bow.let_off")
            .map(|p| Share::from_fraction(p / 100.0));
        let speed = self.number("bow.speed").map(Speed::from_fps);
        let axle_to_axle = self.number("bow.axle_to_axle").map(Length::from_mm);
        let maker_min_weight = self.number("bow.maker_min_weight").map(Force::from_pounds);
        let maker_max_weight = self.number("bow.maker_max_weight").map(Force::from_pounds);
        let turns_out = self.number("bow.turns_out");
        let maker_max_turns = self.number("bow.maker_max_turns");
        let weighed = self.flag("bow.weighed");
        let minimum = self.minimum(
            "bow.maker_min_arrow",
            peak_weight.unwrap_or(Force::from_pounds(50.0)),
        );
        let kind = kind?;
        // Three quarters is what most compounds let off; said by the warning below.
        let usual = Share::from_fraction(if kind == BowKind::Compound { 0.75 } else { 0.0 });
        if let_off.is_none() && kind == BowKind::Compound && self.text.get("bow.let_off").is_none()
        {
            self.warn("bow.let_off", "missing on a compound; 75 % is assumed");
        }
        Some(Bow {
            kind,
            hand: hand?,
            release: release?,
            peak_weight: peak_weight?,
            draw_length: draw_length?,
            brace_height: brace_height?,
            let_off: let_off.unwrap_or(usual),
            weighed,
            speed,
            maker_min_arrow: minimum,
            maker_min_weight,
            turns_out,
            maker_max_turns,
            maker_max_weight,
            axle_to_axle,
            name: self.words("bow.name"),
        })
    }

    fn rest(&mut self) -> Option<Rest> {
        let kind = self
            .choice("rest.kind", field::REST_KINDS)
            .and_then(|w| RestKind::from_id(&w));
        let contact_ahead = Length::from_mm(self.number("rest.contact_ahead").unwrap_or(0.0));
        let full_draw_mark = self.number("rest.full_draw_mark").map(Length::from_mm);
        let riser_front = self.number("rest.riser_front").map(Length::from_mm);
        Some(Rest {
            kind: kind?,
            contact_ahead,
            full_draw_mark,
            riser_front,
        })
    }

    fn arrow(&mut self) -> Option<Arrow> {
        let shaft_length = self.number("arrow.shaft_length").map(Length::from_mm);
        let spine = self.number("arrow.spine").map(Spine::from_deflection);
        let shaft_mass = self
            .number("arrow.shaft_mass")
            .map(LinearMass::from_grains_per_inch);
        let point_mass = self.number("arrow.point_mass").map(Mass::from_grains);
        // Usual masses of a plain nock and three vanes (common practice, no source).
        let nock_mass = Mass::from_grains(self.number("arrow.nock_mass").unwrap_or(10.0));
        let vane_mass = Mass::from_grains(self.number("arrow.vane_mass").unwrap_or(21.0));
        let diameter = Length::from_mm(self.number("arrow.diameter").unwrap_or(6.5));
        let trial_point = self.number("arrow.trial_point").map(Mass::from_grains);
        let maker_chart = self.chart("arrow.maker_chart");
        let count = self.count("arrow.count");
        let only_these = self.flag("arrow.only_these");
        Some(Arrow {
            shaft_length: shaft_length?,
            spine: spine?,
            shaft_mass: shaft_mass?,
            point_mass: point_mass?,
            nock_mass,
            vane_mass,
            diameter,
            trial_point,
            maker_chart,
            only_these,
            count,
            name: self.words("arrow.name"),
        })
    }

    fn paper(&mut self, release: Option<Release>) -> Option<Paper> {
        // 6 mm with a release aid, 12 mm with fingers: common practice, from memory.
        let usual = if release == Some(Release::Fingers) {
            12.0
        } else {
            6.0
        };
        let inch = |key: &str| {
            self.text
                .get(key)
                .is_some_and(|t| t.contains("in") || t.contains('"'))
        };
        let system = if inch("paper.tolerance") || inch("rest.click") {
            System::Inch
        } else {
            System::Mm
        };
        let distance = self.number("paper.distance").map(Length::from_mm);
        let tolerance = self.number("paper.tolerance").unwrap_or(usual);
        let aim = (
            self.number("paper.aim_right").unwrap_or(0.0),
            self.number("paper.aim_up").unwrap_or(0.0),
        );
        let sureness = self
            .number("paper.sureness")
            .map_or(0.95, |p| (p / 100.0).clamp(0.5, 0.999));
        Some(Paper {
            distance: distance?,
            tolerance,
            aim,
            sureness,
            least_shots: self.count("paper.least_shots"),
            system,
        })
    }

    fn chart(&mut self, key: &str) -> Option<MakerChart> {
        let text = self.text.get(key)?.to_owned();
        match MakerChart::parse(&text) {
            Ok(chart) => Some(chart),
            Err(message) => {
                self.error(key, message);
                None
            }
        }
    }

    /// What was measured or read off, against the rest of the card.
    fn measured(&mut self, bow: &Bow, rest: &Rest, arrow: Option<&Arrow>) {
        if rest.mark_disagrees(bow) {
            self.warn(
                "rest.full_draw_mark",
                "lies more than 1/2 in from where draw length and contact ahead put the rest: one of the three is wrong. No arrow is cut by it",
            );
        }
        let Some((arrow, chart)) = arrow.and_then(|a| Some((a, a.maker_chart?))) else {
            return;
        };
        if !chart.covers(bow.peak_weight, arrow.shaft_length, arrow.next_point()) {
            self.warn(
                "arrow.maker_chart",
                "was read for less draw weight, a shorter shaft or a lighter point than the card now has: it does not count. Read the chart again",
            );
        }
    }

    fn archer(&mut self) -> Archer {
        Archer {
            name: self.words("archer.name"),
            junior: self.flag("archer.junior"),
            eye: self.choice("archer.eye", field::HANDS),
        }
    }

    fn job(&mut self) -> Job {
        Job {
            owner: self.words("job.owner"),
            contact: self.words("job.contact"),
            number: self.words("job.number"),
            received: self.words("job.received"),
            promised: self.words("job.promised"),
            reason: self.words("job.reason"),
            condition: self.words("job.condition"),
            technician: self.words("job.technician"),
            press_consent: self.flag("job.press_consent"),
        }
    }

    fn consistency(&mut self, bow: &Bow, rest: &Rest) {
        if bow.kind != BowKind::Compound && bow.let_off.fraction() > 0.0 {
            self.warn("bow.let_off", "only a compound lets off; it is not used");
        }
        if bow.brace_height.mm() + 44.45 >= bow.draw_length.mm() {
            self.error(
                "bow.draw_length",
                "must be longer than the brace height plus 1 3/4 in".into(),
            );
        }
        // However far behind the pivot, the arrow lies on it with its nock on
        // the string.
        if rest.contact_ahead.mm() <= -bow.brace_height.mm() {
            self.error(
                "rest.contact_ahead",
                "would lie behind the string of the undrawn bow: measure from the grip pivot to the rest contact, plus where it is ahead, for example 0 in or -1 in".into(),
            );
        }
        let peak = bow.peak_weight.newtons();
        if bow
            .maker_min_weight
            .is_some_and(|least| least.newtons() > peak)
        {
            self.warn(
                "bow.maker_min_weight",
                "is more than the weight the bow is set to: the limb bolts are out past the maker's limit, or a figure is wrong",
            );
        }
        if bow.kind == BowKind::Compound && rest.kind == RestKind::Shelf {
            self.warn("rest.kind", "a compound shot off the shelf is unusual");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gear::AdjusterKind;

    pub(crate) const SMALLEST: &str = r#"
[bow]
kind = "compound"
hand = "right"
release = "aid"
peak_weight = "60 lb"
draw_length = "29 in"
brace_height = "7 in"
let_off = "75 %"
[rest]
kind = "drop-away"
click = "0.25 mm"
travel = "8 mm"
[arrow]
shaft_length = "29 in"
spine = 0.400
shaft_mass = "8.5 gr/in"
point_mass = "125 gr"
nock_mass = "10 gr"
vane_mass = "21 gr"
diameter = "6.5 mm"
[paper]
distance = "2 m"
tolerance = "6 mm"
"#;

    fn read(source: &str) -> Result<CardAndWarnings, Vec<CardProblem>> {
        Card::read(&CardText::from_toml(source)?)
    }

    #[test]
    fn the_smallest_card_reads_without_a_warning() {
        let (card, warnings) = read(SMALLEST).unwrap();
        assert!(warnings.is_empty(), "{warnings:?}");
        assert!((card.arrow.total_mass().grains() - 402.5).abs() < 1e-6);
        assert_eq!(card.vertical().unwrap().kind, AdjusterKind::RestHeight);
        assert!(card.sideways().unwrap().clicks);
    }

    #[test]
    fn unusual_values_warn_and_absurd_ones_are_refused() {
        let (card, warnings) = read(&SMALLEST.replace("60 lb", "95 lb")).unwrap();
        assert_eq!(card.bow.peak_weight.pounds().round(), 95.0);
        assert!(
            warnings[0].to_string().contains("15 to 80 lb"),
            "{}",
            warnings[0]
        );
        for wrong in ["0 lb", "-60 lb", "6000 lb", "sixty", "60", "60 mm"] {
            let errors = read(&SMALLEST.replace("60 lb", wrong)).unwrap_err();
            assert_eq!(errors.len(), 1, "{wrong}");
            assert_eq!(
                (errors[0].line, errors[0].field.as_str()),
                (Some(6), "bow.peak_weight"),
                "{wrong}"
            );
        }
    }

    /// With 7 in of brace height the string stands 7 in behind the pivot.
    #[test]
    fn a_rest_contact_behind_the_string_is_refused() {
        let ahead = |inches: &str| {
            read(&SMALLEST.replace("[arrow]", &format!("contact_ahead = \"{inches}\"\n[arrow]")))
        };
        for wrong in ["-7 in", "-29 in"] {
            let errors = ahead(wrong).unwrap_err();
            assert_eq!(errors.len(), 1, "{wrong}");
            assert_eq!(errors[0].field.as_str(), "rest.contact_ahead", "{wrong}");
        }
        assert!(ahead("-6.9 in").is_ok());
    }

    #[test]
    fn every_missing_field_is_named_at_once() {
        let errors = read("[bow]\nkind = \"recurve\"\n").unwrap_err();
        assert!(errors.len() >= 9, "{errors:?}");
        assert!(
            errors
                .iter()
                .any(|e| e.to_string().contains("arrow.spine") && e.to_string().contains("0.400"))
        );
    }

    #[test]
    fn listed_adjusters_are_all_the_bow_has() {
        let source = format!(
            "{SMALLEST}[[adjuster]]\nname = \"nocking-point\"\nstep = \"0.5 mm\"\nrange = \"4 mm\"\n[[adjuster]]\nname = \"yoke-twist\"\nstep = \"1/2 twist\"\n"
        );
        let (card, _) = read(&source).unwrap();
        assert_eq!(card.adjusters.len(), 2);
        assert!(card.sideways().is_none());
        assert_eq!(card.vertical().unwrap().range, 4.0);
        let wrong = source.replace("1/2 twist", "1/2 mm");
        assert!(
            read(&wrong).unwrap_err()[0]
                .to_string()
                .contains("adjuster.step")
        );
    }

    #[test]
    fn a_maker_minimum_may_be_a_mass_or_grains_per_pound() {
        let with =
            |m: &str| SMALLEST.replace("[rest]", &format!("maker_min_arrow = \"{m}\"\n[rest]"));
        let grains = |m: &str| {
            read(&with(m))
                .unwrap()
                .0
                .bow
                .maker_min_arrow
                .unwrap()
                .grains()
        };
        assert!((grains("6 gr/lb") - 360.0).abs() < 1e-6);
        assert!((grains("350 gr") - 350.0).abs() < 1e-6);
    }
}
