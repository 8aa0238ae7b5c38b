//! The sorts of problem, each with a code of plain words that stays the same from version to version.

/// Declares the codes with their stable ids and one-line titles.
macro_rules! codes {
    ($($(#[$doc:meta])* $variant:ident = $id:literal, $title:literal;)+) => {
        /// What sort of problem. The ids never change their meaning; a retired one is not used again.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code { $($(#[$doc])* $variant),+ }

        impl Code {
            /// Every code, in the order of this file.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The stable id.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id),+ }
            }
            /// One line in plain words.
            #[must_use]
            pub fn title(self) -> &'static str {
                fardel_words::plain(match self { $(Self::$variant => $title),+ })
            }
        }
    };
}

codes! {
    /// Missing, not UTF-8, a folder, no permission.
    Unreadable = "unreadable-file", "a file that cannot be read";
    /// Not YAML, or YAML beyond what these files use: tags, several documents.
    NotYaml = "not-yaml", "not the YAML these files are written in";
    /// The same key twice in one map.
    DuplicateKey = "key-twice", "a key written twice";
    /// A key that the format lacks.
    UnknownKey = "unknown-key", "a key that does not belong here";
    /// A required key is absent.
    MissingKey = "missing", "something is missing";
    /// A list where a text belongs, and the like.
    WrongType = "wrong-sort", "the wrong sort of value";
    /// No unit, a foreign unit, a negative amount.
    NotAQuantity = "not-a-quantity", "not a quantity with its unit";
    /// A count, share, rate or factor outside its range.
    OutOfRange = "out-of-range", "a number out of range";
    /// A word outside a closed list.
    UnknownWord = "unknown-word", "a word that is not on the list";
    /// A `basis` of no known kind, or a citation that names no source.
    NoBasis = "basis-untold", "a number whose basis is not told";
    /// Braces that do not close, families without sizes, attributes that refer to each other in a ring.
    BrokenTemplate = "unfilled-braces", "a name in braces that cannot be filled";
    /// One id, two entries.
    DefinedTwice = "name-twice", "one name for two things";
    /// `like` names nothing, or itself by way of others.
    BrokenLike = "like-nowhere", "`like` leads nowhere";
    /// A reference to something that no file defines.
    UnknownName = "unknown-name", "a name that nothing has";
    /// An attribute value outside the attribute's closed list.
    UnknownValue = "unknown-value", "a value that the attribute cannot have";
    /// A repair asks for something that cannot be told on a bike which the failure happens to.
    RepairUnresolved = "unresolved-repair", "a repair that a bike cannot resolve";
    /// Functions that are each had from the other.
    FunctionRing = "function-ring", "functions that need each other";
    /// More than one currency.
    MixedCurrencies = "mixed-currencies", "prices in different currencies";
    /// No legs, no riders, no entries, a leg without days and distance.
    NothingThere = "nothing-there", "nothing to work with";
    /// Two statements that cannot both hold.
    Contradiction = "contradiction", "two statements that cannot both hold";
    /// Neither numbers nor an anchor, or both.
    UnclearRate = "unclear-rate", "a rate that cannot be told";
    /// Too big, too deep, too many.
    TooLarge = "too-large", "more than a file may hold";
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Each id is plain words and stands once, and each has a title.
    pub(crate) fn plain_words_each_once(sorts: impl Iterator<Item = (&'static str, &'static str)>) {
        let mut met = BTreeSet::new();
        for (id, title) in sorts {
            assert!(id.split('-').all(|word| !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase())), "{id}");
            assert!(met.insert(id), "{id} twice");
            assert!(!title.is_empty(), "{id}");
        }
    }

    #[test]
    fn ids_are_plain_words_each_once() {
        plain_words_each_once(Code::ALL.iter().map(|code| (code.id(), code.title())));
    }
}
