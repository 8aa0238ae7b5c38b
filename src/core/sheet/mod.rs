//! A sheet to print and fill in at the bike: what is on the plate and the sidewalls, and what turns each fastener, with the
//! jobs that ask for it; and what of that the tools of a kit cannot turn.

use crate::domain::{Bike, Catalogue, Energy, Failure, Item, Kit, Surface, template};
use crate::find::uses::{functions_of, givers};
use crate::units::{Length, Pressure, Show, UnitSystem};
use fardel_words::{mark, say, word};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// The whole sheet.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Sheet {
    /// Id of the bike that it begins with.
    pub bike: String,
    /// Its name.
    pub name: String,
    /// Lines that belong together.
    pub parts: Vec<Part>,
}

/// Lines that belong together.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Part {
    /// What they are about.
    pub title: &'static str,
    /// The lines.
    pub lines: Vec<Line>,
}

/// A line to fill in.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Line {
    /// The key in the catalogue, by which a filled sheet is read.
    pub key: String,
    /// What is asked.
    pub what: String,
    /// What the catalogue has; empty if it does not say.
    pub value: String,
    /// For a fastener: what breaks and asks for it, in the order of the catalogue.
    pub jobs: Vec<String>,
    /// For a fastener, where a kit was given: can its tools turn it?
    pub turned: Option<bool>,
    /// What would turn it, the lightest first, if the kit cannot.
    pub would_turn: Vec<String>,
}

/// The part about the engine.
const ENGINE: &str = mark!("Plug, chain and engine");

/// Where each attribute stands on the sheet; further ones go to the last part that fits.
const PARTS: &[(&str, &[&str])] = &[
    (
        mark!("Axles and pinch bolts"),
        &["front_axle", "front_pinch", "rear_axle", "rear_axle_thread", "chain_adjuster", "tube_nuts"],
    ),
    (
        mark!("Tyres, tubes and wheels"),
        &["wheels", "front_tyre", "rear_tyre", "front_rim", "rear_rim", "front_bearing", "rear_bearing"],
    ),
    (ENGINE, &["plug", "plug_hex", "drive", "chain", "oil_drain", "fuelling", "cooling", "start", "valves"]),
];
/// Items that are named for a fastener that a kit cannot turn.
const OFFERED: usize = 2;

/// The sheet for a bike; with a kit, each fastener says whether its tools turn it.
#[must_use]
pub fn sheet(catalogue: &Catalogue, bike: &Bike, kit: Option<&Kit>, units: UnitSystem) -> Sheet {
    let given = kit.map(|kit| functions_of(catalogue, kit.iter().map(|(id, _)| id)));
    let writing = Writing { catalogue, bike, given };
    let mut parts = vec![plate(bike, units)];
    let mut done = BTreeSet::from([Energy::ATTRIBUTE]);
    for (title, keys) in PARTS {
        let known = keys.iter().copied().filter(|key| catalogue.attributes.contains_key(*key));
        let own: Vec<&str> = known.clone().filter(|key| writing.asked(key)).collect();
        done.extend(known);
        let title = if *title == ENGINE && writing.electric() { word!("Chain and drive") } else { title };
        parts.push(Part { title, lines: own.into_iter().map(|key| writing.line(key)).collect() });
    }
    let rest =
        || catalogue.attributes.keys().map(String::as_str).filter(|key| !done.contains(key) && writing.asked(key));
    let fastener = |key: &&str| writing.is_fastener(key);
    let lines = |keys: Vec<&str>| keys.into_iter().map(|key| writing.line(key)).collect();
    parts.push(Part { title: word!("Other bolts, nuts and screws"), lines: lines(rest().filter(fastener).collect()) });
    parts.push(Part { title: word!("What it is like"), lines: lines(rest().filter(|key| !fastener(key)).collect()) });
    parts.retain(|part| !part.lines.is_empty());
    Sheet { bike: bike.id.clone(), name: bike.name.clone(), parts }
}

impl Sheet {
    /// The fasteners that the kit's tools cannot turn.
    pub fn unturned(&self) -> impl Iterator<Item = &Line> {
        self.parts.iter().flat_map(|part| &part.lines).filter(|line| line.turned == Some(false))
    }

    /// How many fasteners were looked at.
    #[must_use]
    pub fn fasteners(&self) -> usize {
        self.parts.iter().flat_map(|part| &part.lines).filter(|line| line.turned.is_some()).count()
    }
}

/// The key of a battery's range on a surface.
pub(crate) fn range_key(surface: Surface) -> String {
    format!("range_{}", surface.word())
}

fn plate(bike: &Bike, units: UnitSystem) -> Part {
    let line = |key: &str, what: &str, value: String| Line {
        key: key.to_owned(),
        what: what.to_owned(),
        value,
        jobs: Vec::new(),
        turned: None,
        would_turn: Vec::new(),
    };
    let limit = |limit: Option<crate::units::Mass>| limit.map_or_else(String::new, |limit| limit.show(units));
    let pressure = |own: Option<Pressure>| own.map_or_else(String::new, |own| own.show(units));
    let travel = |own: Option<Length>| own.map_or_else(String::new, |own| own.show(units));
    let (mass, title) = match bike.energy {
        Energy::Fuel { .. } => {
            (word!("mass, ready to ride with 90 % fuel (papers)"), word!("Load plate, sidewalls and tank"))
        }
        Energy::Battery { .. } => {
            (word!("mass, ready to ride with its battery (papers)"), word!("Load plate, sidewalls and battery"))
        }
    };
    let mut lines = vec![
        line("mass", mass, bike.mass.show(units)),
        line("max_mass", word!("permissible mass with everything and everybody (plate)"), bike.max_mass.show(units)),
        line("front_axle_limit", word!("limit at the front axle (plate or papers)"), limit(bike.front_axle_limit)),
        line("rear_axle_limit", word!("limit at the rear axle (plate or papers)"), limit(bike.rear_axle_limit)),
        line("front_load_index", word!("load index on the front sidewall"), bike.front_load_index.to_string()),
        line("rear_load_index", word!("load index on the rear sidewall"), bike.rear_load_index.to_string()),
        line(
            "front_pressure",
            word!("cold pressure of the front tyre, loaded (plate or manual)"),
            pressure(bike.front_pressure),
        ),
        line(
            "rear_pressure",
            word!("cold pressure of the rear tyre, loaded (plate or manual)"),
            pressure(bike.rear_pressure),
        ),
        line("front_travel", word!("travel of the front wheel (manual)"), travel(bike.front_travel)),
        line("rear_travel", word!("travel of the rear wheel (manual)"), travel(bike.rear_travel)),
        line("wheelbase", word!("axle to axle"), bike.wheelbase.show(units)),
    ];
    match &bike.energy {
        Energy::Fuel { tank, .. } => lines.push(line("tank", word!("fuel tank"), tank.show(units))),
        Energy::Battery { range } => lines.extend(range.iter().map(|(surface, far)| {
            let what = say!("range of a full battery, {} (as ridden, not as advertised)", surface.shown());
            line(&range_key(surface), &what, far.show(units))
        })),
    }
    Part { title, lines }
}

struct Writing<'a> {
    catalogue: &'a Catalogue,
    bike: &'a Bike,
    given: Option<BTreeSet<String>>,
}

impl Writing<'_> {
    fn electric(&self) -> bool {
        self.bike.energy.range().is_some()
    }

    /// An electric bike lacks most of what an engine has, so it is asked only for what its class has.
    fn asked(&self, key: &str) -> bool {
        !self.electric() || self.bike.attributes.contains_key(key)
    }

    /// Is this attribute, on this bike or another, what turns something?
    fn is_fastener(&self, key: &str) -> bool {
        let own = self.bike.attributes.get(key);
        let values = own.into_iter().chain(self.catalogue.bikes.values().filter_map(|bike| bike.attributes.get(key)));
        values.into_iter().any(|value| self.catalogue.functions.contains_key(value))
    }

    fn line(&self, key: &str) -> Line {
        let value = self.bike.attributes.get(key).cloned().unwrap_or_default();
        let what = self.catalogue.attributes.get(key).map_or(key, |own| own.name.as_str()).to_owned();
        let turned = self
            .given
            .as_ref()
            .filter(|_| self.catalogue.functions.contains_key(&value))
            .map(|given| given.contains(&value));
        let would_turn = if turned == Some(false) { turners(self.catalogue, &value) } else { Vec::new() };
        Line { key: key.to_owned(), what, value, jobs: self.jobs(key), turned, would_turn }
    }

    /// Failures of this bike with a repair that asks for the attribute.
    fn jobs(&self, key: &str) -> Vec<String> {
        let asks = |name: &str| template::holes(name).is_ok_and(|holes| holes.contains(&key));
        let asked =
            |failure: &&Failure| failure.repairs.iter().any(|repair| repair.needs.keys().any(|name| asks(name)));
        let own = self.catalogue.failures.values().filter(|failure| self.bike.matches(&failure.applies));
        own.filter(asked).map(|failure| failure.name.clone()).collect()
    }
}

/// What gives a function: single items, the lightest first, or the lightest of each part of a combination.
fn turners(catalogue: &Catalogue, function: &str) -> Vec<String> {
    let givers = givers(catalogue);
    let name = |item: &&Item| item.name.clone();
    let mut turners: Vec<String> = givers.get(function).into_iter().flatten().take(OFFERED).map(name).collect();
    let ways = catalogue.functions.get(function).map(|own| own.also_from.as_slice()).unwrap_or_default();
    for way in ways {
        let parts: Option<Vec<String>> = way.iter().map(|part| givers.get(part.as_str())?.first().map(name)).collect();
        turners.extend(parts.map(|parts| parts.join(word!(" with "))));
    }
    turners.truncate(OFFERED);
    turners
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    #[test]
    fn a_kit_without_tools_turns_nothing_and_the_right_spanner_its_nut() {
        let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
        let bike = &catalogue.bikes["single-450-tubed"];
        let empty = sheet(&catalogue, bike, Some(&Kit::default()), UnitSystem::Metric);
        assert_eq!(empty.unturned().count(), empty.fasteners());
        assert!(empty.fasteners() > 12);
        let kit = Kit::new([("axle-lever-27".to_owned(), 1)]);
        let one = sheet(&catalogue, bike, Some(&kit), UnitSystem::Metric);
        let rear = one.parts.iter().flat_map(|part| &part.lines).find(|line| line.key == "rear_axle").unwrap();
        assert_eq!((rear.value.as_str(), rear.turned), ("hex 27 mm", Some(true)));
        assert!(rear.jobs.iter().any(|job| job == "rear tyre punctured"), "{:?}", rear.jobs);
        let none = sheet(&catalogue, bike, None, UnitSystem::Metric);
        assert_eq!(none.fasteners(), 0);
    }
}
