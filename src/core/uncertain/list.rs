//! Every number of a case that is not known well, with its distribution.

use super::number::{Law, Number, Target};
use super::widths::{FEWEST_EVENTS, Quantity, within};
use crate::domain::{BasisKind, Catalogue, Failure, Outcome, Scenario, Surface};
use crate::rehearse::evidence;
use crate::resolve::{Instance, InstanceFailure};

/// All numbers of a case, in an order that depends on the case alone.
pub(super) fn numbers(catalogue: &Catalogue, scenario: &Scenario, instance: &Instance) -> Vec<Number> {
    let mut numbers = Vec::new();
    for (at, failure) in instance.failures.iter().enumerate() {
        of_failure(catalogue.failures.get(&failure.id), instance, (at, failure), &mut numbers);
    }
    falls(catalogue, instance, &mut numbers);
    help(instance, &mut numbers);
    prices(catalogue, scenario, instance, &mut numbers);
    numbers
}

fn of_failure(
    entry: Option<&Failure>,
    instance: &Instance,
    (at, failure): (usize, &InstanceFailure),
    numbers: &mut Vec<Number>,
) {
    let together = |what: &str| Some(format!("{what} {}", failure.system));
    if let Some(events) = evidence(instance, failure) {
        let law = Law::Events(events.max(FEWEST_EVENTS));
        let basis = failure.rate.basis.kind;
        numbers.push(Number { target: Target::Rate(at), basis, law, together: together("rates") });
    }
    // Entries say nothing of what their outcomes rest on.
    let basis = BasisKind::FromMemory;
    match failure.outcome {
        Outcome::Stops => {}
        Outcome::Limps(share) => {
            if share > 0.0 && share < 1.0 {
                let law = Law::Odds(within(Quantity::Share, basis));
                numbers.push(Number { target: Target::Limps(at), basis, law, together: together("limps") });
            }
        }
        Outcome::Nags(_) => {
            let law = Law::Within(within(Quantity::Time, basis));
            numbers.push(Number { target: Target::Nags(at), basis, law, together: together("nags") });
        }
    }
    for (number, repair) in failure.repairs.iter().enumerate() {
        let told = entry.and_then(|entry| entry.repairs.iter().find(|told| told.id == repair.id));
        let basis = told.map_or(BasisKind::FromMemory, |told| told.basis.kind);
        let law = Law::Within(within(Quantity::Time, basis));
        numbers.push(Number { target: Target::Time(at, number), basis, law, together: together("times") });
        if repair.restores > 0.0 && repair.restores < 1.0 {
            let law = Law::Odds(within(Quantity::Share, basis));
            numbers.push(Number { target: Target::Restores(at, number), basis, law, together: together("restores") });
        }
    }
}

fn falls(catalogue: &Catalogue, instance: &Instance, numbers: &mut Vec<Number>) {
    let basis = catalogue.model.basis.kind;
    let ridden = |surface: Surface| {
        let legs = || instance.exposures.iter().flat_map(|exposure| &exposure.legs);
        catalogue.model.falls_per_1000_km.on(surface) > 0.0 && legs().any(|leg| leg.thousand_km.on(surface) > 0.0)
    };
    let fall_basis = catalogue.model.falls_basis().kind;
    let law = Law::Within(within(Quantity::Falls, fall_basis));
    for (at, _) in Surface::ALL.iter().enumerate().filter(|(_, surface)| ridden(**surface)) {
        numbers.push(Number { target: Target::Falls(at), basis: fall_basis, law, together: Some("falls".to_owned()) });
    }
    let falls = |rider: &usize| instance.exposures[*rider].legs.iter().any(|leg| leg.falls > 0.0);
    let alone = |target, quantity| Number { target, basis, law: Law::Within(within(quantity, basis)), together: None };
    let falling: Vec<usize> = (0..instance.exposures.len()).filter(falls).collect();
    let own = Law::Events(catalogue.model.falls_worth_events.max(FEWEST_EVENTS));
    let skill = |rider: &usize| Number { target: Target::Skill(*rider), basis: fall_basis, law: own, together: None };
    numbers.extend(falling.iter().map(skill));
    if !falling.is_empty() {
        numbers.push(alone(Target::LoadSensitivity, Quantity::Effect));
        numbers.push(alone(Target::HoursPerFall, Quantity::Time));
    }
}

/// Hours to help are what the rider says, who has seldom waited for it: as good as from memory.
fn help(instance: &Instance, numbers: &mut Vec<Number>) {
    let basis = BasisKind::FromMemory;
    let mut legs: Vec<usize> =
        instance.exposures.iter().flat_map(|exposure| exposure.legs.iter().map(|leg| leg.number)).collect();
    legs.sort_unstable();
    legs.dedup();
    let law = Law::Within(within(Quantity::Help, basis));
    numbers.extend(legs.into_iter().map(|leg| Number {
        target: Target::Help(leg),
        basis,
        law,
        together: Some("help".to_owned()),
    }));
}

/// Prices that the scenario does not state; what it states is the rider's own and certain.
fn prices(catalogue: &Catalogue, scenario: &Scenario, instance: &Instance, numbers: &mut Vec<Number>) {
    let (basis, own, prices) = (catalogue.prices.basis.kind, &scenario.prices, &instance.prices);
    let law = Law::Within(within(Quantity::Worth, basis));
    let each = [
        (Target::Weight, own.weight.is_none() && prices.weight > 0.0),
        (Target::Hour, own.hour.is_none() && prices.hour.units() > 0.0),
        (Target::Thing, own.thing.is_none() && prices.thing.get() > 0.0),
        (Target::RestOfDay, own.rest_of_day.is_none() && prices.rest_of_day.get() > 0.0),
        (Target::Recovery, own.recovery.is_none() && prices.recovery.units() > 0.0),
        (Target::Night, own.night.is_none() && prices.night.units() > 0.0),
        (Target::Dread, own.dread.is_none() && prices.dread > 0.0),
    ];
    let open = each.into_iter().filter(|(_, open)| *open);
    numbers.extend(open.map(|(target, _)| Number { target, basis, law, together: None }));
}
