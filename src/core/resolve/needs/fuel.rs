//! Fuel range: the longest stretch between pumps against tank and consumption; what is short is carried.

use super::{Amount, Party, rounded_up};
use crate::domain::{Bike, Energy, Leg, Scenario, Surface};
use crate::units::{Distance, Volume};
use fardel_words::say;

/// Distance is multiplied by this before litres are counted: detours, headwind, a wrong turn. Common practice, no source:
/// 1.25 on seal, gravel and tracks, 1.5 on rough ground and sand.
const RESERVE: f64 = 1.25;
/// The same factor on rough ground and sand.
const RESERVE_ROUGH: f64 = 1.5;

/// The leg that asks most of the tank.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// Its name.
    pub leg: String,
    /// Longest stretch between pumps.
    pub stretch: Distance,
    /// Litres for 100 km on the leg's mix of surfaces.
    pub per_100_km: f64,
    /// Factor on the distance.
    pub reserve: f64,
    /// Litres wanted, reserve and all.
    pub litres: f64,
    /// What the tank holds.
    pub tank: Volume,
}

impl Range {
    /// Litres beyond the tank.
    #[must_use]
    pub fn short(&self) -> f64 {
        (self.litres - self.tank.litres()).max(0.0)
    }
    /// The sum in words.
    #[must_use]
    pub fn working(&self) -> String {
        say!(
            "{}: {:.0} km between pumps x {:.1} L for 100 km x {:.2} reserve = {:.1} L, the tank holds {:.1} L",
            self.leg,
            self.stretch.km(),
            self.per_100_km,
            self.reserve,
            self.litres,
            self.tank.litres()
        )
    }
}

/// The leg that asks most of the tank; `None` for an electric bike, and where no leg says how far pumps are apart.
pub(in crate::resolve) fn range(scenario: &Scenario, bike: &Bike) -> Option<Range> {
    let stretches = scenario.trip.legs.iter().filter_map(|leg| stretch(leg, leg.fuel_every?, bike));
    stretches.reduce(|worst, now| if now.litres > worst.litres { now } else { worst })
}

/// The stretch may lie anywhere on the leg and reach beyond it, so it has the leg's mix of surfaces.
fn stretch(leg: &Leg, every: Distance, bike: &Bike) -> Option<Range> {
    let Energy::Fuel { tank, consumption } = bike.energy else { return None };
    let per_100_km = mean(leg, |surface| consumption.on(surface).litres());
    let reserve = reserve(leg);
    Some(Range {
        leg: leg.name.clone(),
        stretch: every,
        per_100_km,
        reserve,
        litres: every.km() * per_100_km / 100.0 * reserve,
        tank,
    })
}

/// The mean over a leg's surfaces by their distance; that of tracks where the leg has none.
pub(super) fn mean(leg: &Leg, value: impl Fn(Surface) -> f64) -> f64 {
    let total: f64 = Surface::ALL.iter().map(|surface| leg.km.on(*surface).km()).sum();
    let weighted: f64 = leg.km.iter().map(|(surface, km)| km.km() * value(surface)).sum();
    if total > 0.0 { weighted / total } else { value(Surface::Track) }
}

/// The factor on the distance for a leg's mix of surfaces.
pub(super) fn reserve(leg: &Leg) -> f64 {
    mean(leg, |surface| if surface == Surface::Rough { RESERVE_ROUGH } else { RESERVE })
}

/// Millilitres to carry beyond the tank.
pub(super) fn fuel(party: &Party<'_>) -> Amount {
    let Some(range) = party.bike.and_then(|bike| range(party.scenario, bike)) else { return Amount::none() };
    Amount::count(rounded_up(range.short() * 1000.0), range.working())
}
