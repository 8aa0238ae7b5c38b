//! Prices: those of the catalogue, and a scenario's own.

use super::form::Form;
use super::plain::every_surface;
use super::{Draft, Merged, money};
use crate::domain::{Kind, OwnPrices, Prices};
use crate::load::file::{OwnPricesShape, ServiceShape};
use crate::load::findings::{Findings, Place};
use crate::load::quantity::Price;
use crate::units::{Hours, Money};

/// The catalogue's prices; without the section nothing is priced.
pub(super) fn prices(merged: &Merged, draft: &mut Draft, purse: &mut money::Purse, findings: &mut Findings) {
    let Some(entry) = &merged.prices else { return };
    let (shape, place) = (entry.shape.clone(), &entry.place);
    let mut form = Form::new(findings, place.clone());
    let weight = form.need_any("weight", shape.weight).0;
    let speeds = form.need_any("speed_kmh", shape.speed_kmh);
    let strains = form.need_any("strain", shape.strain);
    let basis = form.basis(shape.basis);
    let mut paid = |key: &str, price: Option<Price>, findings: &mut Findings| {
        price.map_or(Money::ZERO, |price| purse.take(price, &place.key(key), findings))
    };
    draft.catalogue.prices = Prices {
        weight,
        speed: every_surface(speeds, &place.key("speed_kmh"), findings),
        strain: every_surface(strains, &place.key("strain"), findings),
        hour: paid("hour", shape.hour, findings),
        buying: shape.buying.map_or(1.0, |factor| factor.0),
        service: service(&shape.service.unwrap_or_default()),
        thing: shape.thing.unwrap_or_default(),
        rest_of_day: shape.rest_of_day.unwrap_or_default(),
        recovery: paid("recovery", shape.recovery, findings),
        night: paid("night", shape.night, findings),
        night_from: shape.night_from.unwrap_or_default(),
        dread: shape.dread.unwrap_or_default().0,
        basis,
    };
}

/// Days of service in the order of the kinds.
fn service(shape: &ServiceShape) -> [f64; Kind::ALL.len()] {
    let mut days = [0.0; Kind::ALL.len()];
    for kind in Kind::ALL {
        let served = match kind {
            Kind::Tool => shape.tool,
            Kind::Spare => shape.spare,
            Kind::Consumable => shape.consumable,
            Kind::Shelter => shape.shelter,
            Kind::Sleep => shape.sleep,
            Kind::Cooking => shape.cooking,
            Kind::Food => shape.food,
            Kind::Water => shape.water,
            Kind::Clothing => shape.clothing,
            Kind::FirstAid => shape.first_aid,
            Kind::Electronics => shape.electronics,
            Kind::Papers => shape.papers,
            Kind::Fuel => shape.fuel,
            Kind::Hygiene => shape.hygiene,
            Kind::Comfort => shape.comfort,
        };
        days[*kind as usize] = served.map_or(0.0, |hours: Hours| hours.get() / 24.0);
    }
    days
}

/// A scenario's own prices.
pub(super) fn own(shape: &OwnPricesShape, purse: &money::Purse, place: &Place, findings: &mut Findings) -> OwnPrices {
    let mut paid = |key: &str, price: Option<Price>| price.map(|price| purse.paid(price, &place.key(key), findings));
    OwnPrices {
        weight: shape.weight.map(|factor| factor.0),
        hour: paid("hour", shape.hour),
        buying: shape.buying.map(|factor| factor.0),
        thing: shape.thing,
        rest_of_day: shape.rest_of_day,
        recovery: paid("recovery", shape.recovery),
        night: paid("night", shape.night),
        dread: shape.dread.map(|factor| factor.0),
    }
}
