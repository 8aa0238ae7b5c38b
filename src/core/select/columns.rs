//! The decision variables.

use super::useful::most_useful;
use crate::resolve::Instance;
use crate::risk::{RiskModel, value};
use fardel_milp::{Answer, Model};

/// Column numbers by what they stand for.
#[derive(Debug, Clone)]
pub struct Columns {
    /// Units of each item.
    pub n: Vec<usize>,
    /// The most units of each item that could do any good.
    pub most: Vec<u32>,
    /// Units of each item that must be bought, where that is fewer than all.
    pub buy: Vec<Option<usize>>,
    /// For each function, the counts asked for and the column that says they are there.
    pub h: Vec<Vec<(u32, usize)>>,
    /// For each function, one column per way to combine it.
    pub ways: Vec<Vec<usize>>,
    /// For each stock, one column per step of its ladder.
    pub z: Vec<Vec<usize>>,
    /// For each stock, the share of its demand that the units carried meet.
    pub fill: Vec<usize>,
    /// For each stock, the units that a repair uses at once where less could be carried, and the column that says that
    /// so many are carried: half the cartridges for a tyre are worth nothing.
    pub enough: Vec<Vec<(u32, usize)>>,
    /// For each failure and repair, the share met; `None` where it saves nothing.
    pub g: Vec<Vec<Option<usize>>>,
}

impl Columns {
    /// Adds the columns of a case to a model.
    pub fn new(model: &mut Model, instance: &Instance, risk_model: &RiskModel) -> Self {
        let most = most_useful(instance, risk_model);
        let n = instance
            .items
            .iter()
            .zip(&most)
            .map(|(item, most)| {
                let weight = risk_model.handling_per_kg(item.owner) * item.mass.kilograms();
                let bought = if item.owned == 0 { item.buying.get() } else { 0.0 };
                let gain = -weight - instance.prices.thing.get() - bought;
                model.column(format!("n[{}]", item.id), (f64::from(item.at_least), f64::from(*most)), true, gain)
            })
            .collect();
        let buy = instance
            .items
            .iter()
            .zip(&most)
            .map(|(item, useful)| {
                let charged = instance.budget.is_some() || item.buying.get() > 0.0;
                let partly = charged && item.owned > 0 && item.owned < *useful;
                let most = f64::from(useful.saturating_sub(item.owned));
                partly.then(|| model.column(format!("buy[{}]", item.id), (0.0, most), false, -item.buying.get()))
            })
            .collect();
        Self::on(model, instance, risk_model, n, most, buy)
    }

    /// Adds the columns of what a kit does, for counts that are there already: `n`, at most `most` of each.
    pub fn on(
        model: &mut Model,
        instance: &Instance,
        risk_model: &RiskModel,
        n: Vec<usize>,
        most: Vec<u32>,
        buy: Vec<Option<usize>>,
    ) -> Self {
        let asked = asked(instance);
        let h = instance
            .functions
            .iter()
            .zip(&asked)
            .map(|(function, counts)| {
                // One at a time needs no whole variable: it is bounded by whole ones and pushed up to them.
                let column = |count: &u32| {
                    let name = format!("h[{} x{count}]", function.id);
                    (*count, model.column(name, (0.0, 1.0), *count > 1, 0.0))
                };
                counts.iter().map(column).collect()
            })
            .collect();
        let ways = instance
            .functions
            .iter()
            .map(|function| {
                let way = |at: usize| model.column(format!("way[{} {at}]", function.id), (0.0, 1.0), false, 0.0);
                (0..function.also_from.len()).map(way).collect()
            })
            .collect();
        let z = instance
            .stocks
            .iter()
            .zip(&risk_model.ladders)
            .map(|(stock, ladder)| {
                let step = |at: usize| model.column(format!("z[{stock} {at}]"), (0.0, 1.0), false, 0.0);
                (0..ladder.shares.len()).map(step).collect()
            })
            .collect();
        let fill = instance.stocks.iter().map(|s| model.column(format!("fill[{s}]"), (0.0, 1.0), false, 0.0)).collect();
        let enough = instance
            .stocks
            .iter()
            .enumerate()
            .map(|(at, stock)| {
                let column =
                    |units: u32| (units, model.column(format!("enough[{stock} {units}]"), (0.0, 1.0), true, 0.0));
                lumps(instance, at).into_iter().map(column).collect()
            })
            .collect();
        let g = instance
            .failures
            .iter()
            .zip(&risk_model.repairs)
            .map(|(failure, risk_model)| {
                let share = |(repair, benefit): (&crate::resolve::InstanceRepair, f64)| {
                    let name = format!("g[{} {}]", failure.id, repair.id);
                    (benefit > 0.0).then(|| model.column(name, (0.0, 1.0), false, benefit))
                };
                failure.repairs.iter().zip(risk_model.iter().map(|s| s.benefit)).map(share).collect()
            })
            .collect();
        Self { n, most, buy, h, ways, z, fill, enough, g }
    }

    /// The column that says `count` of a function are there at a time.
    #[must_use]
    pub fn there(&self, function: usize, count: u32) -> Option<usize> {
        self.h[function].iter().find(|(asked, _)| *asked == count).map(|(_, column)| *column)
    }

    /// The whole columns of a kit as a point of the model; the others are left at zero.
    pub(super) fn point(&self, instance: &Instance, counts: &[u32], width: usize) -> Vec<f64> {
        let mut point = vec![0.0; width];
        self.n.iter().zip(counts).for_each(|(column, count)| point[*column] = f64::from(*count));
        let (functions, stocks) = (value::available(instance, counts), value::stocked(instance, counts));
        let there = self.h.iter().zip(functions).chain(self.enough.iter().zip(stocks));
        for (columns, have) in there {
            columns.iter().for_each(|(asked, column)| point[*column] = f64::from(u8::from(have >= *asked)));
        }
        point
    }

    /// The counts of an answer.
    #[must_use]
    pub fn counts(&self, answer: &Answer) -> Vec<u32> {
        self.counts_at(&answer.values)
    }

    /// The counts at a point of the model.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded, bounded by the column")]
    pub(super) fn counts_at(&self, point: &[f64]) -> Vec<u32> {
        self.n.iter().map(|column| point[*column].round().max(0.0) as u32).collect()
    }
}

/// For each function, the counts at a time that a repair, an item or a combination asks for; ascending.
pub(super) fn asked(instance: &Instance) -> Vec<Vec<u32>> {
    let mut asked = vec![std::collections::BTreeSet::new(); instance.functions.len()];
    let repairs = instance.failures.iter().flat_map(|failure| &failure.repairs);
    for (function, count) in repairs.flat_map(|repair| &repair.needs) {
        asked[*function].insert((*count).max(1));
    }
    for (function, count) in instance.items.iter().flat_map(|item| &item.requires) {
        asked[*function].insert((*count).max(1));
    }
    for part in instance.functions.iter().flat_map(|function| function.also_from.iter().flatten()) {
        asked[*part].insert(1);
    }
    asked.into_iter().map(|counts| counts.into_iter().collect()).collect()
}

/// Units of a stock that some repair uses at once and that a kit could have only part of; ascending.
fn lumps(instance: &Instance, stock: usize) -> Vec<u32> {
    let held = instance.items.iter().flat_map(|item| &item.holds).filter(|(held, _)| *held == stock);
    let least = held.map(|(_, units)| *units).min().unwrap_or(0);
    let repairs = instance.failures.iter().flat_map(|failure| &failure.repairs);
    let used = repairs.flat_map(|repair| &repair.uses).filter(|(used, units)| *used == stock && *units > least);
    let lumps: std::collections::BTreeSet<u32> = used.map(|(_, units)| *units).collect();
    lumps.into_iter().collect()
}
