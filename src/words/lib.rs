//! What fardel says, in the language of the rider.
//!
//! The English text is the key: `say!("Only {left} left")` looks it up in the table of the language that is
//! [`current`] and fills the holes. A language is a folder here with PO files; adding one takes no code. The header of
//! its `program.po` names it (`X-Language-Name`) and its decimal sign (`X-Decimal-Sign`).

// The macros name this crate, also in its own tests.
extern crate self as fardel_words;

mod current;
mod number;
mod pattern;
mod plural;
mod table;

pub use current::{apart, current, prefer, set, within};
pub use fardel_words_macros::{say, several};
pub use number::{is_float, number};
pub use pattern::{Hole, said, said_with};
pub use plural::{Count, several};
pub use table::{Language, catalogue, guide, plain, translated};

/// Words that are looked up where they are shown: nothing is done here, but the tables have to hold them.
#[macro_export]
macro_rules! mark {
    ($text:literal) => {
        $text
    };
}

/// A text without holes in the language that is spoken: `word!("Ride home")`, a `&'static str`.
#[macro_export]
macro_rules! word {
    ($text:literal) => {
        $crate::plain($text)
    };
}
