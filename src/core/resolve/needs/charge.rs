//! Range of a battery: the longest stretch between places to charge against what a full one does. Nothing in the bags adds to it.

use super::fuel::{mean, reserve};
use crate::domain::{Bike, Leg, Scenario};
use crate::units::Distance;
use fardel_words::say;

/// The leg that asks most of the battery.
#[derive(Debug, Clone, PartialEq)]
pub struct ChargeRange {
    /// Its name.
    pub leg: String,
    /// Longest stretch between places to charge.
    pub stretch: Distance,
    /// Factor on the distance.
    pub reserve: f64,
    /// What a full battery does on the leg's mix of surfaces.
    pub range: Distance,
}

impl ChargeRange {
    /// Distance that the battery should do, reserve and all.
    #[must_use]
    pub fn wanted(&self) -> Distance {
        Distance::new(self.stretch.km() * self.reserve)
    }
    /// What it lacks.
    #[must_use]
    pub fn short(&self) -> Distance {
        Distance::new((self.wanted().km() - self.range.km()).max(0.0))
    }
    /// How far places to charge may be apart there.
    #[must_use]
    pub fn reaches(&self) -> Distance {
        Distance::new(self.range.km() / self.reserve)
    }
    /// The sum in words.
    #[must_use]
    pub fn working(&self) -> String {
        say!(
            "{}: {:.0} km between places to charge x {:.2} reserve = {:.0} km, a full battery does {:.0} km on its mix of surfaces",
            self.leg,
            self.stretch.km(),
            self.reserve,
            self.wanted().km(),
            self.range.km(),
        )
    }
}

/// The leg that asks most of the battery; `None` for a bike with a tank, and where no leg says how far places to charge are apart.
pub(in crate::resolve) fn range(scenario: &Scenario, bike: &Bike) -> Option<ChargeRange> {
    let legs = scenario.trip.legs.iter();
    let stretches = legs.filter_map(|leg| stretch(leg, leg.fuel_every?, bike));
    let used = |range: &ChargeRange| range.wanted().km() / range.range.km();
    stretches.reduce(|worst, now| if used(&now) > used(&worst) { now } else { worst })
}

/// A kilometre takes one part in `range` of a full battery, so shares of the way add up by their inverses.
fn stretch(leg: &Leg, every: Distance, bike: &Bike) -> Option<ChargeRange> {
    let range = bike.energy.range()?;
    let per_km = mean(leg, |surface| 1.0 / range.on(surface).km());
    Some(ChargeRange {
        leg: leg.name.clone(),
        stretch: every,
        reserve: reserve(leg),
        range: Distance::new(1.0 / per_km),
    })
}
