//! The chance of getting home: a lower bound for the rider who mends whatever breaks with whatever is left.
//!
//! Each failure that stops the bike is pledged to its surest repair: one that uses no stock, or the one whose stocks most
//! probably suffice for everything that may draw on them. A failure without any is fatal at its first occurrence. A failure
//! on legs that more or fewer ride together counts as several, since some repairs take a second rider.
//!
//! A stock of `u` units lets nobody down if all that may be drawn from it, `T`, does not exceed it, or if nothing that is
//! pledged to it happens, `B`. With `N` the draws of all that is not pledged to it, `T = N` where `B` holds, so
//!
//! ```text
//! P(T <= u or B) = P(T <= u) + P(B) x (1 - P(N <= u given B))
//! ```
//!
//! Failures with kilometres and days are independent Poisson numbers. Falls are a Poisson number too, and each breaks a
//! Poisson number of things, so what they break comes together. Where `B` holds, falls are a Poisson number again, of those
//! falls alone that break nothing pledged (a Poisson number split by chance), and break the rest as before.
//!
//! Each of these events is the less likely the more falls and failures there are, all of which are functions of independent
//! random variables that rise with them. Such events are associated: the chance of all together is not below the product of
//! their chances (Esary, Proschan & Walkup, Annals of Mathematical Statistics 38, 1967, 1466-1474). The product over
//! stocks is therefore a lower bound. Means are those with the kit aboard: a heavier bike falls more often.

use super::demand::CompoundPoisson;
use super::{means, value};
use crate::domain::Outcome;
use crate::resolve::{Instance, InstanceFailure, InstanceRepair};
use std::collections::{BTreeMap, BTreeSet};

/// A fall that draws a number of units with no greater chance than this counts as one that draws too many.
const NEGLIGIBLE: f64 = 1e-15;

/// The bound for a kit.
#[must_use]
pub fn bound(instance: &Instance, counts: &[u32]) -> f64 {
    let trip = Trip::new(instance, counts);
    let enough: Vec<f64> = (0..instance.stocks.len()).map(|stock| trip.at_most(stock, &Pledges::new())).collect();
    let mut pledges: BTreeMap<usize, Pledges> = BTreeMap::new();
    let mut chance = 1.0;
    for (at, failure) in instance.failures.iter().enumerate() {
        if !matches!(failure.outcome, Outcome::Stops) {
            continue;
        }
        for company in together(instance, failure) {
            match surest(&trip, failure, company, &enough) {
                None => chance *= libm::exp(-trip.mean(failure, company)),
                Some(repair) => repair.uses.iter().for_each(|(stock, _)| {
                    pledges.entry(*stock).or_default().insert((at, company));
                }),
            }
        }
    }
    chance * pledges.iter().map(|(stock, pledged)| trip.suffices(*stock, enough[*stock], pledged)).product::<f64>()
}

/// Failures that hang on a stock, by number, and how many ride together where they do.
type Pledges = BTreeSet<(usize, u32)>;

/// The repair most probably still possible whenever a failure comes.
fn surest<'a>(
    trip: &Trip<'_>,
    failure: &'a InstanceFailure,
    company: u32,
    enough: &[f64],
) -> Option<&'a InstanceRepair> {
    let repairs = failure.repairs.iter().filter(|repair| repair.riders <= company && trip.able(repair));
    let sure = repairs.map(|r| (r, r.uses.iter().map(|(stock, _)| enough[*stock]).product::<f64>()));
    sure.reduce(|best, now| if now.1 > best.1 { now } else { best }).map(|(repair, _)| repair)
}

/// How many ride together on the legs on which a failure can happen, each number once.
fn together(instance: &Instance, failure: &InstanceFailure) -> BTreeSet<u32> {
    instance.stretches(failure).map(|leg| leg.riders).collect()
}

/// The trip with a kit aboard.
struct Trip<'a> {
    instance: &'a Instance,
    functions: Vec<u32>,
    stocks: Vec<u32>,
    load_kg: f64,
    stretches: Vec<Stretch>,
}

/// All legs that one rider rides in a company of so many.
struct Stretch {
    rider: usize,
    company: u32,
    falls: f64,
}

impl<'a> Trip<'a> {
    fn new(instance: &'a Instance, counts: &[u32]) -> Self {
        let riders = u32::try_from(instance.exposures.len().max(1)).unwrap_or(u32::MAX);
        let load_kg = value::mass(instance, counts).kilograms() / f64::from(riders);
        let mut falls: BTreeMap<(usize, u32), f64> = BTreeMap::new();
        for (rider, exposure) in instance.exposures.iter().enumerate() {
            let rise = 1.0 + means::rise(exposure, load_kg);
            exposure.legs.iter().for_each(|leg| *falls.entry((rider, leg.riders)).or_default() += leg.falls * rise);
        }
        let stretches = falls.into_iter().map(|((rider, company), falls)| Stretch { rider, company, falls });
        Self {
            instance,
            functions: value::available(instance, counts),
            stocks: value::stocked(instance, counts),
            load_kg,
            stretches: stretches.collect(),
        }
    }

    fn able(&self, repair: &InstanceRepair) -> bool {
        repair.is_possible(&self.functions, &self.stocks)
    }

    /// Expected occurrences where so many ride together.
    fn mean(&self, failure: &InstanceFailure, company: u32) -> f64 {
        means::loaded(self.instance, failure, self.load_kg, |leg| leg.riders == company)
    }

    /// The most that a repair of a failure takes from a stock.
    fn most(&self, failure: &InstanceFailure, stock: usize) -> u32 {
        let uses = failure.repairs.iter().filter(|repair| self.able(repair)).flat_map(|repair| &repair.uses);
        uses.filter(|(used, _)| *used == stock).map(|(_, units)| *units).max().unwrap_or(0)
    }

    /// The chance that a stock lets down nothing that is pledged to it, where it covers all draws with the chance `enough`.
    fn suffices(&self, stock: usize, enough: f64, pledged: &Pledges) -> f64 {
        let none: f64 = self.stretches.iter().map(|stretch| self.none(stretch, pledged)).product();
        (enough + none * (1.0 - self.at_most(stock, pledged))).min(1.0)
    }

    /// The chance that nothing pledged happens on a stretch.
    fn none(&self, stretch: &Stretch, pledged: &Pledges) -> f64 {
        let riding: f64 = self.on(stretch, pledged).map(|failure| self.riding(stretch, failure)).sum();
        libm::exp(-riding - stretch.falls * (1.0 - self.harmless(stretch, pledged)))
    }

    /// The chance that one fall breaks nothing pledged.
    fn harmless(&self, stretch: &Stretch, pledged: &Pledges) -> f64 {
        libm::exp(-self.on(stretch, pledged).map(InstanceFailure::in_a_fall).sum::<f64>())
    }

    /// What is pledged on a stretch.
    fn on<'b>(&'b self, stretch: &'b Stretch, pledged: &'b Pledges) -> impl Iterator<Item = &'b InstanceFailure> {
        let here = pledged.iter().filter(|(_, company)| *company == stretch.company);
        let failures = here.map(|(at, _)| &self.instance.failures[*at]);
        failures.filter(|failure| failure.riders.contains(&stretch.rider))
    }

    /// Expected occurrences on a stretch without falls.
    fn riding(&self, stretch: &Stretch, failure: &InstanceFailure) -> f64 {
        let legs = self.instance.exposures[stretch.rider].legs.iter().filter(|leg| leg.riders == stretch.company);
        legs.map(|leg| failure.in_riding(leg)).sum()
    }

    /// The chance that a stock covers all that may be drawn from it, given that nothing happens of what is left out.
    fn at_most(&self, stock: usize, left_out: &Pledges) -> f64 {
        let units = self.stocks[stock];
        let draws: Vec<(usize, u32)> =
            self.instance.failures.iter().map(|failure| self.most(failure, stock)).enumerate().collect();
        let mut sources: Vec<(f64, u32)> = Vec::new();
        let mut beyond = 0.0;
        for stretch in &self.stretches {
            let counts = |at: usize| {
                let failure = &self.instance.failures[at];
                (failure.riders.contains(&stretch.rider) && !left_out.contains(&(at, stretch.company)))
                    .then_some(failure)
            };
            let own = draws.iter().filter(|(_, most)| *most > 0).filter_map(|(at, most)| Some((counts(*at)?, *most)));
            let own: Vec<(&InstanceFailure, u32)> = own.collect();
            sources.extend(own.iter().map(|(failure, most)| (self.riding(stretch, failure), *most)));
            let falls = stretch.falls * self.harmless(stretch, left_out);
            let one_fall = CompoundPoisson::new(own.iter().map(|(failure, most)| (failure.in_a_fall(), *most)));
            let chances: Vec<(u32, f64)> = (0..).zip(one_fall.probabilities(units as usize)).collect();
            let counted = chances.iter().filter(|(_, chance)| *chance > NEGLIGIBLE);
            beyond += falls * (1.0 - counted.clone().map(|(_, chance)| chance).sum::<f64>()).max(0.0);
            sources.extend(counted.map(|(drawn, chance)| (falls * chance, *drawn)));
        }
        CompoundPoisson::new(sources).at_most(units) * libm::exp(-beyond)
    }
}
