//! `fardel evidence`.

use super::output::{Format, OutputArguments, put};
use super::trip::Known;
use super::{Ending, complain};
use crate::domain::Catalogue;
use crate::evidence::{Derivation, derive, overview, rested_on};
use crate::report::{files, json, terminal};
use clap::Args;
use fardel_words::say;
use std::path::PathBuf;

/// Show what the failure rates rest on: trip logs, call-outs, inspections and life tests, pooled.
///
/// Without a failure, a line for each group of events: how often it was seen, how often the typed-in rates and the rates worked
/// out would have it, and how wide that leaves the rate of one bike. With one, every source that bears on it.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel evidence\n  fardel evidence chain-broken\n  \
                  fardel evidence --rates catalogues/rates.yaml --replace")]
pub(super) struct Evidence {
    /// Id of a failure
    failure: Option<String>,
    /// File to write the rates worked out to, as a catalogue
    #[arg(long, value_name = "FILE", conflicts_with = "failure")]
    rates: Option<PathBuf>,
    /// Replace the file of rates if it is there already
    #[arg(long, requires = "rates")]
    replace: bool,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments<Format>,
}

impl Evidence {
    pub(super) fn run(&self) -> Ending {
        let catalogue = match self.output.unobstructed(None).and_then(|()| self.known.catalogue()) {
            Ok(catalogue) => catalogue,
            Err(ending) => return ending,
        };
        let derivation = derive(&catalogue, None);
        if let Some(path) = &self.rates {
            return put(&files::derived(&catalogue, &derivation), Some(path), self.replace);
        }
        match &self.failure {
            None => self.all(&catalogue, &derivation),
            Some(id) => self.one(&catalogue, &derivation, id),
        }
    }

    fn all(&self, catalogue: &Catalogue, derivation: &Derivation) -> Ending {
        let groups = overview(catalogue, derivation);
        self.output.finish(match self.output.format {
            Format::Text => Ok(terminal::evidence(&groups, &self.output.look())),
            Format::Json => json::evidence(&groups),
        })
    }

    fn one(&self, catalogue: &Catalogue, derivation: &Derivation, id: &str) -> Ending {
        let Some(failure) = catalogue.failures.get(id) else {
            complain(&say!("No failure has the id `{id}`; `fardel find` looks for one."));
            return Ending::BadInput;
        };
        let rested = rested_on(catalogue, derivation, id);
        self.output.finish(match self.output.format {
            Format::Text => Ok(terminal::rested(catalogue, failure, rested.as_ref(), &self.output.look())),
            Format::Json => json::rested(failure, rested.as_ref()),
        })
    }
}
