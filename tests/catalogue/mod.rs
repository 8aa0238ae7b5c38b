//! The shipped catalogue against the outside: published tables and arithmetic.
//!
//! Beside each figure stands its source and how it was read: `published`, `published, second-hand`, `derived`, `common
//! practice, no source` or `from memory`.

mod chains;
mod fasteners;
mod first_aid;
mod food;
mod gas;
mod hazards;
mod masses;
mod matrix;
mod names;
mod steps;
mod survey;

use fardel::domain::Catalogue;
use std::sync::LazyLock;

/// The shipped catalogue.
static SHIPPED: LazyLock<Catalogue> = LazyLock::new(|| {
    fardel::load::catalogue(&fardel::load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"))
});

/// The number with which a text begins: `27 mm` is 27.
fn leading_number(text: &str) -> f64 {
    let end = text.find(|letter: char| !(letter.is_ascii_digit() || letter == '.')).unwrap_or(text.len());
    text[..end].parse().unwrap_or_else(|_| panic!("`{text}` does not begin with a number"))
}

/// What follows `stem` in the names that begin with it and go on with a digit.
fn sizes<'a>(names: impl Iterator<Item = &'a String>, stem: &str) -> Vec<&'a str> {
    let rest = names.filter_map(|name| name.strip_prefix(stem));
    let sizes: Vec<&str> = rest.filter(|size| size.starts_with(|letter: char| letter.is_ascii_digit())).collect();
    assert!(!sizes.is_empty(), "nothing is called `{stem}` and a size");
    sizes
}
