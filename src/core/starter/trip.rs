//! What a few words about a trip come to in kilometres, hours and degrees. All from memory: a file to correct.

use crate::domain::Style;

/// Declares a list of words for one question, each with what it means.
macro_rules! choices {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal, $means:literal);+ $(;)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }

        impl $name {
            /// All of them, in the order in which they are offered.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word for it, as on the command line.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
            /// What it means.
            #[must_use]
            pub fn means(self) -> &'static str {
                fardel_words::plain(match self { $(Self::$variant => $means),+ })
            }
        }
    };
}

choices!(
    /// How rough the riding is.
    Ground {
        /// Sealed roads.
        Road = "road", "sealed roads, now and then a farm track";
        /// Graded gravel.
        Gravel = "gravel", "mostly graded gravel";
        /// A bit of everything.
        Mixed = "mixed", "small roads, gravel and tracks";
        /// Off the road.
        Rough = "rough", "tracks, rocks, ruts, sand, fords";
    }
);
choices!(
    /// How long until help has a broken bike at a road head or workshop.
    Help {
        /// Near a town.
        Near = "near", "an hour or so: near towns";
        /// Some hours.
        Hours = "hours", "four hours or so: farms, used tracks";
        /// Half a day.
        HalfDay = "half-day", "ten hours or so: seldom used tracks";
        /// A day or more.
        Day = "day", "a day or more: nobody comes by";
    }
);
choices!(
    /// The weather.
    Season {
        /// Frost at night.
        Cold = "cold", "frost at night";
        /// Neither cold nor hot.
        Mild = "mild", "5 °C at night, 25 °C by day";
        /// Hot days.
        Hot = "hot", "warm nights, 36 °C by day";
    }
);
choices!(
    /// How the nights are spent.
    Nights {
        /// No nights away.
        None = "none", "no nights away";
        /// Under roofs.
        Roofed = "roofed", "under roofs";
        /// In a tent.
        Camping = "camping", "in a tent or the like";
    }
);

impl Ground {
    /// Kilometres a day on sealed, gravel, track and rough.
    pub(super) const fn km_a_day(self) -> [u32; 4] {
        match self {
            Self::Road => [280, 20, 0, 0],
            Self::Gravel => [80, 150, 20, 0],
            Self::Mixed => [60, 80, 40, 5],
            Self::Rough => [15, 50, 80, 20],
        }
    }
}

impl Help {
    /// Hours.
    pub(super) const fn hours(self) -> u32 {
        match self {
            Self::Near => 1,
            Self::Hours => 4,
            Self::HalfDay => 10,
            Self::Day => 24,
        }
    }
}

impl Season {
    /// Coldest and hottest hour, °C.
    pub(super) const fn degrees(self) -> (i32, i32) {
        match self {
            Self::Cold => (-3, 14),
            Self::Mild => (5, 25),
            Self::Hot => (14, 36),
        }
    }
}

impl Nights {
    /// The style of the file.
    #[must_use]
    pub const fn style(self) -> Style {
        match self {
            Self::None => Style::None,
            Self::Roofed => Style::Roofed,
            Self::Camping => Style::Camping,
        }
    }
}
