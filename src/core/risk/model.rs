//! The numbers that the optimiser works with.

use super::demand::{CompoundPoisson, Ladder};
use super::division::{self, Division};
use super::means;
use super::value::mass;
use crate::domain::Pooling;
use crate::resolve::{Instance, InstanceFailure, InstanceRepair, LegExposure};
use fardel_milp::timing::timed;

/// Ladders and prices that differ by less than this (relative) are the same.
const SAME: f64 = 1e-9;

/// What is at stake on the trip, failure by failure and stock by stock.
#[derive(Debug, Clone)]
pub struct RiskModel {
    /// Expected occurrences of each failure over the trip.
    pub means: Vec<f64>,
    /// The same with the weight of the kit aboard that these stakes were taken at.
    pub loaded: Vec<f64>,
    /// Expected hours lost to each failure with an empty kit.
    pub hours_unrepaired: Vec<f64>,
    /// For each failure, what each of its repairs saves if it can always be done.
    pub repairs: Vec<Vec<RepairRisk>>,
    /// For each failure, its repairs that save something, the one that saves most first.
    pub order: Vec<Vec<usize>>,
    /// For each stock, how far it reaches.
    pub ladders: Vec<Ladder>,
    /// For each stock, the demand behind the ladder.
    pub demands: Vec<CompoundPoisson>,
    /// Hours that one more kilogram on each rider's bike costs over the trip.
    weight: OfWeight,
}

/// What one repair saves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RepairRisk {
    /// Expected hours saved over the trip if the repair can be done at every occurrence, dread among them; never negative.
    pub benefit: f64,
    /// The dread in it.
    pub dread: f64,
}

/// Hours of the trip that a kilogram costs.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PerKilogram {
    /// Through hard riding that takes longer.
    pub riding: f64,
    /// Through more falls, and what breaks in them.
    pub falls: f64,
}

impl PerKilogram {
    /// Both together.
    #[must_use]
    pub fn hours(self) -> f64 {
        self.riding + self.falls
    }
}

/// What a kilogram costs on each rider's bike.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct OfWeight(Vec<PerKilogram>);

impl OfWeight {
    /// The same, but for rounding?
    fn near(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(b.abs()).max(1e-6);
        self.0.iter().zip(&other.0).all(|(a, b)| near(a.riding, b.riding) && near(a.falls, b.falls))
    }

    /// On the owner's bike, or the mean over the riders.
    pub fn per_kg(&self, owner: Option<usize>) -> PerKilogram {
        if let Some(own) = owner.and_then(|rider| self.0.get(rider)) {
            return *own;
        }
        #[allow(clippy::cast_precision_loss, reason = "a dozen riders at most")]
        let riders = self.0.len().max(1) as f64;
        PerKilogram {
            riding: self.0.iter().map(|each| each.riding).sum::<f64>() / riders,
            falls: self.0.iter().map(|each| each.falls).sum::<f64>() / riders,
        }
    }
}

impl RiskModel {
    /// Expected hours lost with an empty kit.
    #[must_use]
    pub fn hours_empty(&self) -> f64 {
        self.hours_unrepaired.iter().sum()
    }

    /// These stakes as those of a part of the trip: stocks and weight are reckoned over the whole of it.
    #[must_use]
    pub fn as_part_of(self, whole: &Self) -> Self {
        let Self { ladders, demands, weight, .. } = whole.clone();
        Self { ladders, demands, weight, ..self }
    }

    /// What a kilogram of an item costs: on its owner's bike, or, where anybody may carry it, the mean over the riders,
    /// since who carries it is decided later.
    #[must_use]
    pub fn per_kg(&self, owner: Option<usize>) -> PerKilogram {
        self.weight.per_kg(owner)
    }

    /// Hours that a kilogram of an item costs, by riding and falls; see [`Self::per_kg`].
    #[must_use]
    pub fn handling_per_kg(&self, owner: Option<usize>) -> f64 {
        self.per_kg(owner).hours()
    }

    /// The stakes as they are with a kit aboard: every stock is wanted for what better repairs of that kit leave over, and
    /// a fall costs what that kit leaves of the damage. What the kit lacks is reckoned as if it were added next.
    #[must_use]
    pub fn at(&self, instance: &Instance, counts: &[u32]) -> Self {
        if instance.pooling == Pooling::EveryRepair {
            return self.clone();
        }
        let division = division::settle(instance, self, counts);
        let demands: Vec<CompoundPoisson> =
            (0..instance.stocks.len()).map(|stock| division.wanted(instance, self, stock)).collect();
        let ladders = demands.iter().enumerate().map(|(stock, demand)| ladder(instance, stock, demand)).collect();
        let weight = self.weight_at(instance, &division);
        let riders = u32::try_from(instance.exposures.len().max(1)).unwrap_or(u32::MAX);
        let load_kg = mass(instance, counts).kilograms() / f64::from(riders);
        let loaded =
            instance.failures.iter().map(|failure| means::loaded(instance, failure, load_kg, |_| true)).collect();
        Self { loaded, ladders, demands, weight, ..self.clone() }
    }

    /// Are ladders, the price of weight and, where they count, strandings the same, but for rounding?
    #[must_use]
    pub fn same_as(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(b.abs()).max(1.0);
        let ladders = self.ladders.iter().zip(&other.ladders);
        let mut ladders = ladders.map(|(a, b)| {
            a.shares.len() == b.shares.len() && a.shares.iter().zip(&b.shares).all(|(a, b)| near(*a, *b))
        });
        ladders.all(|same| same) && self.weight.near(&other.weight)
    }

    /// What a kilogram costs with a kit that divides the occurrences like this.
    pub(super) fn weight_at(&self, instance: &Instance, division: &Division) -> OfWeight {
        if instance.pooling == Pooling::EveryRepair {
            return self.weight.clone();
        }
        let left = |f: usize, leg: &LegExposure| {
            let failure = &instance.failures[f];
            let shares = failure.repairs.iter().zip(&division.shares[f]);
            let hours_saved = |repair| -> f64 {
                let (saved, dread) = saved(failure, repair, leg);
                saved - dread
            };
            let done = shares.filter(|(_, share)| **share > 0.0).map(|(repair, share)| share * hours_saved(repair));
            hours(failure, leg) - done.sum::<f64>()
        };
        OfWeight((0..instance.exposures.len()).map(|rider| per_kg(instance, rider, &left)).collect())
    }
}

/// Assesses a case, for a kit that could do the best of all repairs always.
#[must_use]
pub fn assess(instance: &Instance) -> RiskModel {
    timed("reckon what each failure costs", || assessed(instance))
}

fn assessed(instance: &Instance) -> RiskModel {
    let over_legs = |failure, of: &dyn Fn(&LegExposure) -> f64| instance.stretches(failure).map(of).sum::<f64>();
    let means: Vec<f64> =
        instance.failures.iter().map(|failure| over_legs(failure, &|leg| failure.on_leg(leg))).collect();
    let unrepaired = |failure| over_legs(failure, &|leg| failure.on_leg(leg) * hours(failure, leg));
    let repairs: Vec<Vec<RepairRisk>> =
        instance.failures.iter().map(|f| f.repairs.iter().map(|r| repair_risk(instance, f, r)).collect()).collect();
    let order = repairs.iter().map(|repairs| falling(repairs)).collect();
    let demands: Vec<CompoundPoisson> =
        (0..instance.stocks.len()).map(|stock| every_demand(instance, stock, &means, &repairs)).collect();
    let ladders = demands.iter().enumerate().map(|(stock, demand)| ladder(instance, stock, demand)).collect();
    let weight =
        (0..instance.exposures.len()).map(|rider| per_kg(instance, rider, &|f, leg| least_left(instance, f, leg)));
    RiskModel {
        hours_unrepaired: instance.failures.iter().map(unrepaired).collect(),
        weight: OfWeight(weight.collect()),
        loaded: means.clone(),
        means,
        repairs,
        order,
        ladders,
        demands,
    }
}

/// Hours lost to an occurrence on a leg if nothing is done.
fn hours(failure: &InstanceFailure, leg: &LegExposure) -> f64 {
    failure.outcome.hours_unrepaired(leg.fetched).get()
}

/// What is charged beside that.
fn dread(failure: &InstanceFailure, leg: &LegExposure) -> f64 {
    failure.outcome.dread(leg.dread).get()
}

/// What a repair saves of one occurrence on a leg, and the dread in it:
/// `max(0, restores x (hours + dread) - time)`, since what it does not restore still costs its share of both. It is not begun
/// where it costs more than it saves, nor where too few riders are there for it.
fn saved(failure: &InstanceFailure, repair: &InstanceRepair, leg: &LegExposure) -> (f64, f64) {
    let dread = repair.restores * dread(failure, leg);
    let saved = dread + repair.restores * hours(failure, leg) - repair.time.get();
    if leg.riders >= repair.riders && saved > 0.0 { (saved, dread) } else { (0.0, 0.0) }
}

fn repair_risk(instance: &Instance, failure: &InstanceFailure, repair: &InstanceRepair) -> RepairRisk {
    let each = instance.stretches(failure).map(|leg| (failure.on_leg(leg), saved(failure, repair, leg)));
    let (benefit, dread) =
        each.fold((0.0, 0.0), |sum, (mean, (saved, dread))| (sum.0 + mean * saved, sum.1 + mean * dread));
    RepairRisk { benefit, dread }
}

/// Numbers of the repairs that save something, the most first; of equals the one listed first.
fn falling(repairs: &[RepairRisk]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..repairs.len()).filter(|at| repairs[*at].benefit > 0.0).collect();
    order.sort_by(|a, b| repairs[*b].benefit.total_cmp(&repairs[*a].benefit).then(a.cmp(b)));
    order
}

/// Demand on one stock if every failure turns to it first. A failure with several repairs from the same stock counts with
/// the one that saves most.
fn every_demand(instance: &Instance, stock: usize, totals: &[f64], repairs: &[Vec<RepairRisk>]) -> CompoundPoisson {
    CompoundPoisson::new(instance.failures.iter().enumerate().filter_map(|(f, failure)| {
        let using = failure.repairs.iter().zip(&repairs[f]).filter_map(|(repair, risk_model)| {
            let units = repair.uses.iter().find(|(used, _)| *used == stock)?.1;
            (risk_model.benefit > 0.0).then_some((risk_model.benefit, units))
        });
        let best = using.reduce(|best, now| if now.0 > best.0 { now } else { best })?;
        Some((totals[f], best.1))
    }))
}

/// The ladder up to all that could be carried, in the largest step that divides what every item holds.
fn ladder(instance: &Instance, stock: usize, demand: &CompoundPoisson) -> Ladder {
    let held = instance.items.iter().filter_map(|item| {
        let units = item.holds.iter().find(|(held, _)| *held == stock)?.1;
        Some((units, units.saturating_mul(item.at_most)))
    });
    let (step, most) = held.fold((0, 0_u32), |(step, most), (units, all)| (gcd(step, units), most.saturating_add(all)));
    demand.ladder(most, step)
}

const fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Hours per kilogram on one rider's bike. Hard riding takes longer in proportion to the mass moved. Every fall costs its
/// own time and brings breakages that cost what is left of them (`left`, by failure and leg); falls rise by
/// `load sensitivity / bike mass` per kilogram of kit. Linear, at the empty kit's number of falls.
fn per_kg(instance: &Instance, rider: usize, left: &dyn Fn(usize, &LegExposure) -> f64) -> PerKilogram {
    let exposure = &instance.exposures[rider];
    let bike_kg = exposure.bike_mass.kilograms();
    if bike_kg <= 0.0 {
        return PerKilogram { riding: exposure.riding_per_kg, falls: 0.0 };
    }
    let own = || instance.failures.iter().enumerate().filter(|(_, failure)| failure.riders.contains(&rider));
    let per_fall = |leg: &LegExposure| {
        let breaking = own().filter(|(_, failure)| failure.rate.per_fall > 0.0);
        let breakage: f64 = breaking.map(|(f, failure)| failure.in_a_fall() * left(f, leg)).sum();
        exposure.hours_per_fall.get() + breakage
    };
    let falls: f64 = exposure.legs.iter().filter(|leg| leg.falls > 0.0).map(|leg| leg.falls * per_fall(leg)).sum();
    PerKilogram { riding: exposure.riding_per_kg, falls: falls * exposure.load_sensitivity / bike_kg }
}

/// Hours that an occurrence on a leg still costs after the best repair that some kit allows there.
fn least_left(instance: &Instance, f: usize, leg: &LegExposure) -> f64 {
    let failure = &instance.failures[f];
    let each = failure.repairs.iter().map(|repair| saved(failure, repair, leg));
    hours(failure, leg) - each.map(|(saved, dread)| saved - dread).fold(0.0, f64::max)
}
