//! Which bag each unit goes into. Feasible means that the kit `select` chose stands; infeasible gives the smallest set
//! of units that cannot go together, which `select` takes back as a cut.

mod columns;
mod reason;
mod rows;

pub use columns::Columns;
pub use reason::smallest_no_good;

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
