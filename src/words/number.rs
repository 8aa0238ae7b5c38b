//! Numbers as the language writes them.

use crate::current::current;
use std::any::type_name;

/// A number as `format!` writes it, with the decimal sign of the language.
#[must_use]
pub fn number(text: String) -> String {
    let sign = current().decimal_sign();
    if sign == "." || !text.contains('.') { text } else { text.replacen('.', sign, 1) }
}

/// Is this a number that may have decimals?
pub fn is_float<T: ?Sized>(_: &T) -> bool {
    matches!(type_name::<T>().trim_start_matches('&'), "f64" | "f32")
}
