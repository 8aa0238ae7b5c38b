//! The scenario: required keys and defaults. References are checked in `rules`.

use super::form::Form;
use super::items::counts;
use super::money::Purse;
use crate::diagnostic::Code;
use crate::domain::{Fair, Leg, Limits, Map, RepairSkill, Rider, RidingSkill, Role, Scenario, Sharing, Style, Trip};
use crate::load::file::{GroupShape, LegShape, LimitsShape, RiderShape, ScenarioFile, TripShape};
use crate::load::findings::{Findings, Place};
use crate::load::numbers::Kilometres;
use crate::units::{Hours, Temperature};
use fardel_words::say;

/// Converts a scenario file; its amounts of money go through the purse.
pub(crate) fn scenario(shape: ScenarioFile, file: usize, purse: &Purse, findings: &mut Findings) -> Scenario {
    let root = Place { file, ..Place::default() };
    let mut form = Form::new(findings, root.clone());
    let name = form.name(shape.name);
    let trip_shape = form.need_any("trip", shape.trip);
    let rider_shapes = form.need_any("riders", shape.riders);
    let trip = trip(trip_shape, &root.key("trip"), findings);
    let riders = rider_shapes.into_iter().enumerate();
    let riders = riders.map(|(at, shape)| rider(shape, &root.key("riders").index(at), findings)).collect();
    let limits = limits(&shape.limits.unwrap_or_default(), purse, &root.key("limits"), findings);
    Scenario {
        name,
        trip,
        riders,
        limits,
        group: sharing(shape.group.unwrap_or_default()),
        always: counts(shape.always),
        never: shape.never.unwrap_or_default(),
        done: shape.done.unwrap_or_default(),
        needs: shape.needs.unwrap_or_default().into_iter().map(|(need, amount)| (need, amount.0)).collect(),
        prices: super::prices::own(&shape.prices.unwrap_or_default(), purse, &root.key("prices"), findings),
    }
}

fn trip(shape: TripShape, place: &Place, findings: &mut Findings) -> Trip {
    let mut form = Form::new(findings, place.clone());
    form.lenient = form.findings.is_spoilt(place);
    let style = form.need("style", shape.style, Style::None);
    let legs = form.need_any("legs", shape.legs).into_iter().enumerate();
    let legs = legs.map(|(at, shape)| leg(shape, style, &place.key("legs").index(at), findings)).collect();
    Trip { style, legs }
}

fn leg(shape: LegShape, style: Style, place: &Place, findings: &mut Findings) -> Leg {
    let mut form = Form::new(findings, place.clone());
    let days = form.need_any("days", shape.days).0;
    let km = shape.km.unwrap_or_default().or(Kilometres::default()).map(|km| km.0);
    let (mild, warm) = (Temperature::new(10.0), Temperature::new(25.0));
    let (lowest, highest) = if style == Style::None {
        (shape.lowest.unwrap_or(mild), shape.highest.unwrap_or(warm))
    } else {
        (form.need("lowest", shape.lowest, mild), form.need("highest", shape.highest, warm))
    };
    let leg = Leg {
        name: form.name(shape.name),
        days,
        nights: shape.nights.unwrap_or_default().0,
        km,
        hours_to_help: form.need_any("hours_to_help", shape.hours_to_help),
        lowest,
        highest,
        water_every: shape.water_every.unwrap_or(Hours::new(24.0)),
        food_every: shape.food_every.unwrap_or(Hours::new(24.0 * days)),
        fuel_every: shape.fuel_every,
        altitude: shape.altitude.unwrap_or_default(),
        riders: shape.riders.unwrap_or_default(),
    };
    if leg.lowest > leg.highest && findings.sound(place, &["lowest", "highest"]) {
        let found = say!("lowest {} °C, highest {} °C", leg.lowest.celsius(), leg.highest.celsius());
        let expected = say!("a lowest temperature that is not above the highest");
        findings.add(Code::Contradiction, &place.key("lowest"), found, expected, None);
    }
    leg
}

fn rider(shape: RiderShape, place: &Place, findings: &mut Findings) -> Rider {
    let mut form = Form::new(findings, place.clone());
    Rider {
        name: form.name(shape.name),
        bike: form.need_any("bike", shape.bike),
        riding_skill: form.need("riding_skill", shape.riding_skill, RidingSkill::Intermediate),
        repair_skill: form.need("repair_skill", shape.repair_skill, RepairSkill::Handy),
        mass: form.need_any("mass", shape.mass),
        passenger: shape.passenger,
        medicine: shape.medicine.unwrap_or(false),
        bags: shape.bags.unwrap_or_default(),
        owns: counts(shape.owns),
        weighed: Map::new(),
        roles: shape.roles.unwrap_or_default(),
        kit_mass: shape.kit_mass,
    }
}

fn sharing(shape: GroupShape) -> Sharing {
    let pins = shape.pins.unwrap_or_default();
    let pins = [(Role::Leads, pins.leads), (Role::Last, pins.last), (Role::Medic, pins.medic)];
    let shares: Map<f64> =
        shape.shares.unwrap_or_default().into_iter().map(|(rider, share)| (rider, share.0)).collect();
    let stated = if shares.is_empty() { Fair::Equal } else { Fair::Stated };
    Sharing {
        fair: shape.fair.unwrap_or(stated),
        shares,
        pins: pins.into_iter().filter_map(|(role, names)| Some((role.word().to_owned(), names?))).collect(),
    }
}

fn limits(shape: &LimitsShape, purse: &Purse, place: &Place, findings: &mut Findings) -> Limits {
    Limits {
        kit_mass: shape.kit_mass,
        kit_volume: shape.kit_volume,
        budget: shape.budget.map(|price| purse.paid(price, &place.key("budget"), findings)),
        stranded: shape.stranded_at_most.map(|chance| chance.0),
    }
}
