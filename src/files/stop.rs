//! Stopping gently: work that is cut into pieces finishes those at hand before the program ends.

use std::sync::atomic::{AtomicBool, AtomicI32, Ordering};

static GENTLE: AtomicBool = AtomicBool::new(false);
static BY: AtomicI32 = AtomicI32::new(0);

/// From now on, the first Ctrl-C or the like only asks; the second ends the program as ever.
pub fn gently() {
    GENTLE.store(true, Ordering::SeqCst);
}

/// Was the program asked to stop?
#[must_use]
pub fn asked() -> bool {
    BY.load(Ordering::SeqCst) != 0
}

/// Notes a signal; false: it is to end the program now.
#[cfg(unix)]
pub(super) fn note(signal: i32) -> bool {
    GENTLE.load(Ordering::SeqCst) && BY.swap(signal, Ordering::SeqCst) == 0
}

/// Ends the program as the signal would have.
#[cfg(unix)]
pub fn end() {
    let _ = signal_hook::low_level::emulate_default_handler(BY.load(Ordering::SeqCst));
}

/// Elsewhere nobody asks.
#[cfg(not(unix))]
pub fn end() {}
