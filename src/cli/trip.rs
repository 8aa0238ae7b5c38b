//! Arguments that name a trip and a rider, and what is read for them.

use super::Ending;
use super::complaint::{Trouble, bad_input};
use super::settings::CatalogueArguments;
use super::verbosity::quiet;
use crate::domain::{Catalogue, Rider, Scenario};
use crate::load::{self, Loaded, PackedKit};
use crate::report::view::Typed;
use clap::Args;
use fardel_words::say;
use std::path::{Path, PathBuf};

/// Whose trip.
#[derive(Debug, Args)]
pub(super) struct TripArguments {
    /// Scenario file: trip, riders, limits
    scenario: PathBuf,
    /// Rider to pack for, where the scenario has several
    #[arg(long, value_name = "NAME")]
    rider: Option<String>,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

/// Catalogue and scenario as read, and which rider is meant.
pub(super) struct Opened {
    loaded: Loaded,
    rider: usize,
}

/// One rider, or everybody.
pub(super) enum Party {
    /// The only one, or the one named.
    One(Opened),
    /// Several, none of them named.
    Group(Loaded),
}

impl TripArguments {
    /// As typed, with what else the question was asked with, for the next command.
    pub(super) fn typed(&self, further: &[&str]) -> Typed {
        let scenario = self.scenario.to_string_lossy();
        let folder = self.catalogue.catalogues.as_ref().map(|folder| folder.to_string_lossy());
        let mut words: Vec<&str> = vec![&scenario];
        words.extend(self.rider.iter().flat_map(|name| ["--rider", name]));
        words.extend(folder.iter().flat_map(|folder| ["--catalogues", &**folder]));
        Typed::new(&words, further)
    }

    /// Reads the files and finds the rider; says what is wrong where that fails.
    ///
    /// # Errors
    /// How the run ends then.
    pub(super) fn open(&self) -> Result<Opened, Ending> {
        self.read().and_then(|loaded| self.opened(loaded)).map_err(bad_input)
    }

    /// Reads the files for the rider that is named, or for all where none is.
    ///
    /// # Errors
    /// How the run ends then.
    pub(super) fn open_party(&self) -> Result<Party, Ending> {
        let loaded = self.read().map_err(bad_input)?;
        if self.rider.is_none() && loaded.scenario.riders.len() > 1 {
            return Ok(Party::Group(loaded));
        }
        self.opened(loaded).map(Party::One).map_err(bad_input)
    }

    fn read(&self) -> Result<Loaded, Trouble> {
        read(&self.scenario, &self.catalogue)
    }

    /// From here on everything is as the rider has weighed it.
    fn opened(&self, loaded: Loaded) -> Result<Opened, Trouble> {
        let rider = self.choose_rider(&loaded.scenario)?;
        Ok(Opened { loaded: loaded.as_weighed_by(rider), rider })
    }

    fn choose_rider(&self, scenario: &Scenario) -> Result<usize, String> {
        let names = || scenario.riders.iter().map(|rider| rider.name.as_str()).collect::<Vec<_>>().join(", ");
        match (&self.rider, scenario.riders.as_slice()) {
            (Some(name), riders) => riders
                .iter()
                .position(|rider| rider.name == *name)
                .ok_or_else(|| say!("--rider {name}: no such rider; the scenario has {}", names())),
            (None, [_]) => Ok(0),
            (None, _) => Err(say!("the scenario has several riders: choose one with --rider ({})", names())),
        }
    }
}

/// The kit in a file. What only its list knows is in the catalogue from then on.
pub(super) fn kit(path: &Path, loaded: &mut Loaded) -> Result<PackedKit, Trouble> {
    let packed = load::kit(path, &loaded.catalogue)?;
    loaded.catalogue.items.extend(packed.own.clone());
    loaded.notes.extend(packed.note.clone());
    Ok(packed)
}

/// Reads a scenario with its catalogue; numbers that can hardly be believed are among the notes.
pub(super) fn read(scenario: &Path, catalogue: &CatalogueArguments) -> Result<Loaded, Trouble> {
    Ok(load::load(scenario, catalogue.catalogues.as_deref())?.with_doubts())
}

impl Opened {
    /// The scenario, to set limits in.
    pub(super) const fn scenario_mut(&mut self) -> &mut Scenario {
        &mut self.loaded.scenario
    }

    pub(super) const fn catalogue(&self) -> &Catalogue {
        &self.loaded.catalogue
    }
    pub(super) const fn scenario(&self) -> &Scenario {
        &self.loaded.scenario
    }
    pub(super) fn rider(&self) -> &Rider {
        &self.loaded.scenario.riders[self.rider]
    }
    /// The kit in a file; says what is wrong where that cannot be read. Things of a list that the catalogue lacks are in it
    /// from then on.
    ///
    /// # Errors
    /// How the run ends then.
    pub(super) fn kit(&mut self, path: &Path) -> Result<PackedKit, Ending> {
        kit(path, &mut self.loaded).map_err(bad_input)
    }
    /// What the rider should know about how the files were read; nothing if that is not wanted.
    pub(super) fn notes(&self) -> &[String] {
        if quiet() { &[] } else { &self.loaded.notes }
    }
}

/// Whose catalogue is looked through.
#[derive(Debug, Args)]
pub(super) struct Known {
    /// Scenario whose own entries count too
    #[arg(long, value_name = "FILE")]
    scenario: Option<PathBuf>,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

impl Known {
    /// The catalogue; says what is wrong where it cannot be read.
    ///
    /// # Errors
    /// How the run ends then.
    pub(super) fn catalogue(&self) -> Result<Catalogue, Ending> {
        let read = match &self.scenario {
            Some(scenario) => read(scenario, &self.catalogue).map(|loaded| loaded.catalogue),
            None => self.sources().and_then(|sources| Ok(load::catalogue(&sources, &[])?)),
        };
        read.map_err(bad_input)
    }

    /// The catalogue files, without those of a scenario.
    pub(super) fn sources(&self) -> Result<Vec<load::Source>, Trouble> {
        Ok(self.catalogue.sources()?)
    }
}
