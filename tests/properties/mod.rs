//! What must hold for every input.

mod arguments;
mod brute_force;
mod curves;
mod first;
mod fuel;
mod loads;
mod preparations;
mod remoteness;
mod robust;
mod trade;

pub use brute_force::world as tiny_world;
