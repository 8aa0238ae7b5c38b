//! `fardel pack`.

use super::refusal::refuse;
use super::settings::{EffortArguments, Format, OutputArguments};
use super::trip::TripArguments;
use super::{Ending, progress};
use crate::{answer, report};
use clap::Args;

/// Choose and stow the kit for a scenario.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel pack scenarios/five-day-loop.yaml --units imperial")]
pub(super) struct Pack {
    #[command(flatten)]
    trip: TripArguments,
    #[command(flatten)]
    effort: EffortArguments,
    #[command(flatten)]
    output: OutputArguments,
}

impl Pack {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let opened = match self.trip.open() {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let packed = progress::while_busy("weighing one thing against another", || {
            answer::pack(opened.catalogue(), opened.scenario(), opened.rider(), &self.effort.effort())
        });
        match packed {
            Ok(mut answer) => {
                answer.warnings.extend(opened.notes().iter().cloned());
                self.output.finish(match self.output.format {
                    Format::Text => Ok(report::terminal::pack(&answer, &look)),
                    Format::Json => report::json::pack(&answer),
                })
            }
            Err(error) => refuse(opened.catalogue(), &error, &look),
        }
    }
}
