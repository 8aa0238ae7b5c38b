//! What a group must have twice, so that enough is left when any one rider leaves.
//!
//! A function is *vital* when without it, and with everything else there is, the riders who stay could not save what is
//! asked of them: it must then be on two bikes. That holds for every kit that keeps the floor, so the rows are valid.
//! Where they are not enough to hand a kit out so that the floor is kept, functions and stocks that the kit would miss
//! by more than some share of the hours are asked for twice as well; that is no longer forced, only sufficient.

use super::{Columns, Holdings, Situation};
use crate::parallel;
use crate::resolve::{Instance, InstanceItem, InstanceRepair, amount};
use crate::risk;
use crate::select;
use fardel_milp::{Model, Sense, control};
use std::collections::BTreeSet;

/// Something wanted on two bikes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Redundancy {
    /// So many of a function at a time.
    Function(usize, u32),
    /// So many units of a stock.
    Stock(usize, u32),
}

/// The trip without one rider, and the hours that must still be saved on it.
#[derive(Debug, Clone)]
pub struct Absence {
    /// Who is missing.
    pub rider: usize,
    /// The others' trip.
    pub situations: Vec<Situation>,
    /// What they could save with the whole kit.
    pub with_all: f64,
    /// What they must save at least.
    pub least: f64,
}

impl Absence {
    /// Do those who stay save enough with what they carry?
    #[must_use]
    pub fn is_kept(&self, holdings: &Holdings) -> bool {
        self.saved(holdings) >= self.least * (1.0 - 1e-9)
    }

    /// Hours that those who stay would save less with the whole kit, but for this.
    #[must_use]
    pub fn loss(&self, counts: &[u32], redundancy: Redundancy) -> f64 {
        self.with_all - self.situations.iter().map(|own| saved_without(own, counts, redundancy)).sum::<f64>()
    }

    /// Hours that those who stay save with what they carry.
    #[must_use]
    pub fn saved(&self, holdings: &Holdings) -> f64 {
        self.situations.iter().map(|situation| situation.saved(&situation.held(holdings))).sum()
    }
}

impl Redundancy {
    /// Does a repair ask for it?
    fn is_asked(self, repair: &InstanceRepair) -> bool {
        match self {
            Self::Function(function, count) => repair.needs.iter().any(|(f, n)| *f == function && (*n).max(1) >= count),
            Self::Stock(stock, units) => repair.uses.iter().any(|(s, n)| *s == stock && *n >= units),
        }
    }

    /// How much one unit of an item gives of it, cut at one full measure; and the full measure.
    pub(crate) fn given(self, item: &InstanceItem) -> u32 {
        match self {
            Self::Function(function, count) => amount(&item.provides, function).min(count),
            Self::Stock(stock, units) => amount(&item.holds, stock).min(units),
        }
    }

    const fn measure(self) -> u32 {
        match self {
            Self::Function(_, measure) | Self::Stock(_, measure) => measure,
        }
    }

    /// Ways to combine it from other functions; only one at a time can be combined.
    pub(crate) fn ways(self, instance: &Instance) -> &[Vec<usize>] {
        match self {
            Self::Function(function, 1) => &instance.functions[function].also_from,
            _ => &[],
        }
    }

    /// Is it there twice in these counts, as far as counts can tell?
    #[must_use]
    pub fn holds(self, instance: &Instance, counts: &[u32]) -> bool {
        let total = |redundancy: Self| -> u32 {
            instance.items.iter().zip(counts).map(|(item, n)| redundancy.given(item).saturating_mul(*n)).sum()
        };
        let combined = self
            .ways(instance)
            .iter()
            .map(|way| way.iter().map(|part| total(Self::Function(*part, 1)).min(2)).min().unwrap_or(0));
        total(self) + combined.sum::<u32>() >= 2 * self.measure()
    }

    /// `sum of given n + sum over ways of the scarcest part's units >= 2 measures`.
    pub fn add_row(self, model: &mut Model, columns: &select::Columns, instance: &Instance) {
        let direct = |redundancy: Self| -> Vec<(usize, f64)> {
            let each = instance.items.iter().zip(&columns.n).map(|(item, n)| (*n, f64::from(redundancy.given(item))));
            each.filter(|(_, given)| *given > 0.0).collect()
        };
        let mut terms = direct(self);
        for way in self.ways(instance) {
            let twice = model.column("twice".to_owned(), (0.0, 2.0), false, 0.0);
            for part in way {
                let parts = direct(Self::Function(*part, 1)).into_iter().map(|(n, given)| (n, -given));
                let row = std::iter::once((twice, 1.0)).chain(parts).collect();
                model.row(
                    "double",
                    format!("{} for {}", instance.functions[*part].id, self.name(instance)),
                    row,
                    Sense::AtMost,
                    0.0,
                );
            }
            terms.push((twice, 1.0));
        }
        model.row("double", self.name(instance), terms, Sense::AtLeast, f64::from(2 * self.measure()));
    }

    /// Whoever of these is missing, the others have it.
    pub fn add_spread(self, model: &mut Model, columns: &Columns, instance: &Instance, absent: &[usize]) {
        for absent in absent {
            let others: Vec<usize> = (0..instance.mounts.len()).filter(|rider| rider != absent).collect();
            self.add_with(model, columns, instance, &others);
        }
    }

    /// These riders have it: `sum over them of given y + ways of theirs >= a measure`.
    pub fn add_with(self, model: &mut Model, columns: &Columns, instance: &Instance, riders: &[usize]) {
        let theirs = |redundancy: Self, model: &Model| -> Vec<(usize, f64)> {
            let each = riders.iter().flat_map(|rider| instance.items.iter().zip(&columns.y[*rider]));
            let each = each.map(|(item, y)| (*y, f64::from(redundancy.given(item))));
            each.filter(|(y, given)| *given > 0.0 && model.columns[*y].upper > 0.0).collect()
        };
        let who: Vec<&str> = riders.iter().map(|rider| instance.mounts[*rider].rider.as_str()).collect();
        let key = format!("{} with {}", self.name(instance), who.join("+"));
        let mut terms = theirs(self, model);
        for parts in self.ways(instance) {
            let way = model.column(format!("way[{key}]"), (0.0, 1.0), false, 0.0);
            for part in parts {
                let parts = theirs(Self::Function(*part, 1), model).into_iter().map(|(y, given)| (y, -given));
                let row = std::iter::once((way, 1.0)).chain(parts).collect();
                model.row("spread", format!("{key}, {}", instance.functions[*part].id), row, Sense::AtMost, 0.0);
            }
            terms.push((way, 1.0));
        }
        model.row("spread", key, terms, Sense::AtLeast, f64::from(self.measure()));
    }

    /// As a rider would call it.
    #[must_use]
    pub fn name(self, instance: &Instance) -> String {
        match self {
            Self::Function(function, 1) => instance.functions[function].id.clone(),
            Self::Function(function, count) => format!("{count} x {}", instance.functions[function].id),
            Self::Stock(stock, _) => instance.stocks[stock].clone(),
        }
    }
}

/// What those present in a situation make use of with these holdings: with all of it, they do as well.
#[must_use]
pub fn used(situation: &Situation, holdings: &Holdings) -> Vec<Redundancy> {
    let held = situation.held(holdings);
    let instance = &situation.instance;
    let shares = risk::value(instance, &situation.risk_model, &held).shares;
    let repairs =
        instance.failures.iter().zip(&shares).flat_map(|(failure, shares)| failure.repairs.iter().zip(shares));
    let mut all = BTreeSet::new();
    for (repair, _) in repairs.filter(|(_, share)| **share > 0.0) {
        all.extend(repair.needs.iter().map(|(function, count)| Redundancy::Function(*function, (*count).max(1))));
        let carried = |stock: usize| instance.items.iter().zip(&held).map(|(i, n)| amount(&i.holds, stock) * n).sum();
        all.extend(repair.uses.iter().map(|(stock, _)| Redundancy::Stock(*stock, carried(*stock))));
    }
    let requiring = instance.items.iter().zip(&held).filter(|(_, n)| **n > 0).flat_map(|(item, _)| &item.requires);
    all.extend(requiring.map(|(function, count)| Redundancy::Function(*function, (*count).max(1))));
    all.into_iter().collect()
}

/// Everything that repairs ask for.
pub(super) fn candidates(instance: &Instance) -> BTreeSet<Redundancy> {
    let repairs = || instance.failures.iter().flat_map(|failure| &failure.repairs);
    let functions =
        repairs().flat_map(|repair| repair.needs.iter().map(|(f, n)| Redundancy::Function(*f, (*n).max(1))));
    let stocks = repairs().flat_map(|repair| repair.uses.iter().map(|(s, n)| Redundancy::Stock(*s, *n)));
    functions.chain(stocks).collect()
}

/// What is vital, whoever leaves.
#[must_use]
pub fn vital(instance: &Instance, absences: &[Absence]) -> Vec<Redundancy> {
    let short = |redundancy: &Redundancy| {
        absences.iter().all(|absence| {
            let most = absence.situations.iter().map(|situation| most_without(situation, *redundancy)).sum::<f64>();
            most < absence.least
        })
    };
    candidates(instance).into_iter().filter(short).collect()
}

/// The most that any kit saves in a situation by repairs that do not ask for something.
fn most_without(situation: &Situation, redundancy: Redundancy) -> f64 {
    let failures = situation.instance.failures.iter().zip(&situation.risk_model.repairs);
    let best = failures.map(|(failure, risk_model)| {
        let open = failure.repairs.iter().zip(risk_model).filter(|(repair, _)| !redundancy.is_asked(repair));
        open.map(|(_, stake)| stake.benefit).fold(0.0, f64::max)
    });
    best.sum()
}

/// What a kit would miss by more than this share of the hours, whoever leaves, so that one of it does not do.
#[must_use]
pub fn missed(instance: &Instance, absences: &[Absence], counts: &[u32], share: f64) -> Vec<Redundancy> {
    let short = |redundancy: Redundancy| {
        // Whoever is out of time has no use for the rest.
        let all = || absences.iter().all(|absence| absence.loss(counts, redundancy) > share * absence.with_all);
        (!control::is_cancelled() && all()).then_some(redundancy)
    };
    let open = candidates(instance).into_iter().filter(|redundancy| obtainable(instance, *redundancy)).collect();
    parallel::map(open, short).into_iter().flatten().collect()
}

/// For each item, the largest share of the hours that somebody's absence leaves to be saved which would be missed with
/// all units of it; nothing where what it gives is there twice.
#[must_use]
pub fn losses(instance: &Instance, absences: &[Absence], counts: &[u32], redundancies: &[Redundancy]) -> Vec<f64> {
    let loss = |(at, item): (usize, &InstanceItem)| {
        if counts[at] == 0 || redundancies.iter().any(|redundancy| redundancy.given(item) > 0) {
            return 0.0;
        }
        let mut without = counts.to_vec();
        without[at] = 0;
        let lost = absences.iter().map(|absence| {
            let left: f64 = absence.situations.iter().map(|situation| situation.saved(&without)).sum();
            (absence.with_all - left) / absence.with_all.max(1e-12)
        });
        lost.fold(0.0, f64::max)
    };
    parallel::map(instance.items.iter().enumerate().collect(), loss)
}

/// No rider carries things whose losses add up to more than this.
pub fn spread_losses(model: &mut Model, columns: &Columns, instance: &Instance, losses: &[f64], most: f64) {
    for (rider, own) in columns.y.iter().enumerate() {
        let terms: Vec<(usize, f64)> =
            own.iter().copied().zip(losses.iter().copied()).filter(|(_, loss)| *loss > 0.0).collect();
        model.row("spread", format!("all with {}", instance.mounts[rider].rider), terms, Sense::AtMost, most);
    }
}

/// Could it be had twice at all?
pub(super) fn obtainable(instance: &Instance, redundancy: Redundancy) -> bool {
    let all: Vec<u32> = instance.items.iter().map(|item| item.at_most).collect();
    redundancy.holds(instance, &all)
}

/// Hours that these counts save in a situation by repairs that do not ask for something.
pub(super) fn saved_without(situation: &Situation, counts: &[u32], redundancy: Redundancy) -> f64 {
    let mut risk_model = situation.risk_model.clone();
    for (failure, risk_model) in situation.instance.failures.iter().zip(&mut risk_model.repairs) {
        let asking = failure.repairs.iter().zip(risk_model).filter(|(repair, _)| redundancy.is_asked(repair));
        asking.for_each(|(_, stake)| stake.benefit = 0.0);
    }
    risk::value(&situation.instance, &risk_model, counts).hours_saved()
}
