//! How figures are compared.

use super::differs;

#[test]
fn a_difference_is_measured_against_the_size_of_the_figure() {
    assert!(differs("value", "x", 1_000_000.5, 1_000_000.0).is_none());
    assert!(differs("value", "x", 1.000_01, 1.0).is_some());
    assert!(differs("value", "x", f64::NAN, 1.0).is_some());
}
