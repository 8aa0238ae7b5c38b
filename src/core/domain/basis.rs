//! Where a number comes from.

use std::fmt;

/// How far a number can be trusted, from best to least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BasisKind {
    /// Read in a published source, which the note names.
    Published,
    /// Published, but read in somebody else's rendering.
    SecondHand,
    /// The rider's own records.
    RideLog,
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
    /// The kinds with the words a file opens its `basis` with; longer openings first.
    pub const OPENINGS: &'static [(&'static str, Self)] = &[
        ("published, second-hand", Self::SecondHand),
        ("published", Self::Published),
        ("ride log", Self::RideLog),
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
        let cites = matches!(kind, BasisKind::Published | BasisKind::SecondHand | BasisKind::Derived);
        let parted = rest.is_empty() || rest.starts_with([':', ';', ',', ' ']);
        (parted && !(cites && note.is_empty())).then_some(Self { kind: *kind, note })
    }
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let opening = match self.kind {
            BasisKind::Published => "published",
            BasisKind::SecondHand => "published, second-hand",
            BasisKind::RideLog => "ride log",
            BasisKind::Derived => "derived",
            BasisKind::CommonPractice => "common practice, no source",
            BasisKind::FromMemory => "from memory",
        };
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
