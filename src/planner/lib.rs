//! What the page for planning asks, answered.
//!
//! The page knows one interface (`INTERFACE.md` beside this file) and two hosts: `fardel serve`, which brings its calls
//! over HTTP, and a worker in the browser that holds this crate as WebAssembly. Both hand a call's name and its JSON to
//! [`Host::call`] and pass on what comes back, so both give the same answers, which are those of the command line with
//! `--format json`.
//!
//! ```text
//! page --(name, JSON)--> Host::call --> trip (scenario and files as texts) --> fardel_core::answer --> fardel_report::json
//! ```
//!
//! Nothing here opens a file or a connection, starts a thread or looks at a clock.

mod ask;
mod call;
mod catalogue;
mod check;
mod host;
mod kit;
mod line;
mod list;
mod page;
mod plan;
mod refused;
mod rides;
mod sessions;
mod start;
mod text;
mod track;
mod trip;

pub use call::{CALLS, Call};
pub use fardel_core::live::Cancel;
pub use host::{Host, read};
pub use page::{PageFile, media_type, page};
pub use refused::Refused;
pub use text::kind_of;
