//! Stopping work that nobody waits for any more.
//!
//! A search takes its token from the thread that it runs on ([`under`]), as it takes its time from a
//! [`Deadline`](crate::Deadline): between two steps it looks, and ends as if its time had run out. Work on other threads
//! takes the token along through [`current`] and [`with`]. What is found in time never hangs on a token that is not used.

use std::cell::RefCell;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A token to stop a search with, from any thread. Clones stop the same work.
#[derive(Debug, Clone, Default)]
pub struct Cancel(Arc<AtomicBool>);

impl Cancel {
    /// A token that nobody has used yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Stops the work soon, and all that begins under this token later.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Was it used?
    #[must_use]
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

thread_local! {
    /// The tokens that the work on this thread is under, the innermost last.
    static TOKENS: RefCell<Vec<Cancel>> = const { RefCell::new(Vec::new()) };
}

/// Does some work that this token can stop, beside those that the thread is under already.
pub fn under<T>(token: &Cancel, work: impl FnOnce() -> T) -> T {
    let mut all = current();
    all.push(token.clone());
    with(all, work)
}

/// Does some work under these tokens and no others: those of the thread that handed the work on.
pub fn with<T>(tokens: Vec<Cancel>, work: impl FnOnce() -> T) -> T {
    struct Back(Vec<Cancel>);
    impl Drop for Back {
        fn drop(&mut self) {
            TOKENS.set(std::mem::take(&mut self.0));
        }
    }
    let _back = Back(TOKENS.replace(tokens));
    work()
}

/// The tokens that the work on this thread is under.
#[must_use]
pub fn current() -> Vec<Cancel> {
    TOKENS.with_borrow(Clone::clone)
}

/// Is the work on this thread to stop?
#[must_use]
pub fn is_cancelled() -> bool {
    TOKENS.with_borrow(|all| all.iter().any(Cancel::is_cancelled))
}

#[cfg(test)]
mod tests {
    use super::{Cancel, current, is_cancelled, under, with};

    #[test]
    fn work_is_under_its_own_token_and_those_around_it() {
        let (outer, inner) = (Cancel::new(), Cancel::new());
        inner.cancel();
        assert!(!is_cancelled());
        under(&outer, || {
            assert!(!is_cancelled());
            under(&inner, || assert!(is_cancelled()));
            assert!(!is_cancelled());
            outer.cancel();
            assert!(is_cancelled());
            assert_eq!(current().len(), 1);
            with(Vec::new(), || assert!(!is_cancelled()));
        });
        assert!(!is_cancelled() && current().is_empty());
    }
}
