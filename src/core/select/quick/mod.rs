//! A good kit at once, without a solver: needs met by what costs least, then whole repairs added, things dropped and
//! exchanged as long as that betters the kit.
//!
//! Needs are met greedily, as in the classical cover heuristic (Chvatal, Mathematics of Operations Research 4, 1979,
//! 233-235): always the unit that covers most for what it costs. What limits make scarce gets a price, as in Lagrangian
//! heuristics (Beasley, European Journal of Operational Research 51, 1991, 383-396): where a limit is broken its price goes
//! up, where it is far from used up it goes down, and the kit is bettered anew at these prices. Each of these kits is then
//! made to fit and bettered within the limits; the best stands.

mod field;
mod lacking;
mod search;

use self::field::Field;
use self::search::Search;
use super::rows::cut::Cut;
use super::{Choice, Columns, tabu, ties};
use crate::resolve::{Instance, InstanceItem};
use crate::risk::{RiskModel, value};
use fardel_milp::{Model, Stop};

/// Rounds of prices.
const ROUNDS: usize = 12;
/// Changes made in all: some hundredths of a second.
const WORK: usize = 40_000;
/// Repairs weighed in the search by whole repairs, where limits stand in the way: some milliseconds.
const BY_REPAIRS: usize = 60_000;
/// Of so many things that could take the place of one, the others are passed over.
const MOST_ALIKE: usize = 60;
/// Changes made to better a kit that was known before.
const WORK_KNOWN: usize = 20_000;
/// A limit that is broken is made dearer by this factor ...
const DEARER: f64 = 2.5;
/// ... from so many hours for all that it allows ...
const FIRST_PRICE: f64 = 0.5;
/// ... and one that is not used up gets cheaper by this ...
const CHEAPER: f64 = 0.6;
/// ... where this share of it is left.
const SLACK: f64 = 0.03;

/// A kit that keeps all limits and cuts, with the bound that no kit saves more than every failure's best repair; nothing
/// where none was found, which proves nothing. `known` is a kit that is looked at as well. The same input gives the same kit.
#[must_use]
pub fn first(instance: &Instance, risk_model: &RiskModel, cuts: &[Cut], known: Option<&[u32]>) -> Option<Choice> {
    let columns = Columns::new(&mut Model::default(), instance, risk_model);
    let limits = ties::Limits::new(instance, risk_model, &columns, cuts);
    let hold = |kit: &[u32]| limits.hold(kit);
    let near = known.and_then(|kit| near(instance, risk_model, &columns.most, &hold, kit));
    let found = good(instance, risk_model, &columns.most, &hold);
    let best = match (near, found) {
        (Some(near), Some(found)) => Some(if found.0 >= near.0 { found } else { near }),
        (near, found) => near.or(found),
    };
    best.map(|found| as_choice(instance, risk_model, found))
}

/// A good kit near a known one that keeps all limits, by the stakes as they are.
#[must_use]
pub fn nearest(instance: &Instance, risk_model: &RiskModel, known: &[u32]) -> Option<Vec<u32>> {
    let columns = Columns::new(&mut Model::default(), instance, risk_model);
    let limits = ties::Limits::new(instance, risk_model, &columns, &[]);
    near(instance, risk_model, &columns.most, &|kit| limits.hold(kit), known).map(|(_, kit)| kit)
}

/// A kit with what it is worth, as a choice.
pub(super) fn as_choice(instance: &Instance, risk_model: &RiskModel, (objective, counts): (f64, Vec<u32>)) -> Choice {
    let bound = best_of_all(risk_model).max(objective);
    let risk_model = risk_model.at(instance, &counts);
    Choice { counts, objective, bound, stop: Stop::OutOfTime, failed: Vec::new(), risk_model, unaided: true }
}

/// A good kit from nothing that keeps `hold`, with what it is worth by its own stakes.
pub(super) fn good(
    instance: &Instance,
    risk_model: &RiskModel,
    most: &[u32],
    hold: &dyn Fn(&[u32]) -> bool,
) -> Option<(f64, Vec<u32>)> {
    let around = Around::new(instance, most);
    let mut best = Best { instance, risk_model, hold, found: None };
    if !around.search(risk_model, &mut best)
        && let Some((_, kit)) = best.found.clone()
        && let Some(kit) = tabu::by_repairs(instance, risk_model, most, &kit, hold, BY_REPAIRS)
    {
        best.offer(&kit);
    }
    // Once more by the stakes of the kit itself.
    if let Some((_, kit)) = best.found.clone() {
        around.polish(&risk_model.at(instance, &kit), &kit, &mut best);
    }
    best.found
}

/// A good kit near a known one, which is made to fit first; as [`good`].
pub(super) fn near(
    instance: &Instance,
    risk_model: &RiskModel,
    most: &[u32],
    hold: &dyn Fn(&[u32]) -> bool,
    known: &[u32],
) -> Option<(f64, Vec<u32>)> {
    let around = Around::new(instance, most);
    let mut best = Best { instance, risk_model, hold, found: None };
    best.offer(known);
    around.polish(&risk_model.at(instance, known), known, &mut best);
    best.found
}

/// What all failures' best repairs would save together, at no cost.
fn best_of_all(risk_model: &RiskModel) -> f64 {
    let best = |repairs: &Vec<crate::risk::RepairRisk>| repairs.iter().map(|repair| repair.benefit).fold(0.0, f64::max);
    risk_model.repairs.iter().map(best).sum()
}

/// The best kit by its own stakes.
struct Best<'a> {
    instance: &'a Instance,
    risk_model: &'a RiskModel,
    hold: &'a dyn Fn(&[u32]) -> bool,
    found: Option<(f64, Vec<u32>)>,
}

impl Best<'_> {
    fn offer(&mut self, kit: &[u32]) {
        if !(self.hold)(kit) {
            return;
        }
        let worth = value(self.instance, self.risk_model, kit).objective();
        if self.found.as_ref().is_none_or(|(known, _)| worth > *known) {
            self.found = Some((worth, kit.to_vec()));
        }
    }
}

/// What does not change while a kit is sought.
struct Around<'a> {
    instance: &'a Instance,
    most: &'a [u32],
    alike: Vec<Vec<usize>>,
    givers: (Vec<Vec<usize>>, Vec<Vec<usize>>),
}

impl<'a> Around<'a> {
    fn new(instance: &'a Instance, most: &'a [u32]) -> Self {
        let items = || instance.items.iter().enumerate().filter(|(at, _)| most[*at] > 0);
        let mut givers = (vec![Vec::new(); instance.functions.len()], vec![Vec::new(); instance.stocks.len()]);
        for (at, item) in items() {
            item.provides.iter().filter(|(_, n)| *n > 0).for_each(|(function, _)| givers.0[*function].push(at));
            item.holds.iter().filter(|(_, n)| *n > 0).for_each(|(stock, _)| givers.1[*stock].push(at));
        }
        let mut meeting = vec![Vec::new(); instance.demands.len()];
        items().for_each(|(at, item)| item.meets.iter().for_each(|(demand, _)| meeting[*demand].push(at)));
        let of = |(at, item): (usize, &InstanceItem)| -> Vec<usize> {
            let meets = item.meets.iter().flat_map(|(demand, _)| &meeting[*demand]);
            let gives = item.provides.iter().flat_map(|(function, _)| &givers.0[*function]);
            let holds = item.holds.iter().flat_map(|(stock, _)| &givers.1[*stock]);
            let mut all: Vec<usize> =
                meets.chain(gives).chain(holds).copied().filter(|other| *other != at).take(MOST_ALIKE).collect();
            all.sort_unstable();
            all.dedup();
            all
        };
        Self { instance, most, alike: instance.items.iter().enumerate().map(of).collect(), givers }
    }

    fn on<'b, 'c>(&'b self, field: &'b mut Field<'c>, within: bool, until: usize) -> Search<'c, 'b> {
        Search { field, within, until, alike: &self.alike, givers: &self.givers }
    }

    /// Kits at one set of prices after another, each made to fit. Did nothing stand in the way of the first?
    fn search(&self, risk_model: &RiskModel, best: &mut Best<'_>) -> bool {
        let mut field = Field::new(self.instance, risk_model, self.most);
        if !self.on(&mut field, false, usize::MAX).cover() {
            return false;
        }
        for round in 0..ROUNDS {
            let left = WORK.saturating_sub(field.work) / (ROUNDS - round);
            let until = field.work + left / 2;
            self.on(&mut field, false, until).run();
            let at_prices = field.counts.clone();
            let fits = field.excess() <= 0.0;
            let until = field.work + left / 2;
            if self.on(&mut field, true, until).fit() {
                self.on(&mut field, true, until).run();
                best.offer(&field.counts);
            }
            let settled = fits && field.prices.iter().all(|price| *price <= 0.0);
            self.fill(&mut field, &at_prices);
            if settled {
                return true;
            }
            reprice(&mut field);
        }
        false
    }

    /// A kit made to fit, and bettered within the limits.
    fn polish<'c>(&'c self, risk_model: &'c RiskModel, kit: &[u32], best: &mut Best<'_>)
    where
        'a: 'c,
    {
        let mut field = Field::new(self.instance, risk_model, self.most);
        self.fill(&mut field, kit);
        if self.on(&mut field, true, WORK_KNOWN).fit() {
            self.on(&mut field, true, WORK_KNOWN).run();
            best.offer(&field.counts);
        }
    }

    /// Makes it this kit.
    fn fill(&self, field: &mut Field<'_>, kit: &[u32]) {
        let within = kit.iter().zip(&self.instance.items).zip(self.most);
        let within = within.map(|((to, item), most)| *to.max(&item.at_least).min(most));
        let steps: Vec<(usize, i64)> =
            within.zip(&field.counts).map(|(to, from)| i64::from(to) - i64::from(*from)).enumerate().collect();
        field.apply(&steps);
    }
}

/// Makes dearer what is broken, and cheaper what is not used up.
fn reprice(field: &mut Field<'_>) {
    let over: Vec<usize> = field.over().map(|(row, _)| row).collect();
    for row in 0..field.prices.len() {
        let price = field.prices[row];
        if over.contains(&row) {
            field.prices[row] = (price * DEARER).max(FIRST_PRICE);
        } else if price > 0.0 && !field.is_tight(row, SLACK) {
            field.prices[row] = price * CHEAPER;
        }
    }
}
