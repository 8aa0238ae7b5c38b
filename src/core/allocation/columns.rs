//! The decision variables: units of each item with each rider, and how heavy and how light the loads are.

use super::part::may_carry;
use crate::resolve::Instance;
use fardel_milp::{Answer, Model};

/// For each rider, units of each item.
pub type Holdings = Vec<Vec<u32>>;

/// Column numbers by what they stand for.
#[derive(Debug, Clone)]
pub struct Columns {
    /// For each rider and item, the units carried; fixed at none where no bag of the rider takes the item.
    pub y: Vec<Vec<usize>>,
}

impl Columns {
    /// Adds the columns for handing out at most so many of each item.
    pub fn new(model: &mut Model, instance: &Instance, most: &[u32]) -> Self {
        let column = |model: &mut Model, rider: usize, item: usize| {
            let upper = if may_carry(instance, rider, item) { f64::from(most[item]) } else { 0.0 };
            model.column(
                format!("y[{} {}]", instance.items[item].id, instance.mounts[rider].rider),
                (0.0, upper),
                true,
                0.0,
            )
        };
        let riders = 0..instance.mounts.len();
        let y =
            riders.map(|rider| (0..instance.items.len()).map(|item| column(model, rider, item)).collect()).collect();
        Self { y }
    }

    /// Reads the holdings off an answer.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded, bounded by the column")]
    pub fn holdings(&self, answer: &Answer) -> Holdings {
        let units = |column: &usize| answer.values[*column].round().max(0.0) as u32;
        self.y.iter().map(|own| own.iter().map(units).collect()).collect()
    }
}
