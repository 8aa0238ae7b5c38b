//! What an adventure rider should carry: from texts to checked answers, as plain data.
//!
//! The pipeline, one module a stage:
//!
//! ```text
//! load -> resolve -> risk -> select -> stow -> verify -> answer
//! ```
//!
//! [`load`] reads catalogues and a scenario, or says everything that is wrong with them. [`resolve`] keeps what can
//! matter to one rider, bike and trip. [`risk`] says what each failure costs and each repair saves. [`select`] picks
//! the kit by a mixed-integer linear program and [`stow`] puts it into bags. [`verify`] recomputes the result from
//! scratch. [`answer`] goes round these.
//!
//! Nothing here opens a file, knows a terminal, or starts a thread unless the feature `parallel` is on, so that the same
//! code runs in a browser.

pub mod allocation;
pub mod answer;
pub mod debrief;
pub mod diagnostic;
pub mod domain;
pub mod elicit;
pub mod evidence;
pub mod find;
pub mod lint;
pub mod live;
pub mod load;
mod parallel;
pub mod rehearse;
pub mod resolve;
pub mod risk;
pub mod season;
pub mod select;
mod serial;
pub mod sheet;
pub mod starter;
pub mod stow;
pub mod uncertain;
pub mod units;
pub mod verify;

pub use fardel_milp as milp;
