//! `bind MODULE FOLDER`: the compiler's module becomes one for a browser, with the script that speaks to it. Its version must
//! be that of `wasm-bindgen` in the program's Cargo.lock, which it checks itself.

use std::error::Error;
use wasm_bindgen_cli_support::Bindgen;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [module, folder] = arguments.as_slice() else { return Err("usage: bind MODULE FOLDER".into()) };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(module).out_name("engine").typescript(false).omit_default_module_path(true).web(true)?;
    bindgen.generate(folder)?;
    Ok(())
}
