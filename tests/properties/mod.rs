//! What must hold for every input.

mod brute_force;
mod loads;
mod remoteness;
mod trade;
