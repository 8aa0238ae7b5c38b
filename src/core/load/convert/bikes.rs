//! Bikes.

use super::attributes::filled;
use super::form::Form;
use super::inherit::resolved;
use super::items::counts;
use super::{Draft, Merged, keep};
use crate::diagnostic::Code;
use crate::domain::{Bike, BySurface, Energy, Map};
use crate::load::file::{BikeShape, Surfaces};
use crate::load::findings::Findings;
use fardel_words::{mark, plain, say, word};

/// What is written where a bike says nothing of what drives it.
const TANK_OR_RANGE: &str = mark!(
    "lines such as `tank: 12 L` and `consumption: { sealed: 4 L, gravel: 4.5 L, track: 5 L, rough: 6 L }`, or for \
    an electric bike `range: { sealed: 160 km, gravel: 140 km, track: 110 km, rough: 75 km }`"
);

/// Converts all bikes.
pub(super) fn bikes(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.bikes {
        let Some((shape, lenient)) = resolved(id, &merged.bikes, findings) else { continue };
        let form = Form { findings, place: entry.place.clone(), lenient };
        let bike = bike(id, shape, merged.attributes.contains_key(Energy::ATTRIBUTE), form);
        keep!(draft, Bikes, bikes, id.clone(), entry.place.clone(), bike);
    }
}

fn bike(id: &str, shape: BikeShape, energy_matters: bool, mut form: Form<'_>) -> Bike {
    let energy = energy(&shape, &mut form);
    let place = form.place.key("attributes");
    let mut attributes = filled(shape.attributes.unwrap_or_default(), &place, form.findings);
    if energy_matters {
        tell_energy(&mut attributes, &energy, &mut form);
    }
    Bike {
        id: id.to_owned(),
        name: form.name(shape.name),
        mass: form.need_any("mass", shape.mass),
        max_mass: form.need_any("max_mass", shape.max_mass),
        front_share: form.need_any("front_share", shape.front_share).0,
        wheelbase: form.need_any("wheelbase", shape.wheelbase),
        front_axle_limit: shape.front_axle_limit,
        rear_axle_limit: shape.rear_axle_limit,
        front_load_index: form.need_any("front_load_index", shape.front_load_index).0,
        rear_load_index: form.need_any("rear_load_index", shape.rear_load_index).0,
        front_pressure: shape.front_pressure,
        rear_pressure: shape.rear_pressure,
        front_travel: shape.front_travel,
        rear_travel: shape.rear_travel,
        rider_ahead: form.need_any("rider_x", shape.rider_x),
        passenger_ahead: form.need_any("passenger_x", shape.passenger_x),
        attributes,
        toolkit: counts(shape.toolkit),
        bags: shape.bags.unwrap_or_default(),
        fitted: shape.fitted.unwrap_or_default(),
        basis: form.basis(shape.basis),
        energy,
    }
}

/// A tank with what is used of it, or a battery with what it does; never both.
fn energy(shape: &BikeShape, form: &mut Form<'_>) -> Energy {
    let fuel = [("tank", shape.tank.is_some()), ("consumption", shape.consumption.is_some())];
    let fuel = fuel.into_iter().find(|(key, given)| *given || form.findings.is_spoilt(&form.place.key(key)));
    let range = form.place.key("range");
    let battery = shape.range.is_some() || form.findings.is_spoilt(&range);
    match (fuel, battery) {
        (Some((key, _)), true) => {
            let expected = say!("`tank` and `consumption` for an engine, or `range` for an electric bike, not both");
            form.findings.add(Code::Contradiction, &range, say!("`range` beside `{key}`"), expected, None);
        }
        (None, false) => {
            form.missing_as("tank", word!("no `tank` and no `range`"), plain(TANK_OR_RANGE));
            form.findings.spoil(&form.place.key("consumption"));
            form.findings.spoil(&range);
        }
        _ => {}
    }
    if battery {
        return Energy::Battery { range: every_surface("range", shape.range.unwrap_or_default(), form) };
    }
    let consumption = form.need_any("consumption", shape.consumption);
    Energy::Fuel {
        tank: form.need_any("tank", shape.tank),
        consumption: every_surface("consumption", consumption, form),
    }
}

/// What can happen hangs on attributes, so the bike's energy is one of them.
fn tell_energy(attributes: &mut Map<String>, energy: &Energy, form: &mut Form<'_>) {
    let own = energy.word();
    let told = attributes.insert(Energy::ATTRIBUTE.to_owned(), own.to_owned());
    if let Some(other) = told.filter(|other| other != own) {
        let expected = say!("`{own}`, as its `tank` or `range` says; it may be left out");
        let place = form.place.key("attributes").key(Energy::ATTRIBUTE);
        form.findings.add(Code::Contradiction, &place, format!("`{other}`"), expected, None);
    }
}

fn every_surface<T: Copy + Default>(key: &str, values: Surfaces<T>, form: &mut Form<'_>) -> BySurface<T> {
    let place = form.place.key(key);
    let lenient = form.lenient || form.findings.is_spoilt(&place);
    Form { findings: form.findings, place, lenient }.every_surface(values)
}
