//! `fardel` works out what an adventure rider carries: which tools, spares and camping gear, in which bag.
//!
//! The pipeline, one module a stage, plain data between them:
//!
//! ```text
//! load -> resolve -> risk -> select -> stow -> verify -> answer -> report
//! ```
//!
//! [`load`] reads catalogues and a scenario, or says everything that is wrong with them. [`resolve`] keeps what can
//! matter to one rider, bike and trip. [`risk`] says what each failure costs and each repair saves. [`select`] picks
//! the kit by a mixed-integer linear program and [`stow`] puts it into bags; [`engine`] alone names the solver.
//! [`verify`] recomputes the result from scratch. [`answer`] goes round these, [`report`] shows what came out.
//!
//! ```
//! use fardel::{answer, engine::Effort, load};
//! use std::path::Path;
//!
//! let loaded = load::load(Path::new("scenarios/day-ride.yaml"), None).expect("the shipped files are sound");
//! let rider = &loaded.scenario.riders[0];
//! let answer = answer::pack(&loaded.catalogue, &loaded.scenario, rider, &Effort::default()).expect("a kit exists");
//! assert!(answer.proof.proven);
//! assert!(answer.totals.mass <= answer.totals.mass_limit.expect("the day ride has a limit"));
//! ```

pub mod answer;
pub mod cli;
pub mod debrief;
pub mod diagnostic;
pub mod domain;
pub mod engine;
pub mod find;
pub mod handout;
pub mod lint;
pub mod load;
pub mod rehearse;
pub mod report;
pub mod resolve;
pub mod risk;
pub mod select;
pub mod sheet;
pub mod starter;
pub mod stow;
pub mod timing;
pub mod units;
pub mod verify;
