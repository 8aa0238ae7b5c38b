//! One change of a trip, and how it is made.

use crate::domain::{Catalogue, Rider, Scenario, tyre_load};
use crate::units::{Distance, Hours, Mass, Money, Quantity, Temperature};

/// Something a rider could do about a trip that cannot be packed for; `from` as it is, `to` as it would be.
#[allow(missing_docs, reason = "the fields say what they are")]
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Leave things of the always list at home: key and name of the item, how many, what they weigh together.
    Leave(Vec<(String, String, u32)>, Mass),
    /// Borrow what would have to be bought: key and name of the item, how many; what they cost together.
    Borrow(Vec<(String, String, u32)>, Money),
    /// Plan the longest time between places to refill water.
    Water { from: Hours, to: Hours },
    /// Plan the longest time between shops.
    Food { from: Hours, to: Hours },
    /// Plan the longest stretch between pumps.
    Pumps { from: Distance, to: Distance },
    /// Let a companion carry what meets a need that can be shared: its key and name.
    Share { need: String, name: String },
    /// Allow a heavier kit.
    KitMass { from: Mass, to: Mass },
    /// Spend more.
    Budget { from: Money, to: Money },
    /// Hang on further bags, or others in place of those: keys and names.
    Bags { off: Vec<(String, String)>, on: Vec<(String, String)> },
    /// Choose warmer nights.
    Nights { from: Temperature, to: Temperature },
    /// Fit a tyre with a higher load index.
    Tyre { front: bool, from: u32, to: u32 },
    /// Ride without the passenger.
    Alone,
}

impl Change {
    /// Free changes come first: leaving things, planning, sharing; then limits, luggage, another trip, another bike.
    pub(super) const fn rank(&self) -> u8 {
        match self {
            Self::Leave(..) => 0,
            Self::Water { .. } | Self::Food { .. } | Self::Pumps { .. } => 1,
            Self::Share { .. } | Self::Borrow(..) => 2,
            Self::KitMass { .. } => 3,
            Self::Budget { .. } => 4,
            Self::Bags { .. } => 5,
            Self::Nights { .. } => 6,
            Self::Tyre { .. } => 7,
            Self::Alone => 8,
        }
    }

    /// Makes the change.
    pub fn apply(&self, catalogue: &mut Catalogue, scenario: &mut Scenario, rider: &mut Rider) {
        let legs = scenario.trip.legs.iter_mut();
        let sooner = |now: Hours, to: Hours| if now > to { to } else { now };
        match self {
            Self::Leave(things, _) => {
                for (item, _, count) in things {
                    let asked = scenario.always.get(item).copied().unwrap_or(0).saturating_sub(*count);
                    scenario.always.insert(item.clone(), asked);
                }
            }
            Self::Borrow(things, _) => {
                for (item, _, count) in things {
                    *rider.owns.entry(item.clone()).or_insert(0) += count;
                }
            }
            Self::Water { to, .. } => legs.for_each(|leg| leg.water_every = sooner(leg.water_every, *to)),
            Self::Food { to, .. } => legs.for_each(|leg| leg.food_every = sooner(leg.food_every, *to)),
            Self::Pumps { to, .. } => legs.for_each(|leg| {
                leg.fuel_every = leg.fuel_every.map(|now| if now > *to { *to } else { now });
            }),
            Self::Share { need, .. } => drop(scenario.needs.insert(need.clone(), 0.0)),
            Self::KitMass { to, .. } => {
                scenario.limits.kit_mass = Some(*to);
                rider.kit_mass = Some(*to);
            }
            Self::Budget { to, .. } => scenario.limits.budget = Some(*to),
            Self::Bags { off, on } => {
                rider.bags.retain(|bag| off.iter().all(|(id, _)| id != bag));
                rider.bags.extend(on.iter().map(|(id, _)| id.clone()));
            }
            Self::Nights { to, .. } => legs.for_each(|leg| {
                if leg.lowest < *to {
                    leg.lowest = *to;
                }
                if leg.highest < leg.lowest {
                    leg.highest = leg.lowest;
                }
            }),
            Self::Tyre { front, to, .. } => {
                let Some(bike) = catalogue.bikes.get_mut(&rider.bike) else { return };
                if *front { bike.front_load_index = *to } else { bike.rear_load_index = *to }
            }
            Self::Alone => rider.passenger = None,
        }
    }

    /// By how much a limit moves, where it does, in JSON.
    #[must_use]
    pub fn figures(&self) -> Option<(&'static str, f64, f64)> {
        Some(match self {
            Self::Water { from, to } | Self::Food { from, to } => ("h", from.get(), to.get()),
            Self::Pumps { from, to } => ("km", from.km(), to.km()),
            Self::KitMass { from, to } => ("g", from.grams(), to.grams()),
            Self::Budget { from, to } => ("money", from.units(), to.units()),
            Self::Nights { from, to } => ("°C", from.celsius(), to.celsius()),
            Self::Tyre { from, to, .. } => ("load index", f64::from(*from), f64::from(*to)),
            Self::Leave(..) | Self::Borrow(..) | Self::Share { .. } | Self::Bags { .. } | Self::Alone => return None,
        })
    }

    /// The word in JSON.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Leave(..) => "leave",
            Self::Borrow(..) => "borrow",
            Self::Water { .. } => "water",
            Self::Food { .. } => "food",
            Self::Pumps { .. } => "fuel",
            Self::Share { .. } => "share",
            Self::KitMass { .. } => "kit mass",
            Self::Budget { .. } => "budget",
            Self::Bags { .. } => "bags",
            Self::Nights { .. } => "nights",
            Self::Tyre { .. } => "tyre",
            Self::Alone => "passenger",
        }
    }
}

/// What a load index stands for, in grams; nothing outside the table.
pub(super) fn bears(index: u32) -> Mass {
    tyre_load(index).unwrap_or(Mass::from_base(0.0))
}
