//! `fardel pack`.

use super::settings::{CatalogueArguments, EffortArguments, Format, OutputArguments};
use super::{Ending, complain, progress};
use crate::answer::{self, PackError};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::load;
use crate::report::{self, Look};
use clap::Args;
use std::path::PathBuf;

/// Choose and stow the kit for a scenario.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel pack scenarios/five-day-loop.yaml --units imperial")]
pub(super) struct Pack {
    /// Scenario file: trip, riders, limits
    scenario: PathBuf,
    /// Rider to pack for, where the scenario has several
    #[arg(long, value_name = "NAME")]
    rider: Option<String>,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    #[command(flatten)]
    effort: EffortArguments,
    #[command(flatten)]
    output: OutputArguments,
}

impl Pack {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let loaded = match load::load(&self.scenario, self.catalogue.catalogues.as_deref()) {
            Ok(loaded) => loaded,
            Err(faults) => {
                complain(&faults.to_string());
                return Ending::BadInput;
            }
        };
        let rider = match self.choose_rider(&loaded.scenario) {
            Ok(rider) => rider,
            Err(message) => {
                complain(&message);
                return Ending::BadInput;
            }
        };
        let effort = self.effort.effort();
        let packed = progress::while_busy("weighing one thing against another", || {
            answer::pack(&loaded.catalogue, &loaded.scenario, rider, &effort)
        });
        match packed {
            Ok(mut answer) => {
                answer.warnings.extend(loaded.notes.iter().cloned());
                self.show(&answer, &look)
            }
            Err(error) => explain(&loaded.catalogue, &error, &look),
        }
    }

    fn choose_rider<'a>(&self, scenario: &'a Scenario) -> Result<&'a Rider, String> {
        let names = || scenario.riders.iter().map(|rider| rider.name.as_str()).collect::<Vec<_>>().join(", ");
        match (&self.rider, scenario.riders.as_slice()) {
            (Some(name), riders) => riders
                .iter()
                .find(|rider| rider.name == *name)
                .ok_or_else(|| format!("--rider {name}: no such rider; the scenario has {}", names())),
            (None, [only]) => Ok(only),
            (None, _) => Err(format!("the scenario has several riders: choose one with --rider ({})", names())),
        }
    }

    fn show(&self, answer: &answer::PackAnswer, look: &Look) -> Ending {
        let text = match self.output.format {
            Format::Text => Ok(report::terminal::pack(answer, look)),
            Format::Json => report::json::pack(answer),
        };
        match text {
            Ok(text) => self.output.deliver(&text),
            Err(error) => {
                complain(&format!("internal error: the answer cannot be written as JSON: {error}"));
                Ending::Defect
            }
        }
    }
}

fn explain(catalogue: &Catalogue, error: &PackError, look: &Look) -> Ending {
    match error {
        PackError::Infeasible { shortfalls } => {
            complain(&report::terminal::infeasible(catalogue, shortfalls, look));
            Ending::NoKit
        }
        PackError::OutOfTime => {
            complain("Time ran out before any kit was found: allow more with --time-limit.");
            Ending::NoKit
        }
        PackError::Engine(fault) => {
            complain(&format!("internal error: {fault}"));
            Ending::Defect
        }
        PackError::Unverified { violations, dump } => {
            complain("internal error: the answer did not survive checking and is withheld.");
            for violation in violations {
                complain(&format!("- {}: {} (by {})", violation.rule, violation.what, violation.by));
            }
            complain(dump);
            Ending::Defect
        }
    }
}
