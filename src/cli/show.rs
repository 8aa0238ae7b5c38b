//! `fardel show`.

use super::output::{Format, OutputArguments};
use super::trip::Known;
use super::{Ending, complain};
use crate::find;
use crate::report::{json, terminal};
use clap::Args;
use fardel_words::{say, word};

/// Show everything that is known of one entry of the catalogue, and where its numbers come from.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel show tyre-lever\n  fardel show radiator-holed\n  \
                  fardel show radiator-holed/putty\n  fardel show single-450-tubed")]
pub(super) struct Show {
    /// Id or name of an item, failure, bike, bag or preparation; a repair is FAILURE/REPAIR
    id: String,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments<Format>,
}

/// Entries that are offered of each sort where the id is unknown.
const OFFERED: usize = 4;

impl Show {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let catalogue = match self.output.unobstructed(None).and_then(|()| self.known.catalogue()) {
            Ok(catalogue) => catalogue,
            Err(ending) => return ending,
        };
        let Some(entry) = find::show(&catalogue, &self.id, look.units) else {
            let found = find::find(&catalogue, &self.id, OFFERED);
            let nothing = say!("Nothing in the catalogue has the id or name `{}`.", self.id);
            let near = if found.hits.is_empty() { "" } else { word!(" With these words there is:\n") };
            complain(&format!(
                "{nothing}{near}{}",
                if found.hits.is_empty() { String::new() } else { terminal::found(&found, &look) }
            ));
            return Ending::BadInput;
        };
        self.output.finish(match self.output.format {
            Format::Text => Ok(terminal::entry(&entry, &look)),
            Format::Json => json::entry(&entry),
        })
    }
}
