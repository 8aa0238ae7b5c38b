//! A catalogue that is read once, for many scenarios.

use super::convert::Merged;
use super::findings::Findings;
use super::source::{Source, Unreadable};
use super::{Loaded, drafted, gather, rest};
use crate::diagnostic::Faults;
use crate::domain::Catalogue;

/// The catalogue files as they were read. Reading them takes most of the time of loading.
#[derive(Debug, Clone)]
pub struct Shelf {
    merged: Merged,
    findings: Findings,
}

impl Shelf {
    /// Reads the files.
    ///
    /// # Errors
    /// [`Faults`] with what is wrong in any of them. What is wrong between them is told with each scenario.
    pub fn new(catalogue: Vec<Result<Source, Unreadable>>) -> Result<Self, Faults> {
        let shelf = Self::gathered(catalogue);
        shelf.findings.clone().finish()?;
        Ok(shelf)
    }

    /// Reads the files, and the catalogue that they make without a scenario.
    ///
    /// # Errors
    /// [`Faults`] with everything wrong in any of them and between them.
    pub fn with_catalogue(sources: &[Source]) -> Result<(Self, Catalogue), Faults> {
        let shelf = Self::gathered(gather::known(sources));
        let catalogue = shelf.catalogue(&[])?;
        Ok((shelf, catalogue))
    }

    fn gathered(catalogue: Vec<Result<Source, Unreadable>>) -> Self {
        let mut findings = Findings::default();
        let merged = gather::merged(catalogue, Vec::new(), &mut findings);
        Self { merged, findings }
    }

    /// The catalogue without a scenario; `extras` override, as in [`catalogue`](super::catalogue).
    ///
    /// # Errors
    /// As there.
    pub fn catalogue(&self, extras: &[Source]) -> Result<Catalogue, Faults> {
        let (mut merged, mut findings) = (self.merged.clone(), self.findings.clone());
        gather::add(&mut merged, gather::known(extras), true, &mut findings);
        drafted(&merged, findings).map(|(catalogue, _)| catalogue)
    }

    /// Loads a scenario as [`load_read`](super::load_read) does.
    ///
    /// # Errors
    /// As there.
    pub fn load(
        &self,
        scenario: Result<Source, Unreadable>,
        read_extra: &dyn Fn(&str) -> Result<Source, Unreadable>,
    ) -> Result<Loaded, Faults> {
        let mut findings = self.findings.clone();
        let (file, shape) = gather::scenario(scenario, &mut findings);
        let extras = shape.catalogues.iter().map(|name| read_extra(name)).collect();
        let mut merged = self.merged.clone();
        gather::add(&mut merged, extras, true, &mut findings);
        rest(file, shape, merged, read_extra, findings)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::{load_read, shipped};

    const TRIP: &str = include_str!("../../../scenarios/day-ride.yaml");

    fn both(text: &str, extra: &str) -> [Result<Loaded, Faults>; 2] {
        let scenario = || Ok(Source { name: "trip.yaml".to_owned(), text: text.to_owned() });
        let read = |name: &str| Ok(Source { name: name.to_owned(), text: extra.to_owned() });
        let shipped = || shipped().into_iter().map(Ok).collect();
        [load_read(shipped(), scenario(), &read), Shelf::new(shipped()).unwrap().load(scenario(), &read)]
    }

    #[test]
    fn a_scenario_comes_off_the_shelf_as_it_does_from_the_files() {
        let extra = "items:\n  hand-pump: { like: hand-pump, mass: 321 g, basis: from memory }\n";
        let with = TRIP.replacen("name:", "catalogues: [mine.yaml]\nname:", 1);
        let [read, shelved] = both(&with, extra);
        let shelved = shelved.unwrap();
        assert_eq!(shelved.catalogue.items["hand-pump"].mass, crate::units::Mass::from_grams(321));
        assert_eq!(shelved.notes.len(), 1);
        assert_eq!(read.unwrap(), shelved);
    }

    #[test]
    fn faults_are_the_same_in_the_same_words() {
        let broken = TRIP.replace("bike: single-250-trail", "bike: single-250-trial").replace("days: 1", "days: 1 kg");
        let [read, shelved] = both(&broken, "");
        let (read, shelved) = (read.unwrap_err().to_string(), shelved.unwrap_err().to_string());
        assert_eq!(read, shelved);
        assert!(read.contains("single-250-trail"), "{read}");
    }
}
