//! The names of the calls.

/// Declares the calls, each with its word and whether it answers in parts.
macro_rules! calls {
    ($($(#[$doc:meta])+ $name:ident = $word:literal, $parts:literal;)+) => {
        /// What can be asked.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Call { $($(#[$doc])+ $name),+ }

        /// All calls.
        pub const CALLS: &[Call] = &[$(Call::$name),+];

        impl Call {
            /// Its name in the interface.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$name => $word),+ }
            }
            /// Does it answer in parts, until one that is the last?
            #[must_use]
            pub const fn in_parts(self) -> bool {
                match self { $(Self::$name => $parts),+ }
            }
        }
    };
}

calls! {
    /// Bikes, bags, things, failures, samples and prices.
    Catalogue = "catalogue", false;
    /// A trip from a few answers.
    Start = "start", false;
    /// The text of a file to a tree.
    Read = "read", false;
    /// A tree to the text of a file.
    Write = "write", false;
    /// What is wrong or odd, and what the trip demands, without a search.
    Check = "check", false;
    /// The kit, better and better.
    Plan = "plan", true;
    /// The figures of a given kit.
    Evaluate = "evaluate", false;
    /// Why a thing is in the kit or is not.
    Why = "why", false;
    /// The best kit under one limit after another.
    Curve = "curve", true;
    /// One kit for a group.
    Split = "split", true;
    /// What to reach for when something breaks.
    Card = "card", false;
    /// What rides have taught.
    Debrief = "debrief", false;
    /// What the lines of a list are taken for.
    Match = "match", false;
    /// Entries of the catalogue by name, synonym or what they mend.
    Find = "find", false;
    /// The sheet to fill in at the bike.
    Sheet = "sheet", false;
    /// A trip from a track.
    Route = "route", false;
}

impl Call {
    /// By its name.
    #[must_use]
    pub fn read(word: &str) -> Option<Self> {
        CALLS.iter().copied().find(|call| call.word() == word)
    }
}
