//! Rates x exposure: how often each failure is to be expected, what each repair saves, how far each stock reaches.
//!
//! [`assess`] turns a [`Case`] into [`Stakes`], the numbers that `select` optimises; [`value`] says what a given kit
//! saves by those numbers.

pub mod demand;
pub mod means;
mod recovery;
mod stakes;
pub mod value;

pub use demand::{CompoundPoisson, Ladder};
pub use stakes::{RepairStakes, Stakes, assess};
pub use value::{KitValue, value};

#[allow(unused_imports, reason = "named in the docs above")]
use crate::resolve::Case;
