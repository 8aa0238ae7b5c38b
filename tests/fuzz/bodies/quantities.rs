//! Quantities with units: what was read, written out exactly, is read as the same; as shown to a rider, as nearly the same.

use super::text;
use fardel::units::{Distance, Hours, Length, Mass, Money, Quantity, Show, Temperature, UnitError, UnitSystem, Volume};
use std::fmt::Debug;

pub fn units(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    same_again(text, |mass: Mass| format!("{} mg", mass.milligrams()));
    same_again(text, |volume: Volume| format!("{} mL", volume.millilitres()));
    same_again(text, |length: Length| format!("{} mm", length.millimetres()));
    same_again(text, |hours: Hours| format!("{} h", hours.get()));
    same_again(text, |distance: Distance| format!("{} km", distance.km()));
    same_again(text, |temperature: Temperature| format!("{} °C", temperature.celsius()));
    // Half of the last digit shown, in either system, and the rounding of binary fractions.
    nearly_again(text, Mass::grams, |g| if g < 450.0 { 1.5 } else { 5.0 + 1e-9 * g });
    nearly_again(text, Volume::millilitres, |ml| if ml < 995.0 { 1.6 } else { 200.0 + 1e-9 * ml });
    nearly_again(text, Length::millimetres, |mm| 1.3 + 1e-9 * mm.abs());
    nearly_again(text, Hours::get, |h| 0.051 + 1e-9 * h);
    nearly_again(text, Distance::km, |km| 0.81 + 1e-9 * km);
    nearly_again(text, Temperature::celsius, |_| 0.51);
    money(text);
}

fn same_again<Q: Quantity + Debug + PartialEq>(text: &str, exactly: fn(Q) -> String) {
    match Q::read(text) {
        Ok(value) => {
            let written = exactly(value);
            assert_eq!(Q::read(&written), Ok(value), "{text:?} was written as {written:?}");
            assert_eq!(Q::read(&format!("  {text}\n")), Ok(value), "space around {text:?} matters");
        }
        Err(error) => is_told(&error, text),
    }
}

fn nearly_again<Q: Quantity + Debug + Show>(text: &str, number: fn(Q) -> f64, within: fn(f64) -> f64) {
    let Ok(value) = Q::read(text) else { return };
    for system in [UnitSystem::Metric, UnitSystem::Imperial] {
        let shown = value.show(system);
        let (value, largest) = (number(value), number(Q::from_base(Q::LARGEST)));
        let again = match Q::read(&shown) {
            Ok(again) => number(again),
            // At the very end of the range the last digit shown may be rounded out of it.
            Err(UnitError::TooLarge { .. }) if value.abs() > 0.99 * largest => continue,
            Err(error) => panic!("{text:?} is shown as {shown:?}: {error}"),
        };
        assert!((value - again).abs() <= within(value), "{text:?} is {value}, shown as {shown:?}, which is {again}");
    }
}

fn money(text: &str) {
    match Money::read(text) {
        Ok((money, currency)) => {
            let written = format!("{}.{:02} {currency}", money.cents() / 100, money.cents() % 100);
            assert_eq!(Money::read(&written), Ok((money, currency)), "{text:?} was written as {written:?}");
        }
        Err(error) => is_told(&error, text),
    }
}

/// The error repeats what it is about.
fn is_told(error: &UnitError, text: &str) {
    let found = match error {
        UnitError::WrongUnit { unit, .. } => unit,
        UnitError::NoUnit { found, .. }
        | UnitError::NotANumber { found, .. }
        | UnitError::Negative { found, .. }
        | UnitError::Comma { found, .. }
        | UnitError::TooLarge { found, .. } => found,
    };
    assert!(text.contains(found.as_str()), "{error} is said of {text:?}");
}
