//! `fardel find`.

use super::output::{Format, OutputArguments};
use super::trip::Known;
use super::{Ending, complain};
use crate::find;
use crate::report::{json, terminal};
use clap::Args;

/// Find items, failures, repairs, bikes, bags and preparations by name, synonym or what they mend.
///
/// British and American words both do: spanner or wrench, tyre or tire, petrol or gasoline.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel find wrench\n  fardel find flat tire --all")]
pub(super) struct Find {
    /// What to look for; all words must match
    #[arg(required = true)]
    word: Vec<String>,
    /// Show everything that matches, not only the best of each sort
    #[arg(long)]
    all: bool,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments<Format>,
}

/// Entries of each sort that are shown without `--all`.
const SHOWN: usize = 10;

impl Find {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let catalogue = match self.output.unobstructed(None).and_then(|()| self.known.catalogue()) {
            Ok(catalogue) => catalogue,
            Err(ending) => return ending,
        };
        let found = find::find(&catalogue, &self.word.join(" "), if self.all { usize::MAX } else { SHOWN });
        if found.hits.is_empty() {
            complain(&terminal::found(&found, &look));
            return Ending::BadInput;
        }
        self.output.finish(match self.output.format {
            Format::Text => Ok(terminal::found(&found, &look)),
            Format::Json => json::found(&found),
        })
    }
}
