//! How long stages take and what the engine is given, noted down for whoever wants to know. Nothing that is decided
//! depends on it.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use web_time::Instant;

/// What was done, how often, and how long it took in all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spell {
    /// In words.
    pub what: String,
    /// How many times.
    pub times: u32,
    /// Added up; work done side by side counts in full.
    pub took: Duration,
}

/// What was noted, in the order of first ends; `None`: nobody wants to know.
static NOTED: Mutex<Option<Vec<Spell>>> = Mutex::new(None);

fn noted() -> MutexGuard<'static, Option<Vec<Spell>>> {
    NOTED.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Begins to note from nothing, or stops.
pub fn listen(wanted: bool) {
    *noted() = wanted.then(Vec::new);
}

/// All that was noted.
#[must_use]
pub fn heard() -> Vec<Spell> {
    noted().clone().unwrap_or_default()
}

/// Does some work and notes how long it took.
pub fn timed<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let started = Instant::now();
    let result = work();
    note(started.elapsed(), || what.to_owned());
    result
}

/// Notes how long something took that can be named only afterwards.
pub fn note(took: Duration, what: impl FnOnce() -> String) {
    let mut noted = noted();
    let Some(spells) = noted.as_mut() else { return };
    let what = what();
    match spells.iter_mut().find(|spell| spell.what == what) {
        Some(known) => {
            known.times += 1;
            known.took += took;
        }
        None => spells.push(Spell { what, times: 1, took }),
    }
}
