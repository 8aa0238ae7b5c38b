//! Stopping work that nobody waits for any more.
//!
//! A search takes its token from the thread that it runs on ([`under`]), as it takes its time from a
//! [`Deadline`](crate::Deadline): between two steps it looks, and ends as if its time had run out. Work on other threads
//! takes the token along through [`current`] and [`with`]. What is found in time never hangs on a token that is not used.
//!
//! A token may also run out by itself ([`Cancel::after`]): the limit of a whole command. Its stages get shares of what is
//! left ([`within`]), so that what has to follow a search, such as stowing the kit that it found, still has time.

use std::cell::RefCell;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use web_time::Instant;

/// A token to stop a search with, from any thread. Clones stop the same work.
#[derive(Debug, Clone, Default)]
pub struct Cancel {
    used: Arc<AtomicBool>,
    /// When it counts as used without anybody's doing.
    at: Option<Instant>,
}

impl Cancel {
    /// A token that nobody has used yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// A token that counts as used when so much time has passed.
    #[must_use]
    pub fn after(time: Duration) -> Self {
        Self { at: Instant::now().checked_add(time), ..Self::default() }
    }

    /// Stops the work soon, and all that begins under this token later.
    pub fn cancel(&self) {
        self.used.store(true, Ordering::Relaxed);
    }

    /// Was it used, or has it run out?
    #[must_use]
    pub fn is_cancelled(&self) -> bool {
        self.used.load(Ordering::Relaxed) || self.at.is_some_and(|at| Instant::now() >= at)
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

/// The time that is left for the work on this thread; `None`: no token runs out by itself.
#[must_use]
pub fn time_left() -> Option<Duration> {
    let first = TOKENS.with_borrow(|all| all.iter().filter_map(|token| token.at).min());
    first.map(|at| at.saturating_duration_since(Instant::now()))
}

/// Does some work in this share of the time that is left, so that other work can follow; as it is where no token runs out.
pub fn within<T>(share: f64, work: impl FnOnce() -> T) -> T {
    match time_left() {
        Some(left) => under(&Cancel::after(left.mul_f64(share)), work),
        None => work(),
    }
}

#[cfg(test)]
mod tests {
    use super::{Cancel, current, is_cancelled, time_left, under, with, within};
    use std::time::Duration;

    #[test]
    fn a_token_runs_out_and_stages_get_shares_of_what_is_left() {
        assert_eq!(time_left(), None);
        within(0.5, || assert_eq!(time_left(), None));
        under(&Cancel::after(Duration::ZERO), || {
            assert!(is_cancelled());
            assert_eq!(time_left(), Some(Duration::ZERO));
        });
        under(&Cancel::after(Duration::from_secs(1000)), || {
            assert!(!is_cancelled());
            let half = within(0.5, time_left).expect("a limit");
            assert!(half <= Duration::from_secs(500) && half > Duration::from_secs(400));
            assert!(time_left() > Some(half));
        });
        assert!(!is_cancelled());
        // More than the clock can hold never runs out.
        assert!(!Cancel::after(Duration::MAX).is_cancelled());
    }

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
