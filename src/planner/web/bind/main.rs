//! `bind MODULE FOLDER`: the compiler's module becomes one for a browser, with the script that speaks to it, and
//! beside them the tables of the page, `tables.js`. The version of the tool must be that of `wasm-bindgen` in the program's Cargo.lock, which it checks itself.

#[path = "../../tables.rs"]
mod tables;

use std::error::Error;
use std::path::Path;
use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [module, folder] = arguments.as_slice() else { return Err("usage: bind MODULE FOLDER".into()) };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(module).out_name("engine").typescript(false).omit_default_module_path(true).web(true)?;
    bindgen.generate(folder)?;
    let words = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../words");
    std::fs::write(Path::new(folder).join("tables.js"), tables::tables(&words)?)?;
    Ok(())
}
