//! `fardel measure-first`.

use super::output::{Format, OutputArguments};
use super::refusal::refuse;
use super::settings::SolveArguments;
use super::trip::TripArguments;
use super::{Ending, progress};
use crate::answer::{self, MEASURE_DRAWS};
use crate::report::{json, terminal};
use clap::Args;
use fardel_words::word;

/// Say which numbers are worth knowing better before this trip: your falls, a repair time, the hours to help.
///
/// Everything uncertain is drawn many times, as far as what it rests on leaves it open. A number is worth what a better
/// choice of kit saves, on average, once the number is known.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel measure-first scenarios/five-day-loop.yaml --top 10")]
pub(super) struct MeasureFirst {
    #[command(flatten)]
    trip: TripArguments,
    /// How many to show, what is worth most first
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(1..=1000))]
    top: u16,
    /// Draws for each of which the best kit is found; the gains are those of choosing among these kits
    #[arg(long, value_name = "K", default_value_t = 40, value_parser = clap::value_parser!(u64).range(2..=1000))]
    kits: u64,
    /// Draws by which the gains are judged; four times as many halve the error
    #[arg(long, value_name = "N", default_value_t = MEASURE_DRAWS, value_parser = clap::value_parser!(u64).range(100..=100_000))]
    draws: u64,
    /// Number that decides the draws
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    output: OutputArguments<Format>,
}

impl MeasureFirst {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let opened = match self.output.unobstructed(None).and_then(|()| self.trip.open()) {
            Ok(opened) => opened,
            Err(ending) => return ending,
        };
        let (catalogue, scenario, rider) = (opened.catalogue(), opened.scenario(), opened.rider());
        let options = self.options.each();
        let measured = progress::while_counting(word!("packing again"), self.kits, |done| {
            let draws = (self.kits, self.draws, self.seed);
            answer::measure_first((catalogue, scenario, rider), draws, &options, done)
        });
        match measured {
            Ok(measure) => self.output.finish(match self.output.format {
                Format::Text => Ok(terminal::measure_first(&scenario.name, &measure, usize::from(self.top), &look)),
                Format::Json => json::measure_first((&scenario.name, &rider.name), self.seed, &measure)
                    .map_err(|error| error.to_string()),
            }),
            Err(error) => refuse(catalogue, &error, &look),
        }
    }
}
