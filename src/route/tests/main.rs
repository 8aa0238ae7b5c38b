//! Whole runs on invented maps, built here.

mod help;
mod hostile;
mod network;
mod picture;
mod sums;
mod world;
