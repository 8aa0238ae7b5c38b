//! Bikes.

use super::attributes::filled;
use super::form::Form;
use super::inherit::resolved;
use super::items::counts;
use super::{Draft, Merged, keep};
use crate::domain::{Bike, BySurface};
use crate::load::file::{BikeShape, Surfaces};
use crate::load::findings::Findings;
use crate::units::Volume;

/// Converts all bikes.
pub(super) fn bikes(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.bikes {
        let Some((shape, lenient)) = resolved(id, &merged.bikes, findings) else { continue };
        let form = Form { findings, place: entry.place.clone(), lenient };
        let bike = bike(id, shape, form);
        keep!(draft, Bikes, bikes, id.clone(), entry.place.clone(), bike);
    }
}

fn bike(id: &str, shape: BikeShape, mut form: Form<'_>) -> Bike {
    let consumption = form.need_any("consumption", shape.consumption);
    let place = form.place.key("attributes");
    let attributes = filled(shape.attributes.unwrap_or_default(), &place, form.findings);
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
        tank: form.need_any("tank", shape.tank),
        rider_ahead: form.need_any("rider_x", shape.rider_x),
        passenger_ahead: form.need_any("passenger_x", shape.passenger_x),
        attributes,
        toolkit: counts(shape.toolkit),
        bags: shape.bags.unwrap_or_default(),
        fitted: shape.fitted.unwrap_or_default(),
        basis: form.basis(shape.basis),
        consumption: every_surface(consumption, &mut form),
    }
}

fn every_surface(values: Surfaces<Volume>, form: &mut Form<'_>) -> BySurface<Volume> {
    let place = form.place.key("consumption");
    let told = form.lenient || form.findings.is_spoilt(&place);
    let mut form = Form { findings: form.findings, place, lenient: told };
    BySurface::new([
        form.need_any("sealed", values.sealed),
        form.need_any("gravel", values.gravel),
        form.need_any("track", values.track),
        form.need_any("rough", values.rough),
    ])
}
