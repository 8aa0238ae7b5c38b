//! The model for other solvers: the two formats that all of them read, names made safe, numbers to the last digit.
//!
//! Written is the model of `select`, without cuts from `stow`, in the LP format and in free MPS. Names are made safe
//! and numbered (`x12_n_tyre_lever`); the comments on top say what they stand for. Numbers are the shortest decimals
//! that read back as the same. `.ci/reference.py` solves both files of every shipped scenario with another solver and
//! compares.

mod lp;
mod mps;
mod names;

pub use lp::lp;
pub use mps::mps;
