//! Puts every unit of the chosen kit into a bag. If that works, the kit stands. If not, the smallest set of units that
//! cannot go together goes back to `select` as a cut.
//!
//! `x[i,b]` are units of item i in bag b, integer, for bags that may take the item. Families: `placed` (every unit is
//! somewhere), `room` (volume and load), `load` (exact: both wheels, front, rear), `lean` (sideways moment, beyond 1 kg
//! at 0.3 m disliked but not forbidden), `apart` (a bag holds the wary things or the offending ones, not both). Heavy
//! things low and not far back are a preference, so a gap of 2 % is allowed: the proof of the kit hangs on feasibility
//! alone.
//!
//! Things that are used together (the case's `sets`) are kept together afterwards, by moves, swaps and gathering
//! (`exchange`) once a kit stands, not by rows: their relaxation is weak, since a set spread evenly over all bags costs
//! no more there than one in a single bag. What is minimised in the end:
//!
//! ```text
//! sum over units of kg x (height + behind / 2)  +  17 x leaning beyond the tolerance
//!   +  sum over sets of (bags - 1) x (1 + uses / 4)  +  share of it in bags not at hand x repairs
//! ```
//!
//! If a kit does not go in, a deletion filter finds an irreducible part of it that does not (`reason`). Room only
//! shrinks, so every larger kit fails too, and the part is a valid cut. After six such kits the joint model of items
//! and bags decides where it is small. Where it is large, filling bags to the last spoonful is a puzzle that no rider
//! wants solved: after two such kits the demands of the trip alone are tried. If they go in, a kit is chosen for
//! slightly less room, or among the things of the last kit. It is stowed in all of the room and shown as not proven,
//! with the gap to the bound for all of it (`answer`, `solve`). Stowing has a time limit of its own, so that neither a
//! puzzle nor a very short limit of the rider decides whether an answer stands.

mod at_once;
mod columns;
mod exchange;
mod reason;
mod rows;
mod state;

pub use at_once::at_once;
pub use columns::Columns;
pub use reason::smallest_no_good;

#[cfg(test)]
mod tests;

use crate::domain::Map;
use crate::resolve::Instance;
use fardel_milp::timing::timed;
use fardel_milp::{EngineError, Model, SolveOptions};

/// For each bag of the case, `(item number, count)` in item order.
pub type Placement = Vec<Vec<(usize, u32)>>;

/// Stowing need not be the best to the last gram of height: feasibility is what the kit's proof hangs on.
const GAP: f64 = 0.02;

/// The model that places these counts.
#[must_use]
pub fn model(instance: &Instance, counts: &[u32]) -> (Model, Columns) {
    let mut model = Model::default();
    let columns = Columns::new(&mut model, instance, counts);
    rows::add_all(&mut model, &columns, instance, counts);
    (model, columns)
}

/// Places every unit. That it cannot be done is believed only if two ways to solve the model agree.
///
/// # Errors
/// [`EngineError::Infeasible`] when the units cannot be placed; others as the engine reports.
pub fn stow(instance: &Instance, counts: &[u32], options: &SolveOptions) -> Result<Placement, EngineError> {
    let (model, columns) = model(instance, counts);
    let near = SolveOptions { gap: GAP, ..*options };
    let answer = timed("stow it", || fardel_milp::solve_doubting(&model, &near, &mut |_| None))?;
    Ok(columns.placement(instance, &answer))
}

/// The same units where sets that are used together are together as far as that costs little, by the rules of the case.
/// Asked for once a kit stands: it decides nothing else.
#[must_use]
pub fn together(instance: &Instance, placement: Placement) -> Placement {
    timed("keep sets together", || exchange::exchange(instance, placement))
}

/// Can every unit be placed? `None`: not decided in time.
fn stowable(instance: &Instance, counts: &[u32], options: &SolveOptions) -> Option<bool> {
    match fardel_milp::solve(&model(instance, counts).0, &SolveOptions { gap: GAP, ..*options }) {
        Ok(_) => Some(true),
        Err(EngineError::Infeasible) => Some(false),
        Err(_) => None,
    }
}

/// Adds the stowing of a kit that is itself being chosen: `n` are the columns of the counts, `most` their upper
/// bounds. Preferences of stowing are left out, so that the objective stays that of the kit.
pub fn add_joint(model: &mut Model, instance: &Instance, n: &[usize], most: &[u32]) -> Columns {
    let first = model.columns.len();
    let columns = Columns::new(model, instance, most);
    model.columns[first..].iter_mut().for_each(|column| column.gain = 0.0);
    rows::add_joint(model, &columns, instance, most, n);
    columns
}

/// The placement in keys, bags and items in the case's order; empty bags are kept.
#[must_use]
pub fn stowage(instance: &Instance, placement: &Placement) -> crate::domain::Stowage {
    let bag = |units: &Vec<(usize, u32)>| -> Map<u32> {
        units.iter().map(|(item, count)| (instance.items[*item].key.clone(), *count)).collect()
    };
    instance.bags.iter().zip(placement).map(|(b, units)| (b.id.clone(), bag(units))).collect()
}
