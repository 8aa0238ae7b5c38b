//! Arguments that several commands share, and what they mean.

use crate::diagnostic::Faults;
use crate::domain::Scenario;
use crate::load::{self, Source, chance};
use crate::milp::{Engine, SolveOptions};
use clap::{Args, ValueEnum};
use fardel_words::say;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// Where the catalogue comes from.
#[derive(Debug, Args)]
pub(super) struct CatalogueArguments {
    /// Folder of catalogue files to use instead of the shipped ones
    #[arg(long, value_name = "DIR")]
    pub catalogues: Option<PathBuf>,
}

impl CatalogueArguments {
    /// The catalogue files: those of the folder, or the shipped ones.
    ///
    /// # Errors
    /// What is wrong with the folder.
    pub(super) fn sources(&self) -> Result<Vec<Source>, Faults> {
        self.catalogues.as_deref().map_or_else(|| Ok(load::shipped()), load::catalogue_files)
    }
}

/// Heading of the options that say how an answer is looked for.
const SOLVER: &str = "Solver";

/// How hard to try.
#[derive(Debug, Args)]
pub(super) struct SolveArguments {
    /// Solver to use
    #[arg(long, value_enum, default_value_t = EngineName::Microlp, help_heading = SOLVER)]
    engine: EngineName,
    /// Answer by then [default: 20]; `none`: until proven
    #[arg(long, value_name = "SECONDS", value_parser = patience, env = "FARDEL_TIME_LIMIT", hide_env = true,
        help_heading = SOLVER)]
    time_limit: Option<Patience>,
    /// Stop when no kit can be better by more than this share (0.01 is 1 %)
    #[arg(long, value_name = "SHARE", default_value_t = 0.0, value_parser = share, help_heading = SOLVER)]
    gap: f64,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum EngineName {
    // Pure Rust, always there
    Microlp,
    // C++, if the program was built with it
    #[cfg(feature = "highs")]
    Highs,
}

/// How long a rider waits for an answer.
#[derive(Debug, Clone, Copy)]
enum Patience {
    /// So many seconds.
    Seconds(f64),
    /// As long as it takes.
    Endless,
}

/// As long as a rider waits who says nothing.
const PATIENCE: Duration = Duration::from_secs(20);

impl SolveArguments {
    /// For one answer, which a rider waits for.
    pub(super) fn options(&self) -> SolveOptions {
        let time_limit = self.time_limit.map_or(Some(PATIENCE), Patience::limit);
        SolveOptions { time_limit, ..self.without_limit() }
    }

    /// For what belongs to an answer that was begun so long ago.
    pub(super) fn rest(&self, begun: Instant) -> SolveOptions {
        let options = self.options();
        let left = options.time_limit.map(|limit| limit.saturating_sub(begun.elapsed()));
        SolveOptions { time_limit: left, ..options }
    }

    /// For one of many answers that were asked for: a limit only where one was set, for each of them.
    pub(super) fn each(&self) -> SolveOptions {
        SolveOptions { time_limit: self.time_limit.and_then(Patience::limit), ..self.without_limit() }
    }

    fn without_limit(&self) -> SolveOptions {
        let engine = match self.engine {
            EngineName::Microlp => Engine::Microlp,
            #[cfg(feature = "highs")]
            EngineName::Highs => Engine::Highs,
        };
        SolveOptions { engine, time_limit: None, gap: self.gap }
    }
}

/// Limits that can be set beside those of the scenario.
#[derive(Debug, Args)]
pub(super) struct LimitArguments {
    /// Most that the chance of being stranded may be, such as 1/500
    #[arg(long, value_name = "CHANCE", value_parser = chance)]
    stranded_at_most: Option<f64>,
}

impl LimitArguments {
    /// Sets them in the place of the scenario's.
    pub(super) fn apply(&self, scenario: &mut Scenario) {
        scenario.limits.stranded = self.stranded_at_most.or(scenario.limits.stranded);
    }
}

impl Patience {
    fn limit(self) -> Option<Duration> {
        match self {
            Self::Seconds(seconds) => Some(Duration::from_secs_f64(seconds)),
            Self::Endless => None,
        }
    }
}

fn patience(text: &str) -> Result<Patience, String> {
    if text == "none" {
        return Ok(Patience::Endless);
    }
    let seconds = text.parse().ok().filter(|s: &f64| *s > 0.0 && *s <= 1e6);
    seconds.map(Patience::Seconds).ok_or_else(|| say!("a number of seconds above 0, or `none`, is expected"))
}

fn share(text: &str) -> Result<f64, String> {
    text.parse()
        .ok()
        .filter(|s: &f64| (0.0..1.0).contains(s))
        .ok_or_else(|| say!("a share from 0 to below 1 is expected, such as 0.01"))
}
