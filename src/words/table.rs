//! The tables, and looking things up in them.

use crate::current::current;

/// One language: pairs of the English text and its words, in the order of the texts.
pub(crate) struct Table {
    pub(crate) code: &'static str,
    pub(crate) name: &'static str,
    /// Between whole and part.
    pub(crate) sign: &'static str,
    pub(crate) program: &'static [Pair],
    pub(crate) catalogue: &'static [Pair],
    /// Names and texts, with the feature `guides`.
    pub(crate) guides: &'static [(&'static str, &'static str)],
}

/// A text and its words, one for each plural form.
type Pair = (&'static str, &'static [&'static str]);

/// Every language but English, which is its own table.
static TABLES: &[Table] = &include!(concat!(env!("OUT_DIR"), "/tables.rs"));

/// A language that there is a table of, or English.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Language(pub(crate) usize);

impl Language {
    /// What the texts are written in.
    pub const ENGLISH: Self = Self(0);

    /// Every language, English first.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..=TABLES.len()).map(Self)
    }

    /// The language of a code such as `de`.
    #[must_use]
    pub fn read(code: &str) -> Option<Self> {
        Self::all().find(|language| language.code() == code)
    }

    /// Codes of the languages there are: `en`, `de`.
    #[must_use]
    pub fn codes() -> Vec<&'static str> {
        Self::all().map(Self::code).collect()
    }

    /// As it is typed.
    #[must_use]
    pub fn code(self) -> &'static str {
        self.table().map_or("en", |table| table.code)
    }

    /// What those who speak it call it.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.table().map_or("English", |table| table.name)
    }

    /// Between whole and part of a number.
    #[must_use]
    pub fn decimal_sign(self) -> &'static str {
        self.table().map_or(".", |table| table.sign)
    }

    /// Texts of the program that there are words for.
    #[must_use]
    pub fn texts(self) -> &'static [Pair] {
        self.table().map_or(&[], |table| table.program)
    }

    fn table(self) -> Option<&'static Table> {
        TABLES.get(self.0.checked_sub(1)?)
    }
}

fn find(pairs: &'static [Pair], text: &str) -> Option<&'static [&'static str]> {
    pairs.binary_search_by(|(key, _)| (*key).cmp(text)).ok().map(|at| pairs[at].1)
}

/// The words for a text of the program, one for each plural form; none in English.
pub(crate) fn words(text: &str) -> Option<&'static [&'static str]> {
    find(current().table()?.program, text)
}

/// A text of the program without holes: what `word!` stands for.
#[must_use]
pub fn plain(text: &'static str) -> &'static str {
    words(text).and_then(|words| words.first()).unwrap_or(&text)
}

/// A text that is one of the program's, if it is.
#[must_use]
pub fn translated(text: &str) -> &str {
    words(text).and_then(|words| words.first()).map_or(text, |found| *found)
}

/// The guide of this name, where the language has one and the program was built with the guides.
#[must_use]
pub fn guide(name: &str) -> Option<&'static str> {
    let guides = current().table()?.guides;
    guides.iter().find(|(own, _)| *own == name).map(|(_, text)| *text)
}

/// A text of the catalogues; one that a rider wrote stays as it is.
#[must_use]
pub fn catalogue(text: &str) -> &str {
    let found = current().table().and_then(|table| find(table.catalogue, text)?.first());
    found.map_or(text, |found| *found)
}
