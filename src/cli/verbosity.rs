//! What every command understands: how much is said beside the answer, and when to use colour.

use super::complaint::say;
use crate::milp::timing;
use clap::{Args, ValueEnum};
use fardel_words::{say, word};
use std::sync::atomic::{AtomicBool, Ordering};

/// How much to say, and in colour or not.
#[derive(Debug, Clone, Copy, Args)]
pub(super) struct Talk {
    /// Only the answer and what is wrong
    #[arg(long, short, global = true, conflicts_with = "verbose", display_order = 100)]
    quiet: bool,
    /// Tell on standard error where the time goes
    #[arg(long, short, global = true, display_order = 101)]
    verbose: bool,
    /// When to use colour; `NO_COLOR` is honoured
    #[arg(long, global = true, value_enum, default_value_t = ColourName::Auto, display_order = 102)]
    color: ColourName,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum ColourName {
    // On a terminal only
    Auto,
    // Always
    Always,
    // Never
    Never,
}

/// Of this run.
static QUIET: AtomicBool = AtomicBool::new(false);

/// Is nothing to be said but the answer and what is wrong?
pub(super) fn quiet() -> bool {
    QUIET.load(Ordering::Relaxed)
}

impl Talk {
    /// Settles it for the whole run.
    pub(super) fn apply(self) {
        let choice = match self.color {
            ColourName::Auto => anstream::ColorChoice::Auto,
            ColourName::Always => anstream::ColorChoice::Always,
            ColourName::Never => anstream::ColorChoice::Never,
        };
        choice.write_global();
        QUIET.store(self.quiet, Ordering::Relaxed);
        timing::record(self.verbose);
    }

    /// Tells on standard error where the time went, if that was asked for.
    pub(super) fn account(self) {
        if !self.verbose {
            return;
        }
        say(word!("Where the time went (work done side by side counts in full)"));
        for timing in timing::recorded() {
            let times = if timing.times == 1 { String::new() } else { say!(", {} times", timing.times) };
            say(&say!("{:9.3} s  {}{times}", timing.took.as_secs_f64(), timing.what));
        }
    }
}
