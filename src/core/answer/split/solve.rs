//! One kit for a group: chosen, handed out, stowed, and good enough without any one rider where that is asked for.
//!
//! 1. Choose as for one rider. Where the group splits on some legs, what counts there is who carries what, so the kit
//!    and its carriers are chosen together.
//! 2. Where a floor is asked for when somebody leaves: what is vital must be there twice (rows that every such kit
//!    keeps), then the handing out itself must keep the floor, exactly. Where it cannot, more is asked for twice, until
//!    it can; how much better a kit could be at most is then told by the bound of the first choice.
//! 3. Hand out and stow.

use crate::allocation::{
    self, Absence, Allocation, Columns, Holdings, Narrow, NoGood, Preferences, Redundancy, Situation, narrow, stretches,
};
use crate::resolve::Instance;
use crate::risk::{self, RepairRisk, RiskModel, Terms};
use crate::select::{self, Choice, Extra};
use crate::units::Mass;
use fardel_milp::control;
use fardel_milp::{Deadline, EngineError, Model, SolveOptions, Stop};

/// What is asked of a split beyond the scenario.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demands {
    /// Share of the hours that the whole kit would save for the others which must still be saved when any one rider
    /// leaves with what is on that bike.
    pub keep_if_one_leaves: Option<f64>,
    /// Most units that may change hands, where the group has packed already.
    pub max_moves: Option<u32>,
}

/// A kit for a group, with everything that was decided about it.
#[derive(Debug, Clone)]
pub struct SplitSolved {
    /// Units of each item.
    pub counts: Vec<u32>,
    /// Who carries what, and where.
    pub allocation: Allocation,
    /// Hours saved less handling.
    pub objective: f64,
    /// No kit does better than this.
    pub bound: f64,
    /// Proven to be the best kit?
    pub proven: bool,
    /// What the group has twice because one may leave.
    pub redundancies: Vec<Redundancy>,
    /// Mass and objective of the kit that would be chosen without a floor.
    pub before_floor: (Mass, f64),
    /// Ways to solve the model that failed first, and how.
    pub failed: Vec<String>,
}

/// Of the time that a whole command has left, choosing a kit may take this share ...
const CHOOSING: f64 = 0.5;
/// ... of that, deciding at once who carries what this one ...
const CARRYING: f64 = 0.6;
/// ... and handing one out this one.
const HANDING_OUT: f64 = 0.8;
/// Hours that are no loss.
const LEAST_LOSS: f64 = 1e-9;
/// Kits this close to the bound (relative) are proven: what the engine lets its rows slip by, and what a model gains where
/// repairs of one failure draw on two stocks each.
const PROVEN: f64 = 1e-5;

/// The kit that all of this ends in.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or a solver that failed.
pub fn solve(
    instance: &Instance,
    preferences: &Preferences,
    demands: &Demands,
    options: &SolveOptions,
) -> Result<SplitSolved, EngineError> {
    let together = stretches(instance);
    let whole = whole_risk_model(instance, &together);
    let parts = together.iter().filter(|situation| !situation.is_whole());
    let search = Search {
        instance,
        whole,
        preferences,
        demands,
        parts: parts.map(narrow).collect(),
        together,
        options,
        deadline: Deadline::new(options),
    };
    let first = control::within(CHOOSING, || search.choose(&[], false))?;
    let bound = first.choice.bound;
    match demands.keep_if_one_leaves {
        None => match search.finish(&first, bound, &[]) {
            // What does not go into the bags of one bike is settled as for a rider who packs alone.
            Err(EngineError::Infeasible) if instance.mounts.len() == 1 && demands.max_moves.is_none() => {
                let alone = || crate::answer::solve::solve(instance, &search.whole, &search.deadline.left()?);
                let solved = control::within(CHOOSING, alone)?;
                let bound = bound.min(solved.choice.bound);
                search.finish(&Chosen { choice: solved.choice, holdings: None }, bound, &[])
            }
            Err(EngineError::Infeasible) if instance.mounts.len() > 1 => {
                let chosen = control::within(CHOOSING, || search.choose(&[], true))?;
                search.finish(&chosen, bound.min(chosen.choice.bound), &[])
            }
            done => done,
        },
        Some(share) => search.with_floor(&first, bound, share),
    }
}

/// The model of the first choice, before any floor: what the group takes, and, where it splits on some legs, who has
/// what of it.
#[must_use]
pub fn first_model(instance: &Instance, preferences: &Preferences) -> Model {
    let together = stretches(instance);
    let whole = whole_risk_model(instance, &together);
    let parts: Vec<Narrow> = together.iter().filter(|situation| !situation.is_whole()).map(narrow).collect();
    if parts.is_empty() {
        // The stakes of the kit that is chosen.
        let risk_model =
            select::select(instance, &whole, &[], &SolveOptions::default()).map_or(whole, |choice| choice.risk_model);
        select::model(instance, &risk_model, &[]).0
    } else {
        allocation::carried(instance, &whole, &parts, preferences, false).0
    }
}

/// What is at stake on the legs that all ride together.
fn whole_risk_model(instance: &Instance, together: &[Situation]) -> RiskModel {
    let whole = together.iter().find(|situation| situation.is_whole());
    whole.map_or_else(
        || {
            let mut none = risk::assess(instance);
            none.repairs.iter_mut().flatten().for_each(|repair| *repair = RepairRisk { benefit: 0.0, dread: 0.0 });
            none.order.iter_mut().for_each(Vec::clear);
            none
        },
        |whole| whole.risk_model.clone(),
    )
}

/// A kit, and who carries what of it where that was decided too.
#[derive(Clone)]
pub(super) struct Chosen {
    pub choice: Choice,
    pub holdings: Option<Holdings>,
}

pub(super) struct Search<'a> {
    pub instance: &'a Instance,
    whole: RiskModel,
    preferences: &'a Preferences,
    demands: &'a Demands,
    /// The parts of the group that ride legs of their own.
    parts: Vec<Narrow>,
    together: Vec<Situation>,
    options: &'a SolveOptions,
    pub deadline: Deadline,
}

impl Search<'_> {
    /// The best kit that has these things twice.
    /// `everything`: who carries what is part of the choice for all things, because kits chosen without regard to that
    /// could not be handed out.
    pub(super) fn choose(&self, redundancies: &[Redundancy], everything: bool) -> Result<Chosen, EngineError> {
        let rows = |model: &mut Model, columns: &select::Columns| {
            redundancies.iter().for_each(|redundancy| redundancy.add_row(model, columns, self.instance));
        };
        let options = self.deadline.left()?;
        if self.parts.is_empty() && self.demands.max_moves.is_none() && !everything {
            let hold = |counts: &[u32]| redundancies.iter().all(|redundancy| redundancy.holds(self.instance, counts));
            let extra = Extra { rows: &rows, hold: &hold, hear: &|_| {} };
            let choice = select::select_with(self.instance, &self.whole, &[], &extra, &options)?;
            return Ok(Chosen { choice, holdings: None });
        }
        let more = |model: &mut Model, n: &select::Columns, y: &Columns| {
            rows(model, n);
            self.limit_moves(model, y);
        };
        let carry = || {
            allocation::carry(self.instance, &self.whole, &self.parts, self.preferences, everything, &more, &options)
        };
        match control::within(CARRYING, carry) {
            Err(EngineError::NoAnswerInTime) if self.demands.max_moves.is_none() => self.choose_unaware(redundancies),
            done => done.map(|(choice, holdings)| Chosen { choice, holdings: Some(holdings) }),
        }
    }

    /// A kit chosen as if all were always there to use it, for when who carries what is not decided in time. Nobody saves
    /// more with less at hand, so its bound holds.
    fn choose_unaware(&self, redundancies: &[Redundancy]) -> Result<Chosen, EngineError> {
        let all = risk::assess(self.instance);
        let rows = |model: &mut Model, columns: &select::Columns| {
            redundancies.iter().for_each(|redundancy| redundancy.add_row(model, columns, self.instance));
        };
        let hold = |counts: &[u32]| redundancies.iter().all(|redundancy| redundancy.holds(self.instance, counts));
        let extra = Extra { rows: &rows, hold: &hold, hear: &|_| {} };
        let choice = select::select_with(self.instance, &all, &[], &extra, &self.deadline.left()?)?;
        Ok(Chosen { choice: Choice { stop: Stop::OutOfTime, ..choice }, holdings: None })
    }

    fn limit_moves(&self, model: &mut Model, columns: &Columns) {
        if let (Some(most), Some(before)) = (self.demands.max_moves, &self.preferences.before) {
            allocation::limit_moves(model, columns, self.instance, before, most);
        }
    }

    /// Hands a kit out so that parts of the group do as well as when it was chosen, and nobody is alone with what is
    /// there twice.
    fn allocate(
        &self,
        chosen: &Chosen,
        redundancies: &[Redundancy],
        (absences, apart): (&[Absence], &[NoGood]),
    ) -> Result<Allocation, EngineError> {
        let counts = &chosen.choice.counts;
        let uses = |holdings: &Holdings| -> Vec<(Vec<usize>, Vec<Redundancy>)> {
            let parts = self.together.iter().filter(|situation| !situation.is_whole());
            parts.map(|situation| (situation.riders(), allocation::used(situation, holdings))).collect()
        };
        let parts = chosen.holdings.as_ref().map(uses).unwrap_or_default();
        let most = self.demands.keep_if_one_leaves.map(|share| 1.0 - share);
        let singles = most.map(|most| (allocation::losses(self.instance, absences, counts, redundancies), most));
        // Where those who stay could do nothing with it, they need not have it.
        let wanted = |redundancy: &Redundancy| -> Vec<usize> {
            let missing = absences.iter().filter(|absence| absence.loss(counts, *redundancy) > LEAST_LOSS);
            missing.map(|absence| absence.rider).collect()
        };
        let spread: Vec<(Redundancy, Vec<usize>)> =
            redundancies.iter().map(|redundancy| (*redundancy, wanted(redundancy))).collect();
        let extra = |evenly: bool| {
            let (parts, singles, spread) = (&parts, &singles, &spread);
            let apart = || self.together.iter().filter(|situation| !situation.is_whole());
            move |model: &mut Model, columns: &Columns| {
                for (riders, used) in parts {
                    used.iter().for_each(|redundancy| redundancy.add_with(model, columns, self.instance, riders));
                }
                if let Some(holdings) = &chosen.holdings {
                    apart().for_each(|own| allocation::add_needs(model, columns, self.instance, own, holdings));
                }
                spread
                    .iter()
                    .for_each(|(redundancy, absent)| redundancy.add_spread(model, columns, self.instance, absent));
                if let Some((losses, most)) = singles.as_ref().filter(|_| evenly) {
                    allocation::spread_losses(model, columns, self.instance, losses, *most);
                }
                self.limit_moves(model, columns);
            }
        };
        // That no rider alone carries too much that is there once is a rough reckoning: where it cannot hold, the exact
        // one that follows decides.
        match allocation::allocate(self.instance, counts, self.preferences, apart, &extra(true), self.options) {
            Err(EngineError::Infeasible) if singles.is_some() => {
                allocation::allocate(self.instance, counts, self.preferences, apart, &extra(false), self.options)
            }
            done => done,
        }
    }

    fn finish(&self, chosen: &Chosen, bound: f64, redundancies: &[Redundancy]) -> Result<SplitSolved, EngineError> {
        self.finish_apart(chosen, bound, redundancies, (&[], &[]))
    }

    pub(super) fn finish_apart(
        &self,
        chosen: &Chosen,
        bound: f64,
        redundancies: &[Redundancy],
        apart: (&[Absence], &[NoGood]),
    ) -> Result<SplitSolved, EngineError> {
        let allocation = control::within(HANDING_OUT, || self.allocate(chosen, redundancies, apart))?;
        let counts = chosen.choice.counts.clone();
        let objective = self.objective(&allocation.holdings, &counts);
        let near = bound - objective <= PROVEN * bound.abs().max(1.0);
        let proven = near && chosen.choice.stop == Stop::Proven;
        let redundancies = redundancies.to_vec();
        let before_floor = (risk::value::mass(self.instance, &counts), objective);
        let failed = chosen.choice.failed.clone();
        let bound = bound.max(objective);
        Ok(SplitSolved { counts, allocation, objective, bound, proven, redundancies, before_floor, failed })
    }

    /// Hours saved by those present on every leg, less what the kit costs.
    fn objective(&self, holdings: &Holdings, counts: &[u32]) -> f64 {
        terms(self.instance, &self.whole, &self.together, holdings, counts).objective()
    }
}

/// What a group's kit does on all legs, with those who are there, and what it costs.
#[must_use]
pub fn terms(
    instance: &Instance,
    whole: &RiskModel,
    together: &[Situation],
    holdings: &Holdings,
    counts: &[u32],
) -> Terms {
    let done = together.iter().map(|situation| situation.value(&situation.held(holdings)).terms);
    let (saved, relief) = done.fold((0.0, 0.0), |sum, terms| (sum.0 + terms.saved, sum.1 + terms.relief));
    let costs = match together {
        [_] => risk::value(instance, whole, counts).terms,
        _ => risk::value_in_model(instance, whole, counts).terms,
    };
    Terms { saved, relief, ..costs }
}
