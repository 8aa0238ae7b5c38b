//! Reading the closed word lists and the basis of numbers.

use crate::domain::{
    Basis, Fair, Family, Grade, Kind, NeedRule, PreparationType, RepairSkill, RidingSkill, Role, Side, SourceKind,
    Style,
};
use fardel_words::Language;
use serde::de::{Deserialize, Deserializer, Error as _};
use std::sync::LazyLock;

/// Each word list reads its own words and refuses the others by naming them all.
macro_rules! read_words {
    ($($list:ty),+ $(,)?) => {
        $(impl<'de> Deserialize<'de> for $list {
            fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
                let word = String::deserialize(value)?;
                Self::from_word(word.trim()).ok_or_else(|| D::Error::unknown_variant(&word, Self::WORDS))
            }
        })+
    };
}

/// A word list that only the files know; the domain has a richer or simpler type for it.
macro_rules! file_words {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $word:literal),+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub(crate) enum $name { $($variant),+ }
        impl $name {
            pub(crate) const WORDS: &'static [&'static str] = &[$($word),+];
            fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

file_words!(
    /// How soon a thing can be reached.
    Access { Quick = "quick", Deep = "deep" }
);
file_words!(
    /// The sort of outcome, before its share or hours are known.
    OutcomeWord { Stops = "stops", Limps = "limps", Nags = "nags" }
);

read_words!(
    Fair,
    Family,
    SourceKind,
    Grade,
    Kind,
    NeedRule,
    PreparationType,
    RepairSkill,
    RidingSkill,
    Role,
    Side,
    Style,
    Access,
    OutcomeWord
);

/// The language of a file's answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Spoken(pub Language);

/// Codes of the languages there are.
pub(crate) static LANGUAGES: LazyLock<Vec<&'static str>> = LazyLock::new(Language::codes);

impl<'de> Deserialize<'de> for Spoken {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        let code = String::deserialize(value)?;
        Language::read(code.trim()).map(Self).ok_or_else(|| D::Error::unknown_variant(&code, LANGUAGES.as_slice()))
    }
}

/// The accepted forms of a basis, for messages.
pub(crate) const BASIS_FORMS: &[&str] = &[
    "published: <source>",
    "published, second-hand: <source>",
    "derived: <how>",
    "standard: <table>",
    "evidence: <group, counts, sources>",
    "elicited: <of whom>",
    "measured",
    "common practice, no source",
    "from memory",
    "ride log",
];

impl<'de> Deserialize<'de> for Basis {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        let text = String::deserialize(value)?;
        Self::read(&text).ok_or_else(|| D::Error::unknown_variant(&text, BASIS_FORMS))
    }
}
