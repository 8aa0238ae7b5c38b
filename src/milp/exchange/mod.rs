//! The model for other solvers: the two formats that all of them read, names made safe, numbers to the last digit.

mod lp;
mod mps;
mod names;

pub use lp::lp;
pub use mps::mps;
