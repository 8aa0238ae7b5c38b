//! Members of lists.

use crate::resolve::{ChargeRange, Range, Reason};
use crate::serial::parts;

parts! {
    /// Things by name, with how many of each.
    NamedCount((name, count) => (String, u32)) {
        /// As a rider would say it.
        name: String = name.clone(),
        /// How many.
        count: u32 = *count,
    }
    /// A rider and how many units that rider carries.
    Holder((rider, count) => (String, u32)) {
        /// The rider's name.
        rider: String = rider.clone(),
        /// How many.
        count: u32 = *count,
    }
    /// Something that riders do not have with them.
    Lacking((name, with) => (String, Vec<String>)) {
        /// The need, as a rider would say it.
        name: String = name.clone(),
        /// Those of the others who have what meets it; empty: none of them has enough.
        with: Vec<String> = with.clone(),
    }
    /// A repair that the kit allows.
    RepairShare((name, share) => (String, f64)) {
        /// As a rider would say it.
        name: String = name.clone(),
        /// Share of the occurrences that it meets.
        share_of_occurrences: f64 = *share,
    }
    /// A failure that the kit does nothing about.
    OpenFailure((name, mean) => (String, f64)) {
        /// As a rider would say it.
        name: String = name.clone(),
        /// Expected occurrences on the trip.
        expected_occurrences: f64 = *mean,
    }
    /// Items that were dropped before choosing.
    Dropped((reason, items) => (Reason, usize)) {
        /// Why.
        reason: &'static str = reason.words(),
        /// How many.
        items: usize = *items,
    }
    /// How far a battery must reach.
    BatteryRange((rider, range) => (String, ChargeRange)) {
        /// Whose battery.
        rider: String = rider.clone(),
        /// The leg that asks most of it.
        leg: String = range.leg.clone(),
        /// Longest stretch between places to charge, in km.
        stretch_km: f64 = range.stretch.km(),
        /// Factor on the distance.
        reserve_factor: f64 = range.reserve,
        /// Distance wanted, reserve and all.
        wanted_km: f64 = range.wanted().km(),
        /// What a full battery does on that leg's mix of surfaces.
        range_km: f64 = range.range.km(),
        /// What it lacks.
        short_km: f64 = range.short().km(),
    }
    /// How far a tank must reach.
    FuelRange((rider, range) => (String, Range)) {
        /// Whose tank.
        rider: String = rider.clone(),
        /// The leg that asks most of it.
        leg: String = range.leg.clone(),
        /// Longest stretch between pumps, in km.
        stretch_km: f64 = range.stretch.km(),
        /// Litres for 100 km on that leg's mix of surfaces.
        litres_per_100_km: f64 = range.per_100_km,
        /// Factor on the distance.
        reserve_factor: f64 = range.reserve,
        /// Litres wanted, reserve and all.
        wanted_l: f64 = range.litres,
        /// Litres that the tank holds.
        tank_l: f64 = range.tank.litres(),
        /// Litres wanted beyond the tank.
        short_l: f64 = range.short(),
    }
}
