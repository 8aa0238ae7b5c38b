//! When needs and limits cannot hold together: the smallest changes that would make it feasible.
//!
//! Limits and needs get a slack, each counted relative to its size. As few sorts of limit as will do give way, and those
//! first that say best what stands in the way: kit mass, budget, room and load of the bags, what bike and tyres bear, the
//! always list; needs only if all of these together would not do. Among them the sum of the slacks is minimised.
//!
//! The answer then looks for ways out (`answer`, `remedies`).

use super::Columns;
use super::rows::{chance, confined};
use crate::domain::{Bag, Outcome};
use crate::resolve::Instance;
use crate::risk::{RiskModel, value_in_model};
use fardel_milp::{EngineError, Model, Row, Sense, SolveOptions};
use std::collections::BTreeMap;
use std::time::Duration;

/// Sorts of limit in the order in which they give way.
const READILY: [&[&str]; 5] = [&["mass", "volume"], &["budget"], &["room", "bears"], &["load"], &["always"]];
/// Longest that one combination of them may take; one that is not decided by then is passed over.
const COMBINATION_LIMIT: Duration = Duration::from_secs(5);
/// Against this the overload of a wheel is counted, in kilograms.
const LOAD_SCALE: f64 = 10.0;

/// A limit or need that cannot hold with the others, and by how much.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfall {
    /// `stranded`, `mass`, `volume`, `budget`, `always`, `room`, `bears` (a bag), `load` (a wheel) or `need`.
    pub family: &'static str,
    /// What it is about.
    pub key: String,
    /// By how much, in the limit's unit (for a need, a share of the amount).
    pub by: f64,
    /// The limit itself.
    pub limit: f64,
}

/// What a rider could give of, all else held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Give {
    /// The limit on the kit's mass: how many grams the lightest kit takes.
    Mass,
    /// The budget: what the cheapest kit costs.
    Money,
}

/// A slack that is asked for: column, what it stands for.
struct Slack {
    column: usize,
    shortfall: Shortfall,
    scale: f64,
}

/// The smallest shortfalls; empty if the case is feasible as far as selecting goes.
///
/// # Errors
/// [`EngineError`] when even the relaxed model has no answer.
pub fn shortfalls(
    instance: &Instance,
    risk_model: &RiskModel,
    options: &SolveOptions,
) -> Result<Vec<Shortfall>, EngineError> {
    let (mut model, columns) = bare(instance, risk_model);
    let mut slacks = Vec::new();
    needs_and_caps(&mut model, &mut slacks);
    rooms(&mut model, &mut slacks, instance);
    loads(&mut model, &mut slacks);
    always(&mut model, &mut slacks, instance, &columns);
    let quick = SolveOptions { time_limit: Some(COMBINATION_LIMIT), ..*options };
    let few = combinations().iter().find_map(|sorts| fardel_milp::solve(&only(&model, &slacks, sorts), &quick).ok());
    let answer = match few {
        Some(answer) => answer,
        None => fardel_milp::solve(&only(&model, &slacks, &["need"]), &quick)
            .or_else(|_| fardel_milp::solve(&model, options))?,
    };
    let short = slacks.into_iter().filter(|slack| answer.values[slack.column] > 1e-6);
    Ok(short.map(|slack| Shortfall { by: answer.values[slack.column] * slack.scale, ..slack.shortfall }).collect())
}

/// None, each alone, each two, ... of the sorts of limit, in that order.
fn combinations() -> Vec<Vec<&'static str>> {
    let mut masks: Vec<u32> = (0..1 << READILY.len()).collect();
    // Of equally many, the one whose last member stands first.
    masks.sort_by_key(|mask| (mask.count_ones(), *mask));
    let sorts = |mask: u32| READILY.iter().enumerate().filter(move |(at, _)| mask & (1 << at) != 0);
    masks.into_iter().map(|mask| sorts(mask).flat_map(|(_, families)| families.iter().copied()).collect()).collect()
}

/// The relaxed model in which only these families may give way.
fn only(model: &Model, slacks: &[Slack], families: &[&str]) -> Model {
    let mut held = model.clone();
    for slack in slacks.iter().filter(|slack| !families.contains(&slack.shortfall.family)) {
        held.columns[slack.column].upper = 0.0;
    }
    held
}

/// The least that would do of one of the rider's limits, the others held, and the kit that shows it; `None` if no amount
/// would.
#[must_use]
pub fn least(
    instance: &Instance,
    risk_model: &RiskModel,
    give: Give,
    options: &SolveOptions,
) -> Option<(f64, Vec<u32>)> {
    let (mut model, columns) = bare(instance, risk_model);
    let family = if give == Give::Mass { "mass" } else { "budget" };
    let at = model.rows.iter().position(|row| row.family == "cap" && sort_of_cap(&row.key) == family)?;
    let spent = model.rows[at].clone();
    model.rows.retain(|row| row.family != "cap" || sort_of_cap(&row.key) != family);
    // In kilograms and in tens of money: near one, as the engines like it.
    let unit = if give == Give::Mass { 1000.0 } else { 10.0 };
    spent.terms.iter().for_each(|(column, each)| model.columns[*column].gain = -each / unit);
    let answer = fardel_milp::solve(&model, options).ok()?;
    Some((spent.sum(&answer.values), columns.counts(&answer)))
}

/// The smallest chance of a stranding that a kit within all other limits can have; `None` where there is no such kit.
#[must_use]
pub fn safest(instance: &Instance, risk_model: &RiskModel, options: &SolveOptions) -> Option<f64> {
    let (mut model, columns) = super::model(instance, risk_model, &[]);
    model.rows.retain(|row| row.family != "chance");
    model.columns.iter_mut().for_each(|column| column.gain = 0.0);
    for (f, failure) in instance.failures.iter().enumerate().filter(|(_, f)| matches!(f.outcome, Outcome::Stops)) {
        debug_assert_eq!(columns.g[f].len(), failure.repairs.len());
        columns.g[f].iter().flatten().for_each(|g| model.columns[*g].gain = risk_model.loaded[f]);
    }
    let answer = fardel_milp::solve(&model, options).ok()?;
    let own = risk_model.at(instance, &columns.counts(&answer));
    let shares = value_in_model(instance, &own, &columns.counts(&answer)).shares;
    Some(-libm::expm1(-chance::expected(instance, &own, &shares)))
}

/// Which of the rider's own limits a row of the family `cap` is.
fn sort_of_cap(key: &str) -> &'static str {
    match key {
        "budget" => "budget",
        key if key.ends_with("mL") => "volume",
        _ => "mass",
    }
}

/// The fewest things of the always list that would have to stay at home, all else held, the lightest of equally many: item
/// number and how many.
#[must_use]
pub fn left_at_home(instance: &Instance, risk_model: &RiskModel, options: &SolveOptions) -> Option<Vec<(usize, u32)>> {
    let (mut model, columns) = bare(instance, risk_model);
    let mut slacks = Vec::new();
    always(&mut model, &mut slacks, instance, &columns);
    for slack in &slacks {
        let item = instance.items.iter().find(|item| item.id == slack.shortfall.key)?;
        model.columns[slack.column].gain = -(1.0 + item.mass.kilograms() / 10.0);
    }
    let answer = fardel_milp::solve(&model, options).ok()?;
    let missed = |slack: &Slack| {
        let item = instance.items.iter().position(|item| item.id == slack.shortfall.key)?;
        let count = whole(answer.values[slack.column]);
        (count > 0).then_some((item, count))
    };
    Some(slacks.iter().filter_map(missed).collect())
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
fn whole(value: f64) -> u32 {
    value.round().clamp(0.0, 1e6) as u32
}

/// The model of the kit without gains, and without the rows that only tighten needs, which would hold a relaxed one up.
fn bare(instance: &Instance, risk_model: &RiskModel) -> (Model, Columns) {
    let (mut model, columns) = super::model(instance, risk_model, &[]);
    model.columns.iter_mut().for_each(|column| column.gain = 0.0);
    model.rows.retain(|row| row.family != "without");
    (model, columns)
}

/// Adds a slack to a row, counted in `scale`.
fn relaxed(model: &mut Model, at: usize, scale: f64) -> usize {
    let name = format!("slack[{}]", model.rows[at].key);
    let column = model.column(name, (0.0, 1e6), false, -1.0);
    give_way(model, at, column, scale);
    column
}

fn give_way(model: &mut Model, at: usize, column: usize, scale: f64) {
    let sign = if model.rows[at].sense == Sense::AtMost { -scale } else { scale };
    model.rows[at].terms.push((column, sign));
}

fn needs_and_caps(model: &mut Model, slacks: &mut Vec<Slack>) {
    for at in 0..model.rows.len() {
        let family = match model.rows[at].family {
            "need" => "need",
            "cap" => sort_of_cap(&model.rows[at].key),
            _ => continue,
        };
        let scale = model.rows[at].bound.abs().max(1.0);
        let column = relaxed(model, at, scale);
        let row = &model.rows[at];
        let shortfall = Shortfall { family, key: row.key.clone(), by: 0.0, limit: row.bound };
        slacks.push(Slack { column, shortfall, scale });
    }
}

/// How much a bag takes, in the unit of its row.
type Measure = fn(&Bag) -> f64;

/// Every bag has one slack for its room and one for its load, in all rows of sets that it belongs to.
fn rooms(model: &mut Model, slacks: &mut Vec<Slack>, instance: &Instance) {
    let rows: Vec<usize> = (0..model.rows.len()).filter(|at| model.rows[*at].family == "confined").collect();
    let sets = confined::sets(instance);
    let measures: [(_, Measure); 2] =
        [("room", |bag| bag.usable().millilitres()), ("bears", |bag| bag.max_load.grams())];
    for (offset, (family, measure)) in measures.into_iter().enumerate() {
        for (number, bag) in instance.bags.iter().enumerate() {
            let scale = measure(bag);
            let column = model.column(format!("slack[{family} {number}]"), (0.0, 1e6), false, -1.0);
            for (rows, set) in rows.chunks(measures.len()).zip(&sets) {
                if set[number] {
                    give_way(model, rows[offset], column, scale);
                }
            }
            let shortfall = Shortfall { family, key: bag.id.clone(), by: 0.0, limit: scale };
            slacks.push(Slack { column, shortfall, scale });
        }
    }
}

/// Every scale of a bike has one slack, in the rows of all its levels.
fn loads(model: &mut Model, slacks: &mut Vec<Slack>) {
    let mut by_scale: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, row) in model.rows.iter().enumerate().filter(|(_, row)| row.family == "load") {
        let scale = row.key.split(" kg at ").next().unwrap_or(&row.key);
        by_scale.entry(scale.to_owned()).or_default().push(at);
    }
    for (key, rows) in by_scale {
        let column = model.column(format!("slack[{key}]"), (0.0, 1e6), false, -1.0);
        rows.iter().for_each(|at| give_way(model, *at, column, LOAD_SCALE));
        let limit = rows.iter().map(|at| model.rows[*at].bound).fold(f64::INFINITY, f64::min);
        let shortfall = Shortfall { family: "load", key, by: 0.0, limit };
        slacks.push(Slack { column, shortfall, scale: LOAD_SCALE });
    }
}

/// Things of the always list may stay at home, at a price.
fn always(model: &mut Model, slacks: &mut Vec<Slack>, instance: &Instance, columns: &Columns) {
    for (item, n) in instance.items.iter().zip(&columns.n).filter(|(item, _)| item.at_least > 0) {
        let asked = f64::from(item.at_least);
        model.columns[*n].lower = 0.0;
        let column = model.column(format!("slack[always {}]", item.id), (0.0, asked), true, -1.0);
        let terms = vec![(*n, 1.0), (column, 1.0)];
        let row = Row { family: "always", key: item.id.clone(), terms, sense: Sense::AtLeast, bound: asked };
        model.rows.push(row);
        let shortfall = Shortfall { family: "always", key: item.id.clone(), by: 0.0, limit: asked };
        slacks.push(Slack { column, shortfall, scale: 1.0 });
    }
}
