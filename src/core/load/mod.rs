//! Reading catalogues and scenarios: all of them or nothing.
//!
//! Text becomes a tree ([`yaml`]), the tree a file shape (`decode`, `multi_error`), the shapes one catalogue (`convert`),
//! and the catalogue is checked against itself and the scenario (`rules`). Every stage gathers faults instead of
//! stopping, and the whole list comes back at once.
//!
//! What a file may hold is limited, far beyond what a trip needs, so that no file takes minutes or gigabytes: the
//! limits are constants beside the code that keeps them (`LARGEST_FILE`, `MOST_...`, `LONGEST...`, `DEEPEST`), and
//! exceeding one is [`Code::TooLarge`](crate::diagnostic::Code::TooLarge) unless another is named there.

mod bike_sheet;
mod convert;
mod decode;
mod exchange;
mod file;
mod findings;
mod gather;
mod json;
mod kit;
mod list;
mod locate;
mod multi_error;
mod node;
mod numbers;
mod origins;
mod quantity;
mod rides;
mod rows;
mod rules;
mod schema;
mod section;
mod shelf;
mod sort;
mod source;
mod tree;
mod trees;
mod words;
mod yaml;

pub use bike_sheet::bike_sheet;
pub use kit::{PackedKit, kit_read, kit_text};
pub use list::{How, List, Taken, list_text, names_path};
pub use origins::Origins;
pub use rides::rides;
pub use schema::{Shape, schema};
pub use shelf::Shelf;
pub use sort::Sort;
pub use source::{Source, Unreadable, is_yaml, shipped};
pub use trees::{tree_json, tree_yaml};

use crate::diagnostic::Faults;
use crate::domain::{Catalogue, Item, Map, Scenario};
use crate::lint;
use fardel_words::{plain, say};
use findings::Findings;
use std::borrow::Cow;
use std::path::Path;

/// A scenario with the catalogue it is about.
#[derive(Debug, Clone, PartialEq)]
pub struct Loaded {
    /// Everything known before the trip.
    pub catalogue: Catalogue,
    /// The trip.
    pub scenario: Scenario,
    /// Which entries of the scenario's own catalogues took the place of others.
    pub notes: Vec<String>,
}

/// Doubts about numbers that are told with an answer; `check` tells all.
const MOST_DOUBTS: usize = 8;

impl Loaded {
    /// The same with numbers that can hardly be believed among its notes.
    #[must_use]
    pub fn with_doubts(mut self) -> Self {
        let own = self.scenario.riders.iter().flat_map(|rider| lint::things(&rider.weighed));
        let doubts = lint::things(&self.catalogue.items).into_iter().chain(own).take(MOST_DOUBTS);
        let told = doubts.map(|doubt| say!("Look again at {}.{}: {}.", doubt.section, doubt.id, doubt.what));
        self.notes.extend(told.collect::<Vec<_>>());
        self
    }

    /// The same with everything as this rider has weighed it.
    #[must_use]
    pub fn as_weighed_by(mut self, rider: usize) -> Self {
        if let Cow::Owned(own) = self.catalogue.as_weighed_by(&self.scenario.riders[rider]) {
            self.catalogue = own;
        }
        self
    }
}

/// Loads a catalogue without a scenario; `extras` override `sources`.
///
/// # Errors
/// [`Faults`] with everything wrong in any of the files.
pub fn catalogue(sources: &[Source], extras: &[Source]) -> Result<Catalogue, Faults> {
    catalogue_with_origins(sources, extras).map(|(catalogue, _)| catalogue)
}

/// The same, with where each entry was written.
///
/// # Errors
/// As [`catalogue`].
pub fn catalogue_with_origins(sources: &[Source], extras: &[Source]) -> Result<(Catalogue, Origins), Faults> {
    let mut findings = Findings::default();
    let (shipped, extra) = (gather::known(sources), gather::known(extras));
    let merged = gather::merged(shipped, extra, &mut findings);
    drafted(&merged, findings)
}

/// The catalogue of merged files, with where each entry was written.
fn drafted(merged: &convert::Merged, mut findings: Findings) -> Result<(Catalogue, Origins), Faults> {
    let draft = convert::catalogue(merged, convert::Purse::default(), &mut findings);
    rules::catalogue(&draft, &mut findings);
    let origins = Origins::new(findings.faultless()?, &draft);
    Ok((draft.catalogue, origins))
}

/// Loads from texts. `read_extra` finds the files that the scenario names under `catalogues` and as a rider's `gear`.
///
/// # Errors
/// [`Faults`] with everything wrong in any of the texts.
pub fn load_texts(
    catalogue: &[Source],
    scenario: Source,
    read_extra: &dyn Fn(&str) -> Result<Source, Unreadable>,
) -> Result<Loaded, Faults> {
    load_read(gather::known(catalogue), Ok(scenario), read_extra)
}

/// The same from texts that could be read and those that could not.
///
/// # Errors
/// [`Faults`] with everything wrong in any of the texts, unreadable ones included.
pub fn load_read(
    catalogue: Vec<Result<Source, Unreadable>>,
    scenario: Result<Source, Unreadable>,
    read_extra: &dyn Fn(&str) -> Result<Source, Unreadable>,
) -> Result<Loaded, Faults> {
    let mut findings = Findings::default();
    let (file, shape) = gather::scenario(scenario, &mut findings);
    let extras = shape.catalogues.iter().map(|name| read_extra(name)).collect();
    let merged = gather::merged(catalogue, extras, &mut findings);
    rest(file, shape, merged, read_extra, findings)
}

/// What follows once all catalogue files are there.
fn rest(
    file: usize,
    mut shape: file::ScenarioFile,
    mut merged: convert::Merged,
    read_extra: &dyn Fn(&str) -> Result<Source, Unreadable>,
    mut findings: Findings,
) -> Result<Loaded, Faults> {
    if let Some(language) = shape.language {
        fardel_words::prefer(language.0);
    }
    if let Some(own) = shape.catalogue.take() {
        merged.add_own(own, file, &mut findings);
    }
    let gear = gear_of(&shape, read_extra, &mut findings);
    let mut notes = merged.notes(&findings);
    let (purse, mut exchanged) = convert::Purse::of(shape.money.as_ref(), file, &mut findings);
    notes.append(&mut exchanged);
    let mut draft = convert::catalogue(&merged, purse, &mut findings);
    notes.append(&mut draft.notes);
    rules::catalogue(&draft, &mut findings);
    let mut scenario = convert::scenario(shape, file, &draft.purse, &mut findings);
    convert::assign_gear(&gear, &mut scenario, &mut draft, &mut findings);
    notes.append(&mut draft.notes);
    rules::scenario(&scenario, file, &draft, &mut findings);
    findings.finish().map(|()| Loaded { catalogue: draft.catalogue, scenario, notes })
}

/// What a gear file comes to, read against a catalogue.
#[derive(Debug, Clone, PartialEq)]
pub struct Gear {
    /// What is in it, in a line.
    pub title: String,
    /// How many of each thing.
    pub counts: Map<u32>,
    /// Things that differ from the catalogue's, or that it lacks.
    pub weighed: Map<Item>,
}

/// Reads a gear file on its own; see `fardel help files` for its forms. A name ending in `.csv` or `.tsv` makes it a
/// spreadsheet.
///
/// # Errors
/// [`Faults`] with everything wrong in the file.
pub fn gear_text(source: Source, catalogue: &Catalogue) -> Result<Gear, Faults> {
    let mut findings = Findings::default();
    let (file, shape) = gather::gear(Ok(source), &mut findings);
    let draft = convert::Draft::of(catalogue);
    let things = convert::belongings(&shape.unwrap_or_default(), file, &draft, &mut findings);
    let gear = Gear { title: things.title(), counts: things.counts, weighed: things.weighed };
    findings.finish().map(|()| gear)
}

/// The riders' gear files, each with its rider's position.
fn gear_of(
    shape: &file::ScenarioFile,
    read: &dyn Fn(&str) -> Result<Source, Unreadable>,
    findings: &mut Findings,
) -> Vec<convert::Gear> {
    let riders = shape.riders.iter().flatten().enumerate();
    let named = riders.filter_map(|(rider, shape)| Some((rider, shape.gear.as_deref()?)));
    let mut all = Vec::new();
    for (rider, name) in named {
        let (file, shape) = gather::gear(read(name), findings);
        let Some(mut shape) = shape else { continue };
        if shape.items.0.iter().any(|(_, shape)| shape.free.is_some()) {
            let beside = read(&list::names_path(Path::new(name)).display().to_string()).ok();
            let beside = beside.filter(|source| source.text.trim_start_matches('\u{feff}').starts_with("name,id"));
            if let Some(source) = beside {
                shape.names = list::Names::read(Ok(source), findings);
            }
        }
        all.push(convert::Gear { rider, file, shape });
    }
    all
}

/// A chance as riders say it: `1/500`, `0.2 %` or `0.002`.
///
/// # Errors
/// What is expected, where it is not one.
pub fn chance(text: &str) -> Result<f64, String> {
    let chance = numbers::Chance::read(text).map(|chance| chance.0);
    chance.ok_or_else(|| say!("{} is expected", plain(numbers::Chance::WANTED)))
}

#[cfg(test)]
mod tests;
