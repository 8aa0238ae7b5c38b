//! What is being done, on standard error, for work that takes longer than a second.

use super::verbosity::quiet;
use crate::diagnostic::sentence;
use crate::milp::progress::{self, Progress};
use fardel_words::{say, word};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::IsTerminal;
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::{Duration, Instant};

/// Work that is done sooner says nothing.
const PATIENCE: Duration = Duration::from_secs(1);
/// How often the line is drawn anew.
const TICK: Duration = Duration::from_millis(120);

/// Progress is for people who look on, unless they want none.
pub(super) fn is_shown() -> bool {
    std::io::stderr().is_terminal() && !quiet()
}

/// Runs `work`; after a second a line says what is being done and how near the proof is, if standard error is a terminal.
pub(super) fn while_busy<T>(label: &'static str, work: impl FnOnce() -> T) -> T {
    if !is_shown() {
        return work();
    }
    progress::watch(true);
    let (done, waiting) = mpsc::channel::<()>();
    let watcher = thread::spawn(move || {
        if waiting.recv_timeout(PATIENCE) == Err(RecvTimeoutError::Timeout) {
            let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
            if let Ok(style) = ProgressStyle::with_template("{spinner} {wide_msg} {elapsed}") {
                line.set_style(style);
            }
            loop {
                line.set_message(told(label, progress::now().as_ref()));
                line.tick();
                if waiting.recv_timeout(TICK) != Err(RecvTimeoutError::Timeout) {
                    break;
                }
            }
            line.finish_and_clear();
        }
    });
    let result = work();
    drop(done);
    let _ = watcher.join();
    progress::watch(false);
    result
}

/// Runs `work`, which tells how many more of `total` are done; after a second a bar shows how far it is, if standard
/// error is a terminal.
pub(super) fn while_counting<T>(label: &'static str, total: u64, work: impl FnOnce(&(dyn Fn(u64) + Sync)) -> T) -> T {
    if !is_shown() || total == 0 {
        return work(&|_| ());
    }
    let bar = ProgressBar::with_draw_target(Some(total), ProgressDrawTarget::hidden()).with_message(label);
    let template = "{spinner} {msg} {wide_bar} {human_pos} of {human_len}, {elapsed}";
    if let Ok(style) = ProgressStyle::with_template(template) {
        bar.set_style(style.progress_chars("##."));
    }
    let (done, waiting) = mpsc::channel::<()>();
    let (watched, started) = (bar.clone(), Instant::now());
    // The first of them may take long: the line moves all the same.
    let watcher = thread::spawn(move || {
        while waiting.recv_timeout(TICK) == Err(RecvTimeoutError::Timeout) {
            if started.elapsed() > PATIENCE && watched.is_hidden() {
                watched.set_draw_target(ProgressDrawTarget::stderr());
            }
            watched.tick();
        }
    });
    let result = work(&|more| bar.inc(more));
    drop(done);
    let _ = watcher.join();
    bar.finish_and_clear();
    result
}

/// What is being done, in words, and how near the proof is.
fn told(label: &str, progress: Option<&Progress>) -> String {
    let Some(progress) = progress else { return sentence(label) };
    let (outer, _) = progress.stages();
    let doing = match outer {
        Some("see what can matter on this trip") => word!("Reading the trip"),
        Some("reckon what each failure costs") => word!("Working out what each failure costs"),
        Some("choose the kit" | "look for a kit by whole repairs") => word!("Choosing the kit"),
        Some("choose and stow at once") => word!("Choosing the kit and filling the bags together"),
        Some("find the least kit that will do") => word!("Finding the least that will do"),
        Some("stow it") => word!("Filling the bags"),
        Some("hand it out") => word!("Handing it out to the riders"),
        Some("check the answer") => word!("Checking the answer"),
        Some("ride" | "ride for the chance") => word!("Riding the trip to see how often it ends well"),
        Some("see what can still be done to the bike") => word!("Looking for what is worth doing at home"),
        Some("see how firm the kit is") => word!("Trying other prices and rates"),
        _ => return sentence(label),
    };
    let near = match progress.gap() {
        Some(gap) if doing.starts_with("Choosing") => say!(", within {} of the best there can be", share(gap)),
        _ => String::new(),
    };
    format!("{doing}{near}")
}

fn share(gap: f64) -> String {
    match gap * 100.0 {
        p if p < 0.01 => "0.01 %".to_owned(),
        p if p < 1.0 => say!("{p:.2} %"),
        p => say!("{p:.0} %"),
    }
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

#[cfg(test)]
mod tests {
    use super::{share, told};
    use crate::milp::progress::Progress;

    #[test]
    fn the_line_says_what_is_done() {
        assert_eq!(told("packing with and without", None), "Packing with and without");
        assert_eq!(told("packing", Some(&Progress::default())), "Packing");
        assert_eq!(share(0.25), "25 %");
        assert_eq!(share(0.0042), "0.42 %");
        assert_eq!(share(0.0), "0.01 %");
    }
}
