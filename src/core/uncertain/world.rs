//! A case with drawn values in the place of its own.

use super::draw::{Drawn, Uncertain};
use super::number::{Target, with_odds};
use crate::domain::{Outcome, Surface};
use crate::resolve::{Exposure, Instance};
use crate::units::Money;

/// The case with these values. What hangs on a value that is drawn (what being fetched costs, what things cost in hours) is
/// worked out anew.
pub(super) fn world(uncertain: &Uncertain<'_>, drawn: &Drawn) -> Instance {
    let mut own = uncertain.instance.clone();
    let mut falls = Falls { surfaces: [1.0; 4], riders: vec![1.0; own.exposures.len()] };
    for (number, factor) in uncertain.numbers.iter().zip(&drawn.factors) {
        set(&mut own, &mut falls, number.target, *factor);
    }
    for (exposure, rider) in own.exposures.iter_mut().zip(&falls.riders) {
        set_falls(uncertain, exposure, &falls.surfaces, *rider);
    }
    let prices = own.prices.clone();
    for leg in own.exposures.iter_mut().flat_map(|exposure| &mut exposure.legs) {
        leg.fetched = prices.fetched(leg.hours_to_help);
        leg.dread = prices.dread(leg.hours_to_help);
    }
    own
}

/// Factors on falls, by surface and by rider.
struct Falls {
    surfaces: [f64; 4],
    riders: Vec<f64>,
}

fn set(own: &mut Instance, falls: &mut Falls, target: Target, factor: f64) {
    match target {
        Target::Rate(failure) => own.failures[failure].rate = own.failures[failure].rate.times(factor),
        Target::Limps(failure) => {
            if let Outcome::Limps(share) = &mut own.failures[failure].outcome {
                *share = with_odds(*share, factor);
            }
        }
        Target::Nags(failure) => {
            if let Outcome::Nags(hours) = &mut own.failures[failure].outcome {
                *hours = *hours * factor;
            }
        }
        Target::Time(failure, repair) => {
            let time = &mut own.failures[failure].repairs[repair].time;
            *time = *time * factor;
        }
        Target::Restores(failure, repair) => {
            let restores = &mut own.failures[failure].repairs[repair].restores;
            *restores = with_odds(*restores, factor);
        }
        Target::Falls(surface) => falls.surfaces[surface] = factor,
        Target::Skill(rider) => falls.riders[rider] = factor,
        Target::LoadSensitivity => own.exposures.iter_mut().for_each(|exposure| exposure.load_sensitivity *= factor),
        Target::HoursPerFall => {
            own.exposures.iter_mut().for_each(|exposure| exposure.hours_per_fall = exposure.hours_per_fall * factor);
        }
        Target::Help(number) => {
            let legs = own.exposures.iter_mut().flat_map(|exposure| &mut exposure.legs);
            legs.filter(|leg| leg.number == number).for_each(|leg| leg.hours_to_help = leg.hours_to_help * factor);
        }
        Target::Weight => own.exposures.iter_mut().for_each(|exposure| exposure.riding_per_kg *= factor),
        Target::Hour => {
            own.prices.hour = times(own.prices.hour, factor);
            own.items.iter_mut().for_each(|item| item.buying = item.buying * factor.recip());
        }
        Target::Thing => own.prices.thing = own.prices.thing * factor,
        Target::RestOfDay => own.prices.rest_of_day = own.prices.rest_of_day * factor,
        Target::Recovery => own.prices.recovery = times(own.prices.recovery, factor),
        Target::Night => own.prices.night = times(own.prices.night, factor),
        Target::Dread => own.prices.dread *= factor,
    }
}

/// Falls of each leg: what the catalogue has for each surface, times the factors.
fn set_falls(uncertain: &Uncertain<'_>, exposure: &mut Exposure, surfaces: &[f64; 4], rider: f64) {
    for leg in &mut exposure.legs {
        let on = |surface: Surface| uncertain.falls.on(surface) * leg.thousand_km.on(surface);
        let before: f64 = Surface::ALL.iter().map(|surface| on(*surface)).sum();
        let now: f64 = Surface::ALL.iter().zip(surfaces).map(|(surface, factor)| on(*surface) * factor).sum();
        if before > 0.0 {
            leg.falls *= now / before * rider;
        }
    }
}

/// An amount times a factor, to the hundredth, and never nothing where it was something: an hour without worth would make
/// money cost nothing.
fn times(money: Money, factor: f64) -> Money {
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "amounts stay far below 2^53")]
    let cents = (money.cents() as f64 * factor).round() as i64;
    Money::from_cents(if money > Money::ZERO { cents.max(1) } else { cents })
}
