//! The rider's own limits, raised by no more than it takes.

use super::{Change, Trial};
use crate::select::relax::{self, Give};
use crate::units::{Mass, Money, Quantity};

/// Factors on the least mass or money that will do: a kit that is light enough may still not go into the bags.
const MARGINS: [f64; 3] = [1.0, 1.05, 1.1];
/// A mass that is no limit, in kilograms, for finding out what else is missing.
const GENEROUS_KG: f64 = 1000.0;
/// A budget that is no limit, in the currency of the trip.
const GENEROUS_MONEY: f64 = 1e6;

/// All that make the trip possible, each alone.
pub(super) fn all(trial: &Trial) -> Vec<Change> {
    [mass(trial), money(trial)].into_iter().flatten().collect()
}

/// To the next 100 g.
fn mass(trial: &Trial) -> Option<Change> {
    let from = trial.scenario.limits.kit_mass?;
    let (instance, risk_model) = trial.instance()?;
    let (grams, _) = relax::least(&instance, &risk_model, Give::Mass, &trial.options)?;
    MARGINS.iter().find_map(|margin| {
        let to = Mass::from_base((grams * margin / 100.0 - 1e-6).ceil() * 1e5);
        (to > from).then_some(Change::KitMass { from, to }).and_then(|change| trial.tried(change))
    })
}

/// To the next whole unit of money.
fn money(trial: &Trial) -> Option<Change> {
    let from = trial.scenario.limits.budget?;
    let (instance, risk_model) = trial.instance()?;
    let (units, _) = relax::least(&instance, &risk_model, Give::Money, &trial.options)?;
    MARGINS.iter().find_map(|margin| {
        let to = whole_money(units * margin);
        (to > from).then_some(Change::Budget { from, to }).and_then(|change| trial.tried(change))
    })
}

/// The limits as good as lifted.
pub(super) fn generous(trial: &Trial) -> Vec<Change> {
    let mass =
        trial.scenario.limits.kit_mass.map(|from| Change::KitMass { from, to: Mass::from_base(GENEROUS_KG * 1e6) });
    let money = trial.scenario.limits.budget.map(|from| Change::Budget { from, to: whole_money(GENEROUS_MONEY) });
    mass.into_iter().chain(money).collect()
}

/// A pair with its first change, if that lifted a limit, brought down to what the second leaves necessary.
pub(super) fn settled(trial: &Trial, first: &Change, second: Change) -> Option<Vec<Change>> {
    let after = || trial.with(&second);
    let first = match first {
        Change::KitMass { .. } => mass(&after())?,
        Change::Budget { .. } => money(&after())?,
        other => other.clone(),
    };
    Some(vec![first, second])
}

#[allow(clippy::cast_possible_truncation, reason = "a sum of prices")]
fn whole_money(units: f64) -> Money {
    Money::from_cents((units - 1e-6).ceil() as i64 * 100)
}
