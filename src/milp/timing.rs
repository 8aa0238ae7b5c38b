//! How long stages take and what the engine is given, recorder down for whoever wants to know. Nothing that is decided
//! depends on it.

use crate::progress;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use web_time::Instant;

/// What was done, how often, and how long it took in all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timing {
    /// In words.
    pub what: String,
    /// How many times.
    pub times: u32,
    /// Added up; work done side by side counts in full.
    pub took: Duration,
}

/// What was recorder, in the order of first ends; `None`: nobody wants to know.
static RECORDER: Mutex<Option<Vec<Timing>>> = Mutex::new(None);

fn recorder() -> MutexGuard<'static, Option<Vec<Timing>>> {
    RECORDER.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Begins to record from nothing, or stops.
pub fn record(wanted: bool) {
    *recorder() = wanted.then(Vec::new);
}

/// All that was recorded.
#[must_use]
pub fn recorded() -> Vec<Timing> {
    recorder().clone().unwrap_or_default()
}

/// Does some work and notes how long it took.
pub fn timed<T>(what: &'static str, work: impl FnOnce() -> T) -> T {
    let _stage = progress::stage(what);
    let started = Instant::now();
    let result = work();
    add(started.elapsed(), || what.to_owned());
    result
}

/// Notes how long something took that can be named only afterwards.
pub fn add(took: Duration, what: impl FnOnce() -> String) {
    let mut recorder = recorder();
    let Some(timings) = recorder.as_mut() else { return };
    let what = what();
    match timings.iter_mut().find(|timing| timing.what == what) {
        Some(known) => {
            known.times += 1;
            known.took += took;
        }
        None => timings.push(Timing { what, times: 1, took }),
    }
}
