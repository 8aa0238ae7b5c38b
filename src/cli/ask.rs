//! `fardel ask`.

use super::output::OutputArguments;
use super::refusal::refuse;
use super::settings::{CatalogueArguments, SolveArguments};
use super::{Ending, progress, trip};
use crate::answer::{self, MEASURE_DRAWS, Measure};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::elicit::ask::{Trip, ask};
use crate::load::Loaded;
use crate::report::{ask as pages, terminal};
use clap::{Args, ValueEnum};
use fardel_words::word;
use std::path::PathBuf;

/// Write questions to riders about the numbers that matter most on these trips.
///
/// Each question asks for the lowest and the highest value that a rider could believe, a best guess, and how sure the rider
/// is. The first ones have known answers. `pool` reads the answers back. The numbers asked for are those of `measure-first`
/// that riders can know.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel ask scenarios/five-day-loop.yaml --format html --out questions.html\n  \
                  fardel ask scenarios/five-day-loop.yaml --format csv --out questions.csv\n  \
                  fardel pool anna.csv ben.csv --overlay asked.yaml")]
pub(super) struct Ask {
    /// Scenario files; of each, the trip of the first rider
    #[arg(required = true)]
    scenarios: Vec<PathBuf>,
    /// How many numbers to ask for, beside the questions with known answers
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u16).range(1..=200))]
    top: u16,
    /// Draws for each of which the best kit is found
    #[arg(long, value_name = "K", default_value_t = 20, value_parser = clap::value_parser!(u64).range(2..=1000))]
    kits: u64,
    /// Draws by which is judged what matters
    #[arg(long, value_name = "N", default_value_t = MEASURE_DRAWS, value_parser = clap::value_parser!(u64).range(100..=100_000))]
    draws: u64,
    /// Number that decides the draws
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    output: OutputArguments<AskFormat>,
}

/// Shapes of the questions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum AskFormat {
    /// For reading
    Text,
    /// For a spreadsheet: a row for each question, to be filled in
    Csv,
    /// For a browser without a network: a page to fill in, which saves the answers as a spreadsheet
    Html,
}

impl Ask {
    pub(super) fn run(&self) -> Ending {
        match self.answer() {
            Ok(ending) | Err(ending) => ending,
        }
    }

    fn answer(&self) -> Result<Ending, Ending> {
        let look = self.output.look();
        self.output.unobstructed(None)?;
        let read =
            self.scenarios.iter().map(|path| trip::read(path, &self.catalogue).map_err(super::complaint::bad_input));
        let all: Vec<Loaded> = read.collect::<Result<_, _>>()?;
        let measured: Vec<Measure> = all.iter().map(|loaded| self.measure(loaded)).collect::<Result<_, _>>()?;
        let trips: Vec<Trip<'_>> = all
            .iter()
            .zip(&measured)
            .map(|(loaded, measure)| Trip { scenario: &loaded.scenario, rider: rider(&loaded.scenario), measure })
            .collect();
        let Some(first) = all.first() else { return Err(Ending::BadInput) };
        let questions = ask(&first.catalogue, &trips, usize::from(self.top));
        let names: Vec<&str> = all.iter().map(|loaded| loaded.scenario.name.as_str()).collect();
        let title = names.join("; ");
        Ok(self.output.finish(match self.output.format {
            AskFormat::Text => Ok(terminal::questions(&title, &questions, &look)),
            AskFormat::Csv => pages::csv(&questions),
            AskFormat::Html => pages::html(&title, &questions, &look),
        }))
    }

    fn measure(&self, loaded: &Loaded) -> Result<Measure, Ending> {
        let (catalogue, scenario): (&Catalogue, &Scenario) = (&loaded.catalogue, &loaded.scenario);
        let options = self.options.each();
        let measured = progress::while_counting(word!("packing again"), self.kits, |done| {
            let draws = (self.kits, self.draws, self.seed);
            answer::measure_first((catalogue, scenario, rider(scenario)), draws, &options, done)
        });
        measured.map_err(|error| refuse(catalogue, &error, &self.output.look()))
    }
}

/// The first rider; every scenario that was read has one.
fn rider(scenario: &Scenario) -> &Rider {
    &scenario.riders[0]
}
