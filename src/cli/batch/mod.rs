//! `fardel batch`.

mod cache;
mod lines;
mod plans;
mod pool;
mod tally;
mod work;

use super::complaint::bad_input;
use super::output::not_read;
use super::settings::{CatalogueArguments, SolveArguments};
use super::{Ending, complain, progress};
use crate::files::growing::Growing;
use crate::files::stop;
use crate::load::Shelf;
use crate::report::json::Status;
use clap::Args;
use fardel_words::{say, word};
use lines::{Form, Line, Lines};
use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::thread::available_parallelism;
use tally::Tally;
use work::Works;

/// Work off many jobs on all cores: one line of results for each, in the same order.
///
/// A job is a line of JSON, or a row of CSV under a heading. Its keys: `id` (its own), `command` (pack, the default, split,
/// class or study), `scenario` (name of a file) or `scenario_text` (the text itself), `files` (texts of files that the scenario
/// names, by name), and what is changed in the scenario: `rider`, `bike`, `limits.kit_mass`, `limits.kit_volume`,
/// `limits.budget`, `limits.stranded_at_most`, `hours_to_help` (of every leg).
///
/// A result is a line of JSON with `id`, `status` (answered, `no_kit`, `bad_input`, defect), `errors` and `answer`, which is
/// what the command prints with --format json. What is wrong with one job stops no other. A job without a readable id is
/// told by its `line`.
///
/// With --out, lines gather in FILE.part, which becomes FILE when all jobs are done. Ctrl-C lets the jobs at hand finish
/// and keeps every line; a second one ends at once. --resume goes on from there: a job whose line is there counts as done,
/// however it ended, and must have the same id as the job in its place.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel season-jobs --seed 1 --jobs 2000 --out jobs.jsonl\n  \
                        fardel batch jobs.jsonl --brief --out results.jsonl")]
pub(super) struct Batch {
    /// File of jobs; `-` reads standard input
    #[arg(value_name = "JOBS")]
    jobs: PathBuf,
    /// Jobs are rows of CSV, as they are anyway in a file whose name ends in .csv
    #[arg(long)]
    csv: bool,
    /// Folder that names of scenarios begin at, instead of that of the jobs (standard input: the one you are in)
    #[arg(long, value_name = "DIR")]
    folder: Option<PathBuf>,
    /// Jobs worked on side by side; as many as there are cores if left out
    #[arg(long, value_name = "N")]
    workers: Option<NonZeroUsize>,
    /// Short answers of pack: figures, kit, what to buy and what stays open; saves room and half of the time
    #[arg(long)]
    brief: bool,
    /// Draws of rates in each study, which says what the numbers of a trip would be worth if they were known better
    #[arg(long, value_name = "K", default_value_t = 16, value_parser = clap::value_parser!(u64).range(2..=1000))]
    draws: u64,
    /// Number of the first line, where the jobs are cut out of a longer file
    #[arg(long, value_name = "N", default_value_t = 1)]
    first_line: u64,
    #[command(flatten)]
    to: To,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    #[command(flatten)]
    options: SolveArguments,
}

/// Where the results go.
#[derive(Debug, Args)]
struct To {
    /// Write the results to a file instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out", conflicts_with = "resume")]
    force: bool,
    /// Go on where an earlier run was stopped
    #[arg(long, requires = "out")]
    resume: bool,
}

impl Batch {
    pub(super) fn run(&self) -> Ending {
        match self.prepared() {
            Ok((works, lines, results)) => self.work(&works, lines, results),
            Err(message) => bad_input(message),
        }
    }

    /// The catalogue, the jobs that are still to do, and where the results go.
    fn prepared(&self) -> Result<(Works, Lines, Growing), String> {
        let shelved = self.catalogue.sources().and_then(|sources| Shelf::with_catalogue(&sources));
        let (shelf, _) = shelved.map_err(|faults| faults.to_string())?;
        let mut lines = Lines::open(&self.jobs, self.form(), self.first_line)?;
        let results = self.results(&mut lines)?;
        let workers = self.workers.or_else(|| available_parallelism().ok()).map_or(1, NonZeroUsize::get);
        let works = Works::new((shelf, self.begin_at()), self.options.each(), (self.brief, self.draws), workers);
        Ok((works, lines, results))
    }

    fn form(&self) -> Form {
        let ending = self.jobs.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
        if self.csv || ending { Form::Csv } else { Form::Json }
    }

    /// The folder that names of scenarios begin at.
    fn begin_at(&self) -> PathBuf {
        let beside = || self.jobs.parent().unwrap_or_else(|| Path::new("")).to_owned();
        self.folder.clone().unwrap_or_else(beside)
    }

    /// Where results go; jobs that are done are taken off the lines.
    fn results(&self, lines: &mut Lines) -> Result<Growing, String> {
        let Some(out) = &self.to.out else { return Ok(Growing::printed()) };
        if not_read([out]).is_err() {
            return Err(say!("the results need a file of their own"));
        }
        if !self.to.resume {
            return Growing::new(out, self.to.force).map_err(|error| error.to_string());
        }
        let same = |row: &str| {
            let line = lines.next().transpose().map_err(|error| error.to_string())?;
            lines::same_job(row, line.as_ref())
        };
        Growing::resumed(out, same)
    }

    fn work(&self, works: &Works, lines: Lines, mut results: Growing) -> Ending {
        stop::gently();
        let left = progress::is_shown().then(|| Lines::count(&self.jobs, self.form())).flatten();
        let left = left.map(|all| all.saturating_sub(results.before()));
        let mut tally = Tally::begin();
        let mut unwritten = None;
        let unread = progress::while_streaming("jobs", left, |done| {
            pool::in_order(lines, works.workers(), |line: &Line| works.row(line), &mut |(status, row): (
                Status,
                String,
            )| {
                tally.add(status);
                done(1);
                match results.add(&row) {
                    Ok(true) => ControlFlow::Continue(()),
                    Ok(false) => ControlFlow::Break(()),
                    Err(error) => {
                        unwritten = Some(error.to_string());
                        ControlFlow::Break(())
                    }
                }
            })
        });
        if let Some(message) = unread.err().map(|error| say!("the jobs cannot be read on: {error}")).or(unwritten) {
            return bad_input(message);
        }
        tally.tell(results.before());
        if stop::asked() {
            complain(word!("Stopped; every finished job is kept."));
            stop::end();
        }
        match results.finish() {
            Ok(()) => Ending::Answered,
            Err(error) => bad_input(error.to_string()),
        }
    }
}
