//! `fardel season` and `fardel season-jobs`.

use super::Ending;
use super::complaint::bad_input;
use super::output::{OutputArguments, put};
use super::settings::CatalogueArguments;
use crate::load;
use crate::report::{self, papers};
use crate::season::{JobResult, Season as Tally, draw};
use clap::{Args, ValueEnum};
use std::fs::File;
use std::io::{BufRead, BufReader, Read, stdin};
use std::path::{Path, PathBuf};

/// What many answers come to: what is bought most, which spare is carried where, coverage by bike and route, what a support
/// vehicle could bring, and, of studies, which numbers to measure first.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel season results.jsonl --format html --out season.html")]
pub(super) struct Season {
    /// Results of `fardel batch`; `-` reads standard input
    #[arg(value_name = "RESULTS")]
    results: PathBuf,
    #[command(flatten)]
    output: OutputArguments<SeasonFormat>,
}

/// Shapes of a season.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum SeasonFormat {
    /// For reading
    Text,
    /// For a spreadsheet: a flat row for each line of the tables
    Csv,
    /// For machines; versioned
    Json,
    /// For a browser or on paper: one file that loads nothing
    Html,
}

/// Longest result that is taken.
const LONGEST: u64 = 64 << 20;

impl Season {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        let season = match self.output.unobstructed(None).map(|()| self.read()) {
            Ok(Ok(season)) => season,
            Ok(Err(message)) => return bad_input(message),
            Err(ending) => return ending,
        };
        self.output.finish(match self.output.format {
            SeasonFormat::Text => Ok(papers::season(&season, &look).text(&look)),
            SeasonFormat::Html => papers::season(&season, &look).page(&look).map_err(|error| error.to_string()),
            SeasonFormat::Csv => report::csv::season(&season).map_err(|error| error.to_string()),
            SeasonFormat::Json => report::json::season(&season).map_err(|error| error.to_string()),
        })
    }

    fn read(&self) -> Result<Tally, String> {
        let shown = self.results.display();
        let mut input: Box<dyn BufRead> = if self.results == Path::new("-") {
            Box::new(BufReader::new(stdin()))
        } else {
            crate::files::read::note(&self.results);
            Box::new(BufReader::new(File::open(&self.results).map_err(|error| format!("{shown}: {error}"))?))
        };
        let mut season = Tally::default();
        let mut line = String::new();
        for number in 1_u64.. {
            line.clear();
            let read = input
                .by_ref()
                .take(LONGEST)
                .read_line(&mut line)
                .map_err(|error| format!("{shown}:{number}: {error}"))?;
            if read == 0 {
                break;
            }
            if !line.trim().is_empty() {
                season.add(&JobResult::read(&line).map_err(|wrong| format!("{shown}:{number}: {wrong}"))?);
            }
        }
        Ok(season)
    }
}

/// Draw an invented season: jobs for `fardel batch`, with riders, bikes and garages by a seed.
///
/// Departures of four to ten riders on invented routes; every job packs for one of them. The same seed draws the same
/// season, and a longer one begins with the shorter.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel season-jobs --seed 1 --jobs 2000 --out jobs.jsonl")]
pub(super) struct SeasonJobs {
    /// Number that decides the draws
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// How many jobs
    #[arg(long, value_name = "N", default_value_t = 2000)]
    jobs: usize,
    /// Only routes of at most so many days
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u32).range(1..=5))]
    most_days: Option<u32>,
    /// What each job asks
    #[arg(long, value_enum, default_value_t = Asked::Pack)]
    command: Asked,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Asked {
    /// A kit for the rider
    Pack,
    /// Which numbers are worth knowing better
    Study,
}

impl SeasonJobs {
    pub(super) fn run(&self) -> Ending {
        match self.catalogue.sources().and_then(|sources| load::catalogue(&sources, &[])) {
            Ok(catalogue) => {
                let word = match self.command {
                    Asked::Pack => "pack",
                    Asked::Study => "study",
                };
                let lines = draw(&catalogue, self.seed, self.most_days, word).take(self.jobs);
                let text: String = lines.map(|line| line + "\n").collect();
                put(&text, self.out.as_deref(), self.force)
            }
            Err(faults) => bad_input(faults),
        }
    }
}
