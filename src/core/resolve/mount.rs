//! A loaded bike before the kit: who and what is on it, where, and what it may bear.
//!
//! Static moments about the contact patches, on level ground: a mass m at x ahead of the rear patch puts `m x / w` on
//! the front wheel and `m (1 - x / w)` on the rear one, w being the wheelbase (x negative: behind; the front wheel
//! gets lighter). Standard in texts on motorcycle dynamics.
//!
//! A [`Mount`] is a bike with its people and empty bags. Its own mass, with the last tenth of petrol (running order has
//! nine tenths) and the parts fitted for the trip, is shared by `front_share`. Three scales are watched: both wheels
//! together against the maker's maximum mass, and each wheel against the axle limit or the tyre's load index, whichever
//! is less. What hangs behind the rear axle does not count as relief of the front wheel, nor what is ahead of the front
//! axle as relief of the rear one, since the bag comes off at camp. This also keeps loads growing with the kit, which
//! cuts rely on.
//!
//! The program that picks the kit knows no bags. One unit puts at least `mass x charge of its most favourable bag` on a
//! scale, and those bags bear only so much. So for every level c among the charges:
//!
//! ```text
//! sum of mass x min over its bags of max(c, charge) n  <=  spare + sum over bags of max(0, c - charge) x max load
//! ```
//!
//! Every kit that can be stowed satisfies these rows (they are the Lagrangian of the bags' load limits at the
//! multipliers `max(0, c - charge)`). Rows that no kit within the bounds could break are left out.

use super::member::Member;
use super::needs::charge::ChargeRange;
use super::needs::fuel::Range;
use super::needs::{charge, fuel};
use crate::domain::{Bag, Bike, Catalogue, PreparationType, Scenario, Side, tyre_load};
use crate::serial::Number;
use crate::units::{Length, Mass, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// Petrol: the middle of 720 to 775 kg/m3 at 15 °C (EN 228:2012, second-hand).
pub const PETROL_KG_PER_LITRE: f64 = 0.7475;
/// Running order counts nine tenths of the tank (Regulation (EU) 168/2013, Article 5); riders leave with a full one.
const UNFILLED_SHARE: f64 = 0.1;

/// One bike with its people and empty bags.
#[derive(Debug, Clone, PartialEq)]
pub struct Mount {
    /// The rider's name.
    pub rider: String,
    /// The bike's name.
    pub bike: String,
    /// Distance between the axles.
    pub wheelbase: Length,
    /// The bike ready to ride, parts fitted for the trip on it and the tank full.
    pub bike_mass: Mass,
    /// Share of that on the front wheel.
    pub front_share: f64,
    /// Rider and passenger, dressed, with their centres of mass ahead of the rear axle.
    pub people: Vec<(Mass, Length)>,
    /// Bags that are not part of the bike, empty, with their centres ahead of the rear axle.
    pub empty_bags: Vec<(Mass, Length)>,
    /// How the empty bags pull to the left, in kilogram metres; negative to the right.
    pub empty_lean: f64,
    /// What it may bear: the maker's maximum mass, axle limits where declared, both tyres.
    pub limits: Vec<Limit>,
    /// Which bags of the case are on it.
    pub bags: Vec<usize>,
    /// The leg that asks most of the tank, where the trip says how far pumps are apart.
    pub range: Option<Range>,
    /// The leg that asks most of the battery, likewise.
    pub charge: Option<ChargeRange>,
}

/// Where a load is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Scale {
    /// Both wheels together.
    Gross,
    /// The front wheel.
    Front,
    /// The rear wheel.
    Rear,
}

/// Who sets a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Setter {
    /// The maker's maximum mass.
    Bike,
    /// The maker's limit at an axle.
    Axle,
    /// The load index on the sidewall, at the pressure tied to it.
    Tyre,
}

/// Something that must not be exceeded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Limit {
    /// Where it is weighed.
    pub scale: Scale,
    /// Who says so.
    #[serde(rename = "set_by")]
    pub setter: Setter,
    /// How much.
    #[serde(rename = "limit_g", with = "Number")]
    pub mass: Mass,
}

impl Scale {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Gross, Self::Front, Self::Rear];

    /// The word in rows and in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gross => "gross",
            Self::Front => "front",
            Self::Rear => "rear",
        }
    }
}

impl Setter {
    /// The word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bike => "bike",
            Self::Axle => "axle",
            Self::Tyre => "tyre",
        }
    }
}

impl Mount {
    /// The part of a mass at this place that this scale shows.
    #[must_use]
    pub fn share(&self, scale: Scale, ahead: Length) -> f64 {
        let front = ahead.metres() / self.wheelbase.metres();
        match scale {
            Scale::Gross => 1.0,
            Scale::Front => front,
            Scale::Rear => 1.0 - front,
        }
    }

    /// The same for a limit: what hangs behind the rear axle takes load off the front wheel, but is no licence to load
    /// it more, for that bag comes off at camp.
    #[must_use]
    pub fn charge(&self, scale: Scale, ahead: Length) -> f64 {
        self.share(scale, ahead).max(0.0)
    }

    /// Kilograms on a scale with bike and people only.
    #[must_use]
    pub fn ridden(&self, scale: Scale) -> f64 {
        let own = match scale {
            Scale::Gross => 1.0,
            Scale::Front => self.front_share,
            Scale::Rear => 1.0 - self.front_share,
        };
        own * self.bike_mass.kilograms() + self.sum(scale, &self.people)
    }

    /// Kilograms on a scale with the empty bags on, before the kit.
    #[must_use]
    pub fn before(&self, scale: Scale) -> f64 {
        self.ridden(scale) + self.sum(scale, &self.empty_bags)
    }

    fn sum(&self, scale: Scale, parts: &[(Mass, Length)]) -> f64 {
        parts.iter().map(|(mass, ahead)| mass.kilograms() * self.share(scale, *ahead)).sum()
    }

    /// The tightest limit on a scale; `None` where there is none.
    #[must_use]
    pub fn limit(&self, scale: Scale) -> Option<Limit> {
        self.limits.iter().filter(|limit| limit.scale == scale).min_by_key(|limit| limit.mass).copied()
    }

    /// Kilograms that a scale leaves for the kit; below zero if bike, people and bags alone are too much.
    #[must_use]
    pub fn spare(&self, scale: Scale) -> Option<f64> {
        self.limit(scale).map(|limit| limit.mass.kilograms() - self.before(scale))
    }
}

/// Kilogram metres by which a mass in this bag pulls to the left; negative to the right.
#[must_use]
pub fn lean(bag: &Bag) -> f64 {
    match bag.side {
        Side::Left => bag.out.metres().abs(),
        Side::Right => -bag.out.metres().abs(),
        Side::Centre => 0.0,
    }
}

/// The mount of one rider.
pub(super) fn mount(catalogue: &Catalogue, member: &Member<'_>) -> Mount {
    let Member { rider, bike, scenario, bags, first_bag, .. } = member;
    let passenger = rider.passenger.map(|mass| (mass, bike.passenger_ahead));
    let empty: Vec<&Bag> = bags.iter().filter(|bag| !bike.bags.contains(&bag.id)).collect();
    Mount {
        rider: rider.name.clone(),
        bike: bike.name.clone(),
        wheelbase: bike.wheelbase,
        bike_mass: bike.mass + bike.energy.tank().map_or(Mass::ZERO, top_up) + parts_fitted(catalogue, scenario, bike),
        front_share: bike.front_share,
        people: std::iter::once((rider.mass, bike.rider_ahead)).chain(passenger).collect(),
        empty_bags: empty.iter().map(|bag| (bag.mass, bag.ahead)).collect(),
        empty_lean: empty.iter().map(|bag| bag.mass.kilograms() * lean(bag)).sum(),
        limits: limits(bike),
        bags: (*first_bag..first_bag + bags.len()).collect(),
        range: fuel::range(scenario, bike),
        charge: charge::range(scenario, bike),
    }
}

/// Petrol that a full tank holds beyond running order.
#[allow(clippy::cast_possible_truncation, reason = "a part of a tank")]
fn top_up(tank: Volume) -> Mass {
    Mass::from_grams((tank.litres() * UNFILLED_SHARE * PETROL_KG_PER_LITRE * 1000.0).round() as i64)
}

/// Parts that were fitted for the trip and are not part of the bike as listed.
fn parts_fitted(catalogue: &Catalogue, scenario: &Scenario, bike: &Bike) -> Mass {
    let new =
        scenario.done.iter().filter(|id| !bike.fitted.contains(id)).filter_map(|id| catalogue.preparations.get(id));
    new.filter(|part| part.kind == PreparationType::Fitted && bike.matches(&part.applies)).map(|part| part.mass).sum()
}

fn limits(bike: &Bike) -> Vec<Limit> {
    let all = [
        (Scale::Gross, Setter::Bike, Some(bike.max_mass)),
        (Scale::Front, Setter::Axle, bike.front_axle_limit),
        (Scale::Front, Setter::Tyre, tyre_load(bike.front_load_index)),
        (Scale::Rear, Setter::Axle, bike.rear_axle_limit),
        (Scale::Rear, Setter::Tyre, tyre_load(bike.rear_load_index)),
    ];
    all.into_iter().filter_map(|(scale, setter, mass)| mass.map(|mass| Limit { scale, setter, mass })).collect()
}
