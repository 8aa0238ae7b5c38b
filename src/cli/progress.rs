//! A sign of life on standard error for work that takes longer than a second.

use super::verbosity::quiet;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::IsTerminal;
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

/// Progress is for people who look on, unless they want none.
pub(super) fn is_shown() -> bool {
    std::io::stderr().is_terminal() && !quiet()
}

/// Runs `work`; after a second a spinner with `label` turns until it is done, if standard error is a terminal.
pub(super) fn while_busy<T>(label: &'static str, work: impl FnOnce() -> T) -> T {
    if !is_shown() {
        return work();
    }
    let (done, waiting) = mpsc::channel::<()>();
    let spinner = thread::spawn(move || {
        if waiting.recv_timeout(Duration::from_secs(1)) == Err(mpsc::RecvTimeoutError::Timeout) {
            let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
            bar.set_message(label);
            bar.enable_steady_tick(Duration::from_millis(120));
            let _ = waiting.recv();
            bar.finish_and_clear();
        }
    });
    let result = work();
    drop(done);
    let _ = spinner.join();
    result
}

/// Runs `work`, which tells how many more of `total` are done; after a second a bar shows how far it is, if standard
/// error is a terminal.
pub(super) fn while_counting<T>(label: &'static str, total: u64, work: impl FnOnce(&(dyn Fn(u64) + Sync)) -> T) -> T {
    if !is_shown() {
        return work(&|_| ());
    }
    let bar = ProgressBar::with_draw_target(Some(total), ProgressDrawTarget::hidden()).with_message(label);
    if let Ok(style) = ProgressStyle::with_template("{msg} {wide_bar} {human_pos} of {human_len}, {eta} left") {
        bar.set_style(style);
    }
    let started = Instant::now();
    let result = work(&|more| {
        bar.inc(more);
        if started.elapsed() > Duration::from_secs(1) && bar.is_hidden() {
            bar.set_draw_target(ProgressDrawTarget::stderr());
        }
    });
    bar.finish_and_clear();
    result
}

/// As [`while_counting`], for work of which it may not be known how much there is; the rate is shown with it.
pub(super) fn while_streaming<T>(
    label: &'static str,
    total: Option<u64>,
    work: impl FnOnce(&(dyn Fn(u64) + Sync)) -> T,
) -> T {
    if !is_shown() {
        return work(&|_| ());
    }
    let target = ProgressDrawTarget::stderr_with_hz(2);
    let (bar, shape) = match total {
        Some(total) => (
            ProgressBar::with_draw_target(Some(total), target),
            "{wide_bar} {human_pos} of {human_len} {msg}, {per_sec}, {eta} left",
        ),
        None => (ProgressBar::with_draw_target(None, target), "{spinner} {human_pos} {msg}, {per_sec}"),
    };
    let bar = bar.with_message(label);
    if let Ok(style) = ProgressStyle::with_template(shape) {
        bar.set_style(style);
    }
    let result = work(&|more| bar.inc(more));
    bar.finish_and_clear();
    result
}
