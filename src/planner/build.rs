//! Makes the tables of the page, and rebuilds when a file of the page or a scenario is added or removed: the embedding macro
//! alone notices only changed ones.

mod tables;

use std::error::Error;
use std::path::Path;
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-changed=page");
    println!("cargo:rerun-if-changed=../../scenarios");
    println!("cargo:rerun-if-changed=../words");
    println!("cargo:rerun-if-changed=tables.rs");
    let here = env::var("CARGO_MANIFEST_DIR")?;
    let made = tables::tables(&Path::new(&here).join("../words"))?;
    fs::write(Path::new(&env::var("OUT_DIR")?).join("tables.js"), made)?;
    Ok(())
}
