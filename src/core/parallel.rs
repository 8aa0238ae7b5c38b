//! Work on all processor cores where the feature `parallel` is on; otherwise one thing after another. The results are
//! the same, in the same order. Tokens that the caller's work is under (`control`) and its language go along to the other
//! threads.

#[cfg(feature = "parallel")]
use fardel_milp::control;

/// What `work` makes of each thing, in the order of the things.
#[cfg(feature = "parallel")]
pub fn map<T: Send, R: Send>(things: Vec<T>, work: impl Fn(T) -> R + Sync + Send) -> Vec<R> {
    use rayon::iter::{IntoParallelIterator, ParallelIterator};
    let (tokens, language) = (control::current(), fardel_words::current());
    let spoken = |thing| fardel_words::within(language, || work(thing));
    things.into_par_iter().map(|thing| control::with(tokens.clone(), || spoken(thing))).collect()
}

/// What `work` makes of each thing, in the order of the things.
#[cfg(not(feature = "parallel"))]
pub fn map<T, R>(things: Vec<T>, work: impl Fn(T) -> R) -> Vec<R> {
    things.into_iter().map(work).collect()
}

/// Two pieces of work side by side.
#[cfg(feature = "parallel")]
pub fn both<A: Send, B: Send>(one: impl FnOnce() -> A + Send, other: impl FnOnce() -> B + Send) -> (A, B) {
    let tokens = control::current();
    let here = tokens.clone();
    let language = fardel_words::current();
    rayon::join(
        || control::with(here, || fardel_words::within(language, one)),
        || control::with(tokens, || fardel_words::within(language, other)),
    )
}

/// Two pieces of work, one after the other.
#[cfg(not(feature = "parallel"))]
pub fn both<A, B>(one: impl FnOnce() -> A, other: impl FnOnce() -> B) -> (A, B) {
    (one(), other())
}

/// Goes through the numbers below `count` with one worker for each run of them, and merges what the workers come to. The
/// merging must not depend on how the numbers are cut into runs.
#[cfg(feature = "parallel")]
pub fn fold<W: Send, R: Send>(
    count: u64,
    worker: impl Fn() -> W + Sync + Send,
    step: impl Fn(W, u64) -> W + Sync + Send,
    finish: impl Fn(W) -> R + Sync + Send,
    none: impl Fn() -> R + Sync + Send,
    merge: impl Fn(R, R) -> R + Sync + Send,
) -> R {
    use rayon::iter::{IntoParallelIterator, ParallelIterator};
    (0..count).into_par_iter().fold(worker, step).map(finish).reduce(none, merge)
}

/// Goes through the numbers below `count` with one worker.
#[cfg(not(feature = "parallel"))]
pub fn fold<W, R>(
    count: u64,
    worker: impl Fn() -> W,
    step: impl Fn(W, u64) -> W,
    finish: impl Fn(W) -> R,
    none: impl Fn() -> R,
    merge: impl Fn(R, R) -> R,
) -> R {
    merge(none(), finish((0..count).fold(worker(), step)))
}
