//! What must hold for every input.

mod brute_force;
mod fuel;
mod loads;
mod remoteness;
mod robust;
mod trade;
