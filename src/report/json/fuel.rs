//! Petrol that does not reach the next pump.

use serde::Serialize;

/// `null` where it does.
#[derive(Serialize)]
pub(super) struct FuelShort<'a> {
    leg: &'a str,
    wanted_ml: f64,
    carried_ml: f64,
    pump_every_km: Option<f64>,
}

pub(super) fn fuel(short: Option<&fardel_core::answer::FuelShort>) -> Option<FuelShort<'_>> {
    short.map(|short| FuelShort {
        leg: &short.leg,
        wanted_ml: short.wanted.millilitres(),
        carried_ml: short.carried.millilitres(),
        pump_every_km: short.pump_every.map(fardel_core::units::Distance::km),
    })
}
