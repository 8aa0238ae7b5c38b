//! What to put on a kitchen scale first.

use crate::domain::{BasisKind, Catalogue};

/// The twenty things of the shipped catalogue whose mass matters most to the shipped trips: hours of a trip that hang on how
/// wrong the mass may be, `count x mass x (likely factor - 1) x price of a kilogram`, added up over the best kits of all
/// riders. `tests/uncertain/scale.rs` works it out anew.
pub const SCALE_FIRST: [&str; 20] = [
    "day-ration-shop",
    "water-bag-2",
    "tent-1",
    "bag-0-synthetic",
    "rain-suit",
    "fuel-bag-3",
    "mat-self-inflating",
    "base-set",
    "day-ration",
    "fleece",
    "bottle-1000",
    "first-aid-kit",
    "bag-minus-10-down",
    "jump-pack",
    "tube-18",
    "emergency-ration",
    "phone",
    "tyre-lever",
    "jacket-down",
    "wash-kit-light",
];

/// Names of those of them that nobody has weighed and no standard tells; nothing where a catalogue has none of them.
#[must_use]
pub fn for_the_scale(catalogue: &Catalogue) -> Vec<&str> {
    let weighed = |kind: BasisKind| matches!(kind, BasisKind::Measured | BasisKind::Standard | BasisKind::RideLog);
    let there = SCALE_FIRST.iter().filter_map(|id| catalogue.items.get(*id));
    there.filter(|item| !weighed(item.basis.kind)).map(|item| item.name.as_str()).collect()
}
