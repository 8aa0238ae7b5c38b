//! Which language is spoken: one for the command, or one for the work of a thread where several riders are answered.
//!
//! What somebody asks for counts before what a file prefers.

use crate::table::Language;
use std::cell::Cell;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// The language of the command, where a thread has none of its own.
static COMMAND: AtomicUsize = AtomicUsize::new(0);
/// Was it asked for?
static ASKED: AtomicBool = AtomicBool::new(false);

#[derive(Debug, Clone, Copy)]
struct Spoken {
    language: Language,
    asked: bool,
}

thread_local! {
    static OWN: Cell<Option<Spoken>> = const { Cell::new(None) };
}

/// Sets the language of the command, which was asked for.
pub fn set(language: Language) {
    COMMAND.store(language.0, Ordering::Relaxed);
    ASKED.store(true, Ordering::Relaxed);
}

/// Speaks a language from here on, unless one was asked for.
pub fn prefer(language: Language) {
    match OWN.get() {
        Some(Spoken { asked: true, .. }) => {}
        Some(_) => OWN.set(Some(Spoken { language, asked: false })),
        None if ASKED.load(Ordering::Relaxed) => {}
        None => COMMAND.store(language.0, Ordering::Relaxed),
    }
}

/// The language that is spoken here.
#[must_use]
pub fn current() -> Language {
    OWN.get().map_or_else(|| Language(COMMAND.load(Ordering::Relaxed)), |own| own.language)
}

/// Does some work on this thread in a language.
pub fn within<T>(language: Language, work: impl FnOnce() -> T) -> T {
    spoken(Spoken { language, asked: true }, work)
}

/// Does some work on this thread that may [prefer] a language for itself alone.
pub fn apart<T>(work: impl FnOnce() -> T) -> T {
    let asked = OWN.get().map_or_else(|| ASKED.load(Ordering::Relaxed), |own| own.asked);
    spoken(Spoken { language: current(), asked }, work)
}

fn spoken<T>(own: Spoken, work: impl FnOnce() -> T) -> T {
    struct Back(Option<Spoken>);
    impl Drop for Back {
        fn drop(&mut self) {
            OWN.set(self.0);
        }
    }
    let _back = Back(OWN.replace(Some(own)));
    work()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_asked_for_counts_before_what_a_file_prefers() {
        let german = Language::read("de").unwrap();
        let preferred = |work: fn(&dyn Fn() -> Language) -> Language| {
            work(&|| {
                prefer(Language(1));
                current()
            })
        };
        assert_eq!(preferred(|work| within(Language::ENGLISH, work)), Language::ENGLISH);
        assert_eq!(preferred(|work| apart(work)), german);
        assert_eq!(apart(current), Language::ENGLISH);
    }
}
