//! The numbers that the optimiser works with.

use super::demand::{CompoundPoisson, Ladder};
use super::means;
use crate::resolve::{Case, CaseFailure, CaseRepair, LegExposure};
use crate::timing::timed;

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
    /// Hours that one more kilogram on each rider's bike costs over the trip, through more falls.
    handling: Vec<f64>,
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

    /// These stakes as those of a part of the trip: stocks and weight are reckoned over the whole of it.
    #[must_use]
    pub fn as_part_of(self, whole: &Self) -> Self {
        let Self { ladders, demands, handling, .. } = whole.clone();
        Self { ladders, demands, handling, ..self }
    }

    /// Hours that one more kilogram of an item costs: on its owner's bike, or, where anybody may carry it, the mean over
    /// the riders, since who carries it is decided later.
    #[must_use]
    pub fn handling_per_kg(&self, owner: Option<usize>) -> f64 {
        #[allow(clippy::cast_precision_loss, reason = "a dozen riders at most")]
        let riders = self.handling.len().max(1) as f64;
        owner.and_then(|rider| self.handling.get(rider).copied()).unwrap_or(self.handling.iter().sum::<f64>() / riders)
    }
}

/// Assesses a case.
#[must_use]
pub fn assess(case: &Case) -> Stakes {
    timed("reckon what each failure costs", || assessed(case))
}

fn assessed(case: &Case) -> Stakes {
    let total = |failure| case.stretches(failure).map(|leg| means::on_leg(failure, leg)).sum();
    let means: Vec<f64> = case.failures.iter().map(total).collect();
    let hours_unrepaired = case.failures.iter().map(|failure| unrepaired(case, failure)).collect();
    let repairs: Vec<Vec<RepairStakes>> = case
        .failures
        .iter()
        .map(|f| f.repairs.iter().map(|r| RepairStakes { benefit: benefit(case, f, r) }).collect())
        .collect();
    let demands: Vec<CompoundPoisson> =
        (0..case.stocks.len()).map(|stock| demand(case, stock, &means, &repairs)).collect();
    let ladders = demands.iter().enumerate().map(|(stock, demand)| ladder(case, stock, demand)).collect();
    let handling = (0..case.exposures.len()).map(|rider| handling_per_kg(case, rider)).collect();
    Stakes { means, hours_unrepaired, repairs, ladders, demands, handling }
}

/// `sum over riders and legs of mean x hours unrepaired`.
fn unrepaired(case: &Case, failure: &CaseFailure) -> f64 {
    let lost =
        |leg: &LegExposure| means::on_leg(failure, leg) * failure.outcome.hours_unrepaired(leg.hours_to_help).get();
    case.stretches(failure).map(lost).sum()
}

/// `sum over riders and legs of mean x max(0, hours - time - (1 - restores) x hours)`: a repair is not begun where it
/// costs more than it saves, nor where too few riders are there for it.
fn benefit(case: &Case, failure: &CaseFailure, repair: &CaseRepair) -> f64 {
    let saved = |leg: &LegExposure| {
        let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
        means::on_leg(failure, leg) * (repair.restores * hours - repair.time.get()).max(0.0)
    };
    case.stretches(failure).filter(|leg| leg.riders >= repair.riders).map(saved).sum()
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

/// Hours per kilogram on one rider's bike: every fall costs its own time and brings breakages that cost what is left
/// after the best repair; falls rise by `load sensitivity / bike mass` per kilogram of kit. Linear at the empty kit.
fn handling_per_kg(case: &Case, rider: usize) -> f64 {
    let exposure = &case.exposures[rider];
    let bike_kg = exposure.bike_mass.kilograms();
    if bike_kg <= 0.0 {
        return 0.0;
    }
    let own = || case.failures.iter().filter(|failure| failure.riders.contains(&rider));
    let per_fall = |leg: &LegExposure| {
        let breakage: f64 = own().map(|f| f.modifier * f.rate.per_fall * hours_left(f, leg)).sum();
        exposure.hours_per_fall.get() + breakage
    };
    let falls: f64 = exposure.legs.iter().map(|leg| leg.falls * per_fall(leg)).sum();
    falls * exposure.load_sensitivity / bike_kg
}

/// Hours that an occurrence on a leg still costs after the best repair that some kit allows there.
fn hours_left(failure: &CaseFailure, leg: &LegExposure) -> f64 {
    let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
    let there = failure.repairs.iter().filter(|repair| repair.riders <= leg.riders);
    let repaired = there.map(|r| r.time.get() + (1.0 - r.restores) * hours);
    repaired.fold(hours, f64::min)
}
