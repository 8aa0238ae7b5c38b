//! Bikes: attributes are known, what is on board exists, and the numbers could belong to a bike.

use super::physics::above_zero;
use super::{applies, keys, members};
use crate::diagnostic::Code;
use crate::domain::{Bike, Energy, LARGEST_LOAD_INDEX, LEAST_LOAD_INDEX};
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use crate::units::{Distance, Show as _, UnitSystem, Volume};
use fardel_words::say;

/// Load indices that motorcycle tyres are made with.
const LOAD_INDICES: std::ops::RangeInclusive<u32> = LEAST_LOAD_INDEX..=LARGEST_LOAD_INDEX;

/// Checks all bikes.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, bike) in &draft.catalogue.bikes {
        let place = draft.place(Section::Bikes, id);
        keys(&bike.attributes, Section::Attributes, &place.key("attributes"), draft, findings);
        for (name, value) in &bike.attributes {
            let at = place.key("attributes").key(name);
            if !findings.is_spoilt(&at) {
                applies::value(name, value, &at, draft, findings);
            }
        }
        keys(&bike.toolkit, Section::Items, &place.key("toolkit"), draft, findings);
        members(&bike.bags, Section::Bags, &place.key("bags"), draft, findings);
        members(&bike.fitted, Section::Preparations, &place.key("fitted"), draft, findings);
        toolkit(bike, &place, draft, findings);
        numbers(bike, &place, findings);
    }
}

fn toolkit(bike: &Bike, place: &Place, draft: &Draft, findings: &mut Findings) {
    for (id, count) in &bike.toolkit {
        let Some(item) = draft.catalogue.items.get(id).filter(|item| *count > item.at_most) else { continue };
        let expected = say!("at most {}, as the item's `at_most` says", item.at_most);
        findings.add(Code::Contradiction, &place.key("toolkit").key(id), say!("{count} of `{id}`"), expected, None);
    }
}

fn energy(energy: &Energy, place: &Place, findings: &mut Findings) {
    let (key, values) = match energy {
        Energy::Fuel { tank, consumption } => {
            above_zero(tank.litres(), "tank", place, findings);
            ("consumption", consumption.map(Volume::litres))
        }
        Energy::Battery { range } => ("range", range.map(Distance::km)),
    };
    if findings.sound(place, &[key]) {
        values.iter().for_each(|(surface, value)| above_zero(value, surface.word(), &place.key(key), findings));
    }
}

fn numbers(bike: &Bike, place: &Place, findings: &mut Findings) {
    above_zero(bike.mass.grams(), "mass", place, findings);
    above_zero(bike.wheelbase.millimetres(), "wheelbase", place, findings);
    for (pressure, key) in [(bike.front_pressure, "front_pressure"), (bike.rear_pressure, "rear_pressure")] {
        pressure.into_iter().for_each(|own| above_zero(own.kilopascals(), key, place, findings));
    }
    for (travel, key) in [(bike.front_travel, "front_travel"), (bike.rear_travel, "rear_travel")] {
        travel.into_iter().for_each(|own| above_zero(own.millimetres(), key, place, findings));
    }
    energy(&bike.energy, place, findings);
    if bike.max_mass <= bike.mass && findings.sound(place, &["mass", "max_mass"]) {
        let show = |mass: crate::units::Mass| mass.show(UnitSystem::Metric);
        let found = say!("`max_mass` {} with a bike of {}", show(bike.max_mass), show(bike.mass));
        let expected = say!("a permissible mass above that of the bike alone");
        findings.add(Code::Contradiction, &place.key("max_mass"), found, expected, None);
    }
    for (index, key) in [(bike.front_load_index, "front_load_index"), (bike.rear_load_index, "rear_load_index")] {
        if !LOAD_INDICES.contains(&index) && findings.sound(place, &[key]) {
            let (least, most) = (LOAD_INDICES.start(), LOAD_INDICES.end());
            let expected = say!("a load index from {least} to {most}, as on the sidewall");
            findings.add(Code::OutOfRange, &place.key(key), format!("`{index}`"), expected, None);
        }
    }
}
