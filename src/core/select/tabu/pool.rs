//! Repairs chosen together, and the kit that they share: a tool that two repairs need is carried once.

use super::bundle::Bundle;
use crate::resolve::{Instance, Measure};
use crate::risk::RiskModel;

/// What a kit takes of mass, volume and money, and hours for carrying and buying it.
#[derive(Debug, Clone, Copy, Default)]
struct Load {
    used: [f64; 3],
    handling: f64,
}

/// One unit of an item: mass, volume and price; how many are owned; hours for carrying and for buying one.
#[derive(Debug, Clone, Copy)]
struct Unit {
    takes: [f64; 3],
    owned: u32,
    carrying: f64,
    buying: f64,
}

/// Repairs chosen, with the kit for them.
#[derive(Debug, Clone)]
pub struct Pool<'a> {
    bundles: &'a [Bundle],
    items: Vec<Unit>,
    caps: [f64; 3],
    /// What is carried whatever is chosen.
    floor: Vec<u32>,
    /// For each item and each count from one up: how many chosen repairs want so many.
    wanted: Vec<Vec<u32>>,
    load: Load,
    worth: f64,
    chosen: Vec<bool>,
    /// Failures that a chosen repair deals with.
    met: Vec<bool>,
}

impl<'a> Pool<'a> {
    /// Nothing chosen.
    pub fn new(instance: &Instance, risk_model: &RiskModel, bundles: &'a [Bundle], floor: Vec<u32>) -> Self {
        #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
        let cap = |measure: Measure| measure.limit(instance).map_or(f64::INFINITY, |limit| measure.in_row(limit));
        let room = instance.bags.iter().map(|bag| bag.usable().millilitres()).sum::<f64>();
        let caps = [cap(Measure::Mass), cap(Measure::Volume).min(room), cap(Measure::Money)];
        let items = instance.items.iter().map(|item| {
            let weight = risk_model.handling_per_kg(item.owner) * item.mass.kilograms();
            Unit {
                takes: [item.mass.grams(), item.volume.millilitres(), item.price.units()],
                owned: item.owned,
                carrying: weight + instance.prices.thing.get(),
                buying: item.buying.get(),
            }
        });
        let longest = |item: usize| {
            let counts = bundles.iter().flat_map(|bundle| &bundle.takes).filter(|(at, _)| *at == item);
            counts.map(|(_, count)| *count as usize).max().unwrap_or(0)
        };
        let mut pool = Self {
            bundles,
            items: items.collect(),
            caps,
            wanted: (0..instance.items.len()).map(|item| vec![0; longest(item)]).collect(),
            load: Load::default(),
            worth: 0.0,
            chosen: vec![false; bundles.len()],
            met: vec![false; instance.failures.len()],
            floor: vec![0; instance.items.len()],
        };
        for (item, count) in floor.iter().enumerate() {
            pool.load = pool.load.and(pool.change(item, 0, *count));
        }
        Self { floor, ..pool }
    }

    /// Expected hours saved by the repairs chosen, less the handling of the kit.
    pub fn saved(&self) -> f64 {
        self.worth - self.load.handling
    }

    /// Is it chosen?
    pub fn has(&self, bundle: usize) -> bool {
        self.chosen[bundle]
    }

    /// The repairs chosen.
    pub fn all(&self) -> Vec<usize> {
        (0..self.chosen.len()).filter(|at| self.chosen[*at]).collect()
    }

    /// Units of each item.
    pub fn kit(&self) -> Vec<u32> {
        (0..self.floor.len()).map(|item| self.count(item)).collect()
    }

    /// What one more repair brings, if it and what is there keep all limits; nothing if its failure is met already.
    pub fn gain(&self, bundle: usize) -> Option<f64> {
        let Bundle { failure, takes, worth } = &self.bundles[bundle];
        if self.chosen[bundle] || self.met[*failure] {
            return None;
        }
        let mut load = self.load;
        for (item, count) in takes {
            let now = self.count(*item);
            if *count > now {
                load = load.and(self.change(*item, now, *count));
                if (0..3).any(|at| load.used[at] > self.caps[at]) {
                    return None;
                }
            }
        }
        Some(worth - (load.handling - self.load.handling))
    }

    /// Chooses a repair.
    pub fn add(&mut self, bundle: usize) {
        self.turn(bundle, true);
    }

    /// Drops a repair.
    pub fn drop(&mut self, bundle: usize) {
        self.turn(bundle, false);
    }

    fn turn(&mut self, bundle: usize, chosen: bool) {
        let Bundle { failure, takes, worth } = &self.bundles[bundle];
        (self.chosen[bundle], self.met[*failure]) = (chosen, chosen);
        self.worth += if chosen { *worth } else { -worth };
        for (item, count) in takes {
            let before = self.count(*item);
            for wanted in &mut self.wanted[*item][..*count as usize] {
                *wanted = if chosen { *wanted + 1 } else { *wanted - 1 };
            }
            let after = self.count(*item);
            self.load = self.load.and(self.change(*item, before, after));
        }
    }

    /// Units of an item that are carried.
    fn count(&self, item: usize) -> u32 {
        let wanted = self.wanted[item].iter().rposition(|repairs| *repairs > 0).map_or(0, |at| at + 1);
        self.floor[item].max(u32::try_from(wanted).unwrap_or(u32::MAX))
    }

    /// What it means to carry `to` units instead of `from`.
    fn change(&self, item: usize, from: u32, to: u32) -> Load {
        let Unit { takes: each, owned, carrying, buying } = &self.items[item];
        let more = f64::from(to) - f64::from(from);
        let bought = f64::from(to.saturating_sub(*owned)) - f64::from(from.saturating_sub(*owned));
        Load { used: [each[0] * more, each[1] * more, each[2] * bought], handling: carrying * more + buying * bought }
    }
}

impl Load {
    fn and(self, other: Self) -> Self {
        let used = std::array::from_fn(|at| self.used[at] + other.used[at]);
        Self { used, handling: self.handling + other.handling }
    }
}
