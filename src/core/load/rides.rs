//! Reading ride logs: what happened, checked against the catalogue it is to correct.

use super::convert::counts;
use super::file::{RideShape, RidesFile, Surfaces};
use super::findings::{Findings, Place};
use super::gather;
use super::numbers::Kilometres;
use super::source::{Source, Unreadable};
use crate::diagnostic::{Code, Faults, quoted};
use crate::domain::{Catalogue, Map, Ride, RidingSkill};
use crate::units::Distance;
use fardel_words::{say, word};

/// Reads the rides of several files, in order; names are unique across all of them.
///
/// # Errors
/// [`Faults`] with everything wrong in any of the files: unreadable, something missing, names that the catalogue lacks
/// (with the nearest it has), a failure that the bike cannot have, no riding at all, a ride twice.
pub fn rides(files: Vec<Result<Source, Unreadable>>, catalogue: &Catalogue) -> Result<Vec<Ride>, Faults> {
    let mut findings = Findings::default();
    let (mut rides, mut first) = (Vec::new(), Map::new());
    for read in files {
        let (file, root) = gather::tree(read, &mut findings);
        let shape: Option<RidesFile> = root.and_then(|root| gather::decoded(root, file, &mut findings));
        let place = Place { file, ..Place::default() };
        let Some(shape) = shape else { continue };
        if shape.rides.is_empty() && !findings.is_spoilt_below(&place) {
            let expected = say!("a list of rides under `rides`");
            findings.add(Code::NothingThere, &place, say!("no ride"), expected, None);
        }
        for (at, shape) in shape.rides.into_iter().enumerate() {
            let mut reading = Reading { place: place.key("rides").index(at), catalogue, findings: &mut findings };
            let ride = reading.ride(shape);
            let here = reading.place.clone();
            twice(&ride, &here, &mut first, &mut findings);
            rides.push(ride);
        }
    }
    findings.finish().map(|()| rides)
}

/// `first` knows where each name stood first.
fn twice(ride: &Ride, place: &Place, first: &mut Map<Place>, findings: &mut Findings) {
    if ride.name.is_empty() {
        return;
    }
    match first.get(&ride.name) {
        Some(other) => findings.add_again(&place.key("name"), &ride.name, word!("each ride once"), other),
        None => drop(first.insert(ride.name.clone(), place.clone())),
    }
}

/// A ride being read.
struct Reading<'a> {
    place: Place,
    catalogue: &'a Catalogue,
    findings: &'a mut Findings,
}

impl Reading<'_> {
    fn ride(&mut self, shape: RideShape) -> Ride {
        let kilometres = Kilometres(Distance::new(0.0));
        let km = shape.km.unwrap_or(Surfaces { sealed: None, gravel: None, track: None, rough: None });
        let km = km.or(kilometres).map(|km| km.0);
        let ride = Ride {
            name: self.need("name", shape.name.map(|name| name.trim().to_owned()).filter(|name| !name.is_empty())),
            rider: shape.rider.map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()),
            bike: self.need("bike", shape.bike),
            km,
            days: self.need("days", shape.days).0,
            falls: self.need("falls", shape.falls).0,
            riding_skill: shape.riding_skill.unwrap_or(RidingSkill::Intermediate),
            kit_mass: shape.kit_mass,
            done: shape.done.unwrap_or_default(),
            broke: counts(shape.broke),
            carried: counts(shape.carried),
            used: counts(shape.used),
            missed: counts(shape.missed),
        };
        self.riding(&ride);
        self.names(&ride);
        ride
    }

    fn need<T: Default>(&mut self, key: &str, value: Option<T>) -> T {
        value.unwrap_or_else(|| {
            if self.findings.sound(&self.place, &[key]) {
                let example = match key {
                    "name" => word!("over the pass in May"),
                    "bike" => "single-450-tubed",
                    _ => "2",
                };
                let expected = say!("a line such as `{key}: {example}`");
                self.findings.add(Code::MissingKey, &self.place, say!("no `{key}`"), expected, None);
            }
            T::default()
        })
    }

    /// Without kilometres nothing can be learnt.
    fn riding(&mut self, ride: &Ride) {
        let place = self.place.key("km");
        if ride.distance().km() <= 0.0 && !self.findings.is_spoilt_below(&place) {
            let expected = word!("kilometres by surface, such as `km: { sealed: 120, gravel: 60 }`").to_owned();
            self.findings.add(Code::NothingThere, &place, say!("no kilometres"), expected, None);
        }
    }

    fn names(&mut self, ride: &Ride) {
        let Catalogue { bikes, failures, items, preparations, .. } = self.catalogue;
        if !ride.bike.is_empty() {
            self.known(&ride.bike, bikes, word!("a bike in the section `bikes`"), &self.place.key("bike"));
        }
        for (at, id) in ride.done.iter().enumerate() {
            self.known(id, preparations, "a preparation", &self.place.key("done").index(at));
        }
        for (key, list) in [("carried", &ride.carried), ("used", &ride.used), ("missed", &ride.missed)] {
            for id in list.keys() {
                self.known(id, items, word!("an item in the section `items`"), &self.place.key(key).key(id));
            }
        }
        for id in ride.broke.keys() {
            let place = self.place.key("broke").key(id);
            self.known(id, failures, word!("a failure in the section `failures`"), &place);
            let (Some(failure), Some(bike)) = (failures.get(id), bikes.get(&ride.bike)) else { continue };
            if !bike.matches(&failure.applies) {
                let found = say!("{} on {}", quoted(id), quoted(&ride.bike));
                let expected = say!("a failure that this bike can have");
                self.findings.add(Code::Contradiction, &place, found, expected, None);
            }
        }
    }

    fn known<T>(&mut self, id: &str, section: &Map<T>, what: &str, place: &Place) {
        if !section.contains_key(id) {
            let near = self.findings.nearest(place, id, section.keys().map(String::as_str));
            self.findings.add(Code::UnknownName, place, quoted(id), say!("the name of {what}"), near);
        }
    }
}
