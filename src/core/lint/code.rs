//! The sorts of doubt, each with a code of plain words that stays the same from version to version.

/// Declares the lints with their stable ids, one-line titles and the reason to care.
macro_rules! lints {
    ($($variant:ident = $id:literal, $title:literal, $when:literal;)+) => {
        /// What sort of doubt. The ids never change their meaning; a retired one is not used again.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Lint { $(#[doc = $when] $variant),+ }

        impl Lint {
            /// Every lint, in the order of this file.
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
            /// When it is raised.
            #[must_use]
            pub fn when(self) -> &'static str {
                fardel_words::plain(match self { $(Self::$variant => $when),+ })
            }
        }
    };
}

lints! {
    NobodyProvides = "function-unprovided", "a function that nothing provides", "No item provides it, and no combination of others gives it.";
    NobodyHolds = "stock-unheld", "a stock that nothing holds", "No item holds it.";
    NobodyMeets = "need-unmet", "a need that nothing meets", "No item meets it.";
    NoUse = "unused-item", "an item that nothing can use", "No repair, need or other item asks for what it gives, and it is not marked `on_request`.";
    NoRepair = "without-repair", "a failure without a repair", "On some bike that can suffer it, no set of items mends it.";
    NoKitRepairs = "beyond-any-kit", "a repair that no kit can do", "On some bike that can suffer the failure, no set of items gives all it takes.";
    OddDensity = "odd-density", "a density that is hard to believe", "Mass per packed volume is outside the bounds for its kind.";
    Twins = "twins", "two items that are the same", "They agree in everything but name and basis.";
    Beaten = "beaten", "an item that another one beats", "Another of its kind is at least as good in everything that matters, and better in something.";
    OddNumber = "odd-number", "a number that is hard to believe", "A quantity is outside what bikes, bags, riders and trips come in.";
    NoBike = "fits-no-bike", "an entry for no bike", "Its `applies` fits none of the bikes.";
    NoSteps = "without-steps", "a likely failure without steps", "On some trip it happens more often than one time in a hundred, and no repair of it that the rider can do has `steps` for the card.";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::plain_words_each_once;

    #[test]
    fn ids_are_plain_words_each_once() {
        plain_words_each_once(Lint::ALL.iter().map(|lint| (lint.id(), lint.title())));
    }
}
