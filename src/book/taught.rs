//! What the sessions of a folder teach: every session read once, newest first,
//! as long as time lasts, and pooled by bow.
//!
//! What was read is kept beside the program's other notes, so that the next
//! look costs next to nothing. That file can be deleted at any time; a session
//! file that changed since is read again.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, UNIX_EPOCH};

use etcetera::{BaseStrategy, choose_base_strategy};
use serde::{Deserialize, Serialize};

use super::lesson::{self, Lesson, Marks};
use super::list;
use crate::advice::earlier;
use crate::belief::pool::{self, Heard};
use crate::belief::{Powder, Prior};
use crate::gear::{AdjusterKind, Axis, Card, Release};
use crate::session::{LearnedGain, LearnedRecord, LearnedScatter, Session, files, timeline};
use crate::units::clean;

/// Time for reading what was not read before; the rest stays for the next time.
pub(crate) const PATIENCE: Duration = Duration::from_millis(800);
/// The largest file of what was read that is ours, bytes.
const LARGEST: u64 = 16 * 1024 * 1024;
/// What was read by another version of the reckoning is read again.
const VERSION: u32 = 1;
/// Other bows pooled at most, the newest: more would change nothing.
const MOST_BOWS: usize = 60;
/// Sd between two sessions of one build, and of two builds of one bow, in sds
/// of the wide prior (this project's own figures, no source).
const SAME_BUILD: f64 = 0.15;
const OTHER_BUILD: f64 = 0.4;
/// With a release aid the sideways response goes with the arrow's load: so
/// many mm for a mm apart for a load ratio of 1 (this project's own figure).
const BY_LOAD: f64 = 6.0;

/// How the folder is read.
#[derive(Debug, Clone)]
pub struct How {
    /// Where what was read is kept, if anywhere.
    pub(crate) cache: Option<PathBuf>,
    /// How long reading may take.
    pub(crate) patience: Duration,
}

impl How {
    /// As a user's own program reads it.
    pub(crate) fn of_user(folder: &Path) -> Self {
        let state = choose_base_strategy().ok().and_then(|s| s.state_dir());
        Self::kept_in(state.map(|s| s.join("tearbench")), folder)
    }

    /// The same with what was read kept in this folder.
    pub(crate) fn kept_in(state: Option<PathBuf>, folder: &Path) -> Self {
        let absolute = folder.canonicalize().unwrap_or_else(|_| folder.to_owned());
        let name = format!(
            "lessons-{:016x}.json",
            lesson::hash(&absolute.to_string_lossy())
        );
        Self {
            cache: state.map(|s| s.join(name)),
            patience: PATIENCE,
        }
    }
}

/// One file as it was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Read {
    len: u64,
    changed_ns: u128,
    #[serde(default)]
    lesson: Option<Lesson>,
    #[serde(default)]
    problem: Option<String>,
}

#[derive(Debug, Default, Serialize, Deserialize)]
struct Cache {
    version: u32,
    /// By a hash of the file's name.
    files: BTreeMap<String, Read>,
}

impl Cache {
    fn open(how: &How) -> Self {
        let text = how.cache.as_deref().map(|p| files::read_text(p, LARGEST));
        let found = text.and_then(Result::ok);
        let found: Option<Self> = found.and_then(|t| serde_json::from_str(&t).ok());
        found.filter(|c| c.version == VERSION).unwrap_or_default()
    }

    /// Losing it loses nothing but time, so errors are not shown.
    fn keep(&mut self, how: &How, seen: &BTreeSet<String>) {
        self.version = VERSION;
        self.files.retain(|name, _| seen.contains(name));
        if let Some(path) = &how.cache
            && let Ok(text) = serde_json::to_string(self)
            && let Some(folder) = path.parent()
        {
            let _ = std::fs::create_dir_all(folder)
                .and_then(|()| files::replace(path, text.as_bytes()));
        }
    }
}

/// The lessons of a folder, the newest session first.
#[derive(Debug, Clone, Default)]
pub struct Lessons {
    all: Vec<Lesson>,
    /// Files that were read, now or before, and that there are.
    pub read: (usize, usize),
    /// Files that were left out, with why.
    pub(crate) skipped: Vec<String>,
}

struct Found {
    path: PathBuf,
    key: String,
    len: u64,
    changed_ns: u128,
}

fn found_in(folder: &Path, except: Option<&Path>) -> io::Result<Vec<Found>> {
    let except = except.and_then(Path::file_name);
    let mut all: Vec<Found> = list::files(folder)?
        .into_iter()
        .filter(|p| p.file_name() != except || except.is_none())
        .filter_map(|path| {
            let meta = std::fs::metadata(&path).ok()?;
            let changed = meta.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
            let name = path.file_name()?.to_string_lossy().into_owned();
            Some(Found {
                key: format!("{:016x}", lesson::hash(&name)),
                len: meta.len(),
                changed_ns: changed.as_nanos(),
                path,
            })
        })
        .collect();
    all.sort_by(|a, b| {
        b.changed_ns
            .cmp(&a.changed_ns)
            .then_with(|| a.path.cmp(&b.path))
    });
    Ok(all)
}

/// Reads one file; a file that is no session teaches nothing.
fn read_one(file: &Found) -> Read {
    let (lesson, problem) = if list::looks_like_one(&file.path) {
        match Session::open(&file.path) {
            Ok(session) if session.timeline().holes.is_none() => (lesson::of(&session), None),
            Ok(_) => (
                None,
                Some("something in it was lost; tearbench check says what".to_owned()),
            ),
            Err(_) => (None, Some("it cannot be read as a session".to_owned())),
        }
    } else {
        (None, None)
    };
    Read {
        len: file.len,
        changed_ns: file.changed_ns,
        lesson,
        problem,
    }
}

impl Lessons {
    /// Reads the sessions of a folder, but for one file.
    ///
    /// # Errors
    /// When the folder itself cannot be read.
    pub fn of(folder: &Path, except: Option<&Path>, how: &How) -> io::Result<Self> {
        let began = Instant::now();
        let files = found_in(folder, except)?;
        let mut cache = Cache::open(how);
        let mut out = Self {
            read: (0, files.len()),
            ..Self::default()
        };
        let mut fresh = false;
        for file in &files {
            let current = |r: &&Read| (r.len, r.changed_ns) == (file.len, file.changed_ns);
            if cache.files.get(&file.key).filter(current).is_none() {
                if began.elapsed() >= how.patience {
                    continue;
                }
                cache.files.insert(file.key.clone(), read_one(file));
                fresh = true;
            }
            let read = &cache.files[&file.key];
            out.read.0 += 1;
            out.all.extend(read.lesson.clone());
            if let Some(problem) = &read.problem {
                let name = file
                    .path
                    .file_name()
                    .map_or(String::new(), |n| clean(&n.to_string_lossy()));
                out.skipped.push(format!(
                    "{name}: left out of what earlier bows teach: {problem}"
                ));
            }
        }
        if fresh {
            let seen = files.iter().map(|f| f.key.clone()).collect();
            cache.keep(how, &seen);
        }
        Ok(out)
    }

    /// The lessons of sessions that are open already, the newest first.
    pub fn of_sessions<'a>(sessions: impl IntoIterator<Item = &'a Session>) -> Self {
        let all: Vec<Lesson> = sessions.into_iter().filter_map(lesson::of).collect();
        Self {
            read: (all.len(), all.len()),
            all,
            skipped: Vec::new(),
        }
    }

    /// The lessons by bow, the newest bow first.
    fn bows<'a>(&self, lessons: impl Iterator<Item = &'a Lesson>) -> Vec<Vec<&'a Lesson>> {
        let mut bows: Vec<Vec<&Lesson>> = Vec::new();
        for lesson in lessons {
            match bows
                .iter_mut()
                .find(|b| b.iter().any(|l| l.same_bow(lesson)))
            {
                Some(bow) => bow.push(lesson),
                None => bows.push(vec![lesson]),
            }
        }
        bows
    }

    /// What they teach of the bow of a card; `None` where nothing.
    pub fn for_card(&self, card: &Card) -> Option<LearnedRecord> {
        let marks = Marks::of(card);
        let of_class =
            |l: &&Lesson| l.class == marks.class && timeline::near(l.distance, marks.distance);
        let class: Vec<&Lesson> = self.all.iter().filter(of_class).collect();
        let (own, others): (Vec<&Lesson>, Vec<&Lesson>) =
            class.iter().partition(|l| l.is_of(&marks));
        let mut others = self.bows(others.into_iter());
        others.truncate(MOST_BOWS);
        let desk = Desk {
            card,
            marks: &marks,
            own,
            others,
        };
        let gains = desk.gains();
        let scatter = self.scatter(&marks, card.bow.release);
        if gains.is_empty() && scatter.is_none() {
            return None;
        }
        let (bows, sessions, own) = desk.counts();
        let (read, of) = self.read;
        Some(LearnedRecord {
            bows,
            sessions,
            own,
            read: (read < of).then_some([read as u32, of as u32]),
            gains,
            scatter,
        })
    }

    /// The owner's scatter with this release, whatever the bow.
    fn scatter(&self, marks: &Marks, release: Release) -> Option<LearnedScatter> {
        marks.owner?;
        let own = |l: &&Lesson| l.owner == marks.owner && l.class[1] == marks.class[1];
        let sessions: Vec<[(f64, f64); 2]> =
            self.all.iter().filter(own).map(|l| l.repeats).collect();
        let prior = match release {
            Release::Aid => Prior::aid(),
            Release::Fingers => Prior::fingers(),
        };
        let found = pool::steadiness(&prior, &sessions)?;
        let tidy = crate::advice::tidy;
        Some(LearnedScatter {
            right: tidy(found.scatter[0]),
            up: tidy(found.scatter[1]),
            spread: tidy(found.spread),
            repeats: found.repeats as u32,
        })
    }
}

/// The bows of one kind, release and rest, and what their adjusters answered.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Class {
    /// Kind of bow, release and rest, as on the card.
    pub(crate) class: [String; 3],
    /// For each adjuster each bow's slope in the right-handed frame, and give
    /// or take; the newest bow first.
    pub answers: Vec<(AdjusterKind, Vec<(f64, f64)>)>,
}

impl Lessons {
    /// What the folder has taught, kind by kind.
    pub(crate) fn classes(&self) -> Vec<Class> {
        let mut names: Vec<&[String; 3]> = self.all.iter().map(|l| &l.class).collect();
        names.sort();
        names.dedup();
        let each = names.into_iter().map(|name| Class {
            class: name.clone(),
            answers: self.answers(name),
        });
        each.filter(|c| !c.answers.is_empty()).collect()
    }

    fn answers(&self, class: &[String; 3]) -> Vec<(AdjusterKind, Vec<(f64, f64)>)> {
        let bows = self.bows(self.all.iter().filter(|l| l.class == *class));
        let of = |kind: AdjusterKind| -> Vec<(f64, f64)> {
            let heard = |l: &&Lesson| {
                let response = l.responses.iter().find(|r| r.adjuster == kind)?;
                Some(Heard {
                    bells: response.likelihood(),
                    apart: 0.0,
                })
            };
            let said = bows
                .iter()
                .map(|b| b.iter().filter_map(heard).collect::<Vec<_>>());
            said.filter(|s| !s.is_empty())
                .map(|s| pool::alone(&s))
                .collect()
        };
        let each = AdjusterKind::ALL.into_iter().map(|kind| (kind, of(kind)));
        each.filter(|(_, bows)| !bows.is_empty()).collect()
    }
}

/// The lessons that bear on one card.
struct Desk<'a> {
    card: &'a Card,
    marks: &'a Marks,
    own: Vec<&'a Lesson>,
    others: Vec<Vec<&'a Lesson>>,
}

fn teaches(lesson: &Lesson) -> bool {
    !lesson.responses.is_empty()
}

impl Desk<'_> {
    /// Bows, their sessions, and those of this bow's own.
    fn counts(&self) -> (u32, u32, u32) {
        let own = self.own.iter().filter(|l| teaches(l)).count();
        let others = self
            .others
            .iter()
            .map(|b| b.iter().filter(|l| teaches(l)).count());
        let others: Vec<usize> = others.filter(|n| *n > 0).collect();
        let bows = others.len() + usize::from(own > 0);
        let sessions = others.iter().sum::<usize>() + own;
        (bows as u32, sessions as u32, own as u32)
    }

    /// What they teach of each adjuster, for each thing the powder may show.
    fn gains(&self) -> Vec<LearnedGain> {
        let powders: &[Powder] = match self.card.bow.release {
            Release::Aid => &[Powder::NotLooked],
            Release::Fingers => &[Powder::NotLooked, Powder::Clean, Powder::Slap],
        };
        let learned = |k: &AdjusterKind| k.axis() != Axis::Whole && !self.card.needs_press(*k);
        let kinds = AdjusterKind::ALL.into_iter().filter(learned);
        let each = kinds.flat_map(|kind| powders.iter().map(move |p| (kind, *p)));
        each.filter_map(|(kind, powder)| self.gain(kind, powder))
            .collect()
    }

    fn gain(&self, kind: AdjusterKind, powder: Powder) -> Option<LearnedGain> {
        let sign = lesson::frame(kind, self.card.bow.hand);
        let mut usual = earlier::usual(self.card, kind, powder);
        usual.mean *= sign;
        let word = earlier::powder_word(powder);
        // Up and down the powder says nothing: one pool for all its answers.
        let any = word.is_none() || kind.axis() == Axis::Vertical;
        let fits = |l: &&&Lesson| any || l.powder.as_deref() == word;
        let heard = |l: &&Lesson, same: bool| -> Option<Heard> {
            let response = l.responses.iter().find(|r| r.adjuster == kind)?;
            let build = match same && l.build != self.marks.build {
                true => OTHER_BUILD,
                false => SAME_BUILD,
            };
            let by_load = self.card.bow.release == Release::Aid && kind.axis() == Axis::Sideways;
            let load = if by_load {
                BY_LOAD * (l.load - self.marks.load)
            } else {
                0.0
            };
            Some(Heard {
                bells: response.likelihood(),
                apart: (build * usual.sd).hypot(load),
            })
        };
        let others: Vec<Vec<Heard>> = self
            .others
            .iter()
            .map(|b| {
                b.iter()
                    .filter(fits)
                    .filter_map(|l| heard(l, false))
                    .collect()
            })
            .filter(|b: &Vec<Heard>| !b.is_empty())
            .collect();
        let own: Vec<Heard> = self
            .own
            .iter()
            .filter(fits)
            .filter_map(|l| heard(l, true))
            .collect();
        let found = pool::pool(&others, &own, usual)?;
        let tidy = crate::advice::tidy;
        Some(LearnedGain {
            adjuster: kind,
            powder: word.map(str::to_owned),
            bows: found.bows as u32,
            mean: tidy(sign * found.mean),
            sd: tidy(found.sd),
            wide: tidy(found.wide),
            dead: tidy(found.dead),
        })
    }
}

#[cfg(test)]
mod tests;
