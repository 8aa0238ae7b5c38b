//! Tests from outside: through files and the command line, against published values, by properties, across engines.
#![allow(missing_docs, clippy::unwrap_used, reason = "tests")]

mod browser;
mod catalogue;
mod checks;
mod cli;
mod debrief;
mod determinism;
mod documents;
mod edges;
mod electric;
mod engines;
mod evidence;
mod exchange;
mod faults;
mod faulty;
mod fields;
mod figures;
mod fuzz;
mod gear;
mod groups;
mod hostile;
mod impossible;
mod language;
mod limits;
mod lints;
mod lists;
mod lookup;
mod model_text;
mod pages;
mod properties;
mod published;
mod random;
mod rehearsal;
#[cfg(unix)]
mod serve;
mod split;
mod supply;
mod support;
#[cfg(unix)]
mod terminal;
mod together;
mod uncertain;
mod worth;
