//! Heat for the stove: water boiled x what it takes to boil it, by where it starts and how high the camp lies.

use super::provisions::{in_days, persons};
use super::{Amount, Party};
use crate::domain::Leg;
use fardel_words::say;

/// Boiled per person and camping day, in litres. Common practice, no source: 1.5 to 2.
const LITRES_A_DAY: f64 = 1.75;
/// Heat to warm one litre by one degree, in kJ.
const KJ_PER_LITRE_AND_DEGREE: f64 = 4.186;
/// Temperature in °C, and share of the fuel's heat that reaches the water, lid on: in still air from 5 °C up, and in frost or wind from -5 °C
/// down; on a straight line between. With gas of 45.7 MJ/kg that is 17 and 25 g a litre (common practice, no source: 15
/// in still air, 25 in wind or cold); household stoves reach 51 % in a laboratory (Shen et al. 2018, second-hand).
const STILL: (f64, f64) = (5.0, 0.43);
/// The lower end of that line: temperature in °C, and share of the heat.
const COLD: (f64, f64) = (-5.0, 0.29);

/// Heat of the fuel between shops, in kJ. Items give the lower heating value of what they hold, so that the burner's
/// losses stand here and nowhere else.
pub(super) fn heat(party: &Party<'_>) -> Amount {
    if !party.camping {
        return Amount::none();
    }
    let mut worst = Amount::none();
    for leg in &party.scenario.trip.legs {
        let days = leg.food_every.days().min(party.days());
        let start = start_of_water(leg);
        let boils = boiling_point(leg.altitude.metres());
        let efficiency = efficiency(leg.lowest.celsius());
        let litre = KJ_PER_LITRE_AND_DEGREE * (boils - start);
        let total = (LITRES_A_DAY * party.people * days * litre / efficiency).ceil();
        if total > worst.amount {
            let working = say!(
                "{}: {LITRES_A_DAY} L boiled a day x {} x {} between shops x {litre:.0} kJ/L ({start:.0} to {boils:.0} °C) / {:.0} % of the flame used at {:.0} °C",
                leg.name,
                persons(party.people),
                in_days(days),
                efficiency * 100.0,
                leg.lowest.celsius(),
            );
            worst = Amount::count(total, working);
        }
    }
    worst
}

/// Water from a creek or a bottle is about as warm as the mean of night and day, and no colder than 1 °C. From memory.
fn start_of_water(leg: &Leg) -> f64 {
    f64::midpoint(leg.lowest.celsius(), leg.highest.celsius()).clamp(1.0, 30.0)
}

/// Share of the heat that reaches the water on a night of this temperature.
pub(super) fn efficiency(lowest: f64) -> f64 {
    let share = ((lowest - COLD.0) / (STILL.0 - COLD.0)).clamp(0.0, 1.0);
    COLD.1 + share * (STILL.1 - COLD.1)
}

/// Boiling point of water in °C at a height in metres: pressure of the standard atmosphere (ISO 2533), then
/// Clausius-Clapeyron with 40.66 kJ a mole, `1 / T = 1 / 373.15 - R / H ln(p / p0)`.
pub(super) fn boiling_point(metres: f64) -> f64 {
    let pressure = libm::pow(1.0 - 2.255_77e-5 * metres.clamp(-500.0, 9000.0), 5.255_88);
    1.0 / (1.0 / 373.15 - 8.314 / 40_660.0 * libm::log(pressure)) - 273.15
}

/// kJ to bring a litre from one temperature to another.
#[cfg(test)]
pub(super) fn kj_a_litre(from: f64, to: f64) -> f64 {
    KJ_PER_LITRE_AND_DEGREE * (to - from)
}
