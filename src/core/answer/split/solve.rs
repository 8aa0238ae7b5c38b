//! One kit for a group: chosen, handed out, stowed, and good enough without any one rider where that is asked for.
//!
//! 1. Choose as for one rider. Where the group splits on some legs, what counts there is who carries what, so the kit
//!    and its carriers are chosen together.
//! 2. Where a floor is asked for when somebody leaves: what is vital must be there twice (rows that every such kit
//!    keeps), then the handing out itself must keep the floor, exactly. Where it cannot, more is asked for twice, until
//!    it can; how much better a kit could be at most is then told by the bound of the first choice.
//! 3. Hand out and stow.

use crate::handout::{
    self, Absence, Columns, Double, Handout, Holdings, Misfit, Narrow, Situation, Wishes, absence, missed, narrow,
    stretches, vital, wanting,
};
use crate::resolve::Case;
use crate::risk::{self, RepairStakes, Stakes, Terms};
use crate::select::{self, Choice, Extra};
use crate::units::Mass;
use fardel_milp::{Deadline, Effort, EngineError, Model, Stop};

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
    pub handout: Handout,
    /// Hours saved less handling.
    pub objective: f64,
    /// No kit does better than this.
    pub bound: f64,
    /// Proven to be the best kit?
    pub proven: bool,
    /// What the group has twice because one may leave.
    pub doubles: Vec<Double>,
    /// Mass and objective of the kit that would be chosen without a floor.
    pub before_floor: (Mass, f64),
    /// Ways to solve the model that failed first, and how.
    pub failed: Vec<String>,
}

/// Hours that are no loss.
const LEAST_LOSS: f64 = 1e-9;
/// How often more is asked for twice.
const MOST_ROUNDS: usize = 8;
/// How often one kit is handed out anew because too much would leave with one rider.
const MOST_HANDOUTS: usize = 8;
/// Kits this close to the bound (relative) are proven: what the engine lets its rows slip by, and what a model gains where
/// repairs of one failure draw on two stocks each.
const PROVEN: f64 = 1e-5;

/// The kit that all of this ends in.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or a solver that failed.
pub fn solve(case: &Case, wishes: &Wishes, demands: &Demands, effort: &Effort) -> Result<SplitSolved, EngineError> {
    let together = stretches(case);
    let whole = whole_stakes(case, &together);
    let parts = together.iter().filter(|situation| !situation.is_whole());
    let search = Search {
        case,
        whole,
        wishes,
        demands,
        parts: parts.map(narrow).collect(),
        together,
        effort,
        deadline: Deadline::new(effort),
    };
    let first = search.choose(&[], false)?;
    let bound = first.choice.bound;
    match demands.keep_if_one_leaves {
        None => match search.finish(&first, bound, &[]) {
            Err(EngineError::Infeasible) if case.mounts.len() > 1 => {
                let chosen = search.choose(&[], true)?;
                search.finish(&chosen, bound.min(chosen.choice.bound), &[])
            }
            done => done,
        },
        Some(share) => search.with_floor(first, bound, share),
    }
}

/// The model of the first choice, before any floor: what the group takes, and, where it splits on some legs, who has
/// what of it.
#[must_use]
pub fn first_model(case: &Case, wishes: &Wishes) -> Model {
    let together = stretches(case);
    let whole = whole_stakes(case, &together);
    let parts: Vec<Narrow> = together.iter().filter(|situation| !situation.is_whole()).map(narrow).collect();
    if parts.is_empty() {
        // The stakes of the kit that is chosen.
        let stakes = select::select(case, &whole, &[], &Effort::default()).map_or(whole, |choice| choice.stakes);
        select::model(case, &stakes, &[]).0
    } else {
        handout::carried(case, &whole, &parts, wishes, false).0
    }
}

/// What is at stake on the legs that all ride together.
fn whole_stakes(case: &Case, together: &[Situation]) -> Stakes {
    let whole = together.iter().find(|situation| situation.is_whole());
    whole.map_or_else(
        || {
            let mut none = risk::assess(case);
            none.repairs.iter_mut().flatten().for_each(|repair| *repair = RepairStakes { benefit: 0.0, dread: 0.0 });
            none.order.iter_mut().for_each(Vec::clear);
            none
        },
        |whole| whole.stakes.clone(),
    )
}

/// A kit, and who carries what of it where that was decided too.
struct Chosen {
    choice: Choice,
    holdings: Option<Holdings>,
}

struct Search<'a> {
    case: &'a Case,
    whole: Stakes,
    wishes: &'a Wishes,
    demands: &'a Demands,
    /// The parts of the group that ride legs of their own.
    parts: Vec<Narrow>,
    together: Vec<Situation>,
    effort: &'a Effort,
    deadline: Deadline,
}

impl Search<'_> {
    /// The best kit that has these things twice.
    /// `everything`: who carries what is part of the choice for all things, because kits chosen without regard to that
    /// could not be handed out.
    fn choose(&self, doubles: &[Double], everything: bool) -> Result<Chosen, EngineError> {
        let rows = |model: &mut Model, columns: &select::Columns| {
            doubles.iter().for_each(|double| double.add_row(model, columns, self.case));
        };
        let effort = self.deadline.left()?;
        if self.parts.is_empty() && self.demands.max_moves.is_none() && !everything {
            let hold = |counts: &[u32]| doubles.iter().all(|double| double.holds(self.case, counts));
            let extra = Extra { rows: &rows, hold: &hold };
            let choice = select::select_with(self.case, &self.whole, &[], &extra, &effort)?;
            return Ok(Chosen { choice, holdings: None });
        }
        let more = |model: &mut Model, n: &select::Columns, y: &Columns| {
            rows(model, n);
            self.limit_moves(model, y);
        };
        let (choice, holdings) =
            handout::carry(self.case, &self.whole, &self.parts, self.wishes, everything, &more, &effort)?;
        Ok(Chosen { choice, holdings: Some(holdings) })
    }

    fn limit_moves(&self, model: &mut Model, columns: &Columns) {
        if let (Some(most), Some(before)) = (self.demands.max_moves, &self.wishes.before) {
            handout::limit_moves(model, columns, self.case, before, most);
        }
    }

    /// Hands a kit out so that parts of the group do as well as when it was chosen, and nobody is alone with what is
    /// there twice.
    fn hand_out(
        &self,
        chosen: &Chosen,
        doubles: &[Double],
        (absences, apart): (&[Absence], &[Misfit]),
    ) -> Result<Handout, EngineError> {
        let counts = &chosen.choice.counts;
        let uses = |holdings: &Holdings| -> Vec<(Vec<usize>, Vec<Double>)> {
            let parts = self.together.iter().filter(|situation| !situation.is_whole());
            parts.map(|situation| (situation.riders(), handout::used(situation, holdings))).collect()
        };
        let parts = chosen.holdings.as_ref().map(uses).unwrap_or_default();
        let most = self.demands.keep_if_one_leaves.map(|share| 1.0 - share);
        let singles = most.map(|most| (handout::losses(self.case, absences, counts, doubles), most));
        // Where those who stay could do nothing with it, they need not have it.
        let wanted = |double: &Double| -> Vec<usize> {
            let missing = absences.iter().filter(|absence| absence.loss(counts, *double) > LEAST_LOSS);
            missing.map(|absence| absence.rider).collect()
        };
        let spread: Vec<(Double, Vec<usize>)> = doubles.iter().map(|double| (*double, wanted(double))).collect();
        let extra = |evenly: bool| {
            let (parts, singles, spread) = (&parts, &singles, &spread);
            let apart = || self.together.iter().filter(|situation| !situation.is_whole());
            move |model: &mut Model, columns: &Columns| {
                for (riders, used) in parts {
                    used.iter().for_each(|double| double.add_with(model, columns, self.case, riders));
                }
                if let Some(holdings) = &chosen.holdings {
                    apart().for_each(|own| handout::add_needs(model, columns, self.case, own, holdings));
                }
                spread.iter().for_each(|(double, absent)| double.add_spread(model, columns, self.case, absent));
                if let Some((losses, most)) = singles.as_ref().filter(|_| evenly) {
                    handout::spread_losses(model, columns, self.case, losses, *most);
                }
                self.limit_moves(model, columns);
            }
        };
        // That no rider alone carries too much that is there once is a rough reckoning: where it cannot hold, the exact
        // one that follows decides.
        match handout::hand_out(self.case, counts, self.wishes, apart, &extra(true), self.effort) {
            Err(EngineError::Infeasible) if singles.is_some() => {
                handout::hand_out(self.case, counts, self.wishes, apart, &extra(false), self.effort)
            }
            done => done,
        }
    }

    fn finish(&self, chosen: &Chosen, bound: f64, doubles: &[Double]) -> Result<SplitSolved, EngineError> {
        self.finish_apart(chosen, bound, doubles, (&[], &[]))
    }

    fn finish_apart(
        &self,
        chosen: &Chosen,
        bound: f64,
        doubles: &[Double],
        apart: (&[Absence], &[Misfit]),
    ) -> Result<SplitSolved, EngineError> {
        let handout = self.hand_out(chosen, doubles, apart)?;
        let counts = chosen.choice.counts.clone();
        let objective = self.objective(&handout.holdings, &counts);
        let near = bound - objective <= PROVEN * bound.abs().max(1.0);
        let proven = near && chosen.choice.stop == Stop::Proven;
        let doubles = doubles.to_vec();
        let before_floor = (risk::value::mass(self.case, &counts), objective);
        let failed = chosen.choice.failed.clone();
        let bound = bound.max(objective);
        Ok(SplitSolved { counts, handout, objective, bound, proven, doubles, before_floor, failed })
    }

    /// Hours saved by those present on every leg, less what the kit costs.
    fn objective(&self, holdings: &Holdings, counts: &[u32]) -> f64 {
        terms(self.case, &self.whole, &self.together, holdings, counts).objective()
    }

    /// Asks for more and more twice, until the kit can be handed out so that the floor is kept.
    fn with_floor(&self, first: Chosen, bound: f64, share: f64) -> Result<SplitSolved, EngineError> {
        let before_floor = (risk::value::mass(self.case, &first.choice.counts), first.choice.objective);
        let start = absences(self.case, &first.choice.counts, share);
        let mut doubles = vital(self.case, &start);
        let mut chosen = if doubles.is_empty() { first } else { self.choose(&doubles, false)? };
        let bound = bound.min(chosen.choice.bound);
        for _ in 0..MOST_ROUNDS {
            let absences = absences(self.case, &chosen.choice.counts, share);
            let alone = missed(self.case, &absences, &chosen.choice.counts, 1.0 - share);
            let more = if alone.iter().all(|double| doubles.contains(double)) {
                match self.keep_floor(&chosen, bound, &doubles, &absences)? {
                    Ok(solved) => return Ok(SplitSolved { before_floor, ..solved }),
                    Err(more) => more,
                }
            } else {
                alone
            };
            let before = doubles.len();
            doubles.extend(more);
            doubles.sort_unstable();
            doubles.dedup();
            if doubles.len() == before {
                break;
            }
            chosen = self.choose(&doubles, false)?;
        }
        Err(EngineError::Infeasible)
    }

    /// Hands this kit out until the floor is kept whoever leaves: what was too much to lose with one rider is not put on
    /// one bike again. Otherwise, what would be missed most of it.
    #[allow(clippy::type_complexity, reason = "an answer, what to ask for twice, or an error")]
    fn keep_floor(
        &self,
        chosen: &Chosen,
        bound: f64,
        doubles: &[Double],
        absences: &[Absence],
    ) -> Result<Result<SplitSolved, Vec<Double>>, EngineError> {
        let counts = &chosen.choice.counts;
        let mut together: Vec<Misfit> = Vec::new();
        let mut wanted: Vec<Double> = Vec::new();
        for _ in 0..MOST_HANDOUTS {
            let solved = match self.finish_apart(chosen, bound, doubles, (absences, &together)) {
                Ok(solved) => solved,
                Err(EngineError::Infeasible) => break,
                Err(error) => return Err(error),
            };
            let holdings = &solved.handout.holdings;
            let short: Vec<&Absence> = absences.iter().filter(|absence| !absence.is_kept(holdings)).collect();
            if short.is_empty() {
                return Ok(Ok(solved));
            }
            wanted = short
                .iter()
                .filter_map(|short| wanting(self.case, short, holdings, counts).into_iter().next())
                .collect();
            for absence in short {
                let units = handout::too_much(self.case, absence, holdings, counts);
                let also = absences.iter().filter(|other| handout::is_too_much(other, counts, &units));
                together.extend(also.map(|other| Misfit { rider: other.rider, units: units.clone() }));
            }
        }
        Ok(Err(wanted))
    }
}

/// What a group's kit does on all legs, with those who are there, and what it costs.
#[must_use]
pub fn terms(case: &Case, whole: &Stakes, together: &[Situation], holdings: &Holdings, counts: &[u32]) -> Terms {
    let done = together.iter().map(|situation| situation.value(&situation.held(holdings)).terms);
    let (saved, relief) = done.fold((0.0, 0.0), |sum, terms| (sum.0 + terms.saved, sum.1 + terms.relief));
    let costs = match together {
        [_] => risk::value(case, whole, counts).terms,
        _ => risk::value_in_model(case, whole, counts).terms,
    };
    Terms { saved, relief, ..costs }
}

/// The trip without each rider, and what must be saved on it.
#[must_use]
pub fn absences(case: &Case, counts: &[u32], share: f64) -> Vec<Absence> {
    let of = |rider: usize| {
        let situations = absence(case, rider);
        let with_all: f64 = situations.iter().map(|situation| situation.saved(counts)).sum();
        Absence { rider, situations, with_all, least: share * with_all }
    };
    (0..case.mounts.len()).map(of).collect()
}
