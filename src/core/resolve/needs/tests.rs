//! The formulas against published figures.

use super::camp::r_value;
use super::provisions::{litres_a_day, weather};
use super::stove::{boiling_point, efficiency, kj_a_litre};

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

/// US agriculture department, cooking at high altitude (second-hand): water boils at 212 °F at sea level, 208 at 2,000 ft,
/// 203 at 5,000, 198 at 7,500, 194 at 10,000; whole degrees, so one of rounding and weather.
#[test]
fn water_boils_cooler_higher_up() {
    for (feet, fahrenheit) in [(0.0, 212.0), (2000.0, 208.0), (5000.0, 203.0), (7500.0, 198.0), (10_000.0, 194.0)] {
        let own = boiling_point(feet * 0.3048) * 1.8 + 32.0;
        assert!((own - fahrenheit).abs() <= 1.0, "{feet} ft: {own:.1} °F against {fahrenheit}");
    }
}

/// 1 L from 20 to 100 °C takes 335 kJ (derived: 4.186 x 80).
#[test]
fn heat_to_boil_a_litre() {
    assert!((kj_a_litre(20.0, 100.0) - 335.0).abs() < 1.0);
}

/// 15 g of gas a litre in still air, 25 in wind or cold (common practice, no source), at 45.7 MJ/kg; never better than
/// the 57 % that the best household stoves reach in a laboratory (Shen et al. 2018: 51 +- 6 %, second-hand).
#[test]
fn grams_a_litre_lie_in_the_trade_range() {
    let grams = |lowest: f64| kj_a_litre(20.0, 100.0) / 45.7 / efficiency(lowest);
    assert!((15.0..=18.0).contains(&grams(15.0)), "{}", grams(15.0));
    assert!((24.0..=26.0).contains(&grams(-10.0)), "{}", grams(-10.0));
    assert!(
        (-20..30)
            .all(|t| efficiency(f64::from(t)) <= efficiency(f64::from(t) + 1.0) && efficiency(f64::from(t)) < 0.57)
    );
}

/// US Army AR 40-25 (second-hand): cold 5 to 10 % more, 20 to 30 °C none, 30 to 40 °C 2.5 to 10 %.
#[test]
fn food_for_frost_and_heat() {
    assert!((1.05..=1.10).contains(&weather(-5.0)) && (1.05..=1.10).contains(&weather(-30.0)));
    assert!([0.0, 10.0, 20.0, 30.0].iter().all(|t| (weather(*t) - 1.0).abs() < 1e-12));
    assert!((1.025..=1.10).contains(&weather(30.1)) && (weather(40.0) - 1.10).abs() < 1e-12);
}
