//! Chooses which items to take and how many: the mixed-integer linear program of the kit. Bags are filled later
//! (`stow`).
//!
//! Columns: `n` units of an item; `h` whether a function is there so many at a time; `way` whether a combination of
//! functions is there; `z` rungs of a ladder; `fill` the share of a stock's demand that is met; `enough` whether so
//! many units of a stock are there; `g` the share of a failure's occurrences that a repair meets; `buy` units to be
//! bought, where some are owned. `n`, `enough`, and `h` for two or more at a time are integer; the rest follow.
//!
//! ```text
//! maximise  sum of benefit[f,r] g[f,r]  -  price per kg x sum of mass[i] n[i]
//!           -  thing x sum of n[i]  -  sum of buying[i] x units bought
//! ```
//!
//! Rows: one family a file under `rows`. The ladders and the price of a kilogram are those of a kit, so a kit is chosen
//! by the figures of the last one until it chooses itself (`fixed_point`). Then no kit is better by the figures that
//! are shown with it, and that is what "proven" means. Where kits choose each other in turn, or a kit one step away is
//! better by its own figures, the best of them is taken, with its gap.
//!
//! Where this departs from the usual formulation:
//!
//! - **Stock in lumps.** With `fill` alone, two cartridges would do half of every repair that takes four. A repair that
//!   takes more than the smallest packet holds gets an integer column `enough`: all four have to be there. How often it
//!   can be done is still the fill of the pooled demand.
//! - **Functions combine** (`also_from`): a socket and a ratchet are a spanner. A combination counts as one at a time,
//!   however many parts there are, and never towards two.
//! - **Needs are normalised** to 1, and what one unit meets is cut at 1. Otherwise the relaxation takes a tenth of a
//!   big tent for a tenth of a sleeper.
//! - **The ladder alone is too generous to fractions**: a fifth of a patch kit would climb the steepest rungs. The
//!   second `fill` row allows a fraction of an item at most that fraction of what the whole item fills. It holds for
//!   integer kits because the ladder is concave.
//! - **Wishes for quick access and dryness bind only while some bag of the rider grants them**, dryness first.
//!   Otherwise they are waived, and the answer says so.
//! - **Upper bounds** of `n` are what could do any good (`useful`), not the catalogue's `at_most`.
//! - **Ties** (`ties`): equally good kits are ordered by mass, then price, then place in the catalogue. This makes
//!   engines agree on the kit and not only on its value.

mod broken;
mod columns;
pub mod fixed_point;
mod least;
mod parametric;
mod quick;
pub mod relax;
mod rows;
mod tabu;
mod ties;
mod useful;

pub use broken::{broken, over, overloaded};
pub use columns::Columns;
pub use least::least;
pub use parametric::{Neighbours, Series};
pub use quick::{first, nearest};
pub use rows::cut::{Cut, not_all};
pub use rows::need::add as add_needs;
pub use rows::{PlainRow, add_doing, plain_limits};

use crate::resolve::Instance;
use crate::risk::{RiskModel, value_in_model};
use fardel_milp::timing::timed;
use fardel_milp::{Answer, Deadline, EngineError, Guide, Model, SolveOptions};

/// A kit beyond a bound by more than this share shows that the bound is wrong; solvers round by less.
const BEYOND: f64 = 1e-5;

/// A chosen kit and the proof that goes with it.
#[derive(Debug, Clone)]
pub struct Choice {
    /// Units of each item of the case.
    pub counts: Vec<u32>,
    /// Hours saved less handling, as the model sees it.
    pub objective: f64,
    /// No kit does better than this.
    pub bound: f64,
    /// Why the solver stopped.
    pub stop: fardel_milp::Stop,
    /// Ways to solve the model that failed first, and how.
    pub failed: Vec<String>,
    /// The stakes by which it was chosen.
    pub risk_model: RiskModel,
    /// Found without a solver.
    pub unaided: bool,
}

/// The model of a case, with the cuts found so far.
#[must_use]
pub fn model(instance: &Instance, risk_model: &RiskModel, cuts: &[Cut]) -> (Model, Columns) {
    model_for(instance, risk_model, cuts, 1.0)
}

/// The model of a case that may use this share of the bags' room.
fn model_for(instance: &Instance, risk_model: &RiskModel, cuts: &[Cut], room: f64) -> (Model, Columns) {
    let mut model = Model::default();
    let columns = Columns::new(&mut model, instance, risk_model);
    rows::add_all(&mut model, &columns, instance, risk_model, cuts, room);
    (model, columns)
}

/// Chooses the kit that saves most, by the stakes that it makes itself; see [`fixed_point`].
///
/// # Errors
/// [`EngineError`] of the engine; `Infeasible` when needs and limits cannot hold together.
pub fn select(
    instance: &Instance,
    risk_model: &RiskModel,
    cuts: &[Cut],
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    select_with(instance, risk_model, cuts, &Extra::NONE, options)
}

/// Rows beyond the usual families: how they are added, and whether counts keep them.
pub struct Extra<'a> {
    /// Adds them.
    pub rows: &'a dyn Fn(&mut Model, &Columns),
    /// Do they hold?
    pub hold: &'a dyn Fn(&[u32]) -> bool,
    /// Hears of every kit on the way, the last among them; none of them is stowed yet.
    pub hear: &'a dyn Fn(&[u32]),
}

impl Extra<'_> {
    /// No rows, and nobody hears.
    pub const NONE: Extra<'static> = Extra { rows: &|_, _| {}, hold: &|_| true, hear: &|_| {} };
}

/// As [`select`], with rows of the caller's own.
///
/// # Errors
/// As [`select`].
pub fn select_with(
    instance: &Instance,
    risk_model: &RiskModel,
    cuts: &[Cut],
    extra: &Extra<'_>,
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    select_from(instance, risk_model, cuts, extra, None, options)
}

/// As [`select_with`], where a kit is known that is thought to be near the best, whatever it breaks.
///
/// Kits are chosen by the stakes of a good kit that is found without a solver, which are mostly those of the best one already.
///
/// # Errors
/// As [`select`].
pub fn select_from(
    instance: &Instance,
    risk_model: &RiskModel,
    cuts: &[Cut],
    extra: &Extra<'_>,
    known: Option<&[u32]>,
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    let columns = Columns::new(&mut Model::default(), instance, risk_model);
    let limits = ties::Limits::new(instance, risk_model, &columns, cuts);
    let hold = |counts: &[u32]| limits.hold(counts) && (extra.hold)(counts);
    let improve = |counts: &[u32]| ties::improved(instance, risk_model, &columns, &hold, counts);
    let deadline = Deadline::new(options);
    let first = timed("find a kit without a solver", || {
        let near = known.and_then(|kit| quick::near(instance, risk_model, &columns.most, &hold, kit));
        near.or_else(|| quick::good(instance, risk_model, &columns.most, &hold))
    });
    first.iter().for_each(|(_, kit)| (extra.hear)(kit));
    let stakes = first.as_ref().map(|(_, kit)| risk_model.at(instance, kit));
    let mut at_hand = first.as_ref().map(|(_, kit)| kit.clone());
    let mut choose = |risk_model: &RiskModel, left: &SolveOptions| {
        let choice = at_these(instance, risk_model, cuts, extra, at_hand.as_deref(), left)?;
        (extra.hear)(&choice.counts);
        at_hand = Some(choice.counts.clone());
        Ok(choice)
    };
    let chosen = deadline.left().and_then(|left| {
        fixed_point::fixed_point(instance, stakes.as_ref().unwrap_or(risk_model), &left, &mut choose, &improve)
    });
    match (chosen, first) {
        (Err(EngineError::NoAnswerInTime), Some(first)) => Ok(quick::as_choice(instance, risk_model, first)),
        (chosen, _) => chosen,
    }
}

/// As [`select`], by the stakes as they are: for a look at a changed trip from a kit that is known.
///
/// # Errors
/// As [`select`].
pub fn select_once(
    instance: &Instance,
    risk_model: &RiskModel,
    known: &[u32],
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    let near = nearest(instance, risk_model, known);
    at_these(instance, risk_model, &[], &Extra::NONE, near.as_deref(), options)
}

/// The kit that saves most by these stakes; `known` is one to begin with.
fn at_these(
    instance: &Instance,
    risk_model: &RiskModel,
    cuts: &[Cut],
    extra: &Extra<'_>,
    known: Option<&[u32]>,
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    let (mut model, columns) = model(instance, risk_model, cuts);
    (extra.rows)(&mut model, &columns);
    let limits = ties::Limits::new(instance, risk_model, &columns, cuts);
    let hold = |counts: &[u32]| limits.hold(counts) && (extra.hold)(counts);
    let by_repairs = |start: &[u32], work| tabu::by_repairs(instance, risk_model, &columns.most, start, &hold, work);
    let mut settled = Vec::new();
    let mut doubt = |answer: &Answer| {
        settled = ties::settle(instance, risk_model, &columns, &hold, columns.counts(answer));
        let other = by_repairs(&settled, tabu::SHORT);
        let saved = |kit: &[u32]| value_in_model(instance, risk_model, kit).objective();
        let known = known.filter(|kit| hold(kit)).map_or(f64::NEG_INFINITY, saved);
        beaten(saved(other.as_ref().unwrap_or(&settled)).max(known), answer.bound)
    };
    let better = |point: &[f64]| {
        let start = columns.counts_at(point);
        let work = tabu::long(instance, options.time_limit);
        let kit = timed("look for a kit by whole repairs", || by_repairs(&start, work))?;
        Some(columns.point(instance, &kit, model.columns.len()))
    };
    let start = known.map(|kit| columns.point(instance, kit, model.columns.len()));
    let guide = Guide { start: start.as_deref(), better: &better };
    let first = timed("choose the kit", || fardel_milp::solve_knowing(&model, options, guide, &mut doubt))?;
    Ok(choice(&first, settled, risk_model))
}

/// What is wrong with a bound if a kit that was found otherwise is beyond it.
fn beaten(found: f64, bound: f64) -> Option<String> {
    let beyond = found - bound > BEYOND * bound.abs().max(1.0);
    beyond.then(|| format!("another kit saves {found}, beyond its bound {bound}"))
}

/// Chooses the kit that saves most in this share of the bags' room. Its bound is that of the smaller room.
///
/// # Errors
/// As [`select`].
pub fn select_for(
    instance: &Instance,
    risk_model: &RiskModel,
    room: f64,
    options: &SolveOptions,
) -> Result<Choice, EngineError> {
    let (model, columns) = model_for(instance, risk_model, &[], room);
    let first = timed("choose the kit", || fardel_milp::solve(&model, options))?;
    Ok(choice(&first, columns.counts(&first), risk_model))
}

/// Reads counts off an answer.
#[must_use]
pub fn choice(answer: &Answer, counts: Vec<u32>, risk_model: &RiskModel) -> Choice {
    Choice {
        counts,
        objective: answer.objective,
        bound: answer.bound,
        stop: answer.stop,
        failed: answer.failed.clone(),
        risk_model: risk_model.clone(),
        unaided: false,
    }
}
