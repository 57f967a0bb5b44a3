//! A word as an entry holds it, and the enums whose variants are words.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Something that stands in a file as one word.
pub trait Word: Copy + PartialEq + fmt::Display {
    /// The one that this word stands for.
    fn read(word: &str) -> Option<Self>;
}

/// A word of an entry: one of ours, or one that this program does not take
/// (any more), kept as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said<T> {
    /// One of ours.
    Known(T),
    /// An old or foreign word.
    Other(Box<str>),
}

impl<T: Word> Said<T> {
    /// What it stands for, where it is one of ours.
    pub(crate) fn known(&self) -> Option<T> {
        match self {
            Self::Known(it) => Some(*it),
            Self::Other(_) => None,
        }
    }

    /// The word as it stands in the file.
    pub fn word(&self) -> String {
        self.to_string()
    }
}

impl<T: Word> From<T> for Said<T> {
    fn from(it: T) -> Self {
        Self::Known(it)
    }
}

impl<T: Word> From<&str> for Said<T> {
    fn from(word: &str) -> Self {
        T::read(word).map_or_else(|| Self::Other(word.into()), Self::Known)
    }
}

impl<T: Word> PartialEq<T> for Said<T> {
    fn eq(&self, other: &T) -> bool {
        matches!(self, Self::Known(it) if it == other)
    }
}

impl<T: Word> fmt::Display for Said<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Known(it) => it.fmt(out),
            Self::Other(word) => out.pad(word),
        }
    }
}

impl<T: Word> Serialize for Said<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de, T: Word> Deserialize<'de> for Said<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Self::from(String::deserialize(deserializer)?.as_str()))
    }
}

/// An enum whose variants each stand for one word of the file: the table of
/// them.
macro_rules! word_table {
    (
        $(#[$meta:meta])*
        pub enum $name:ident { $($(#[$doc:meta])* $variant:ident = $word:literal,)* }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$doc])* $variant,)* }

        impl $name {
            /// Every one, in the order of the table.
            pub const ALL: [Self; [$($word),*].len()] = [$(Self::$variant),*];

            /// The word that stands for it in the file and is typed for it.
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }

            /// The one that this word stands for.
            pub fn parse(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)* _ => None }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                out.pad(self.id())
            }
        }

        impl crate::question::said::Word for $name {
            fn read(word: &str) -> Option<Self> {
                Self::parse(word)
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.id())
            }
        }
    };
}

pub(super) use word_table;

#[cfg(test)]
mod tests {
    use super::super::{Answer, Question, SetupItem, Stage};
    use super::*;

    fn kept<T: Word + fmt::Debug>(words: &[&str]) {
        for word in words {
            let said = Said::<T>::from(*word);
            assert_eq!(said.word(), *word);
            assert_eq!(said.known(), None, "{word}");
        }
    }

    #[test]
    fn old_and_foreign_words_stay_as_they_stand() {
        let odd = [
            "",
            "None",
            " none",
            "zebra",
            "none\u{e9}",
            "proof-",
            "remedy-",
        ];
        kept::<Answer>(&odd);
        kept::<Question>(&odd);
        kept::<SetupItem>(&odd);
        kept::<Stage>(&odd);
        kept::<Question>(&["-fixed", "zebra-fixed", "remedy-zebra", "proof-zebra"]);
    }
}
