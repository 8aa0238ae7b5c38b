//! Water, food and boiled water: what is drunk and eaten between two places that sell it.

use super::{Amount, Party};
use crate::domain::{Leg, Surface};

/// Speeds that turn kilometres off the seal into hours of work (from memory; a loaded bike on a mixed day).
const TRACK_KM_PER_HOUR: f64 = 30.0;
const ROUGH_KM_PER_HOUR: f64 = 20.0;
/// Nobody works harder than this in a day.
const MOST_HOURS_OF_WORK: f64 = 8.0;
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

/// Millilitres to carry: the thirstiest leg's daily litres x people x days between refills, plus the reserve.
/// A trip shorter than the refill interval needs no more than its own length.
pub(super) fn water(party: &Party<'_>) -> Amount {
    let per_leg = party.scenario.trip.legs.iter().map(|leg| {
        let daily = litres_a_day(leg.highest.celsius(), hours_of_work(leg));
        let days = leg.water_every.days().min(party.days());
        (daily * party.people * days * (1.0 + WATER_RESERVE), daily, days, leg)
    });
    let worst = per_leg.fold(None, |best: Option<(f64, f64, f64, &Leg)>, now| match best {
        Some(best) if best.0 >= now.0 => Some(best),
        _ => Some(now),
    });
    let Some((litres, daily, days, leg)) = worst else { return Amount::none() };
    let working = format!(
        "{}: {daily:.1} L a day (to {:.0} °C) x {} x {} between refills + {:.0} % reserve",
        leg.name,
        leg.highest.celsius(),
        persons(party.people),
        in_days(days),
        WATER_RESERVE * 100.0
    );
    Amount::count((litres * 1000.0).ceil(), working)
}

/// "half a day", "1 day", "2.5 days".
fn in_days(days: f64) -> String {
    match days {
        d if (d - 0.5).abs() < 1e-9 => "half a day".to_owned(),
        d if (d - 1.0).abs() < 1e-9 => "1 day".to_owned(),
        d if d.fract() == 0.0 => format!("{d:.0} days"),
        d => format!("{d:.1} days"),
    }
}

/// "1 person", "2 people".
pub(super) fn persons(people: f64) -> String {
    if people > 1.0 { format!("{people:.0} people") } else { "1 person".to_owned() }
}

/// Kilocalories per rider-day: easy 3000, mixed 3500, hard 4400 at 80 kg, interpolated on hours of hard riding (0, 1,
/// 4 h). Derived from metabolic equivalents (off-road riding 6.1, Burr et al. 2010; the rest from memory).
fn kcal_a_day(hours_of_work: f64) -> f64 {
    if hours_of_work <= 1.0 { 3000.0 + 500.0 * hours_of_work } else { 3500.0 + 300.0 * (hours_of_work.min(4.0) - 1.0) }
}

/// Kilocalories to carry: the hungriest leg's daily energy x people x days between shops. Without nights, a snack
/// bought on the way will do, so nothing is demanded.
pub(super) fn food(party: &Party<'_>) -> Amount {
    if !party.camping {
        return Amount::none();
    }
    let mut worst = Amount::none();
    for leg in &party.scenario.trip.legs {
        let daily = kcal_a_day(hours_of_work(leg));
        let days = leg.food_every.days().min(party.days());
        let total = (daily * party.people * days).ceil();
        if total > worst.amount {
            let working = format!(
                "{}: {daily:.0} kcal a day x {} x {} between shops",
                leg.name,
                persons(party.people),
                in_days(days)
            );
            worst = Amount::count(total, working);
        }
    }
    worst
}

/// Boiled per person and camping day, in millilitres. Common practice, no source: 1.5 to 2 L.
const BOILED_A_DAY: f64 = 1750.0;

/// Millilitres to boil between places that sell fuel: taken as the places that sell food.
pub(super) fn boiling(party: &Party<'_>) -> Amount {
    if !party.camping {
        return Amount::none();
    }
    let days = party.scenario.trip.legs.iter().map(|leg| leg.food_every.days().min(party.days()));
    let days = days.fold(0.0, f64::max);
    let working = format!("{BOILED_A_DAY:.0} mL a day x {} x {} between shops", persons(party.people), in_days(days));
    Amount::count((BOILED_A_DAY * party.people * days).ceil(), working)
}
