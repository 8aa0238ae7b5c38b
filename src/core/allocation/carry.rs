//! Choosing a kit and who carries what matters of it, at once: needed where it makes a difference who has what, because
//! the group splits on some legs or must do without any one rider.

use super::narrow::Narrow;
use super::rows::{self, Supply};
use super::{Columns, Holdings, Preferences, doing};
use crate::resolve::Instance;
use crate::risk::RiskModel;
use crate::select::{self, Choice};
use fardel_milp::{EngineError, Model, SolveOptions};

/// The model of the kit that saves most on the legs that all ride (`whole`) and in the parts of the group that ride
/// others, with its two families of columns: units chosen, and units with each rider. Only what matters to a part or a
/// pin is handed out here, or everything.
#[must_use]
pub fn carried(
    instance: &Instance,
    whole: &RiskModel,
    parts: &[Narrow],
    preferences: &Preferences,
    everything: bool,
) -> (Model, select::Columns, Columns) {
    let (mut model, n) = select::model(instance, whole, &[]);
    let pinned = |item: usize| preferences.pins.iter().any(|pin| pin.items.contains(&item));
    // Where units are counted as they change hands, everything matters too.
    let all = everything || preferences.before.is_some();
    let matters = |item: usize| all || parts.iter().any(|part| part.matters[item]) || pinned(item);
    let matters: Vec<bool> = (0..instance.items.len()).map(matters).collect();
    let most: Vec<u32> = n.most.iter().zip(&matters).map(|(most, matters)| if *matters { *most } else { 0 }).collect();
    let columns = Columns::new(&mut model, instance, &most);
    let supply = Supply::Chosen { n: &n.n, matters: &matters };
    rows::add_all(&mut model, &columns, instance, &supply, preferences, &[]);
    for part in parts {
        doing::add(&mut model, &columns, part);
    }
    (model, n, columns)
}

/// Chooses the kit of [`carried`]; `more` adds rows of the caller's own.
///
/// # Errors
/// [`EngineError`] of the engine; `Infeasible` when needs, limits and floors cannot hold together.
pub fn carry(
    instance: &Instance,
    whole: &RiskModel,
    parts: &[Narrow],
    preferences: &Preferences,
    everything: bool,
    more: &dyn Fn(&mut Model, &select::Columns, &Columns),
    options: &SolveOptions,
) -> Result<(Choice, Holdings), EngineError> {
    let (mut model, n, columns) = carried(instance, whole, parts, preferences, everything);
    more(&mut model, &n, &columns);
    let answer = fardel_milp::solve(&model, options)?;
    Ok((select::choice(&answer, n.counts(&answer), whole), columns.holdings(&answer)))
}
