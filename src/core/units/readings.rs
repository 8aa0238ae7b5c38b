//! Measured quantities kept as `f64`: hours, kilometres, kilopascals, degrees Celsius.

use super::parse::{Quantity, UnitError, in_range, number_and_unit, read_base};
use fardel_words::mark;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

macro_rules! reading {
    ($(#[$doc:meta])* $name:ident, $quantity:literal, $example:literal, $largest:expr, $units:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nothing at all.
            pub const ZERO: Self = Self(0.0);
        }
        impl Quantity for $name {
            const NAME: &'static str = $quantity;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [(&'static str, f64)] = $units;
            const LARGEST: f64 = $largest;
            fn from_base(value: f64) -> Self {
                Self(value)
            }
        }
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
                terms.fold(Self(0.0), Add::add)
            }
        }
    };
}

reading!(
    /// A duration in hours.
    Hours, "duration", "`50 min` or `2 h`", 1e7,
    &[("min", 1.0 / 60.0), ("h", 1.0), ("day", 24.0), ("days", 24.0)]
);
reading!(
    /// A distance ridden, in kilometres.
    Distance, "distance", "`210 km`", 1e7,
    &[("km", 1.0), ("mi", 1.609_344)]
);

reading!(
    /// A pressure above that of the air, in kilopascals.
    Pressure, "pressure", "`200 kPa`, `2.0 bar` or `29 psi`", 1000.0,
    &[("kPa", 1.0), ("bar", 100.0), ("psi", 6.894_757)]
);

/// A temperature in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Temperature(f64);

impl Quantity for Temperature {
    const NAME: &'static str = mark!("temperature");
    const EXAMPLE: &'static str = "`-4 °C`";
    const UNITS: &'static [(&'static str, f64)] = &[("°C", 1.0), ("C", 1.0)];
    const SIGNED: bool = true;
    const LARGEST: f64 = 100.0;
    fn from_base(value: f64) -> Self {
        Self(value)
    }
    fn read(text: &str) -> Result<Self, UnitError> {
        // The only unit with an offset, so it is not in the table of sizes.
        let read = match number_and_unit::<Self>(text)? {
            (fahrenheit, "°F" | "F") => in_range::<Self>((fahrenheit - 32.0) / 1.8, text),
            _ => read_base::<Self>(text),
        };
        read.map(Self).map_err(|error| match error {
            UnitError::WrongUnit { unit, quantity, units } => {
                UnitError::WrongUnit { unit, quantity, units: units + ", °F, F" }
            }
            other => other,
        })
    }
}

impl Hours {
    /// From a number of hours.
    #[must_use]
    pub const fn new(hours: f64) -> Self {
        Self(hours)
    }
    /// As a number of hours.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }
    /// As a number of days of 24 hours.
    #[must_use]
    pub fn days(self) -> f64 {
        self.0 / 24.0
    }
}

impl Distance {
    /// From a number of kilometres.
    #[must_use]
    pub const fn new(km: f64) -> Self {
        Self(km)
    }
    /// As a number of kilometres.
    #[must_use]
    pub const fn km(self) -> f64 {
        self.0
    }
}

impl Pressure {
    /// From kilopascals.
    #[must_use]
    pub const fn new(kilopascals: f64) -> Self {
        Self(kilopascals)
    }
    /// In kilopascals.
    #[must_use]
    pub const fn kilopascals(self) -> f64 {
        self.0
    }
    /// In pounds-force on a square inch (the international pound and inch, standard gravity: 6.894757 kPa).
    #[must_use]
    pub fn psi(self) -> f64 {
        self.0 / 6.894_757
    }
}

impl Temperature {
    /// From degrees Celsius.
    #[must_use]
    pub const fn new(celsius: f64) -> Self {
        Self(celsius)
    }
    /// In degrees Celsius.
    #[must_use]
    pub const fn celsius(self) -> f64 {
        self.0
    }
    /// In degrees Fahrenheit.
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 29 psi is 199.9 kPa (ISO 31-3 conversion, one psi 6.894757 kPa).
    #[test]
    fn pressures_are_read_in_three_units() {
        let kpa = |text| Pressure::read(text).unwrap().kilopascals();
        assert!((kpa("2.0 bar") - 200.0).abs() < 1e-9 && (kpa("29 psi") - 199.948).abs() < 1e-3);
        assert!((Pressure::new(200.0).psi() - 29.008).abs() < 1e-3);
        assert!(Pressure::read("-1 bar").is_err() && Pressure::read("200").is_err());
    }

    #[test]
    fn fahrenheit_freezing_is_celsius_zero() {
        assert!(Temperature::read("32 °F").unwrap().celsius().abs() < 1e-12);
        assert!(Temperature::read("900 °C").is_err());
    }

    /// The range is one of temperatures, not of the numbers on either scale.
    #[test]
    fn a_hot_day_in_fahrenheit_is_in_range() {
        assert!((Temperature::read("113 °F").unwrap().celsius() - 45.0).abs() < 1e-12);
        assert!((Temperature::read("212 F").unwrap().celsius() - 100.0).abs() < 1e-12);
        assert!(matches!(Temperature::read("213 °F"), Err(UnitError::TooLarge { found, .. }) if found == "213 °F"));
        assert!(Temperature::read("40 K").unwrap_err().to_string().contains("°F"));
    }
}
