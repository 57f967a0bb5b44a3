//! What one session file teaches of its bow, its rest and its owner: figures
//! in the right-handed frame and hashes, never a name.

use serde::{Deserialize, Serialize};

use crate::advice::{earlier, view::View};
use crate::belief::{self, Bell};
use crate::checks::spine::{arrow_spec, spine_bow};
use crate::gear::{AdjusterKind, Card, Hand};
use crate::physics::spine_match;
use crate::question::{Contact, Question, Test};
use crate::session::{Session, Timeline};

/// The sessions that come with the program, by [`first_print`].
const SAMPLES: [u64; 9] = [
    0x0d8c_1f37_a116_194b,
    0x414d_c6f6_b509_b823,
    0x5f5d_76f0_3615_f75e,
    0x7598_9131_4e58_ea1c,
    0x7af1_29fe_9799_4f0e,
    0xb846_e996_04d1_6c2a,
    0xc44b_8b7c_2042_a2d2,
    0xcc85_8a51_a8fa_cfae,
    0xe761_2fba_f6ef_61b5,
];

/// What one adjuster of a session answered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Response {
    /// Which adjuster.
    pub adjuster: AdjusterKind,
    /// The likelihood of its slope, each bell as height, place and sd.
    pub(crate) bells: Vec<[f64; 3]>,
}

impl Response {
    /// The likelihood as the belief takes it.
    pub(crate) fn likelihood(&self) -> Vec<Bell> {
        let bell = |b: &[f64; 3]| Bell {
            height: b[0],
            at: b[1],
            sd: b[2],
        };
        self.bells.iter().map(bell).collect()
    }
}

/// What one session teaches.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Lesson {
    /// Kind of bow, release and rest.
    pub(crate) class: [String; 3],
    /// Rest to paper, m.
    pub distance: f64,
    /// The arrow's load against what suits the bow.
    pub(crate) load: f64,
    /// The bow's name on the card, the job's number, the owner: hashes.
    pub(crate) name: Option<u64>,
    /// See [`Self::name`].
    pub(crate) job: Option<u64>,
    /// See [`Self::name`].
    pub(crate) owner: Option<u64>,
    /// The bow's figures, for one without a name.
    pub(crate) figures: u64,
    /// Arrow and draw weight.
    pub build: u64,
    /// What the powder showed, where somebody looked.
    pub powder: Option<String>,
    /// What the adjusters answered.
    pub(crate) responses: Vec<Response>,
    /// The owner's repeats right and up: how many, and their squares.
    pub repeats: [(f64, f64); 2],
}

/// What tells one bow, arrow and owner from another on a card.
pub(super) struct Marks {
    pub(crate) class: [String; 3],
    pub distance: f64,
    pub(crate) load: f64,
    pub(crate) name: Option<u64>,
    pub(crate) job: Option<u64>,
    pub(crate) owner: Option<u64>,
    pub(crate) figures: u64,
    pub build: u64,
}

impl Marks {
    pub fn of(card: &Card) -> Self {
        let (bow, arrow) = (&card.bow, &card.arrow);
        let owner = card.job.owner.as_ref().or(card.archer.name.as_ref());
        let word = |text: &Option<String>| text.as_deref().and_then(hash_of_word);
        let weight = (bow.peak_weight.pounds() * 2.0).round();
        let bow_figures = [
            bow.draw_length.mm(),
            bow.brace_height.mm(),
            bow.axle_to_axle.map_or(0.0, crate::units::Length::mm),
            bow.let_off.fraction(),
            weight,
        ];
        let build = [
            arrow.shaft_length.mm().round(),
            arrow.spine.stiffness(),
            arrow.total_mass().grains().round(),
            arrow.next_point().grains().round(),
            weight,
        ];
        let class = [bow.kind.id(), bow.release.id(), card.rest.kind.id()];
        let of = |figures: &[f64], rest: &str| hash(&format!("{figures:.3?} {rest}"));
        Self {
            distance: card.paper.distance.m(),
            load: spine_match(&arrow_spec(card), &spine_bow(card)).load_ratio,
            name: word(&bow.name),
            job: word(&card.job.number),
            owner: owner.and_then(|o| hash_of_word(o)),
            figures: of(
                &bow_figures,
                &format!("{class:?} {} {:?}", bow.hand.id(), owner),
            ),
            build: of(&build, ""),
            class: class.map(str::to_owned),
        }
    }
}

fn hash_of_word(text: &str) -> Option<u64> {
    let plain = text.trim().to_lowercase();
    (!plain.is_empty()).then(|| hash(&plain))
}

/// The 64-bit hash of Fowler, Noll and Vo (FNV-1a): short, and the same in
/// every build, so that it can be kept.
pub(super) fn hash(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |h, byte| {
        (h ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// What tells a session from another that began with the same card.
fn first_print(session: &Session) -> u64 {
    let began = session.entries().first().map(|e| e.at.to_rfc3339());
    hash(&format!("{} {began:?}", session.first_card().to_toml()))
}

/// The sign an adjuster's slope takes in the right-handed frame: a mirrored
/// bow's tear and its sideways positions turn round, its spring does not.
pub(super) fn frame(kind: AdjusterKind, hand: Hand) -> f64 {
    match (kind, hand) {
        (AdjusterKind::PlungerTension, Hand::Left) => -1.0,
        _ => 1.0,
    }
}

/// Whether a session is of a bow that is none: the program's own samples and
/// practice sessions that were kept.
fn invented(session: &Session) -> bool {
    let practice = |t: &Timeline| t.answers.iter().any(|a| a.test == Question::Practice);
    practice(session.timeline()) || SAMPLES.contains(&first_print(session))
}

/// How many of the first shots say nothing of the bow: those before contact
/// was cured. All of them while something touches the arrow.
fn spoiled(timeline: &Timeline) -> usize {
    let mut spoiled = 0;
    let mut touching = false;
    let contact = timeline.answers.iter().filter(|a| a.test == Test::Contact);
    for answer in contact {
        let bad = Contact::of(&answer.result).must_be_cured();
        if touching && !bad {
            spoiled = answer.shots_before;
        }
        touching = bad;
    }
    if touching { usize::MAX } else { spoiled }
}

/// What a session teaches; `None` where it teaches nothing.
pub fn of(session: &Session) -> Option<Lesson> {
    if invented(session) {
        return None;
    }
    // What the session was told of earlier bows is no evidence of its own.
    let mut timeline = session.timeline().clone();
    (timeline.prior, timeline.learned) = (None, None);
    let spoiled = spoiled(&timeline);
    let view = View::of(&timeline);
    let mut shots = view.shots.clone();
    for (i, (shot, at)) in shots.iter_mut().zip(&timeline.shots).enumerate() {
        shot.called_bad |= i < spoiled || at.shot.ragged || at.shot.slit_extra || at.shot.bare;
    }
    if !shots.iter().any(|s| !s.called_bad) {
        return None;
    }
    let found = belief::lesson(&view.prior, &shots, belief::OWNER);
    let card = &timeline.card;
    let marks = Marks::of(card);
    let responses = view
        .kinds
        .iter()
        .zip(&found.slopes)
        .filter(|(_, bells)| !bells.is_empty())
        .map(|(kind, bells)| {
            let sign = frame(*kind, card.bow.hand);
            Response {
                adjuster: *kind,
                bells: bells
                    .iter()
                    .map(|b| [b.height, sign * b.at, b.sd])
                    .collect(),
            }
        })
        .collect();
    Some(Lesson {
        powder: earlier::powder_word(earlier::powder(&timeline)).map(str::to_owned),
        class: marks.class,
        distance: marks.distance,
        load: marks.load,
        name: marks.name,
        job: marks.job,
        owner: marks.owner,
        figures: marks.figures,
        build: marks.build,
        responses,
        repeats: found.repeats,
    })
}

impl Lesson {
    /// Whether two sessions are of one bow: the same job number, or the same
    /// name and no other owner. Bows without either are told apart by their
    /// figures.
    pub(crate) fn same_bow(&self, other: &Self) -> bool {
        let nameless = |l: &Self| l.name.is_none() && l.job.is_none();
        match (nameless(self), nameless(other)) {
            (true, true) => self.figures == other.figures,
            (false, false) => same(
                (self.name, self.job, self.owner),
                (other.name, other.job, other.owner),
            ),
            _ => false,
        }
    }

    /// Whether it is of the bow of a card, by name or job number.
    pub(super) fn is_of(&self, card: &Marks) -> bool {
        same(
            (self.name, self.job, self.owner),
            (card.name, card.job, card.owner),
        )
    }
}

type Who = (Option<u64>, Option<u64>, Option<u64>);

fn same(a: Who, b: Who) -> bool {
    let alike = |x: Option<u64>, y: Option<u64>| x.is_some() && x == y;
    let differ = |x: Option<u64>, y: Option<u64>| x.is_some() && y.is_some() && x != y;
    alike(a.1, b.1) || (alike(a.0, b.0) && !differ(a.2, b.2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sample_session_is_known_as_one() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sessions");
        let mut found: Vec<u64> = std::fs::read_dir(folder)
            .unwrap()
            .map(|file| first_print(&Session::open(&file.unwrap().path()).unwrap()))
            .collect();
        found.sort_unstable();
        assert_eq!(found, SAMPLES, "{found:#018x?}");
    }

    #[test]
    fn the_hash_is_the_published_one() {
        // Test vectors of FNV-1a, 64 bits (draft-eastlake-fnv).
        assert_eq!(hash(""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(hash("a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(hash("foobar"), 0x8594_4171_f739_67e8);
    }
}
