//! `fardel check`.

use super::output::{Format, told};
use super::settings::CatalogueArguments;
use super::{Ending, complain};
use crate::diagnostic::Faults;
use crate::domain::Catalogue;
use crate::files::write;
use crate::lint::{self, Checked, Doubt, Warning};
use crate::load::{self, Origins, Sort, Source};
use crate::report::{json, terminal};
use crate::resolve::resolve_group;
use clap::Args;
use fardel_words::{say, several, word};
use std::path::{Path, PathBuf};

/// Read catalogues, scenarios and gear files and report every problem and oddity.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel check scenarios/five-day-loop.yaml\n\n\
Exit status: 2 if a file cannot be used, 0 if there are only things to look at.")]
pub(super) struct Check {
    /// Scenarios, gear files (YAML or CSV), or catalogue files to be read on top of the catalogue
    files: Vec<PathBuf>,
    /// Shape of the report
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

impl Check {
    pub(super) fn run(&self) -> Ending {
        let sorted: Vec<(&PathBuf, Sort)> = self.files.iter().map(|path| (path, sort_of(path))).collect();
        let of = |wanted: Sort| sorted.iter().filter(move |(_, sort)| *sort == wanted).map(|(path, _)| path.as_path());
        let (checked, catalogue) = self.check_catalogue(&of(Sort::Catalogue).collect::<Vec<_>>());
        let known = checked.warnings.clone();
        let mut all = vec![checked];
        all.extend(of(Sort::Scenario).map(|path| self.check_scenario(path, &known)));
        if let Some(catalogue) = &catalogue {
            all.extend(of(Sort::Gear).map(|path| check_gear(path, catalogue)));
        }
        self.deliver(&all)
    }

    fn deliver(&self, all: &[Checked]) -> Ending {
        let sound = all.iter().all(|checked| checked.faults.is_empty());
        let text = match self.format {
            Format::Text => {
                let broken = all.iter().filter(|checked| !checked.faults.is_empty());
                broken.for_each(|checked| complain(&Faults(checked.faults.clone()).to_string()));
                Ok(terminal::check(all))
            }
            Format::Json => json::check(all),
        };
        match text {
            Ok(text) => match told(write::print(&text)) {
                Ending::Answered if !sound => Ending::BadInput,
                ending => ending,
            },
            Err(error) => {
                complain(&say!("internal error: the report cannot be written as JSON: {error}"));
                Ending::Defect
            }
        }
    }

    /// The catalogue with further files on top.
    fn check_catalogue(&self, extras: &[&Path]) -> (Checked, Option<Catalogue>) {
        let sources = self.catalogue.sources();
        let extras: Vec<Source> = extras.iter().filter_map(|path| load::source(path).ok()).collect();
        let read = sources.and_then(|sources| load::catalogue_with_origins(&sources, &extras));
        let mut checked = Checked { file: word!("Catalogue").to_owned(), sort: Sort::Catalogue, ..Checked::default() };
        match read {
            Err(faults) => {
                checked.faults = faults.0;
                (checked, None)
            }
            Ok((catalogue, origins)) => {
                checked.title = contents(&catalogue);
                checked.notes = scale(&catalogue);
                let doubts = lint::catalogue(&catalogue);
                checked.warnings = doubts.into_iter().map(|doubt| traced(doubt, &origins)).collect();
                (checked, Some(catalogue))
            }
        }
    }

    /// What the catalogue itself is doubted for is told once, there.
    fn check_scenario(&self, path: &Path, known: &[Warning]) -> Checked {
        let file = path.display().to_string();
        let mut checked = Checked { file: file.clone(), sort: Sort::Scenario, ..Checked::default() };
        match load::load(path, self.catalogue.catalogues.as_deref()) {
            Err(faults) => checked.faults = faults.0,
            Ok(loaded) => {
                let riders = &loaded.scenario.riders;
                let instance = resolve_group(&loaded.catalogue, &loaded.scenario, riders);
                let ranges = instance.iter().flat_map(terminal::range_notes);
                let own = lint::catalogue(&loaded.catalogue).into_iter().chain(lint::scenario(&loaded.scenario));
                let own = own.chain(lint::trip(&loaded.catalogue, &loaded.scenario));
                let own = own.map(|doubt| Warning::new(doubt, &file, None));
                let told = |new: &Warning| known.iter().any(|old| old.place == new.place && old.what == new.what);
                checked.warnings = own.filter(|warning| !told(warning)).collect();
                checked.notes = loaded.notes.into_iter().chain(ranges).collect();
                checked.title = loaded.scenario.name;
            }
        }
        checked
    }
}

/// A file that cannot be read is taken for a scenario, whose loader says why.
fn sort_of(path: &Path) -> Sort {
    load::source(path).map_or(Sort::Scenario, |source| Sort::of(&source))
}

fn check_gear(path: &Path, catalogue: &Catalogue) -> Checked {
    let file = path.display().to_string();
    let mut checked = Checked { file: file.clone(), sort: Sort::Gear, ..Checked::default() };
    match load::gear(path, catalogue) {
        Err(faults) => checked.faults = faults.0,
        Ok(gear) => {
            let doubts = lint::things(&gear.weighed).into_iter();
            checked.warnings = doubts.map(|doubt| Warning::new(doubt, &file, None)).collect();
            checked.title = gear.title;
        }
    }
    checked
}

fn traced(doubt: Doubt, origins: &Origins) -> Warning {
    let origin = origins.of(doubt.section, &doubt.id);
    let (file, line) = origin.unwrap_or(("catalogue", None));
    let (file, line) = (file.to_owned(), line);
    Warning::new(doubt, &file, line)
}

/// Which things to weigh first.
fn scale(catalogue: &Catalogue) -> Vec<String> {
    let names = lint::for_the_scale(catalogue);
    if names.is_empty() {
        return Vec::new();
    }
    let what = word!(
        "Put these on a kitchen scale first and write the masses into a gear file; they matter most to the shipped trips"
    );
    vec![format!("{what}: {}.", names.join("; "))]
}

fn contents(catalogue: &Catalogue) -> String {
    let repairs: usize = catalogue.failures.values().map(|failure| failure.repairs.len()).sum();
    say!(
        "{}, {} with {}, {}, {}, {}",
        several!(catalogue.items.len(), "{n} item", "{n} items"),
        several!(catalogue.failures.len(), "{n} failure", "{n} failures"),
        several!(repairs, "{n} repair", "{n} repairs"),
        several!(catalogue.bikes.len(), "{n} bike", "{n} bikes"),
        several!(catalogue.bags.len(), "{n} bag", "{n} bags"),
        several!(catalogue.preparations.len(), "{n} preparation", "{n} preparations"),
    )
}
