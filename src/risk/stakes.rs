//! The numbers that the optimiser works with.

use super::demand::{CompoundPoisson, Ladder};
use super::means;
use crate::resolve::{Case, CaseFailure, CaseRepair};

/// What is at stake on the trip, failure by failure and stock by stock.
#[derive(Debug, Clone)]
pub struct Stakes {
    /// Expected occurrences of each failure over the trip.
    pub means: Vec<f64>,
    /// Expected hours lost to each failure with an empty kit.
    pub hours_unrepaired: Vec<f64>,
    /// For each failure, what each of its repairs saves if it can always be done.
    pub repairs: Vec<Vec<RepairStakes>>,
    /// For each stock, how far it reaches.
    pub ladders: Vec<Ladder>,
    /// For each stock, the demand behind the ladder.
    pub demands: Vec<CompoundPoisson>,
    /// Hours that one more kilogram of kit costs over the trip, through more falls.
    pub handling_per_kg: f64,
}

/// What one repair saves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RepairStakes {
    /// Expected hours saved over the trip if the repair can be done at every occurrence; never negative.
    pub benefit: f64,
}

impl Stakes {
    /// Expected hours lost with an empty kit.
    #[must_use]
    pub fn hours_empty(&self) -> f64 {
        self.hours_unrepaired.iter().sum()
    }
}

/// Assesses a case.
#[must_use]
pub fn assess(case: &Case) -> Stakes {
    let by_leg: Vec<Vec<f64>> = case.failures.iter().map(|f| means::by_leg(f, &case.exposure)).collect();
    let hours_unrepaired = case.failures.iter().zip(&by_leg).map(|(f, means)| unrepaired(case, f, means)).collect();
    let repairs: Vec<Vec<RepairStakes>> = case
        .failures
        .iter()
        .zip(&by_leg)
        .map(|(f, means)| f.repairs.iter().map(|r| RepairStakes { benefit: benefit(case, f, r, means) }).collect())
        .collect();
    let totals: Vec<f64> = by_leg.iter().map(|means| means.iter().sum()).collect();
    let demands: Vec<CompoundPoisson> =
        (0..case.stocks.len()).map(|stock| demand(case, stock, &totals, &repairs)).collect();
    let ladders = demands.iter().enumerate().map(|(stock, demand)| ladder(case, stock, demand)).collect();
    Stakes { means: totals, hours_unrepaired, repairs, ladders, demands, handling_per_kg: handling_per_kg(case) }
}

/// `sum over legs of mean x hours unrepaired`.
fn unrepaired(case: &Case, failure: &CaseFailure, means: &[f64]) -> f64 {
    let legs = case.exposure.legs.iter().zip(means);
    legs.map(|(leg, mean)| mean * failure.outcome.hours_unrepaired(leg.hours_to_help).get()).sum()
}

/// `sum over legs of mean x max(0, hours - time - (1 - restores) x hours)`: a repair is not begun where it costs more
/// than it saves.
fn benefit(case: &Case, failure: &CaseFailure, repair: &CaseRepair, means: &[f64]) -> f64 {
    let legs = case.exposure.legs.iter().zip(means);
    legs.map(|(leg, mean)| {
        let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
        mean * (repair.restores * hours - repair.time.get()).max(0.0)
    })
    .sum()
}

/// Pooled demand on one stock. A failure with several repairs from the same stock counts with the one that saves most.
fn demand(case: &Case, stock: usize, totals: &[f64], repairs: &[Vec<RepairStakes>]) -> CompoundPoisson {
    CompoundPoisson::new(case.failures.iter().enumerate().filter_map(|(f, failure)| {
        let using = failure.repairs.iter().zip(&repairs[f]).filter_map(|(repair, stakes)| {
            let units = repair.uses.iter().find(|(used, _)| *used == stock)?.1;
            (stakes.benefit > 0.0).then_some((stakes.benefit, units))
        });
        let best = using.reduce(|best, now| if now.0 > best.0 { now } else { best })?;
        Some((totals[f], best.1))
    }))
}

/// The ladder up to all that could be carried, in the largest step that divides what every item holds.
fn ladder(case: &Case, stock: usize, demand: &CompoundPoisson) -> Ladder {
    let held = case.items.iter().filter_map(|item| {
        let units = item.holds.iter().find(|(held, _)| *held == stock)?.1;
        Some((units, units.saturating_mul(item.at_most)))
    });
    let (step, most) = held.fold((0, 0_u32), |(step, most), (units, all)| (gcd(step, units), most.saturating_add(all)));
    demand.ladder(most, step)
}

const fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Hours per kilogram: every fall costs its own time and brings breakages that cost what is left after the best
/// repair; falls rise by `load sensitivity / bike mass` per kilogram of kit. Linear at the empty kit.
fn handling_per_kg(case: &Case) -> f64 {
    let exposure = &case.exposure;
    let bike_kg = exposure.bike_mass.kilograms();
    if bike_kg <= 0.0 {
        return 0.0;
    }
    let per_fall = |help| {
        let breakage: f64 = case.failures.iter().map(|f| f.modifier * f.rate.per_fall * hours_left(f, help)).sum();
        exposure.hours_per_fall.get() + breakage
    };
    let falls: f64 = exposure.legs.iter().map(|leg| leg.falls * per_fall(leg.hours_to_help)).sum();
    falls * exposure.load_sensitivity / bike_kg
}

/// Hours that an occurrence still costs after the best repair that some kit allows.
fn hours_left(failure: &CaseFailure, help: crate::units::Hours) -> f64 {
    let hours = failure.outcome.hours_unrepaired(help).get();
    let repaired = failure.repairs.iter().map(|r| r.time.get() + (1.0 - r.restores) * hours);
    repaired.fold(hours, f64::min)
}
