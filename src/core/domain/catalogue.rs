//! Everything known before a trip is named.

use super::{
    Applies, Bag, Basis, Bike, BySurface, Check, Evidence, Failure, Item, Map, NeedRule, Prices, Rider, RidingSkill,
    WorkingSet, terms::words,
};
use crate::units::{Currency, Hours, Mass, Money};
use std::borrow::Cow;

/// All catalogue files merged, families expanded, inheritance resolved, references checked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalogue {
    /// What a bike can be asked about.
    pub attributes: Map<Attribute>,
    /// Functions, families expanded by size.
    pub functions: Map<Function>,
    /// Stocks, families expanded by size.
    pub stocks: Map<Stock>,
    /// Needs of a trip.
    pub needs: Map<Need>,
    /// Parts of a bike.
    pub systems: Map<System>,
    /// Things to carry.
    pub items: Map<Item>,
    /// Machines.
    pub bikes: Map<Bike>,
    /// Bags, cases and holders.
    pub bags: Map<Bag>,
    /// What goes wrong.
    pub failures: Map<Failure>,
    /// What can be done before leaving.
    pub preparations: Map<Preparation>,
    /// What is looked at before every trip.
    pub checks: Map<Check>,
    /// Things that are used together.
    pub sets: Map<WorkingSet>,
    /// Falls and handling.
    pub model: Model,
    /// What weight, money, packing and being fetched cost, where a scenario does not say otherwise.
    pub prices: Prices,
    /// What was seen, and how it is counted.
    pub evidence: Evidence,
    /// Words and phrases that mean the same; the first of a line is the one that the catalogue uses.
    pub synonyms: Vec<Vec<String>>,
    /// The one currency of all prices.
    pub currency: Currency,
}

impl Catalogue {
    /// The catalogue with this rider's own masses in it. Whatever is worked out for one rider begins here.
    #[must_use]
    pub fn as_weighed_by(&self, rider: &Rider) -> Cow<'_, Self> {
        if rider.weighed.iter().all(|(id, item)| self.items.get(id) == Some(item)) {
            return Cow::Borrowed(self);
        }
        let mut own = self.clone();
        own.items.extend(rider.weighed.clone());
        Cow::Owned(own)
    }
}

/// Something a bike can be asked about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attribute {
    /// As a rider would say it.
    pub name: String,
    /// The values it can have; empty: any text.
    pub values: Vec<String>,
}

/// What an item lets you do without being used up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Function {
    /// As a rider would say it.
    pub name: String,
    /// Ways to have it by combining others: any line will do, a line needs all its functions.
    pub also_from: Vec<Vec<String>>,
}

/// What an item holds that is used up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// As a rider would say it.
    pub name: String,
    /// What one unit is called.
    pub unit: String,
    /// Does a unit fit only the sort of bike that it was bought for?
    pub one_bike: bool,
}

/// What a trip demands whatever breaks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// As a rider would say it.
    pub name: String,
    /// What one unit is called.
    pub unit: String,
    /// The formula that gives the amount.
    pub rule: NeedRule,
}

/// A part of the bike, with the published share of repairs where there is one.
#[derive(Debug, Clone, PartialEq)]
pub struct System {
    /// As a rider would say it.
    pub name: String,
    /// Published share of repaired bikes with a repair here, in percent.
    pub share: Option<f64>,
    /// Repairs per 1000 km on sealed roads, derived from the share.
    pub per_1000_km: Option<f64>,
    /// Where the numbers come from.
    pub basis: Basis,
}

words!(
    /// What sort of preparation, in the order they should be thought of: free ones first.
    PreparationType { Check = "check", Adjustment = "adjustment", Fitted = "fitted" }
);

/// A thing done before leaving that lowers a rate.
#[derive(Debug, Clone, PartialEq)]
pub struct Preparation {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Check, adjustment or fitted part.
    pub kind: PreparationType,
    /// The bikes it makes sense on.
    pub applies: Applies,
    /// What it costs.
    pub price: Money,
    /// What it adds to the bike.
    pub mass: Mass,
    /// Work at home.
    pub time: Hours,
    /// Failure id to the factor on its rate.
    pub effects: Map<f64>,
    /// Where the numbers come from.
    pub basis: Basis,
}

/// How the demand on a stock is added up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pooling {
    /// A repair loads its stock with what better repairs leave over, and the repairs of one failure share what there is.
    #[default]
    LeftOver,
    /// Every repair loads its stock in full, and each repair of a failure may have all of it: the first version of these
    /// sums, kept to show what the difference comes to. Only tests ask for it.
    EveryRepair,
}

/// Falls, and what mass does to them.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// Falls per 1000 km of an intermediate rider on an unladen bike.
    pub falls_per_1000_km: BySurface<f64>,
    /// The same before evidence was asked, where that differs.
    pub typed_falls: Option<BySurface<f64>>,
    /// Where these rates come from, where they are not those of the model.
    pub falls_basis: Option<Basis>,
    /// Falls that the evidence for these rates is worth, for one rider.
    pub falls_worth_events: f64,
    /// Factor on falls for novice, intermediate, advanced, expert.
    pub riding_skill: [f64; 4],
    /// Relative rise in falls per (kit mass / bike mass).
    pub load_sensitivity: f64,
    /// What a fall itself costs, breakage apart.
    pub hours_per_fall: Hours,
    /// How stocks are shared; not in any file.
    pub pooling: Pooling,
    /// Where the numbers come from.
    pub basis: Basis,
}

impl Model {
    /// What the rates of falls rest on.
    #[must_use]
    pub fn falls_basis(&self) -> &Basis {
        self.falls_basis.as_ref().unwrap_or(&self.basis)
    }

    /// Falls per 1000 km before evidence was asked.
    #[must_use]
    pub fn typed_falls(&self) -> BySurface<f64> {
        self.typed_falls.unwrap_or(self.falls_per_1000_km)
    }
    /// The factor on falls for a riding skill.
    #[must_use]
    pub const fn skill_factor(&self, skill: RidingSkill) -> f64 {
        self.riding_skill[skill as usize]
    }
}

impl Default for Model {
    /// A world without falls: what is used when no catalogue file has a `model` section.
    fn default() -> Self {
        Self {
            falls_per_1000_km: BySurface::new([0.0; 4]),
            typed_falls: None,
            falls_basis: None,
            falls_worth_events: 1.0,
            riding_skill: [1.0; 4],
            load_sensitivity: 0.0,
            hours_per_fall: Hours::ZERO,
            pooling: Pooling::LeftOver,
            basis: Basis { kind: super::BasisKind::Derived, note: "no falls are modelled".to_owned() },
        }
    }
}
