//! Numbers that are not known well, and what it is worth to know them better.
//!
//! Every number that a kit is chosen by is listed with its distribution ([`Number`]), which follows from what it is and what
//! it rests on ([`widths`]). A draw gives each a value, those of one system together with a common factor ([`draw`]); a case
//! with those values in it is a world like any other (`world`). What is gained by knowing a number before the kit is chosen
//! is worked out from many worlds ([`information`]).

pub mod draw;
pub mod information;
mod list;
pub mod number;
mod quantile;
mod subjects;
pub mod widths;
mod world;

pub use draw::{Drawn, Uncertain};
pub use number::{Law, Number, Target};
pub use quantile::gamma;
pub use subjects::{Subject, What};
