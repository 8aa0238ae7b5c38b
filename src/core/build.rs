//! Rebuilds when a catalogue file is added or removed; the embedding macro alone notices only changed ones.

fn main() {
    println!("cargo:rerun-if-changed=../../catalogues");
}
