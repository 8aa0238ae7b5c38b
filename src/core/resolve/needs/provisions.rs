//! Water and food: what is drunk and eaten between two places that sell it.

use super::{Amount, Party, rounded_up};
use crate::domain::{Leg, Surface};
use fardel_words::say;

/// Speed on tracks that turns kilometres into hours of work, in km/h (from memory; a loaded bike on a mixed day).
const TRACK_KM_PER_HOUR: f64 = 30.0;
/// The same on rough ground, in km/h (from memory).
const ROUGH_KM_PER_HOUR: f64 = 20.0;
/// Nobody works harder than this in a day, in hours.
const MOST_HOURS_OF_WORK: f64 = 8.0;
/// Dried food takes so much more where a camp lies between two refills, in litres a person. Common practice, no source.
const COOKING_A_DAY: f64 = 1.0;
/// Kept back for a day that goes wrong. Common practice, no source.
const WATER_RESERVE: f64 = 0.10;

/// Hours of hard riding in a day of this leg.
fn hours_of_work(leg: &Leg) -> f64 {
    let track = leg.km.on(Surface::Track).km() / TRACK_KM_PER_HOUR;
    let rough = leg.km.on(Surface::Rough).km() / ROUGH_KM_PER_HOUR;
    ((track + rough) / leg.days.max(1.0)).min(MOST_HOURS_OF_WORK)
}

/// Litres per person and day: `3 + 0.15 max(0, T - 20) + 0.5 h`, T the highest temperature in °C and h the hours of
/// hard riding. From memory, set against published intakes: at 20 °C and 4 h it gives 5.0 (3 to 6, US National
/// Academies 2005, p. 129), at mean 30 °C and 8 h 9.6 (9.5 to 11.4, same, pp. 129-130).
pub(super) fn litres_a_day(highest: f64, hours_of_work: f64) -> f64 {
    3.0 + 0.15 * (highest - 20.0).max(0.0) + 0.5 * hours_of_work
}

/// Litres to cook with per person and day: none where the camp is at the water.
fn cooking(party: &Party<'_>, days: f64) -> f64 {
    if party.camping && days >= 1.0 { COOKING_A_DAY } else { 0.0 }
}

/// Millilitres to carry: the thirstiest leg's daily litres x people x days between refills, plus the reserve.
/// A trip shorter than the refill interval needs no more than its own length.
pub(super) fn water(party: &Party<'_>) -> Amount {
    let mut worst = Amount::none();
    for leg in &party.scenario.trip.legs {
        let (highest, hours) = (leg.highest.celsius(), hours_of_work(leg));
        let days = leg.water_every.days().min(party.days());
        let (drunk, cooked) = (litres_a_day(highest, hours), cooking(party, days));
        let litres = (drunk + cooked) * party.people * days * (1.0 + WATER_RESERVE);
        if litres * 1000.0 > worst.amount {
            let camp = if cooked > 0.0 { say!(" and {cooked:.0} L to cook") } else { String::new() };
            let working = say!(
                "{}: {drunk:.1} L a day (to {highest:.0} °C, {hours:.1} h of hard riding){camp} x {} x {} between refills + {:.0} % reserve",
                leg.name,
                persons(party.people),
                in_days(days),
                WATER_RESERVE * 100.0
            );
            worst = Amount::count(rounded_up(litres * 1000.0), working);
        }
    }
    worst
}

/// "half a day", "6 h", "1 day", "2.5 days".
pub(super) fn in_days(days: f64) -> String {
    match days {
        d if (d - 0.5).abs() < 1e-9 => say!("half a day"),
        d if d < 0.995 => say!("{:.0} h", d * 24.0),
        d if (d - 1.0).abs() < 1e-9 => "1 day".to_owned(),
        d if d.fract() == 0.0 => say!("{d:.0} days"),
        d => say!("{d:.1} days"),
    }
}

/// "1 person", "2 people".
pub(super) fn persons(people: f64) -> String {
    if people > 1.0 { say!("{people:.0} people") } else { "1 person".to_owned() }
}

/// Kilocalories per rider-day: easy 3000, mixed 3500, hard 4400 at 80 kg, interpolated on hours of hard riding (0, 1,
/// 4 h). Derived from metabolic equivalents (off-road riding 6.1, Burr et al. 2010; the rest from memory).
fn kcal_a_day(hours_of_work: f64) -> f64 {
    if hours_of_work <= 1.0 { 3000.0 + 500.0 * hours_of_work } else { 3500.0 + 300.0 * (hours_of_work.min(4.0) - 1.0) }
}

/// Factor for the weather: 5 to 10 % more from frost at noon down, 2.5 to 10 % more from 30 to 40 °C, nothing between (US
/// Army AR 40-25, second-hand).
pub(super) fn weather(highest: f64) -> f64 {
    match highest {
        t if t < 0.0 => 1.05 + 0.05 * (-t / 10.0).min(1.0),
        t if t > 30.0 => 1.025 + 0.075 * ((t - 30.0) / 10.0).min(1.0),
        _ => 1.0,
    }
}

/// Kilocalories to carry: the hungriest leg's daily energy x people x days between shops. Without nights, a snack
/// bought on the way will do, so nothing is demanded.
pub(super) fn food(party: &Party<'_>) -> Amount {
    if !party.camping {
        return Amount::none();
    }
    let mut worst = Amount::none();
    for leg in &party.scenario.trip.legs {
        let hours = hours_of_work(leg);
        let daily = kcal_a_day(hours) * weather(leg.highest.celsius());
        let days = leg.food_every.days().min(party.days());
        let total = (daily * party.people * days).ceil();
        if total > worst.amount {
            let working = say!(
                "{}: {daily:.0} kcal a day ({hours:.1} h of hard riding) x {} x {} between shops",
                leg.name,
                persons(party.people),
                in_days(days)
            );
            worst = Amount::count(total, working);
        }
    }
    worst
}
