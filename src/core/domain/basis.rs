//! Where a number comes from.

use std::fmt;

/// How far a number can be trusted, from best to least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BasisKind {
    /// Weighed, measured or timed; the note says with what, where it matters.
    Measured,
    /// Read in the table of a standard for parts of that size, which the note names.
    Standard,
    /// Read in a published source, which the note names.
    Published,
    /// Published, but read in somebody else's rendering.
    SecondHand,
    /// The rider's own records.
    RideLog,
    /// Worked out from the sources under `evidence`.
    Evidence,
    /// Pooled from the answers of several people who were asked apart; the note says how many and how.
    Elicited,
    /// Worked out from other numbers; the note says how.
    Derived,
    /// What the trade does; no source.
    CommonPractice,
    /// Written down from memory.
    FromMemory,
}

/// A kind of basis and its note (source, derivation, remarks).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Basis {
    /// How far it can be trusted.
    pub kind: BasisKind,
    /// Source, derivation or remark, without the leading kind.
    pub note: String,
}

impl BasisKind {
    /// All of them, from best to least.
    pub const ALL: [Self; 10] = [
        Self::Measured,
        Self::Standard,
        Self::Published,
        Self::SecondHand,
        Self::RideLog,
        Self::Evidence,
        Self::Elicited,
        Self::Derived,
        Self::CommonPractice,
        Self::FromMemory,
    ];

    /// The words that a file opens its `basis` with.
    #[must_use]
    pub const fn opening(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Standard => "standard",
            Self::Published => "published",
            Self::SecondHand => "published, second-hand",
            Self::RideLog => "ride log",
            Self::Evidence => "evidence",
            Self::Elicited => "elicited",
            Self::Derived => "derived",
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "from memory",
        }
    }

    /// Does a basis of this kind have to name its source or derivation?
    #[must_use]
    pub const fn cites(self) -> bool {
        matches!(
            self,
            Self::Standard | Self::Published | Self::SecondHand | Self::Evidence | Self::Elicited | Self::Derived
        )
    }

    /// The kinds with the words a file opens its `basis` with; longer openings first.
    pub const OPENINGS: &'static [(&'static str, Self)] = &[
        ("measured", Self::Measured),
        ("standard", Self::Standard),
        ("published, second-hand", Self::SecondHand),
        ("published", Self::Published),
        ("ride log", Self::RideLog),
        ("evidence", Self::Evidence),
        ("elicited", Self::Elicited),
        ("derived", Self::Derived),
        ("common practice, no source", Self::CommonPractice),
        ("common practice", Self::CommonPractice),
        ("from memory", Self::FromMemory),
    ];
}

impl Basis {
    /// Reads a `basis` text; `None` when it opens with none of the known kinds, or cites without naming a source.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let (opening, kind) = BasisKind::OPENINGS.iter().find(|(opening, _)| text.starts_with(opening))?;
        let rest = &text[opening.len()..];
        let note = rest.trim_start_matches([':', ';', ',', ' ']).trim().to_owned();
        let parted = rest.is_empty() || rest.starts_with([':', ';', ',', ' ']);
        (parted && !(kind.cites() && note.is_empty())).then_some(Self { kind: *kind, note })
    }
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let opening = self.kind.opening();
        if self.note.is_empty() { f.write_str(opening) } else { write!(f, "{opening}: {}", self.note) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_citation_needs_its_source() {
        assert_eq!(Basis::read("from memory; weigh yours").unwrap().kind, BasisKind::FromMemory);
        assert_eq!(Basis::read("published, second-hand: a club").unwrap().kind, BasisKind::SecondHand);
        assert!(Basis::read("published").is_none());
        assert!(Basis::read("guessed").is_none());
    }
}
