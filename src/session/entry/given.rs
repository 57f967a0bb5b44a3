//! A shot from a hole and what was given beside it: built here, for every
//! front end alike.

use super::{Shooter, Shot};
use crate::tear::Hole;

/// What shots are recorded with beside their holes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Given {
    /// Who shot.
    pub by: Shooter,
    /// Which arrow, where it was given beside the tear.
    pub arrow: Option<String>,
    /// Rest to paper, where it is not the card's.
    pub distance: Option<String>,
    /// Shot without fletching.
    pub bare: bool,
    /// Called bad before looking.
    pub called_bad: bool,
    /// An extra slit.
    pub slit_extra: bool,
    /// Ragged or smeared.
    pub ragged: bool,
    /// The sheet was read from the target side.
    pub(crate) from_target_side: bool,
}

/// The tear names one arrow and what was given beside it another; said in
/// [`crate::words`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TwoArrows {
    /// As it stands in the tear.
    pub(crate) typed: String,
    /// As it was given beside it.
    pub(crate) given: String,
}

impl Given {
    /// The mark of an arrow as it is kept: `3` for `#3`.
    pub(crate) fn mark(text: &str) -> Option<String> {
        let mark = text.trim().trim_start_matches('#');
        (!mark.is_empty()).then(|| mark.to_owned())
    }
}

impl Shot {
    /// The shot that a hole becomes. `said` is what was typed for it alone.
    ///
    /// # Errors
    /// Where the hole and what was given name different arrows.
    pub fn of(hole: &Hole, said: &str, given: &Given) -> Result<Self, TwoArrows> {
        let beside = given.arrow.as_deref().and_then(Given::mark);
        let arrow = match (&hole.arrow, beside) {
            (Some(typed), Some(given)) if *typed != given => {
                return Err(TwoArrows {
                    typed: typed.clone(),
                    given,
                });
            }
            (typed, beside) => typed.clone().or(beside),
        };
        let tear = if given.from_target_side {
            hole.tear.mirrored()
        } else {
            hole.tear
        };
        Ok(Self {
            right: tear.right,
            up: tear.up,
            said: (!said.is_empty()).then(|| said.chars().take(80).collect()),
            distance: given.distance.clone(),
            bare: hole.bare || given.bare,
            arrow,
            by: given.by,
            called_bad: hole.called_bad || given.called_bad,
            slit_extra: hole.slit_extra || given.slit_extra,
            ragged: hole.ragged || given.ragged,
            under_stop: false,
        })
    }

    /// The shots that the holes of one line become. What was typed belongs to
    /// a shot only where it was typed for it alone.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub(crate) fn of_all(
        holes: &[Hole],
        said: &str,
        given: &Given,
    ) -> Result<Vec<Self>, TwoArrows> {
        let own = if holes.len() == 1 { said } else { "" };
        holes
            .iter()
            .map(|hole| Self::of(hole, own, given))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::System;

    fn hole(text: &str) -> Hole {
        crate::tear::read_hole(text, System::Mm).unwrap()
    }

    fn arrow(tear: &str, given: Option<&str>) -> Result<Option<String>, TwoArrows> {
        let given = Given {
            arrow: given.map(Into::into),
            ..Given::default()
        };
        Shot::of(&hole(tear), tear, &given).map(|shot| shot.arrow)
    }

    #[test]
    fn the_arrow_is_named_once_or_alike() {
        let three = || Ok(Some("3".to_owned()));
        assert_eq!(arrow("12l4h", None), Ok(None));
        assert_eq!(arrow("12l4h #3", None), three());
        assert_eq!(arrow("12l4h", Some("3")), three());
        assert_eq!(arrow("12l4h", Some(" #3 ")), three());
        assert_eq!(arrow("12l4h #3", Some("#3")), three());
        assert_eq!(arrow("12l4h", Some("#")), Ok(None));
        let two = arrow("12l4h #5", Some("3")).unwrap_err();
        assert_eq!(
            two.to_string(),
            "arrow 5 stands in the tear and arrow 3 was given beside it: leave one of them out"
        );
    }

    #[test]
    fn what_is_given_is_added_to_what_the_tear_says() {
        let given = Given {
            by: Shooter::Technician,
            distance: Some("2.5 m".into()),
            bare: true,
            from_target_side: true,
            ..Given::default()
        };
        let shot = Shot::of(&hole("12l4h bad ragged"), "12l4h bad ragged", &given).unwrap();
        let wanted = Shot {
            right: 12.0,
            up: 4.0,
            said: Some("12l4h bad ragged".into()),
            distance: Some("2.5 m".into()),
            bare: true,
            by: Shooter::Technician,
            called_bad: true,
            ragged: true,
            ..Shot::default()
        };
        assert_eq!(shot, wanted);
        let two = [hole("12l4h"), hole("clean")];
        let both = Shot::of_all(&two, "12l4h; clean", &Given::default()).unwrap();
        assert!(both.iter().all(|shot| shot.said.is_none()));
        assert_eq!((both[0].right, both[1].right), (-12.0, 0.0));
    }
}
