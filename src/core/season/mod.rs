//! A season: many trips of many riders, as jobs that stand on their own, and what their answers come to together.

mod draw;
mod job;
mod patches;
mod routes;
mod rows;
mod tally;

pub use draw::draw;
pub use job::{Job, Refused, Task, Written};
pub use patches::{Patched, Patches};
pub use rows::Result as JobResult;
pub use tally::{Bought, Coverage, Numbers, Season, Spare, Vehicle, most};
