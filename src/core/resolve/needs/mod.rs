//! How much of each need the trip demands. One formula per need, each shown with its working.
//!
//! The dearest leg is what must fit, because everything is carried from the start of a leg. Amounts stated by the
//! rider replace computed ones. The figures are planning values: see each formula for where they come from.
//!
//! | rule | amount | file |
//! | --- | --- | --- |
//! | water | (3 + 0.15 x degrees above 20 °C + 0.5 x hours of hard riding, + 1 L to cook where a camp lies between refills) x people x days between refills x 1.1 | `provisions` |
//! | food | 3000 to 4400 kcal by hours of hard riding, more in frost and heat, x people x days between shops, camping only; items give protein, fat and carbohydrate at 4, 9 and 4 kcal/g | `provisions` |
//! | heat | 1.75 L x people x days between shops x 4.186 kJ x (boiling point at the camp's height - start) / share of the flame used; items give lower heating values | `stove` |
//! | fuel | longest stretch between pumps x consumption on the leg's mix of surfaces x 1.25 (1.5 on rough), less the tank; never more than containers hold, with a warning; where any is demanded, no container counts as a reserve against running dry | `fuel` |
//! | (none) | on an electric bike the same stretch is held against what a full battery does; nothing is demanded, for nothing carried adds to it | `charge` |
//! | shelter, sleep warmth, sleep mat | one sleeper each; bag by comfort temperature, 2 °C credited for dry clothes from two nights on; `R = max(1, 3.1 - 0.155 T)` each | `camp` |
//! | warm, rain and spare clothing, cook pot, water treatment | by coldest night, nights, hours to help, camping | `camp` |
//! | light, navigation, telephone, distress | one a head in camp; one for the bike; a telephone with any night out; a beacon or messenger from 6 h to help | `safety` |
//! | first aid, medicine, hygiene, papers, money | by those who share the kit, as the rider says, with nights, always | `safety` |

pub mod camp;
pub mod charge;
pub mod fuel;
mod provisions;
mod safety;
mod stove;

use super::Demand;
use crate::domain::{Bike, Catalogue, NeedRule, Rider, Scenario, Style};
use crate::units::Temperature;
use fardel_words::{say, word};

/// What a formula gives: how much, down to which temperature, and the working in words.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Amount {
    pub amount: f64,
    pub down_to: Option<Temperature>,
    pub working: String,
}

/// The people and the trip as the formulas see them.
pub(super) struct Party<'a> {
    pub scenario: &'a Scenario,
    pub rider: &'a Rider,
    pub bike: Option<&'a Bike>,
    /// Riders who share the kit.
    pub riders: usize,
    /// Riders and passengers who eat, drink and sleep.
    pub people: f64,
    pub nights: u32,
    pub camping: bool,
}

impl Party<'_> {
    /// Days of the whole trip, at least one: nothing is carried for longer.
    pub fn days(&self) -> f64 {
        self.scenario.trip.legs.iter().map(|leg| leg.days).sum::<f64>().max(1.0)
    }
    /// Coldest night of the trip.
    pub fn lowest(&self) -> f64 {
        self.scenario.trip.legs.iter().map(|leg| leg.lowest.celsius()).fold(f64::INFINITY, f64::min)
    }
}

/// The demands of the trip for one rider (and passenger) of so many who share the kit, in the order of the catalogue. Zero
/// amounts are left out.
#[must_use]
pub fn demands(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider, riders: usize) -> Vec<Demand> {
    let party = Party {
        scenario,
        rider,
        bike: catalogue.bikes.get(&rider.bike),
        riders,
        people: 1.0 + f64::from(u8::from(rider.passenger.is_some())),
        nights: scenario.trip.legs.iter().map(|leg| leg.nights).sum(),
        camping: scenario.trip.style == Style::Camping,
    };
    let demand = |(id, need): (&String, &crate::domain::Need)| {
        let computed = amount(need.rule, &party);
        let amount = match scenario.needs.get(id) {
            Some(stated) => Amount { amount: *stated, working: say!("as stated in the scenario"), ..computed },
            None => computed,
        };
        (amount.amount > 0.0).then(|| Demand {
            owner: None,
            id: id.clone(),
            name: need.name.clone(),
            unit: need.unit.clone(),
            rule: need.rule,
            amount: amount.amount,
            down_to: amount.down_to,
            working: amount.working,
        })
    };
    catalogue.needs.iter().filter_map(demand).collect()
}

fn amount(rule: NeedRule, party: &Party<'_>) -> Amount {
    match rule {
        NeedRule::Water => provisions::water(party),
        NeedRule::Food => provisions::food(party),
        NeedRule::Heat => stove::heat(party),
        NeedRule::CookPot => camp::cook_pot(party),
        NeedRule::WaterTreatment => camp::water_treatment(party),
        NeedRule::Shelter => camp::shelter(party),
        NeedRule::SleepWarmth => camp::sleep_warmth(party),
        NeedRule::SleepMat => camp::sleep_mat(party),
        NeedRule::WarmClothing => camp::warm_clothing(party),
        NeedRule::SpareClothing => camp::spare_clothing(party),
        NeedRule::RainClothing => safety::rain_clothing(party),
        NeedRule::Light => safety::light(party),
        NeedRule::Navigation => safety::one_each(word!("one for the bike")),
        NeedRule::Distress => safety::distress(party),
        NeedRule::FirstAid => safety::first_aid(party),
        NeedRule::Hygiene => safety::hygiene(party),
        NeedRule::Papers => safety::one_each("always"),
        NeedRule::Medicine => safety::medicine(party),
        NeedRule::Money => safety::one_each(word!("always: the card reader is broken where you need it")),
        NeedRule::Telephone => safety::telephone(party),
        NeedRule::Fuel => fuel::fuel(party),
    }
}

impl Amount {
    /// Nothing is demanded.
    pub fn none() -> Self {
        Self { amount: 0.0, down_to: None, working: String::new() }
    }
    /// A plain number of things.
    pub fn count(amount: f64, working: impl Into<String>) -> Self {
        Self { amount, down_to: None, working: working.into() }
    }
    /// A number of things if a condition holds, else nothing.
    pub fn count_if(condition: bool, amount: f64, working: impl Into<String>) -> Self {
        if condition { Self::count(amount, working) } else { Self::none() }
    }
}

/// A quantity rounded up to whole units, where sums of decimals miss by floating noise: 990.000000001 mL are 990.
fn rounded_up(value: f64) -> f64 {
    /// Floating noise in a sum of decimals, in whole units.
    const NOISE: f64 = 1e-6;
    (value - NOISE).ceil().max(0.0)
}

#[cfg(test)]
mod tests;
