//! What must hold for every input.

mod brute_force;
mod remoteness;
mod trade;
