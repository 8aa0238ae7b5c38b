//! Whole runs on invented maps, built here.
#![allow(clippy::unwrap_used, clippy::float_cmp, reason = "tests, also where they share code; exact figures by hand")]

mod cut;
mod help;
mod hostile;
mod network;
mod picture;
mod sums;
mod world;
