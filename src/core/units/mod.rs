//! Quantities as types: a mass cannot be added to a volume, and no bare number is ever taken for either.
//!
//! Masses, volumes, lengths and money are whole numbers of a small unit (milligram, microlitre, micrometre, hundredth
//! of the currency unit), so sums are exact and a cap is a cap. Times, distances and temperatures are `f64`.
//! The one place where a decimal text becomes a whole number is [`parse::to_whole`].

mod amounts;
mod money;
pub mod parse;
mod readings;
mod show;

pub use amounts::{Length, Mass, Volume};
pub use money::{Currency, Money};
pub use parse::{Quantity, UnitError};
pub use readings::{Distance, Hours, Pressure, Temperature};
pub use show::{Show, UnitSystem};
