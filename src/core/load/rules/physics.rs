//! Small helpers for numbers that must make sense together.

use crate::diagnostic::Code;
use crate::load::findings::{Findings, Place};
use fardel_words::say;

/// Tells of a quantity that is zero or less where it must not be.
pub(super) fn above_zero(value: f64, key: &str, place: &Place, findings: &mut Findings) {
    if value <= 0.0 && findings.sound(place, &[key]) {
        let place = place.key(key);
        findings.add(Code::OutOfRange, &place, format!("`{value}`"), say!("more than zero"), None);
    }
}
