//! Rebuilds when a file of the page or a scenario is added or removed; the embedding macro alone notices only changed ones.

fn main() {
    println!("cargo:rerun-if-changed=page");
    println!("cargo:rerun-if-changed=../../scenarios");
}
