//! Numbers that are not known well: drawn, ridden with, measured, asked for.

mod asked;
mod drawn;
mod measured;
mod scale;
mod standards;
mod widths;

use fardel::load::{self, Loaded};
use fardel::resolve::{Instance, resolve};
use std::path::Path;

/// A shipped trip and its case for the first rider.
fn shipped(name: &str) -> (Loaded, Instance) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    let loaded = load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).expect("a bike");
    (loaded, instance)
}
