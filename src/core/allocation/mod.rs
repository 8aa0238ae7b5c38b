//! Who carries what: a group's kit handed out to its riders, and each rider's part stowed on that rider's bike.
//!
//! A whole-number program with units of each item with each rider. First the largest load, relative to its rider's fair
//! share, is made as small as it can be; then, at that, the lesser wishes are heard (few moves, loads near each other,
//! spares with a bike they fit), and things change hands until sets ride together as far as that leaves every row kept
//! (`gather`). Then every part is stowed as a single rider's kit is. A part that does not go in comes
//! back as units that cannot be together on that bike, and the handing out runs again.
//!
//! # A group, step by step
//!
//! Riders who share a kit are one instance: `resolve` lays out their bags one rider after the other, has personal
//! things once for each rider and stocks marked `one_bike` once for each sort of bike, pools the failures of bikes that
//! are alike, adds needs up or has them once, and takes repairs within the best skill. A need that only personal things
//! meet is each rider's own. A shared kilogram costs the mean of what it costs on each bike. Hours are rider-hours of
//! those whose bike it is; what the others lose by waiting is not counted. A single rider is a group of one.
//!
//! **Choose.** `select` as it is, for limits added up. Where a part of the group rides some legs alone, what it has
//! with it decides. The model then gets `y[i,r]`, units with each rider, and for each part a copy of all families that
//! say what a kit does, over `with <= sum of y` of those present (`carry`, `narrow`, `doing`). Stocks are reckoned
//! against the demand of the whole trip there too, which is never too good. What such legs demand of gear is demanded
//! of what the part has with it; water, food and petrol are shared out anew before the group parts. Where no kit or no
//! allocation keeps these rows, or there is too much to choose from, the group is solved without them and the answer
//! opens with who goes without what.
//!
//! **Hand out.** Integer `y` with the families `handed` (every unit is with somebody), `part` (limit, bags, bike and
//! tyres of each rider, as far as counts show it), `pinned`, `spread`, `reach` and `cut`. First the largest load over
//! its fair share is minimised (to 0.5 % where there are many things, exactly where there are few), then come the
//! lesser wishes. A kit that cannot be handed out is chosen again together with who carries what.
//!
//! **Keep a floor.** With `--keep-if-one-leaves`, what is vital whoever leaves must be there twice, since without it,
//! and with everything else, too little could be saved (`redundancy`). Those rows hold for every kit that keeps the
//! floor, so the bound stays a bound. The kit is then handed out until, by exact reckoning, enough is left whoever
//! leaves; sets of things that are too much to lose with one rider are cut off. If that ends without success, what is
//! missed most is asked for twice. That is sufficient but not forced, and the answer then gives the gap to the bound
//! instead of a proof.
//!
//! The usual formulation has a copy of the shares for each absence in one program. There a sixth of a pump with each of
//! six riders satisfies every relaxation, and neither engine gets anywhere: the pure-Rust one failed after a minute on
//! six riders.

mod carry;
mod columns;
mod departures;
mod doing;
mod fair;
mod gather;
mod narrow;
mod needs;
mod part;
mod preferences;
mod redundancy;
mod riding;
mod rows;
mod situation;

pub use carry::{carried, carry};
pub use columns::{Columns, Holdings};
pub use departures::{is_too_much, too_much, wanting};
pub use fair::{limit_moves, moves};
pub use narrow::{Narrow, narrow};
pub use needs::{add_needs, lacking};
pub use part::{may_carry, part};
pub use preferences::{Pin, Preferences};
pub use redundancy::{Absence, Redundancy, losses, missed, spread_losses, used, vital};
pub use rows::{NoGood, Supply, add_all};
pub use situation::{Situation, absence, stretches};

use crate::resolve::Instance;
use crate::stow::{self, Placement};
use fardel_milp::control;
use fardel_milp::timing::timed;
use fardel_milp::{Answer, Deadline, EngineError, Model, SolveOptions};
use std::time::Duration;

/// A kit handed out and stowed.
#[derive(Debug, Clone)]
pub struct Allocation {
    /// For each rider, units of each item.
    pub holdings: Holdings,
    /// For each rider, where they go; bags and items by the numbers of the rider's [`part`].
    pub placements: Vec<Placement>,
    /// The largest load relative to its rider's share; 1 where everybody carries just that.
    pub largest: f64,
    /// Is no fairer handing out possible?
    pub proven: bool,
}

/// Parts that could not be stowed, after which handing out is given up.
const MOST_ROUNDS: usize = 12;
/// A fairer handing out than this share of the load, a hundred grams in twenty kilograms, would not be felt ...
const GAP: f64 = 5e-3;
/// ... but few things are handed out exactly.
const FEW: usize = 30;
/// The lesser wishes need not be granted to the last gram.
const LESSER_GAP: f64 = 0.02;
/// Largest loads are compared with this much slack.
const ROUNDING: f64 = 1e-9;
/// Of the time that is left for all, one handing out may take this share ...
const FAIREST: f64 = 0.5;
/// ... and stowing the parts this one.
const STOWING: f64 = 0.6;
/// What handing out may take, each time, before the best so far is taken; a net under the gaps, which end it long before.
const LIMIT: Duration = Duration::from_secs(30);

/// Hands out a kit; `apart` are units that must not be together on one bike, `extra` adds rows of the caller's own.
///
/// # Errors
/// [`EngineError::Infeasible`] when the kit cannot be handed out and stowed; others as the engine reports.
pub fn allocate(
    instance: &Instance,
    counts: &[u32],
    preferences: &Preferences,
    apart: &[NoGood],
    extra: &dyn Fn(&mut Model, &Columns),
    options: &SolveOptions,
) -> Result<Allocation, EngineError> {
    let mut no_goods: Vec<NoGood> = apart.to_vec();
    let deadline = Deadline::new(options);
    while no_goods.len() < apart.len() + MOST_ROUNDS {
        let once = || once(instance, counts, preferences, &no_goods, extra, options);
        let (holdings, largest, proven) = control::within(FAIREST, once)?;
        match control::within(STOWING, || stowed(instance, &holdings, options)) {
            Ok(placements) => {
                let own = placements.into_iter().enumerate();
                let placements = own.map(|(rider, own)| stow::together(&part(instance, rider), own)).collect();
                return Ok(Allocation { holdings, placements, largest, proven });
            }
            Err(Unstowed::Together(no_good)) => no_goods.push(no_good),
            Err(Unstowed::Unknown) => break,
            Err(Unstowed::Undecided) => return Err(EngineError::NoAnswerInTime),
        }
        if deadline.is_over() {
            return Err(EngineError::NoAnswerInTime);
        }
    }
    Err(EngineError::Infeasible)
}

/// Why the parts of a kit are not stowed.
enum Unstowed {
    /// These units do not go together on a rider's bike.
    Together(NoGood),
    /// One rider's part does not go in, and which units of it do not is not known.
    Unknown,
    /// Time ran out.
    Undecided,
}

/// Stows every rider's part, without a search where one does not end in time.
fn stowed(instance: &Instance, holdings: &[Vec<u32>], options: &SolveOptions) -> Result<Vec<Placement>, Unstowed> {
    let limited = SolveOptions { time_limit: Some(LIMIT), gap: 0.0, ..*options };
    let mut placements = Vec::with_capacity(holdings.len());
    for (rider, counts) in holdings.iter().enumerate() {
        let own = part(instance, rider);
        let share = 1.0 / f64::from(u32::try_from(holdings.len() - rider).unwrap_or(u32::MAX));
        match control::within(share, || stow::stow(&own, counts, &limited)) {
            Ok(placement) => placements.push(placement),
            Err(EngineError::Infeasible) => {
                let quick = SolveOptions { time_limit: Some(Duration::from_secs(1)), ..limited };
                let units = stow::smallest_no_good(&own, counts, &quick);
                return Err(units.map_or(Unstowed::Unknown, |units| Unstowed::Together(NoGood { rider, units })));
            }
            Err(EngineError::NoAnswerInTime) => {
                placements.push(stow::at_once(&own, counts).ok_or(Unstowed::Undecided)?);
            }
            Err(EngineError::Fault(_)) => return Err(Unstowed::Unknown),
        }
    }
    Ok(placements)
}

/// An answer to a program that has got more columns since, those at their lower bounds.
fn padded(mut answer: Answer, model: &Model) -> Answer {
    let more = model.columns.iter().skip(answer.values.len()).map(|column| column.lower);
    answer.values.extend(more.collect::<Vec<_>>());
    answer
}

/// The fairest handing out that keeps the misfits apart: the holdings, the largest load, and whether that is proven.
fn once(
    instance: &Instance,
    counts: &[u32],
    preferences: &Preferences,
    no_goods: &[NoGood],
    extra: &dyn Fn(&mut Model, &Columns),
    options: &SolveOptions,
) -> Result<(Holdings, f64, bool), EngineError> {
    let total_kg: f64 = instance.items.iter().zip(counts).map(|(item, n)| (item.mass * *n).kilograms()).sum();
    let mut model = Model::default();
    let columns = Columns::new(&mut model, instance, counts);
    add_all(&mut model, &columns, instance, &Supply::Counts(counts), preferences, no_goods);
    extra(&mut model, &columns);
    let largest = fair::largest(&mut model, &columns, instance, preferences, total_kg);
    model.columns[largest].gain = -1.0;
    let near = if counts.iter().filter(|n| **n > 0).count() > FEW { GAP } else { 0.0 };
    let limited =
        SolveOptions { time_limit: Some(options.time_limit.map_or(LIMIT, |limit| limit.min(LIMIT))), ..*options };
    let fairest = || fardel_milp::solve(&model, &SolveOptions { gap: near, ..limited });
    let fairest = timed("hand it out", || control::within(FAIREST, fairest))?;
    let load = fairest.values[largest];

    model.columns[largest].gain = 0.0;
    model.columns[largest].upper = load * (1.0 + near.max(ROUNDING));
    let least = fair::lesser(&mut model, &columns, instance, preferences, total_kg);
    let proven = fairest.stop != fardel_milp::Stop::OutOfTime;
    // The lesser wishes are only wishes: without an answer in time, the fairest stands.
    let best = fardel_milp::solve(&model, &SolveOptions { gap: LESSER_GAP, ..limited })
        .unwrap_or_else(|_| padded(fairest, &model));
    // Where things are packed already, each that changes hands is a nuisance of its own.
    let holdings = match preferences.before {
        Some(_) => columns.holdings(&best),
        None => timed("gather sets", || gather::gather(&model, &columns, instance, &best, (largest, least))),
    };
    Ok((holdings, load, proven))
}
