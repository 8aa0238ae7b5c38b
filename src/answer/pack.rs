//! `pack`: what one rider carries, in which bag, why, and what stays open.

use super::plan::{
    Figures, NeedLine, PackAnswer, PackedBag, PackedItem, Proof, RiskLine, ToolkitLeft, Totals, TripSummary,
};
use super::purpose::purposes;
use super::remedy::remedy;
use super::solve::{Solved, solve};
use crate::domain::{Catalogue, Kind, Kit, Rider, Scenario};
use crate::engine::{Effort, EngineError, Stop};
use crate::resolve::{Case, Reason, resolve};
use crate::risk::{self, KitValue, Stakes};
use crate::select::relax::{self, Shortfall};
use crate::stow;
use crate::units::{Distance, Hours};
use crate::verify::{self, Claim, Violation};
use thiserror::Error;

/// Why there is no answer.
#[derive(Debug, Error)]
pub enum PackError {
    /// Needs and limits cannot hold together.
    #[error("needs and limits cannot hold together")]
    Infeasible {
        /// The smallest shortfalls in sum.
        shortfalls: Vec<Shortfall>,
    },
    /// Time ran out first.
    #[error("time ran out before any kit was found")]
    OutOfTime,
    /// The solver failed.
    #[error("{0}")]
    Engine(EngineError),
    /// The answer did not survive checking.
    #[error("the answer did not survive checking")]
    Unverified {
        /// What is wrong.
        violations: Vec<Violation>,
        /// Kit, stowage and claim, for a report of the defect.
        dump: String,
    },
}

/// Packs for one rider of a scenario.
///
/// # Errors
/// [`PackError`]: no feasible kit, no time, a failing solver, or an answer that did not survive checking.
pub fn pack(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    effort: &Effort,
) -> Result<PackAnswer, PackError> {
    let case = resolve(catalogue, scenario, rider)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(format!("no bike `{}`", rider.bike))))?;
    let stakes = risk::assess(&case);
    let solved = solve(&case, &stakes, effort).map_err(|error| explain(&case, &stakes, effort, error))?;
    let answer = answer(catalogue, scenario, rider, &case, &stakes, &solved, effort);
    let claim = claim(&answer, &case);
    let violations = verify::verify(catalogue, scenario, rider, &answer.kit, &answer.stowage, &claim);
    if violations.is_empty() {
        return Ok(answer);
    }
    let dump = format!("kit {:?}\nstowage {:?}\nclaim {claim:?}", answer.kit, answer.stowage);
    Err(PackError::Unverified { violations, dump })
}

fn explain(case: &Case, stakes: &Stakes, effort: &Effort, error: EngineError) -> PackError {
    match error {
        EngineError::Infeasible => match relax::shortfalls(case, stakes, effort) {
            Ok(shortfalls) => PackError::Infeasible { shortfalls },
            Err(error) => PackError::Engine(error),
        },
        EngineError::NoAnswerInTime => PackError::OutOfTime,
        fault @ EngineError::Fault(_) => PackError::Engine(fault),
    }
}

fn claim(answer: &PackAnswer, case: &Case) -> Claim {
    Claim {
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        hours_empty: answer.figures.hours_empty,
        hours_saved: answer.figures.hours_saved,
        handling: answer.figures.handling,
        needs: case.demands.iter().map(|demand| (demand.id.clone(), demand.amount)).collect(),
    }
}

fn answer(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    case: &Case,
    stakes: &Stakes,
    solved: &Solved,
    effort: &Effort,
) -> PackAnswer {
    let counts = &solved.choice.counts;
    let value = risk::value(case, stakes, counts);
    let none = risk::value(case, stakes, &vec![0; counts.len()]);
    let hours_empty = stakes.hours_empty();
    let units = case.items.iter().zip(counts).map(|(item, n)| (item.id.clone(), *n));
    let mut kinds: Vec<Kind> = case.items.iter().zip(counts).filter(|(_, n)| **n > 0).map(|(i, _)| i.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    PackAnswer {
        trip: summary(catalogue, scenario, rider),
        totals: totals(catalogue, case, counts),
        figures: Figures {
            failures: stakes.means.iter().sum(),
            hours_empty: Hours::new(hours_empty),
            hours_saved: Hours::new(value.hours_saved()),
            handling: Hours::new(value.handling),
            coverage: if hours_empty > 0.0 { value.hours_saved() / hours_empty } else { 1.0 },
            self_recovery: value.self_recovery,
            self_recovery_empty: none.self_recovery,
        },
        proof: Proof {
            engine: effort.engine.word(),
            proven: solved.choice.stop == Stop::Proven,
            gap: solved.gap(),
            objective: value.objective(),
            bound: solved.choice.bound,
            rounds: solved.rounds,
            joint: solved.joint,
        },
        bags: bags(case, stakes, &value, solved),
        toolkit_left: toolkit_left(case, catalogue, rider, counts),
        risks: risks(catalogue, case, stakes, &value, counts),
        needs: needs(case, counts),
        dropped: dropped(case),
        considered: case.items.len(),
        warnings: case.warnings.clone(),
        kinds,
        kit: Kit::new(units),
        stowage: stow::stowage(case, &solved.placement),
    }
}

fn summary(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider) -> TripSummary {
    use crate::domain::Surface::{Rough, Track};
    let legs = &scenario.trip.legs;
    let km = |surfaces: &[crate::domain::Surface]| -> Distance {
        legs.iter().flat_map(|leg| surfaces.iter().map(|s| leg.km.on(*s))).sum()
    };
    TripSummary {
        scenario: scenario.name.clone(),
        rider: rider.name.clone(),
        bike: catalogue.bikes.get(&rider.bike).map_or_else(|| rider.bike.clone(), |bike| bike.name.clone()),
        days: legs.iter().map(|leg| leg.days).sum(),
        nights: legs.iter().map(|leg| leg.nights).sum(),
        distance: km(crate::domain::Surface::ALL),
        off_road: km(&[Track, Rough]),
        furthest: legs.iter().map(|leg| leg.hours_to_help).fold(Hours::ZERO, |a, b| if b > a { b } else { a }),
    }
}

fn totals(catalogue: &Catalogue, case: &Case, counts: &[u32]) -> Totals {
    let each = || case.items.iter().zip(counts);
    Totals {
        mass: each().map(|(item, n)| item.mass * *n).sum(),
        mass_limit: case.kit_mass,
        volume: each().map(|(item, n)| item.volume * *n).sum(),
        room: case.usable_volume(),
        to_buy: each().map(|(item, n)| item.price * n.saturating_sub(item.owned)).sum(),
        budget: case.budget,
        currency: catalogue.currency,
        units: counts.iter().sum(),
    }
}

fn bags(case: &Case, stakes: &Stakes, value: &KitValue, solved: &Solved) -> Vec<PackedBag> {
    let counts = &solved.choice.counts;
    let packed = |(item, count): &(usize, u32)| {
        let own = &case.items[*item];
        let mut without = counts.clone();
        without[*item] = 0;
        let worth = value.hours_saved() - risk::value(case, stakes, &without).hours_saved();
        PackedItem {
            id: own.id.clone(),
            name: own.name.clone(),
            count: *count,
            mass: own.mass * *count,
            volume: own.volume * *count,
            to_buy: counts[*item].saturating_sub(own.owned),
            from_toolkit: counts[*item].min(own.in_toolkit),
            purposes: purposes(case, stakes, value, counts, *item),
            worth: Hours::new(worth.max(0.0)),
        }
    };
    let bag = |(bag, units): (&crate::domain::Bag, &Vec<(usize, u32)>)| {
        let mut items: Vec<PackedItem> = units.iter().map(packed).collect();
        items.sort_by_key(|item| std::cmp::Reverse(item.mass));
        PackedBag {
            id: bag.id.clone(),
            name: bag.name.clone(),
            filled: items.iter().map(|item| item.volume).sum(),
            usable: bag.usable(),
            mass: items.iter().map(|item| item.mass).sum(),
            max_load: bag.max_load,
            items,
        }
    };
    case.bags.iter().zip(&solved.placement).map(bag).collect()
}

/// Toolkit units that are not taken. Owned units of the same item are taken last, so the toolkit's stay only when
/// fewer are wanted than it holds.
fn toolkit_left(case: &Case, catalogue: &Catalogue, rider: &Rider, counts: &[u32]) -> Vec<ToolkitLeft> {
    let Some(bike) = catalogue.bikes.get(&rider.bike) else { return Vec::new() };
    let taken = |id: &str| case.items.iter().zip(counts).find(|(item, _)| item.id == id).map_or(0, |(_, n)| *n);
    let left = bike.toolkit.iter().filter_map(|(id, held)| {
        let item = catalogue.items.get(id)?;
        let count = held.saturating_sub(taken(id));
        (count > 0).then(|| ToolkitLeft { name: item.name.clone(), count, mass: item.mass * count })
    });
    left.collect()
}

fn risks(catalogue: &Catalogue, case: &Case, stakes: &Stakes, value: &KitValue, counts: &[u32]) -> Vec<RiskLine> {
    let mut lines: Vec<RiskLine> = case
        .failures
        .iter()
        .enumerate()
        .map(|(f, failure)| RiskLine {
            id: failure.id.clone(),
            name: failure.name.clone(),
            system: catalogue.systems.get(&failure.system).map_or(failure.system.clone(), |s| s.name.clone()),
            outcome: failure.outcome.word(),
            mean: stakes.means[f],
            hours_empty: Hours::new(stakes.hours_unrepaired[f]),
            hours_left: Hours::new((stakes.hours_unrepaired[f] - value.saved[f]).max(0.0)),
            repairs: failure
                .repairs
                .iter()
                .zip(&value.shares[f])
                .filter(|(_, share)| **share > 0.0)
                .map(|(repair, share)| (repair.name.clone(), *share))
                .collect(),
            remedy: remedy(case, stakes, counts, f, value.saved[f]),
        })
        .collect();
    lines.sort_by(|a, b| b.hours_left.get().total_cmp(&a.hours_left.get()));
    lines
}

fn needs(case: &Case, counts: &[u32]) -> Vec<NeedLine> {
    let carried = |at: usize| -> f64 {
        let met = case.items.iter().zip(counts).flat_map(|(item, n)| item.meets.iter().map(move |m| (m, *n)));
        met.filter(|((demand, _), _)| *demand == at).map(|((_, amount), n)| amount * f64::from(n)).sum()
    };
    case.demands
        .iter()
        .enumerate()
        .map(|(at, demand)| NeedLine {
            id: demand.id.clone(),
            name: demand.name.clone(),
            demanded: demand.amount,
            carried: carried(at),
            unit: demand.unit.clone(),
            working: demand.working.clone(),
        })
        .collect()
}

fn dropped(case: &Case) -> Vec<(Reason, usize)> {
    let reasons = [Reason::OnNeverList, Reason::FitsNoBag, Reason::NothingNeedsIt];
    let count = |reason| case.left_out.iter().filter(|left| left.reason == reason).count();
    reasons.into_iter().map(|reason| (reason, count(reason))).filter(|(_, n)| *n > 0).collect()
}
