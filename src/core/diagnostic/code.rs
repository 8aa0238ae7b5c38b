//! The sorts of problem, each with a number that stays the same from version to version.

/// Declares the codes with their stable ids and one-line titles.
macro_rules! codes {
    ($($(#[$doc:meta])* $variant:ident = $id:literal, $title:literal;)+) => {
        /// What sort of problem. The ids never change their meaning; a retired one is not used again.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code { $($(#[$doc])* $variant),+ }

        impl Code {
            /// Every code, in the order of the ids.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The stable id.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id),+ }
            }
            /// One line in plain words.
            #[must_use]
            pub const fn title(self) -> &'static str {
                match self { $(Self::$variant => $title),+ }
            }
        }
    };
}

codes! {
    /// Missing, not UTF-8, a folder, no permission.
    Unreadable = "F01", "a file that cannot be read";
    /// Not YAML, or YAML beyond what these files use: tags, several documents.
    NotYaml = "F02", "not the YAML these files are written in";
    /// The same key twice in one map.
    DuplicateKey = "F03", "a key written twice";
    /// A key that the format lacks.
    UnknownKey = "F04", "a key that does not belong here";
    /// A required key is absent.
    MissingKey = "F05", "something is missing";
    /// A list where a text belongs, and the like.
    WrongType = "F06", "the wrong sort of value";
    /// No unit, a foreign unit, a negative amount.
    NotAQuantity = "F07", "not a quantity with its unit";
    /// A count, share, rate or factor outside its range.
    OutOfRange = "F08", "a number out of range";
    /// A word outside a closed list.
    UnknownWord = "F09", "a word that is not on the list";
    /// A `basis` of no known kind, or a citation that names no source.
    NoBasis = "F10", "a number whose basis is not told";
    /// Braces that do not close, families without sizes, attributes that refer to each other in a ring.
    BrokenTemplate = "F11", "a name in braces that cannot be filled";
    /// One id, two entries.
    DefinedTwice = "F12", "one name for two things";
    /// `like` names nothing, or itself by way of others.
    BrokenLike = "F13", "`like` leads nowhere";
    /// A reference to something that no file defines.
    UnknownName = "F14", "a name that nothing has";
    /// An attribute value outside the attribute's closed list.
    UnknownValue = "F15", "a value that the attribute cannot have";
    /// A repair asks for something that cannot be told on a bike which the failure happens to.
    RepairUnresolved = "F16", "a repair that a bike cannot resolve";
    /// Functions that are each had from the other.
    FunctionRing = "F17", "functions that need each other";
    /// More than one currency.
    MixedCurrencies = "F18", "prices in different currencies";
    /// No legs, no riders, no entries, a leg without days and distance.
    NothingThere = "F19", "nothing to work with";
    /// Two statements that cannot both hold.
    Contradiction = "F20", "two statements that cannot both hold";
    /// Neither numbers nor an anchor, or both.
    UnclearRate = "F21", "a rate that cannot be told";
    /// Too big, too deep, too many.
    TooLarge = "F22", "more than a file may hold";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_count_up_without_gaps() {
        for (at, code) in Code::ALL.iter().enumerate() {
            assert_eq!(code.id(), format!("F{:02}", at + 1));
            assert!(!code.title().is_empty());
        }
    }
}
