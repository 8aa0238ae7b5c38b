//! One job, from its line to its row.

use super::cache::{Cache, Kept, Key, Place};
use super::lines::Line;
use super::plans::Plans;
use crate::answer::class::class;
use crate::answer::split::{Demands, split};
use crate::answer::{Anew, PackError, study};
use crate::cli::verbosity::quiet;
use crate::diagnostic::quoted;
use crate::domain::Scenario;
use crate::files::read::source;
use crate::load::{Loaded, Shelf, Source, Unreadable};
use crate::milp::SolveOptions;
use crate::report::Look;
use crate::report::json::{Row, Status};
use crate::season::{Job, Task, Written};
use crate::units::UnitSystem;
use fardel_words::{current, say, within};
use std::borrow::Cow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

/// Scenarios kept beside those that are worked on.
const KEPT: usize = 4;
/// Plans kept open for jobs with other limits.
const PLANS: usize = 16;
/// Decides the draws of every study.
const SEED: u64 = 1;
/// How what is short of a trip is shown.
const LOOK: Look = Look { units: UnitSystem::Metric, width: 110 };

/// What all jobs share.
pub(super) struct Works {
    shelf: Shelf,
    folder: PathBuf,
    options: SolveOptions,
    brief: bool,
    draws: u64,
    workers: usize,
    cache: Cache,
    plans: Plans,
}

/// How a job ended, and its line.
type Told = (Status, String);

impl Works {
    pub(super) fn new(
        (shelf, folder): (Shelf, PathBuf),
        options: SolveOptions,
        (brief, draws): (bool, u64),
        workers: usize,
    ) -> Self {
        Self {
            shelf,
            folder,
            options,
            brief,
            draws,
            workers,
            cache: Cache::new(KEPT + workers),
            plans: Plans::new(PLANS),
        }
    }

    pub(super) const fn workers(&self) -> usize {
        self.workers
    }

    /// The row of a job. Whatever happens in there, it happens to this job alone.
    pub(super) fn row(&self, line: &Line) -> Told {
        match &line.job {
            // All rows in the language of the command: scenarios are kept, and who reads one first is a matter of chance.
            Ok(job) => {
                catch_unwind(AssertUnwindSafe(|| within(current(), || self.answered(job)))).unwrap_or_else(|panic| {
                    let said = panic.downcast_ref::<String>().cloned();
                    let said = said.or_else(|| panic.downcast_ref::<&str>().map(|text| (*text).to_owned()));
                    let said = said.unwrap_or_else(|| say!("no reason is given"));
                    failed(Some(&job.id), None, Status::Defect, &[say!("internal error: {said}")])
                })
            }
            Err(refused) => {
                let number = refused.id.is_none().then_some(line.number);
                failed(refused.id.as_deref(), number, Status::BadInput, &refused.errors)
            }
        }
    }

    fn answered(&self, job: &Job) -> Told {
        let bad = |errors: &[String]| failed(Some(&job.id), None, Status::BadInput, errors);
        let key = match self.key(job) {
            Ok(key) => key,
            Err(unreadable) => return bad(&[unreadable.fault().to_string()]),
        };
        let place = self.cache.get(key, |key| self.load(key));
        let loaded = match place.get() {
            Some(Ok(loaded)) => loaded,
            Some(Err(errors)) => return bad(errors),
            None => return failed(Some(&job.id), None, Status::Defect, &[say!("internal error: nothing loaded")]),
        };
        let patched = match job.patches.apply(&loaded.catalogue, &loaded.scenario) {
            Ok(patched) => patched,
            Err(errors) => return bad(&errors),
        };
        match (job.task, patched.rider) {
            (Task::Split, _) => self.split(job, loaded, &patched.scenario),
            (Task::Class, _) => self.class(job, loaded, &patched.scenario),
            (Task::Pack, Some(rider)) => self.pack(job, (&place, loaded), &patched.scenario, rider),
            (Task::Study, Some(rider)) => self.study(job, loaded, &patched.scenario, rider),
            (Task::Pack | Task::Study, None) => {
                let names: Vec<&str> = patched.scenario.riders.iter().map(|rider| rider.name.as_str()).collect();
                bad(&[say!("`rider` is missing, and the scenario has several: {}", names.join(", "))])
            }
        }
    }

    fn pack(&self, job: &Job, (place, loaded): (&Place, &Loaded), scenario: &Scenario, rider: usize) -> Told {
        let open = self.plans.open(place, &loaded.catalogue, (scenario, rider), &self.options);
        let packed = open.and_then(|mut live| {
            let anew = if self.brief { Anew::None } else { Anew::default() };
            let answer = live.packed(anew, !self.brief)?;
            self.plans.keep(place, live);
            Ok(answer)
        });
        match packed {
            Ok(mut answer) => {
                answer.warnings.extend(notes(loaded));
                written(&Row { id: Some(&job.id), line: None, status: Status::Answered, errors: &[] }, |row| {
                    row.pack(&answer, self.brief)
                })
            }
            Err(error) => {
                let catalogue: Cow<'_, _> = loaded.catalogue.as_weighed_by(&scenario.riders[rider]);
                refused(job, &catalogue, &error)
            }
        }
    }

    fn split(&self, job: &Job, loaded: &Loaded, scenario: &Scenario) -> Told {
        match split(&loaded.catalogue, scenario, &Demands::default(), None, &self.options) {
            Ok(mut answer) => {
                answer.warnings.extend(notes(loaded));
                written(&Row { id: Some(&job.id), line: None, status: Status::Answered, errors: &[] }, |row| {
                    row.split(&answer)
                })
            }
            Err(error) => refused(job, &loaded.catalogue, &error),
        }
    }

    fn class(&self, job: &Job, loaded: &Loaded, scenario: &Scenario) -> Told {
        let mut answer = class(&loaded.catalogue, scenario, &self.options);
        answer.warnings.extend(notes(loaded));
        written(&Row { id: Some(&job.id), line: None, status: Status::Answered, errors: &[] }, |row| row.class(&answer))
    }

    fn study(&self, job: &Job, loaded: &Loaded, scenario: &Scenario, rider: usize) -> Told {
        let rider = &scenario.riders[rider];
        match study((&loaded.catalogue, scenario, rider), (self.draws, SEED), &self.options) {
            Ok(answer) => {
                let row = Row { id: Some(&job.id), line: None, status: Status::Answered, errors: &[] };
                written(&row, |row| row.study(&answer))
            }
            Err(error) => refused(job, &loaded.catalogue, &error),
        }
    }

    fn key(&self, job: &Job) -> Result<Key, Unreadable> {
        let files = job.files.clone();
        Ok(match &job.scenario {
            Written::Text(text) => Key { name: None, text: text.clone(), files },
            Written::File(name) => {
                let read = source(&self.folder.join(name))?;
                Key { name: Some(read.name), text: read.text, files }
            }
        })
    }

    fn load(&self, key: &Key) -> Kept {
        let beside = key.name.as_deref().and_then(|name| Path::new(name).parent()).unwrap_or(&self.folder);
        let read_extra = |name: &str| match key.files.get(name) {
            Some(text) => Ok(Source { name: name.to_owned(), text: text.clone() }),
            None if key.files.is_empty() => source(&beside.join(name)),
            None => {
                let reason = say!("no such file among the job's {}", quoted("files"));
                Err(Unreadable { name: name.to_owned(), reason })
            }
        };
        let name = key.name.clone().unwrap_or_else(|| "scenario_text".to_owned());
        let loaded = self.shelf.load(Ok(Source { name, text: key.text.clone() }), &read_extra);
        loaded.map(Loaded::with_doubts).map_err(|faults| faults.0.iter().map(ToString::to_string).collect())
    }
}

fn notes(loaded: &Loaded) -> Vec<String> {
    if quiet() { Vec::new() } else { loaded.notes.clone() }
}

/// Why there is no kit.
fn refused(job: &Job, catalogue: &crate::domain::Catalogue, error: &PackError) -> Told {
    let status = match error {
        PackError::Infeasible { .. } | PackError::OutOfTime => Status::NoKit,
        PackError::TooMuch(_) => Status::BadInput,
        PackError::Engine(_) | PackError::Unverified { .. } => Status::Defect,
    };
    let mut errors = vec![error.to_string()];
    if let PackError::Unverified { violations, dump } = error {
        errors.extend(violations.iter().map(|own| say!("{}: {} (by {})", own.rule, own.what, own.by)));
        errors.push(dump.clone());
    }
    let row = Row { id: Some(&job.id), line: None, status, errors: &errors };
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            written(&row, |row| row.infeasible(catalogue, (shortfalls, ways), &LOOK))
        }
        _ => written(&row, Row::failed),
    }
}

fn failed(id: Option<&str>, line: Option<u64>, status: Status, errors: &[String]) -> Told {
    written(&Row { id, line, status, errors }, Row::failed)
}

/// The row as a line; one that cannot be written says so.
fn written<'a>(row: &Row<'a>, write: impl Fn(&Row<'a>) -> Result<String, serde_json::Error>) -> Told {
    match write(row) {
        Ok(line) => (row.status, line),
        Err(error) => {
            let errors = [say!("internal error: the answer cannot be written: {error}")];
            let row = Row { status: Status::Defect, errors: &errors, ..row.clone() };
            (Status::Defect, row.failed().unwrap_or_default())
        }
    }
}
