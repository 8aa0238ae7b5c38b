//! The curve of a case: the best kit under every limit asked for, each proven.
//!
//! Limits are halved again and again: a limit is solved once its neighbours on both sides are, and those of one round
//! run side by side. What a looser neighbour has shown holds here as well (bounds and cuts), its kit is the answer if it
//! keeps this limit, and the kit of a tighter neighbour is a lower bound. Which neighbours these are does not depend on
//! the number of threads, so neither does the answer.

use super::envelope::envelope;
use super::limits::{Limits, chosen};
use crate::answer::solve::{Solved, Way, least_stowed, solve, solve_from};
use crate::parallel;
use crate::resolve::{Amount, Instance, Measure};
use crate::risk::{RiskModel, value, value_in_model};
use crate::select::{Neighbours, Series, nearest, select};
use fardel_milp::control;
use fardel_milp::{Carried, EngineError, SolveOptions, Stop};
use std::collections::BTreeMap;

/// Of the time that is left for all, the loosest limit may take this share ...
const LOOSEST: f64 = 0.3;
/// ... and the least amount this one.
const LEAST: f64 = 0.3;

/// The best that can be done under each of several limits.
#[derive(Debug, Clone)]
pub struct Curve {
    /// What is limited.
    pub measure: Measure,
    /// The least limit under which all needs can be met.
    pub least: Amount,
    /// Is it the least indeed? If not, no kit could be stowed that takes so little, and some limits above have none.
    pub least_exact: bool,
    /// What the best kit without this limit takes: more than that is of no use.
    pub enough: Amount,
    /// Limits asked for that are too low for the needs.
    pub too_low: Vec<Amount>,
    /// By rising limit.
    pub points: Vec<CurvePoint>,
}

/// The best kit under one limit.
#[derive(Debug, Clone)]
pub struct CurvePoint {
    /// The limit.
    pub limit: Amount,
    /// What the kit takes of it.
    pub used: Amount,
    /// The kit and where it goes.
    pub solved: Solved,
    /// Hours saved less what carrying costs.
    pub objective: f64,
    /// Does it lie on the least concave curve above all points? Between two such points, none does better per gram.
    pub on_envelope: bool,
}

/// A limit that is solved, with what it hands to tighter ones.
#[derive(Debug, Clone)]
struct Node {
    solved: Solved,
    used: Amount,
    objective: f64,
    carried: Carried,
}

struct Family<'a> {
    instance: &'a Instance,
    risk_model: &'a RiskModel,
    measure: Measure,
    series: Option<Series>,
    /// A kit that any limit of the curve allows.
    floor: Option<Vec<u32>>,
    options: &'a SolveOptions,
}

/// Works out the curve. `tick` hears of every limit that is done.
///
/// # Errors
/// [`EngineError`]: infeasible whatever this limit is, out of time, or a solver that failed.
pub fn curve(
    instance: &Instance,
    risk_model: &RiskModel,
    measure: Measure,
    limits: &Limits,
    options: &SolveOptions,
    tick: &(dyn Fn(u64) + Sync),
) -> Result<Curve, EngineError> {
    let mut open = instance.clone();
    measure.set_limit(&mut open, None);
    let top = Family { instance: &open, risk_model, measure, series: None, floor: None, options }
        .node(control::within(LOOSEST, || solve(&open, risk_model, options))?, Carried::default());
    let risk_model = &top.solved.choice.risk_model.clone();
    let enough = top.used;
    measure.set_limit(&mut open, Some(enough));
    let (least, floor) = control::within(LEAST, || least_stowed(&open, risk_model, measure, options))?;
    let least_used = measure.used(instance, &least.counts);
    let series = Series::new(&open, risk_model, measure, Some(least_used), options);
    let top = Node { carried: series.as_ref().map_or_else(Carried::default, Series::carried), ..top };
    let least_exact = floor.is_some();
    let family = Family { instance, risk_model, measure, series, floor: floor.map(|_| least.counts), options };
    let (limits, too_low) = chosen(limits, measure, measure.limit(instance), (least_used, enough));
    let done = family.all(&limits, enough, &top, tick)?;
    let point = |limit: Amount| {
        let node = done.get(&limit)?;
        let Node { solved, used, objective, .. } = node.clone();
        Some(CurvePoint { limit, used, solved, objective, on_envelope: false })
    };
    let mut points: Vec<CurvePoint> = limits.into_iter().filter_map(point).collect();
    let flags = envelope(&points.iter().map(|point| (point.used, point.objective)).collect::<Vec<_>>());
    points.iter_mut().zip(flags).for_each(|(point, flag)| point.on_envelope = flag);
    Ok(Curve { measure, least: least_used, least_exact, enough, too_low, points })
}

impl Family<'_> {
    fn node(&self, solved: Solved, carried: Carried) -> Node {
        let used = self.measure.used(self.instance, &solved.choice.counts);
        let objective = value(self.instance, self.risk_model, &solved.choice.counts).objective();
        Node { solved, used, objective, carried }
    }

    /// Every limit, in rounds of halving.
    fn all(
        &self,
        limits: &[Amount],
        enough: Amount,
        top: &Node,
        tick: &(dyn Fn(u64) + Sync),
    ) -> Result<BTreeMap<Amount, Node>, EngineError> {
        let mut done: BTreeMap<Amount, Node> = BTreeMap::from([(enough, top.clone())]);
        for limit in limits.iter().filter(|limit| **limit >= enough) {
            done.insert(*limit, top.clone());
            tick(1);
        }
        let open: Vec<Amount> = limits.iter().copied().filter(|limit| *limit < enough).collect();
        let mut gaps = vec![(0, open.len())];
        gaps.retain(|(from, to)| from < to);
        while !gaps.is_empty() {
            let middle: Vec<Amount> = gaps.iter().map(|(from, to)| open[usize::midpoint(*from, *to)]).collect();
            let one = |limit: &Amount| {
                let node = self.at(*limit, &done);
                tick(1);
                node
            };
            let nodes: Vec<Result<Node, EngineError>> = parallel::map(middle.iter().collect(), one);
            for (limit, node) in middle.iter().zip(nodes) {
                match node {
                    Ok(node) => drop(done.insert(*limit, node)),
                    // Only where the least kit could not be stowed.
                    Err(EngineError::Infeasible) if self.floor.is_none() => {}
                    Err(error) => return Err(error),
                }
            }
            let halves = gaps.iter().flat_map(|(from, to)| {
                let middle = usize::midpoint(*from, *to);
                [(*from, middle), (middle + 1, *to)]
            });
            gaps = halves.filter(|(from, to)| from < to).collect();
        }
        Ok(done)
    }

    /// One limit, its neighbours being done.
    fn at(&self, limit: Amount, done: &BTreeMap<Amount, Node>) -> Result<Node, EngineError> {
        let above = done.range(limit..).next().map(|(_, node)| node);
        let below = done.range(..limit).next_back().map(|(_, node)| node);
        if let Some(above) = above.filter(|above| above.used <= limit && above.solved.choice.stop == Stop::Proven) {
            return Ok(above.clone());
        }
        let mut instance = self.instance.clone();
        self.measure.set_limit(&mut instance, Some(limit));
        let floor = self.best_known(&instance, above, below);
        let neighbours =
            Neighbours { below: floor.as_deref(), above: above.map(|node| node.solved.choice.counts.as_slice()) };
        let handed = above.map_or_else(Carried::default, |node| node.carried.clone());
        let mut carried = handed.clone();
        let solved = match &self.series {
            Some(series) => solve_from(&instance, self.risk_model, self.options, |left| {
                let (choice, own) = series.select(&instance, self.risk_model, (limit, &handed), neighbours, left)?;
                carried = own;
                // The rows were made for the stakes of the loosest limit: a kit with others is settled from there.
                let risk_model = self.risk_model.at(&instance, &choice.counts);
                if risk_model.same_as(self.risk_model) { Ok(choice) } else { select(&instance, &risk_model, &[], left) }
            }),
            None => solve(&instance, self.risk_model, self.options),
        };
        Ok(between(self.node(solved?, carried), above, below))
    }

    /// The best kit known within this limit: the neighbour's below, or one near either neighbour's.
    fn best_known(&self, instance: &Instance, above: Option<&Node>, below: Option<&Node>) -> Option<Vec<u32>> {
        let below = below.map(|node| &node.solved.choice.counts).or(self.floor.as_ref());
        let from = above.map(|node| &node.solved.choice.counts).into_iter().chain(below);
        let near = from.filter_map(|counts| nearest(instance, self.risk_model, counts));
        let worth = |kit: &[u32]| value_in_model(instance, self.risk_model, kit).objective();
        let all = below.cloned().into_iter().chain(near).map(|kit| (worth(&kit), kit));
        all.reduce(|best, now| if now.0 > best.0 { now } else { best }).map(|(_, kit)| kit)
    }
}

/// A kit found short of the proof is no worse than the neighbour's below and no better than the bound above.
fn between(mut node: Node, above: Option<&Node>, below: Option<&Node>) -> Node {
    if let Some(below) = below.filter(|below| below.objective > node.objective) {
        let bound = node.solved.choice.bound.max(below.objective);
        let carried = node.carried;
        node = Node { carried, ..below.clone() };
        node.solved.choice.bound = bound;
        node.solved.choice.stop = Stop::WithinGap;
    }
    let choice = &mut node.solved.choice;
    if let Some(above) = above {
        choice.bound = choice.bound.min(above.solved.choice.bound).max(node.objective);
    }
    if choice.bound - node.objective <= PROVEN * node.objective.abs().max(1.0) {
        choice.stop = Stop::Proven;
        if node.solved.way == Way::Roomier {
            node.solved.way = Way::Stowed;
        }
    }
    node
}

/// A bound this near (relative) is reached.
const PROVEN: f64 = 1e-9;
