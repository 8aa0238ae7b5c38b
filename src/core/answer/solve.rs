//! Select, stow, and back: until the chosen kit can be stowed, or another way has to decide.

use super::{joint, remedies};
use crate::resolve::{Instance, Measure};
use crate::risk::RiskModel;
use crate::select::{self, Choice, Cut};
use crate::stow::{self, Placement};
use fardel_milp::control::{self, Cancel};
use fardel_milp::timing::timed;
use fardel_milp::{Deadline, EngineError, SolveOptions, Stop};
use std::time::Duration;

/// After this many kits that could not be stowed, another way decides: the joint model where it is small ...
const MOST_ROUNDS: usize = 6;
/// ... and a little less room where it is large, for there one kit after another misses by a spoonful.
const MOST_ROUNDS_LARGE: usize = 2;
/// Up to so many item-bag pairs the joint model decides to the proof; beyond, packing to the last spoonful would take
/// it longer than the difference is worth.
const JOINT_PAIRS: usize = 150;
/// Shares of the bags' room to choose a kit for when kits for all of it do not go in.
const ROOMIER: [f64; 6] = [0.995, 0.99, 0.98, 0.96, 0.92, 0.85];
/// How near the best such a kit need be chosen.
const ROOMIER_GAP: f64 = 0.001;
/// Longest that the best choice among the things of a kit that does not go in may take.
const NARROWED_LIMIT: Duration = Duration::from_secs(20);
/// How near the best that choice need be (relative gap).
const NARROWED_GAP: f64 = 0.005;
/// The same for the things that the trip demands alone: that there is a kit is all that matters.
const NEEDS_GAP: f64 = 0.5;
/// Time for that even when the rider's own limit has run out: an answer nearly there is better than none.
const GRACE: Duration = Duration::from_secs(3);
/// Whether a kit can be stowed at all is decided in moments or not in hours; this is the line.
const STOW_LIMIT: Duration = Duration::from_secs(10);

/// Of the time that a whole command has left, choosing a kit may take this share ...
const CHOOSING: f64 = 0.6;
/// ... stowing it this one, so that there is time for another way where it does not go in ...
const STOWING: f64 = 0.5;
/// ... and of those other ways each this one, so that what was found can still be looked through and checked.
const ANOTHER_WAY: f64 = 0.5;

/// Does the work for a whole answer within the time limit of the options, which becomes that of everything that the work
/// does: its stages are given shares of what is left.
pub(crate) fn in_time<T>(options: &SolveOptions, work: impl FnOnce(&SolveOptions) -> T) -> T {
    match options.time_limit {
        Some(limit) => control::under(&Cancel::after(limit), || work(&SolveOptions { time_limit: None, ..*options })),
        None => work(options),
    }
}

/// A kit that is stowed, and how it was found.
#[derive(Debug, Clone)]
pub struct Solved {
    /// The kit.
    pub choice: Choice,
    /// Where it goes.
    pub placement: Placement,
    /// Kits that were chosen but could not be stowed.
    pub rounds: usize,
    /// How it was settled.
    pub way: Way,
}

/// How a kit was settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Chosen, then stowed.
    Stowed,
    /// Items and bags decided together.
    Joint,
    /// Chosen for a little less room than there is, or among the things of a kit that did not go in as a whole.
    Roomier,
}

/// Finds the best kit that can be stowed.
///
/// # Errors
/// [`EngineError`]: infeasible, out of time without an answer, or a solver that failed.
pub fn solve(instance: &Instance, risk_model: &RiskModel, options: &SolveOptions) -> Result<Solved, EngineError> {
    solve_from(instance, risk_model, options, |left| select::select(instance, risk_model, &[], left))
}

/// The same from a kit that is thought to be near the best, whatever it breaks: of a trip that differs little.
///
/// # Errors
/// As [`solve`].
pub fn solve_near(
    instance: &Instance,
    risk_model: &RiskModel,
    known: &[u32],
    options: &SolveOptions,
) -> Result<Solved, EngineError> {
    solve_from(instance, risk_model, options, |left| {
        select::select_from(instance, risk_model, &[], &select::Extra::NONE, Some(known), left)
    })
}

/// As [`solve`], telling of every kit on the way.
///
/// # Errors
/// As [`solve`].
pub fn solve_heard(
    instance: &Instance,
    risk_model: &RiskModel,
    hear: &dyn Fn(&[u32]),
    options: &SolveOptions,
) -> Result<Solved, EngineError> {
    let extra = select::Extra { hear, ..select::Extra::NONE };
    solve_from(instance, risk_model, options, |left| select::select_from(instance, risk_model, &[], &extra, None, left))
}

/// The same, where the first kit is chosen by `first`, which must be as good as any.
///
/// # Errors
/// As [`solve`].
pub fn solve_from(
    instance: &Instance,
    risk_model: &RiskModel,
    options: &SolveOptions,
    first: impl FnOnce(&SolveOptions) -> Result<Choice, EngineError>,
) -> Result<Solved, EngineError> {
    let mut first = Some(first);
    let deadline = Deadline::new(options);
    let mut cuts: Vec<Cut> = Vec::new();
    let mut bound = f64::INFINITY;
    let mut failed: Vec<String> = Vec::new();
    let mut no_good: Vec<u32> = Vec::new();
    let small = instance.items.len() * instance.bags.len() <= JOINT_PAIRS;
    while cuts.len() < if small { MOST_ROUNDS } else { MOST_ROUNDS_LARGE } {
        let choose = |left: SolveOptions| match first.take() {
            Some(first) => first(&left),
            None => select::select(instance, risk_model, &cuts, &left),
        };
        let choice = match control::within(CHOOSING, || deadline.left().and_then(choose)) {
            Ok(choice) => choice,
            // Time was too short for the solver: a kit that needs none is better than no answer.
            Err(EngineError::NoAnswerInTime) => match first_stowed(instance, risk_model, options, &cuts) {
                Some(solved) => return Ok(Solved { rounds: cuts.len(), ..solved }),
                None if cuts.is_empty() => return Err(EngineError::NoAnswerInTime),
                None => break,
            },
            Err(error) => return Err(error),
        };
        bound = bound.min(choice.bound);
        no_good.clone_from(&choice.counts);
        match stowed(instance, &choice.counts, options) {
            Ok(placement) => return Ok(Solved { choice, placement, rounds: cuts.len(), way: Way::Stowed }),
            Err(EngineError::Infeasible) => match stow::smallest_no_good(instance, &choice.counts, &reasoning(options))
            {
                Some(cut) => cuts.push(cut),
                None => break,
            },
            Err(EngineError::Fault(fault)) => {
                failed.push(fault);
                break;
            }
            // Neither the choice nor a place for it was found in time.
            Err(EngineError::NoAnswerInTime) if choice.unaided => return Err(EngineError::NoAnswerInTime),
            Err(EngineError::NoAnswerInTime) => break,
        }
    }
    let rounds = cuts.len();
    if !small && control::within(ANOTHER_WAY, || cannot_be_met(instance, options)) {
        return Err(EngineError::Infeasible);
    }
    let joint = || {
        let joint = || joint::solve(instance, risk_model, &deadline.left()?);
        let (choice, placement) = control::within(CHOOSING, joint)?;
        Ok(Solved { choice, placement, rounds, way: Way::Joint })
    };
    let less = || {
        let roomier = || roomier(instance, risk_model, options, &deadline, bound);
        let narrowed = || narrowed(instance, risk_model, options, &deadline, (bound, &no_good));
        control::within(ANOTHER_WAY, roomier).or_else(|| control::within(ANOTHER_WAY, narrowed))
    };
    let roomier = (!small).then(less).flatten();
    let solved = roomier.map_or_else(joint, |solved| Ok(Solved { rounds, ..solved }));
    match solved {
        Ok(solved) => Ok(Solved { choice: with_failed(solved.choice, failed), ..solved }),
        // The joint model failed as well: the first fault is the one to tell.
        Err(EngineError::Fault(last)) => Err(EngineError::Fault(failed.into_iter().next().unwrap_or(last))),
        Err(error) => Err(error),
    }
}

/// A good kit without a solver that goes in, if one is soon found.
fn first_stowed(instance: &Instance, risk_model: &RiskModel, options: &SolveOptions, cuts: &[Cut]) -> Option<Solved> {
    let mut cuts = cuts.to_vec();
    for _ in 0..MOST_ROUNDS {
        let choice = timed("find a kit without a solver", || select::first(instance, risk_model, &cuts, None))?;
        match stowed(instance, &choice.counts, options) {
            Ok(placement) => return Some(Solved { choice, placement, rounds: 0, way: Way::Stowed }),
            Err(EngineError::Infeasible) => {
                cuts.push(stow::smallest_no_good(instance, &choice.counts, &reasoning(options))?);
            }
            Err(_) => return None,
        }
    }
    None
}

/// A choice that tells what failed before it.
fn with_failed(choice: Choice, mut failed: Vec<String>) -> Choice {
    failed.extend(choice.failed);
    Choice { failed, ..choice }
}

/// The best kit for a little less room that goes into all of it, with the bound for all of it.
fn roomier(
    instance: &Instance,
    risk_model: &RiskModel,
    options: &SolveOptions,
    deadline: &Deadline,
    bound: f64,
) -> Option<Solved> {
    let near = SolveOptions { time_limit: deadline.graced(GRACE), gap: options.gap.max(ROOMIER_GAP), ..*options };
    for share in ROOMIER {
        // Out of time, or too little room for the needs: only the joint model can still help.
        let choice = select::select_for(instance, risk_model, share, &near).ok()?;
        let Ok(placement) = stowed(instance, &choice.counts, options) else { continue };
        return Some(less_than_all(choice, placement, bound));
    }
    None
}

/// Do even the things that the trip demands not go in, with nothing else? Then there is no kit, and that is soon shown.
fn cannot_be_met(instance: &Instance, options: &SolveOptions) -> bool {
    if instance.failures.is_empty() {
        return false;
    }
    let (needs, risk_model) = remedies::needs_only(instance.clone());
    let near = SolveOptions { time_limit: Some(STOW_LIMIT), gap: options.gap.max(NEEDS_GAP), ..*options };
    matches!(solve(&needs, &risk_model, &near), Err(EngineError::Infeasible))
}

/// What of a kit that does not go in as a whole is best taken: few enough things that items and bags can be decided together.
fn narrowed(
    instance: &Instance,
    risk_model: &RiskModel,
    options: &SolveOptions,
    deadline: &Deadline,
    (bound, no_good): (f64, &[u32]),
) -> Option<Solved> {
    let mut own = instance.clone();
    own.items.iter_mut().zip(no_good).for_each(|(item, count)| item.at_most = (*count).max(item.at_least));
    let time_limit = deadline.graced(GRACE).map_or(NARROWED_LIMIT, |left| left.min(NARROWED_LIMIT));
    let near = SolveOptions { time_limit: Some(time_limit), gap: options.gap.max(NARROWED_GAP), ..*options };
    let (choice, placement) = joint::solve(&own, risk_model, &near).ok()?;
    Some(less_than_all(choice, placement, bound))
}

/// A kit chosen from less than there is, with the bound for all of it.
fn less_than_all(choice: Choice, placement: Placement, bound: f64) -> Solved {
    let stop = if bound <= choice.objective { Stop::Proven } else { Stop::WithinGap };
    let choice = Choice { bound: bound.max(choice.objective), stop, ..choice };
    Solved { choice, placement, rounds: 0, way: Way::Roomier }
}

/// The kit that takes least of a measure, and where it goes; without a place if, after as many rounds as a small case
/// gets, none was found that can be stowed: then no kit takes less, but one may have to take more.
///
/// # Errors
/// As [`solve`].
pub fn least_stowed(
    instance: &Instance,
    risk_model: &RiskModel,
    measure: Measure,
    options: &SolveOptions,
) -> Result<(Choice, Option<Placement>), EngineError> {
    let mut cuts: Vec<Cut> = Vec::new();
    loop {
        let choice = select::least(instance, risk_model, measure, &cuts, options)?;
        if let Ok(placement) = stowed(instance, &choice.counts, options) {
            return Ok((choice, Some(placement)));
        }
        match stow::smallest_no_good(instance, &choice.counts, &reasoning(options)) {
            Some(cut) if cuts.len() < MOST_ROUNDS => cuts.push(cut),
            _ => return Ok((choice, None)),
        }
    }
}

/// Where everything goes; without a search where one does not end in time.
fn stowed(instance: &Instance, counts: &[u32], options: &SolveOptions) -> Result<Placement, EngineError> {
    match control::within(STOWING, || stow::stow(instance, counts, &stowing(options))) {
        Err(EngineError::NoAnswerInTime) => stow::at_once(instance, counts).ok_or(EngineError::NoAnswerInTime),
        done => done,
    }
}

/// Stowing decides whether an answer stands at all, so a rider's very short time limit does not apply to it.
fn stowing(options: &SolveOptions) -> SolveOptions {
    let limit = options.time_limit.map_or(STOW_LIMIT, |limit| limit.clamp(Duration::from_secs(1), STOW_LIMIT));
    SolveOptions { engine: options.engine, time_limit: Some(limit), gap: options.gap }
}

/// A reason need not be the smallest one.
const fn reasoning(options: &SolveOptions) -> SolveOptions {
    SolveOptions { engine: options.engine, time_limit: Some(Duration::from_secs(1)), gap: options.gap }
}

impl Solved {
    /// Relative distance between the kit and the best bound; 0 when proven.
    #[must_use]
    pub fn gap(&self) -> f64 {
        if self.choice.stop == Stop::Proven {
            return 0.0;
        }
        (self.choice.bound - self.choice.objective).max(0.0) / self.choice.objective.abs().max(1e-9)
    }
}
