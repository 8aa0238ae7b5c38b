//! The closed word lists of the files: surfaces, kinds, skills, styles, need rules.

/// Declares a word list: an enum, its words in files and output, and the list of all of them.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $(#[doc = concat!("`", $word, "`")] $(#[$vdoc])* $variant),+ }

        impl $name {
            /// Every member, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// Every word, in order.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The word used in files and output.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
            /// The word in the language that is spoken.
            #[must_use]
            pub fn shown(self) -> &'static str {
                fardel_words::plain(self.word())
            }
            /// The member with this word.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.word())
            }
        }
    };
}
pub(crate) use words;

words!(
    /// What is under the wheels, in rising severity.
    Surface { Sealed = "sealed", Gravel = "gravel", Track = "track", Rough = "rough" }
);
words!(
    /// What sort of thing an item is; stowage rules (fuel apart from food) speak of kinds.
    Kind {
        Tool = "tool", Spare = "spare", Consumable = "consumable", Shelter = "shelter", Sleep = "sleep",
        Cooking = "cooking", Food = "food", Water = "water", Clothing = "clothing", FirstAid = "first aid",
        Electronics = "electronics", Papers = "papers", Fuel = "fuel", Hygiene = "hygiene", Comfort = "comfort",
    }
);
impl Kind {
    /// Does a thing of this kind wear by the night rather than by the day?
    #[must_use]
    pub const fn serves_by_night(self) -> bool {
        matches!(self, Self::Shelter | Self::Sleep | Self::Cooking)
    }
}
words!(
    /// How well somebody mends a bike, from nothing to anything a workshop could do without a press.
    RepairSkill { Anyone = "anyone", Handy = "handy", Skilled = "skilled", Expert = "expert" }
);
words!(
    /// How well somebody rides off the seal; it scales the number of falls.
    RidingSkill { Novice = "novice", Intermediate = "intermediate", Advanced = "advanced", Expert = "expert" }
);
words!(
    /// How the nights are spent.
    Style { None = "none", Roofed = "roofed", Camping = "camping" }
);
words!(
    /// What somebody does in a group.
    Role { Leads = "leads", Last = "last", Medic = "medic" }
);
words!(
    /// What a fair share of a group's load is.
    Fair { Equal = "equal", SparePayload = "spare payload", Stated = "stated" }
);
words!(
    /// The formula that says how much of a need the trip demands; see `resolve::needs`.
    NeedRule {
        Water = "water", Food = "food", Heat = "heat", CookPot = "cook pot", Shelter = "shelter",
        SleepWarmth = "sleep warmth", SleepMat = "sleep mat", WarmClothing = "warm clothing",
        RainClothing = "rain clothing", SpareClothing = "spare clothing", Light = "light", Navigation = "navigation",
        Distress = "distress", FirstAid = "first aid", Hygiene = "hygiene", Papers = "papers", Medicine = "medicine",
        WaterTreatment = "water treatment", Fuel = "fuel", Money = "money", Telephone = "telephone",
    }
);

/// One value for each surface.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BySurface<T>([T; 4]);

impl<T: Copy> BySurface<T> {
    /// From the values for sealed, gravel, track and rough.
    pub const fn new(values: [T; 4]) -> Self {
        Self(values)
    }
    /// The value for one surface.
    #[must_use]
    pub const fn on(&self, surface: Surface) -> T {
        self.0[surface as usize]
    }
    /// Surface and value, from sealed to rough.
    pub fn iter(&self) -> impl Iterator<Item = (Surface, T)> + '_ {
        Surface::ALL.iter().map(|s| (*s, self.on(*s)))
    }
    /// The same shape with every value changed.
    #[must_use]
    pub fn map<U: Copy>(self, change: impl Fn(T) -> U) -> BySurface<U> {
        BySurface(self.0.map(change))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_members_round_trip() {
        for kind in Kind::ALL {
            assert_eq!(Kind::from_word(kind.word()), Some(*kind));
        }
        assert_eq!(Surface::from_word("mud"), None);
        assert!(Surface::Rough > Surface::Track);
        assert!(RepairSkill::Expert > RepairSkill::Anyone);
    }
}
