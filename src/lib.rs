//! `fardel` works out what an adventure rider carries: which tools, spares and camping gear, in which bag.
//!
//! The pipeline, one module a stage, plain data between them:
//!
//! ```text
//! load -> resolve -> risk -> select -> stow -> verify -> answer -> report
//! ```
//!
//! Each layer is a crate and knows only those below: `fardel_milp` solves mixed-integer programs, `fardel_core` holds
//! everything from the texts of a catalogue to checked answers, `fardel_report` shows answers. This crate has the files,
//! the signals and the command line.
//!
//! ```
//! use fardel::{answer, load, milp::SolveOptions};
//! use std::path::Path;
//!
//! let loaded = load::load(Path::new("scenarios/day-ride.yaml"), None).expect("the shipped files are sound");
//! let rider = &loaded.scenario.riders[0];
//! let answer = answer::pack(&loaded.catalogue, &loaded.scenario, rider, &SolveOptions::default()).expect("a kit exists");
//! assert!(answer.proof.proven);
//! assert!(answer.totals.mass <= answer.totals.mass_limit.expect("the day ride has a limit"));
//! ```

pub mod cli;
pub mod files;

pub use fardel_core::{
    allocation, answer, debrief, diagnostic, domain, elicit, evidence, find, lint, live, milp, rehearse, resolve, risk,
    season, select, sheet, starter, stow, uncertain, units, verify,
};
pub use fardel_report as report;

/// Catalogues, scenarios, gear and kits, from texts and from files.
pub mod load {
    pub use crate::files::read::{catalogue_files, gear, kit, list, load, source, was_read};
    pub use fardel_core::load::*;
}
