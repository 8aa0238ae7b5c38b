//! How far a number may be off, by what it is and what it rests on.
//!
//! Nothing published says how wrong riders are about repair times or hours to help, so the table itself is from memory. What
//! guided it: trip logs differ thirtyfold in falls per kilometre, tables of parts by different makers by a tenth, and things
//! remembered by a third of their mass. Rates of failures are not in it: what they are worth in events says how wide they
//! are.

use crate::domain::BasisKind;

/// What a number measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Quantity {
    /// Mass of a thing.
    Mass,
    /// Its volume and longest side.
    Size,
    /// What it costs.
    Price,
    /// Working time, hours of a nuisance, hours per fall.
    Time,
    /// Falls per kilometre.
    Falls,
    /// A factor on something else: riding skill, what weight does to falls.
    Effect,
    /// A share: what a repair restores, what limping costs. The factor is on the odds, `share / (1 - share)`.
    Share,
    /// What an hour, a kilogram, a night out is worth.
    Worth,
    /// Hours to help, as the rider expects them.
    Help,
}

impl Quantity {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 9] = [
        Self::Mass,
        Self::Size,
        Self::Price,
        Self::Time,
        Self::Falls,
        Self::Effect,
        Self::Share,
        Self::Worth,
        Self::Help,
    ];

    /// What it is called.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Size => "size",
            Self::Price => "price",
            Self::Time => "time",
            Self::Falls => "falls",
            Self::Effect => "effect",
            Self::Share => "share",
            Self::Worth => "worth",
            Self::Help => "help",
        }
    }
}

/// Nine times out of ten a number of this sort lies between itself divided by this factor and itself times it (from memory;
/// see the head of this file).
#[must_use]
pub const fn within(quantity: Quantity, basis: BasisKind) -> f64 {
    let row = match basis {
        BasisKind::Measured => [1.02, 1.05, 1.05, 1.1, 1.2, 1.2, 1.2, 1.1, 1.2],
        BasisKind::Standard => [1.15, 1.05, 1.3, 1.3, 1.5, 1.5, 1.5, 1.3, 1.5],
        BasisKind::Published => [1.15, 1.2, 1.3, 1.5, 2.0, 1.5, 1.5, 1.5, 1.5],
        BasisKind::SecondHand => [1.2, 1.25, 1.4, 1.7, 2.5, 1.7, 2.0, 1.7, 1.7],
        BasisKind::RideLog => [1.05, 1.1, 1.1, 1.3, 1.5, 1.5, 1.5, 1.3, 1.5],
        BasisKind::Evidence => [1.3, 1.3, 1.5, 1.7, 2.0, 1.7, 1.7, 1.5, 1.7],
        BasisKind::Elicited => [1.3, 1.3, 1.5, 2.0, 2.5, 2.0, 2.0, 1.7, 2.0],
        BasisKind::Derived => [1.3, 1.3, 1.5, 2.0, 3.0, 2.0, 2.0, 1.7, 2.0],
        BasisKind::CommonPractice => [1.3, 1.5, 1.5, 2.0, 3.0, 2.0, 2.0, 1.7, 2.0],
        BasisKind::FromMemory => [1.5, 1.6, 2.0, 2.5, 4.0, 3.0, 3.0, 2.0, 2.0],
    };
    row[quantity as usize]
}

/// Standard deviations from the middle to either end of an interval that holds nine cases out of ten.
pub const NINE_IN_TEN: f64 = 1.644_853_626_951_472_2;

/// Share of the variance, on the scale of normal scores, that numbers of one sort in one system have in common (from memory:
/// a rider who is wrong about one tyre is likely to be wrong the same way about the other, but not by as much).
pub const IN_COMMON: f64 = 0.5;

/// The fewest events that a rate is drawn as worth, whatever its entry says: with less, most draws would be next to nothing
/// and a few absurd.
pub const FEWEST_EVENTS: f64 = 0.3;

#[cfg(test)]
mod tests {
    use super::*;

    /// What is measured is never less certain than what is remembered.
    #[test]
    fn better_bases_are_narrower() {
        for quantity in Quantity::ALL {
            let all = BasisKind::ALL.map(|basis| within(quantity, basis));
            assert!(all.iter().all(|factor| *factor > 1.0), "{quantity:?}");
            assert!(all.iter().all(|factor| all[0] <= *factor && *factor <= all[9]), "{quantity:?}: {all:?}");
        }
    }
}
