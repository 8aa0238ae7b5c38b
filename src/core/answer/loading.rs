//! The loaded bike: what rests on each wheel before and after, against what it may bear, and which limit binds the kit.

use super::sets::{SetsInBags, in_bags};
use super::setup::{Setup, setup};
use super::shapes::{AllowedBy, LoadedWheels};
use crate::domain::{Bag, Bike, Catalogue, Rider, Scenario, Side};
use crate::resolve::{Instance, Limit, Mount, Scale, mount};
use crate::serial::{Number, SixPlaces, WholeGrams, six_places, whole_grams};
use crate::stow::Placement;
use crate::units::{Mass, Quantity};
use schemars::JsonSchema;
use serde::Serialize;

/// One loaded bike.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Loading {
    /// The rider's name.
    pub rider: String,
    /// The bike's name.
    #[serde(rename = "bike")]
    pub bike_name: String,
    /// The bike, tank full, with the parts fitted for the trip.
    #[serde(rename = "bike_g", with = "Number")]
    pub bike: Mass,
    /// Rider, passenger and what they wear.
    #[serde(rename = "people_g", with = "Number")]
    pub people: Mass,
    /// The empty bags that are not part of the bike.
    #[serde(rename = "bags_g", with = "Number")]
    pub bags: Mass,
    /// The kit.
    #[serde(rename = "kit_g", with = "Number")]
    pub kit: Mass,
    /// What the wheels carry with bike and people only.
    #[serde(with = "LoadedWheels")]
    pub ridden: Wheels,
    /// The same with the empty bags on.
    #[serde(with = "LoadedWheels")]
    pub bagged: Wheels,
    /// The same with the kit in them.
    #[serde(with = "LoadedWheels")]
    pub loaded: Wheels,
    /// The tightest limit on each scale.
    #[serde(skip)]
    pub limits: Vec<Limit>,
    /// How much of each of them the loaded bike uses.
    #[serde(rename = "limits")]
    pub uses: Vec<LimitUse>,
    /// Left side bags and what is in them.
    #[serde(rename = "left_g", with = "Number")]
    pub left: Mass,
    /// Right side bags and what is in them.
    #[serde(rename = "right_g", with = "Number")]
    pub right: Mass,
    /// Sideways moment of bags and contents in kilogram metres, to the left; negative to the right.
    #[serde(rename = "lean_to_left_kg_m", with = "SixPlaces")]
    pub lean: f64,
    /// How heavy a kit each limit allows, the tightest first.
    #[serde(rename = "kit_allowed")]
    pub allowances: Vec<Allowance>,
    /// Sets of things that are used together, and which of them are in one bag; for one bike alone.
    pub sets: SetsInBags,
    /// What is set on the bike for this load before it is ridden.
    pub setup: Option<Setup>,
}

/// How much of a limit a loaded bike uses.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct LimitUse {
    /// The limit.
    #[serde(flatten)]
    pub limit: Limit,
    /// What the loaded bike shows on that scale, in whole grams.
    pub loaded_g: f64,
    /// Loaded by limit, to six places.
    pub used: f64,
}

/// Kilograms on the wheels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wheels {
    /// On the front wheel.
    pub front: f64,
    /// On the rear wheel.
    pub rear: f64,
}

/// How heavy a kit one limit allows, as far as it goes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Allowance {
    /// Which limit.
    #[serde(with = "AllowedBy")]
    pub by: By,
    /// The heaviest kit, packed as this limit likes it best.
    #[serde(rename = "mass_g", with = "WholeGrams")]
    pub mass: Mass,
}

/// What limits a kit's mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// The rider's wish.
    Wish,
    /// Bags and racks together.
    Bags,
    /// The bike or its tyres.
    Bike(Limit),
}

impl Wheels {
    /// Both together.
    #[must_use]
    pub fn total(self) -> f64 {
        self.front + self.rear
    }
    /// What a scale shows.
    #[must_use]
    pub fn on(self, scale: Scale) -> f64 {
        match scale {
            Scale::Gross => self.total(),
            Scale::Front => self.front,
            Scale::Rear => self.rear,
        }
    }
    /// Share of the whole on the front wheel.
    #[must_use]
    pub fn front_share(self) -> f64 {
        self.front / self.total().max(1e-9)
    }
}

impl Loading {
    /// The share of the tightest limit on a scale that the loaded bike uses.
    #[must_use]
    pub fn used(&self, scale: Scale) -> Option<f64> {
        let limit = self.limits.iter().find(|limit| limit.scale == scale)?;
        Some(self.loaded.on(scale) / limit.mass.kilograms())
    }
}

/// Every mount of the case with this placement on it; riders are those of the mounts, in their order.
pub(super) fn loadings(
    instance: &Instance,
    placement: &Placement,
    (catalogue, scenario, riders): (&Catalogue, &Scenario, &[&Rider]),
) -> Vec<Loading> {
    let wishes = instance.own_kit_mass.iter().copied().chain(std::iter::repeat(None));
    let bikes = riders.iter().map(|rider| catalogue.bikes.get(&rider.bike)).chain(std::iter::repeat(None));
    let one = |((mount, wish), bike): ((&Mount, Option<Mass>), Option<&Bike>)| {
        let load = loading(instance, mount, wish, placement);
        Loading { setup: bike.map(|bike| setup(bike, scenario, &load)), ..load }
    };
    instance.mounts.iter().zip(wishes).zip(bikes).map(one).collect()
}

/// What rests on the wheels of every mount with this placement.
pub(crate) fn wheels(instance: &Instance, placement: &Placement) -> Vec<Wheels> {
    let one = |mount: &Mount| {
        let on = |scale: Scale| {
            let kit = mount.bags.iter().map(|bag| {
                let inside: Mass = placement[*bag].iter().map(|(item, n)| instance.items[*item].mass * *n).sum();
                inside.kilograms() * mount.share(scale, instance.bags[*bag].ahead)
            });
            mount.before(scale) + kit.sum::<f64>()
        };
        Wheels { front: on(Scale::Front), rear: on(Scale::Rear) }
    };
    instance.mounts.iter().map(one).collect()
}

fn loading(instance: &Instance, mount: &Mount, wish: Option<Mass>, placement: &Placement) -> Loading {
    let inside =
        |bag: usize| -> Mass { placement[bag].iter().map(|(item, count)| instance.items[*item].mass * *count).sum() };
    let bags = || mount.bags.iter().map(|bag| (&instance.bags[*bag], inside(*bag)));
    let wheels = |weigh: &dyn Fn(Scale) -> f64| Wheels { front: weigh(Scale::Front), rear: weigh(Scale::Rear) };
    let kit = |scale| bags().map(|(bag, mass)| mass.kilograms() * mount.share(scale, bag.ahead)).sum::<f64>();
    let side = |side| bags().filter(move |(bag, _)| bag.side == side).map(|(bag, mass)| bag.mass + mass).sum();
    let pull = bags().map(|(bag, mass)| mass.kilograms() * mount::lean(bag)).sum::<f64>();
    let loaded = wheels(&|scale| mount.before(scale) + kit(scale));
    let limits: Vec<Limit> = Scale::ALL.iter().filter_map(|scale| mount.limit(*scale)).collect();
    Loading {
        rider: mount.rider.clone(),
        bike_name: mount.bike.clone(),
        bike: mount.bike_mass,
        people: mount.people.iter().map(|(mass, _)| *mass).sum(),
        bags: mount.empty_bags.iter().map(|(mass, _)| *mass).sum(),
        kit: bags().map(|(_, mass)| mass).sum(),
        ridden: wheels(&|scale| mount.ridden(scale)),
        bagged: wheels(&|scale| mount.before(scale)),
        loaded,
        uses: limits.iter().map(|limit| used(loaded, *limit)).collect(),
        limits,
        left: side(Side::Left),
        right: side(Side::Right),
        lean: mount.empty_lean + pull,
        allowances: allowances(instance, mount, wish),
        sets: if instance.mounts.len() == 1 { in_bags(instance, placement) } else { SetsInBags::default() },
        setup: None,
    }
}

fn used(loaded: Wheels, limit: Limit) -> LimitUse {
    let on = loaded.on(limit.scale);
    LimitUse { limit, loaded_g: whole_grams(on), used: six_places(on / limit.mass.kilograms()) }
}

/// How heavy a kit each limit allows, the tightest first.
fn allowances(instance: &Instance, mount: &Mount, wish: Option<Mass>) -> Vec<Allowance> {
    let bags = mount.bags.iter().map(|bag| instance.bags[*bag].max_load).sum();
    let mut all = vec![Allowance { by: By::Bags, mass: bags }];
    all.extend(wish.map(|mass| Allowance { by: By::Wish, mass }));
    for scale in Scale::ALL {
        let heaviest = |limit| Allowance { by: By::Bike(limit), mass: heaviest(instance, mount, scale) };
        all.extend(mount.limit(scale).map(heaviest));
    }
    all.sort_by_key(|allowance| allowance.mass);
    all
}

/// The heaviest kit that a scale bears: the bags that charge it least are filled first.
fn heaviest(instance: &Instance, mount: &Mount, scale: Scale) -> Mass {
    let mut left = mount.spare(scale).unwrap_or(f64::INFINITY).max(0.0);
    let mut bags: Vec<&Bag> = mount.bags.iter().map(|bag| &instance.bags[*bag]).collect();
    bags.sort_by(|a, b| mount.charge(scale, a.ahead).total_cmp(&mount.charge(scale, b.ahead)));
    let mut mass = 0.0;
    for bag in bags {
        let charge = mount.charge(scale, bag.ahead);
        let more = if charge > 0.0 { bag.max_load.kilograms().min(left / charge) } else { bag.max_load.kilograms() };
        mass += more;
        left -= more * charge;
    }
    Mass::from_base(mass * 1e6)
}
