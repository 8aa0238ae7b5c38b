//! The decision variables: units of each item in each bag.

use super::Placement;
use crate::domain::{Bag, Side};
use crate::resolve::Instance;
use fardel_milp::{Answer, Model};

/// Column numbers by what they stand for.
#[derive(Debug, Clone)]
pub struct Columns {
    /// For each item, `(bag number, column)` for every bag it may go into; empty if none is to be placed.
    pub x: Vec<Vec<(usize, usize)>>,
    /// For each mount, how far one side outpulls the other beyond what is tolerated; `None` without bags on a side.
    pub lean: Vec<Option<usize>>,
}

/// Dislike of a kilogram one metre higher: heavy things go low ...
const PER_KG_M_HEIGHT: f64 = 1.0;
/// ... and of a kilogram one metre behind the rear axle: then close to the middle of the wheelbase.
const PER_KG_M_BEHIND: f64 = 0.5;
/// Preference against leaning, per kilogram metre beyond the tolerance: a kilogram 0.3 m out weighs as much as five
/// lifted by a metre.
const PER_KG_M_LEAN: f64 = 17.0;
/// Sideways moment that a rider does not notice: a kilogram packed by hand (common practice, no source) in a bag 0.3 m
/// out.
pub(super) const TOLERATED_LEAN_KG_M: f64 = 0.3;

impl Columns {
    /// Adds the columns for placing these counts.
    pub fn new(model: &mut Model, instance: &Instance, counts: &[u32]) -> Self {
        let mut x = Vec::with_capacity(instance.items.len());
        for (item, count) in instance.items.iter().zip(counts) {
            let mut places = Vec::new();
            for (at, bag) in instance.bags.iter().enumerate() {
                if *count > 0 && item.fits[at] {
                    let gain = -item.mass.kilograms() * dislike(bag);
                    let name = format!("x[{} {}]", item.id, bag.id);
                    places.push((at, model.column(name, (0.0, f64::from(*count)), true, gain)));
                }
            }
            x.push(places);
        }
        let mut lean = Vec::with_capacity(instance.mounts.len());
        for mount in &instance.mounts {
            let sided = mount.bags.iter().any(|bag| instance.bags[*bag].side != Side::Centre);
            let name = format!("lean[{}]", mount.rider);
            lean.push(sided.then(|| model.column(name, (0.0, 1e4), false, -PER_KG_M_LEAN)));
        }
        Self { x, lean }
    }

    /// Reads the placement off an answer.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded, bounded by the column")]
    pub fn placement(&self, instance: &Instance, answer: &Answer) -> Placement {
        let mut placement = vec![Vec::new(); instance.bags.len()];
        for (item, places) in self.x.iter().enumerate() {
            for (bag, column) in places {
                let count = answer.values[*column].round().max(0.0) as u32;
                if count > 0 {
                    placement[*bag].push((item, count));
                }
            }
        }
        placement
    }
}

/// How little a kilogram is liked in this bag.
pub(crate) fn dislike(bag: &Bag) -> f64 {
    PER_KG_M_HEIGHT * bag.height.metres() + PER_KG_M_BEHIND * (-bag.ahead.metres()).max(0.0)
}

/// How little a sideways moment is liked, in the same measure; both in kilogram metres.
pub(super) fn lean_dislike(pull: f64) -> f64 {
    PER_KG_M_LEAN * (pull.abs() - TOLERATED_LEAN_KG_M).max(0.0)
}
