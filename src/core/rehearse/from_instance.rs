//! A case and a kit made into a party.

use super::party::{Aboard, Fault, Member, Mending, Party, Stock, Trouble, microhours};
use super::providers::Providers;
use crate::resolve::{Exposure, Instance, InstanceFailure, InstanceRepair, LegExposure};
use crate::risk::means;
use crate::units::{Hours, Mass};

/// What a rider of the case carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Load {
    /// Rider's name.
    pub rider: String,
    /// All that is in the bags, whether or not it is of use on this trip.
    pub mass: Mass,
}

/// The trip of a case with `counts[i]` of item `i` aboard; one load for each rider of the case, in its order.
#[must_use]
pub fn party(instance: &Instance, counts: &[u32], loads: &[Load]) -> Party {
    let aboard: Vec<usize> = (0..counts.len()).filter(|item| counts[*item] > 0).collect();
    let kit = Aboards { instance, counts, aboard, providers: Providers::new(instance, counts) };
    let riders = instance.exposures.iter().zip(loads).enumerate();
    let ridden = || instance.exposures.iter().flat_map(|exposure| &exposure.legs);
    let mut days = vec![0.0; ridden().map(|leg| leg.number + 1).max().unwrap_or(0)];
    ridden().for_each(|leg| days[leg.number] = leg.days);
    let legs = days.len();
    Party {
        days,
        members: riders.map(|(rider, (exposure, load))| member(&kit, rider, exposure, load, legs)).collect(),
        troubles: instance.failures.iter().map(|failure| trouble(instance, failure)).collect(),
        items: kit.items(),
        stocks: (0..instance.stocks.len()).map(|stock| kit.stock(stock)).collect(),
    }
}

fn member(kit: &Aboards<'_>, rider: usize, exposure: &Exposure, load: &Load, legs: usize) -> Member {
    let rise = means::rise(exposure, load.mass.kilograms());
    let own = kit.instance.failures.iter().enumerate().filter(|(_, failure)| failure.riders.contains(&rider));
    let faults = own.map(|(trouble, failure)| Fault {
        trouble,
        riding: by_leg(exposure, legs, |leg| failure.in_riding(leg)),
        per_fall: failure.in_a_fall(),
        unrepaired: by_leg(exposure, legs, |leg| microhours(unrepaired(failure, leg))),
        repairs: failure.repairs.iter().filter_map(|repair| kit.mending(exposure, failure, repair, legs)).collect(),
    });
    Member {
        name: load.rider.clone(),
        falls: by_leg(exposure, legs, |leg| leg.falls * (1.0 + rise)),
        owed_to_weight: rise / (1.0 + rise),
        per_fall: microhours(exposure.hours_per_fall),
        faults: faults.collect(),
    }
}

/// A value for each leg of the trip: nothing on legs that this rider does not ride.
fn by_leg<T: Copy + Default>(exposure: &Exposure, legs: usize, value: impl Fn(&LegExposure) -> T) -> Vec<T> {
    let mut values = vec![T::default(); legs];
    exposure.legs.iter().for_each(|leg| values[leg.number] = value(leg));
    values
}

fn unrepaired(failure: &InstanceFailure, leg: &LegExposure) -> Hours {
    failure.outcome.hours_unrepaired(leg.fetched)
}

/// Occurrences that the evidence for a failure's rate is worth, which is the shape of the Gamma distribution of the rate.
/// `None`: it cannot come on this trip.
#[must_use]
pub fn evidence(instance: &Instance, failure: &InstanceFailure) -> Option<f64> {
    let unmodified = InstanceFailure { modifier: 1.0, ..failure.clone() };
    let expected: f64 = instance.stretches(failure).map(|leg| unmodified.on_leg(leg)).sum();
    (expected > 0.0).then_some(failure.rate.worth_events)
}

fn trouble(instance: &Instance, failure: &InstanceFailure) -> Trouble {
    Trouble {
        id: failure.id.clone(),
        name: failure.name.clone(),
        stops: matches!(failure.outcome, crate::domain::Outcome::Stops),
        evidence: evidence(instance, failure),
    }
}

/// The kit, with its items numbered by their place in the list of what is aboard.
struct Aboards<'a> {
    instance: &'a Instance,
    counts: &'a [u32],
    /// Case items in the kit, in order.
    aboard: Vec<usize>,
    providers: Providers<'a>,
}

impl Aboards<'_> {
    /// The repair, if the functions for it are aboard.
    fn mending(
        &self,
        exposure: &Exposure,
        failure: &InstanceFailure,
        repair: &InstanceRepair,
        legs: usize,
    ) -> Option<Mending> {
        let mut items = Vec::new();
        for (function, wanted) in &repair.needs {
            items.extend(self.providers.of(*function, *wanted)?);
        }
        let cost = |leg: &LegExposure| {
            let hours = unrepaired(failure, leg);
            (leg.riders >= repair.riders).then(|| microhours(repair.time + hours * (1.0 - repair.restores)))
        };
        let costs = by_leg(exposure, legs, cost);
        let worth = |leg: &LegExposure| {
            let all = unrepaired(failure, leg) + failure.outcome.dread(leg.dread);
            all * repair.restores > repair.time
        };
        let worth = by_leg(exposure, legs, worth);
        Some(Mending { uses: repair.uses.clone(), items: self.places(items), costs, worth })
    }

    /// Places of case items in the list of what is aboard, sorted, each once.
    fn places(&self, items: Vec<usize>) -> Vec<usize> {
        let place = |item: usize| self.aboard.binary_search(&item).ok();
        let mut places: Vec<usize> = items.into_iter().filter_map(place).collect();
        places.sort_unstable();
        places.dedup();
        places
    }

    fn items(&self) -> Vec<Aboard> {
        let mut items: Vec<Aboard> = self.aboard.iter().map(|at| self.item(*at)).collect();
        // What something for the trip is useless without is for the trip as well.
        let of_the_trip = items.iter().filter(|item| item.for_the_trip);
        let served: Vec<usize> = of_the_trip.flat_map(|item| item.with.clone()).collect();
        served.into_iter().for_each(|at| items[at].for_the_trip = true);
        items
    }

    fn item(&self, at: usize) -> Aboard {
        let item = &self.instance.items[at];
        let wanted = item.requires.iter().filter_map(|(function, n)| self.providers.of(*function, (*n).max(1)));
        Aboard {
            id: item.id.clone(),
            name: item.name.clone(),
            count: self.counts[at],
            for_the_trip: !item.meets.is_empty(),
            asked_for: item.at_least > 0,
            with: self.places(wanted.flatten().collect()),
        }
    }

    fn stock(&self, stock: usize) -> Stock {
        let units = |item: &usize| {
            let each = self.instance.items[*item].holds.iter().find(|(held, _)| *held == stock)?.1;
            Some(each.saturating_mul(self.counts[*item])).filter(|units| *units > 0)
        };
        let holders = self.aboard.iter().enumerate().filter_map(|(place, item)| Some((place, units(item)?)));
        let holders: Vec<(usize, u32)> = holders.collect();
        let units = holders.iter().map(|(_, units)| *units).fold(0, u32::saturating_add);
        Stock { id: self.instance.stocks[stock].clone(), units, holders }
    }
}
