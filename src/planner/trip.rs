//! The trip that a call is about: a scenario as a tree, and the files that it names as texts.

use crate::host::Host;
use crate::refused::Refused;
use fardel_core::domain::{Rider, Scenario};
use fardel_core::load::{self, Loaded, Source, Unreadable, is_yaml};
use fardel_core::milp::SolveOptions;
use fardel_words::say;
use indexmap::IndexMap;
use serde::Deserialize;
use serde_json::value::RawValue;
use std::path::Path;
use std::time::Duration;

/// What messages call the scenario where no name comes with it.
const UNNAMED: &str = "scenario.yaml";
/// Longest that a call may search, in seconds.
const LONGEST: f64 = 3600.0;

/// A trip as it comes.
#[derive(Debug, Deserialize)]
pub(crate) struct Trip {
    /// The scenario: keys and values of the file.
    scenario: Box<RawValue>,
    /// What messages call it.
    #[serde(default)]
    name: Option<String>,
    /// Texts of the files that it names.
    #[serde(default)]
    files: IndexMap<String, String>,
    /// Rider that is meant, where it has several.
    #[serde(default)]
    rider: Option<String>,
    /// Longest that each search may take.
    #[serde(default)]
    seconds: Option<f64>,
}

/// Catalogue and scenario as read, and which rider is meant.
pub(crate) struct Opened {
    pub loaded: Loaded,
    pub rider: usize,
}

impl Opened {
    pub fn rider(&self) -> &Rider {
        &self.loaded.scenario.riders[self.rider]
    }
}

impl Trip {
    /// What messages call the scenario.
    pub fn name(&self) -> &str {
        self.name.as_deref().filter(|name| is_yaml(Path::new(name))).unwrap_or(UNNAMED)
    }

    /// The scenario as the text of a file, which lines of faults are those of.
    ///
    /// # Errors
    /// [`Refused`] where the tree is none that a file could hold.
    pub fn source(&self) -> Result<Source, Refused> {
        let name = self.name().to_owned();
        let text = load::tree_yaml(Source { name: name.clone(), text: self.scenario.get().to_owned() })?;
        Ok(Source { name, text })
    }

    /// A file that the scenario names.
    pub fn file(&self, name: &str) -> Result<Source, Unreadable> {
        let text = self.files.get(name).cloned();
        let missing = || Unreadable { name: name.to_owned(), reason: say!("no such file among those that came along") };
        text.map(|text| Source { name: name.to_owned(), text }).ok_or_else(missing)
    }

    /// Reads all of it, for everybody on the trip.
    ///
    /// # Errors
    /// [`Refused`] with everything wrong in any of the texts.
    pub fn load(&self, host: &Host) -> Result<Loaded, Refused> {
        let read = |name: &str| self.file(name);
        Ok(host.shelf().load(Ok(self.source()?), &read)?.with_doubts())
    }

    /// Reads all of it for one rider; from here on everything is as that rider has weighed it.
    ///
    /// # Errors
    /// [`Refused`] with what is wrong, or where several riders are there and none is named.
    pub fn open(&self, host: &Host) -> Result<Opened, Refused> {
        let loaded = self.load(host)?;
        let rider = self.rider_of(&loaded.scenario)?;
        Ok(Opened { loaded: loaded.as_weighed_by(rider), rider })
    }

    /// Position of the rider that is meant.
    ///
    /// # Errors
    /// [`Refused`] where there is none of that name, or none is named among several.
    pub fn rider_of(&self, scenario: &Scenario) -> Result<usize, Refused> {
        let riders = &scenario.riders;
        let names = || riders.iter().map(|rider| rider.name.as_str()).collect::<Vec<_>>().join(", ");
        match &self.rider {
            Some(name) => riders.iter().position(|rider| rider.name == *name).ok_or_else(|| {
                Refused::words(say!("no rider `{}`; the scenario has {}", name.escape_debug(), names()))
            }),
            None if riders.len() == 1 => Ok(0),
            None => Err(Refused::words(say!("the scenario has several riders: name one of {}", names()))),
        }
    }

    /// All that tells it from other trips.
    pub fn key(&self) -> String {
        let language = fardel_words::current().code();
        let mut key = format!("{language}\0{}\0{:?}\0{}", self.name(), self.rider, self.scenario.get());
        for (name, text) in &self.files {
            key.extend(["\0", name, "\0", text]);
        }
        key
    }

    /// Longest that a search may take.
    pub fn time(&self) -> Option<Duration> {
        self.options().time_limit
    }

    /// How hard to try.
    pub fn options(&self) -> SolveOptions {
        let seconds = self.seconds.filter(|seconds| *seconds > 0.0 && *seconds <= LONGEST);
        SolveOptions { time_limit: seconds.map(Duration::from_secs_f64), ..SolveOptions::default() }
    }
}
