//! A season: many trips of many riders, as jobs that stand on their own, and what their answers come to together.

mod job;
mod patches;

pub use job::{Job, Refused, Task, Written};
pub use patches::{Patched, Patches};
