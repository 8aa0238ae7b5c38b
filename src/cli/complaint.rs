//! What is said on standard error: words, or JSON where answers are JSON.

use super::Ending;
use crate::diagnostic::{Fault, Faults};
use crate::report::json::{self, COMMANDS, Unmet};
use clap::ArgMatches;
use std::ffi::OsString;
use std::fmt;
use std::io::Write as _;
use std::sync::OnceLock;

/// The command whose answers are JSON; nothing where they are not.
static FOR_MACHINES: OnceLock<&'static str> = OnceLock::new();

/// What is wrong with what was given.
#[derive(Debug)]
pub(super) enum Trouble {
    /// Problems of files, each in its place.
    Faults(Faults),
    /// Anything else.
    Words(String),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Faults(faults) => faults.fmt(f),
            Self::Words(words) => f.write_str(words),
        }
    }
}

impl From<Faults> for Trouble {
    fn from(faults: Faults) -> Self {
        Self::Faults(faults)
    }
}

impl From<String> for Trouble {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

/// Is a run with these arguments for machines? From here on complaints are, too.
pub(super) fn heed_format(matches: &ArgMatches) {
    let Some((name, own)) = matches.subcommand() else { return };
    let mut formats = own.try_get_raw("format").ok().flatten().into_iter().flatten();
    if formats.any(|format| format == "json") {
        speak_json(name);
    }
}

/// The same where the arguments cannot be read; says whether it is.
pub(super) fn heed_raw(arguments: &[OsString]) -> bool {
    let texts: Vec<&str> = arguments.iter().filter_map(|text| text.to_str()).collect();
    let apart = texts.windows(2).any(|pair| pair == ["--format", "json"]);
    if apart || texts.contains(&"--format=json") {
        texts.iter().find(|text| COMMANDS.contains(text)).into_iter().for_each(|name| speak_json(name));
    }
    FOR_MACHINES.get().is_some()
}

/// Further runs of one process keep what the first one found: that happens in tests alone.
fn speak_json(name: &str) {
    if let Some(command) = COMMANDS.iter().find(|own| **own == name) {
        let _ = FOR_MACHINES.set(command);
    }
}

/// Says on standard error what went wrong. Where nobody can hear it, the exit status says enough.
pub(super) fn complain(message: &str) {
    complain_of(message, &[], None);
}

/// Says what is wrong with what was given, and how the run ends.
#[allow(clippy::needless_pass_by_value, reason = "an end for `map_err`")]
pub(super) fn bad_input(trouble: impl Into<Trouble>) -> Ending {
    let trouble = trouble.into();
    let faults = if let Trouble::Faults(faults) = &trouble { faults.0.as_slice() } else { &[] };
    complain_of(&trouble.to_string(), faults, None);
    Ending::BadInput
}

/// Says why no kit will do.
pub(super) fn complain_of_limits(message: &str, unmet: &Unmet<'_>) {
    complain_of(message, &[], Some(unmet));
}

fn complain_of(message: &str, faults: &[Fault], unmet: Option<&Unmet<'_>>) {
    let json = FOR_MACHINES.get().and_then(|command| json::complaint(command, message, faults, unmet).ok());
    match json {
        Some(json) => say(&json),
        None => say(message),
    }
}

/// A line on standard error that is no complaint.
pub(super) fn say(message: &str) {
    let _ = writeln!(anstream::stderr(), "{}", message.trim_end());
}
