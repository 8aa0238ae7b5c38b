//! The formulas against published figures.

use super::camp::r_value;
use super::provisions::litres_a_day;

/// US National Academies, Dietary Reference Intakes for Water (2005), p. 129: sedentary to very active, temperate,
/// 3 to 6 L a day; pp. 129-130: mean 30 °C, working 8 h, 9.5 (Brown 1947) to 11.4 L (US Army 1959).
#[test]
fn water_lies_within_published_intakes() {
    assert!((3.0..=6.0).contains(&litres_a_day(20.0, 4.0)));
    assert!((9.5..=11.4).contains(&litres_a_day(37.0, 8.0)));
}

/// Trade bands (common practice, no source): night low 10 °C R 1.5; 4 °C 2.5; 0 °C 3; -7 °C 4; -12 °C 5; -18 °C 6.
#[test]
fn mat_resistance_follows_the_trade_bands() {
    for (lowest, band) in [(10.0, 1.5), (4.0, 2.5), (0.0, 3.0), (-7.0, 4.0), (-12.0, 5.0), (-18.0, 6.0)] {
        assert!((r_value(lowest) - band).abs() < 0.21, "{lowest} °C: {} against {band}", r_value(lowest));
    }
}
