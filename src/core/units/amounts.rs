//! Whole-number quantities: mass in milligrams, volume in microlitres, length in micrometres.

use super::parse::{Quantity, to_whole};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

macro_rules! whole {
    ($(#[$doc:meta])* $name:ident, $quantity:literal, $example:literal, $signed:literal, $largest:expr, $units:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
        pub struct $name(i64);

        impl $name {
            /// Nothing at all.
            pub const ZERO: Self = Self(0);
        }
        impl Quantity for $name {
            const NAME: &'static str = $quantity;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [(&'static str, f64)] = $units;
            const SIGNED: bool = $signed;
            const LARGEST: f64 = $largest;
            fn from_base(value: f64) -> Self {
                Self(to_whole(value))
            }
        }
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }
        }
        impl Mul<u32> for $name {
            type Output = Self;
            fn mul(self, count: u32) -> Self {
                Self(self.0.saturating_mul(i64::from(count)))
            }
        }
        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
                terms.fold(Self(0), Add::add)
            }
        }
    };
}

whole!(
    /// A mass, in whole milligrams. Pound and ounce are the international ones (0.45359237 kg, a sixteenth of it).
    Mass, "mass", "`350 g`", false, 1e13,
    &[("mg", 1.0), ("g", 1e3), ("kg", 1e6), ("oz", 28_349.523_125), ("lb", 453_592.37)]
);
whole!(
    /// A volume, in whole microlitres. Fluid ounce and gallon are the US ones, the cubic inch is 16.387064 mL.
    Volume, "volume", "`1.2 L`", false, 1e13,
    &[("mL", 1e3), ("L", 1e6), ("cm3", 1e3), ("in3", 16_387.064), ("fl oz", 29_573.529_562_5), ("gal", 3_785_411.784)]
);
whole!(
    /// A length, in whole micrometres; signed where it is a position.
    Length, "length", "`27 mm`", true, 1e11,
    &[("mm", 1e3), ("cm", 1e4), ("m", 1e6), ("in", 25_400.0), ("ft", 304_800.0)]
);

#[allow(clippy::cast_precision_loss, reason = "values stay below 2^53")]
impl Mass {
    /// From whole grams.
    #[must_use]
    pub const fn from_grams(grams: i64) -> Self {
        Self(grams * 1000)
    }
    /// In grams.
    #[must_use]
    pub fn grams(self) -> f64 {
        self.0 as f64 / 1e3
    }
    /// In kilograms.
    #[must_use]
    pub fn kilograms(self) -> f64 {
        self.0 as f64 / 1e6
    }
    /// In whole milligrams.
    #[must_use]
    pub const fn milligrams(self) -> i64 {
        self.0
    }
}

#[allow(clippy::cast_precision_loss, reason = "values stay below 2^53")]
impl Volume {
    /// From whole millilitres.
    #[must_use]
    pub const fn from_millilitres(millilitres: i64) -> Self {
        Self(millilitres * 1000)
    }
    /// In whole microlitres.
    #[must_use]
    pub const fn microlitres(self) -> i64 {
        self.0
    }
    /// In millilitres.
    #[must_use]
    pub fn millilitres(self) -> f64 {
        self.0 as f64 / 1e3
    }
    /// In litres.
    #[must_use]
    pub fn litres(self) -> f64 {
        self.0 as f64 / 1e6
    }
    /// The part of it that `share` (0 to 1) leaves usable, rounded down so that a bag is never overfilled.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, reason = "a share of a value that fits")]
    pub fn share(self, share: f64) -> Self {
        // A hair above, so that 0.85 x 20 L is 17 L and not one microlitre less.
        Self((self.0 as f64 * share + 1e-3).floor() as i64)
    }
}

#[allow(clippy::cast_precision_loss, reason = "values stay below 2^53")]
impl Length {
    /// From whole millimetres.
    #[must_use]
    pub const fn from_millimetres(millimetres: i64) -> Self {
        Self(millimetres * 1000)
    }
    /// In millimetres.
    #[must_use]
    pub fn millimetres(self) -> f64 {
        self.0 as f64 / 1e3
    }
    /// In metres.
    #[must_use]
    pub fn metres(self) -> f64 {
        self.0 as f64 / 1e6
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_exact() {
        let tenth = Mass::read("0.1 g").unwrap();
        assert_eq!((0..10).map(|_| tenth).sum::<Mass>(), Mass::from_grams(1));
    }

    #[test]
    fn a_share_of_a_volume_never_exceeds_it() {
        let bag = Volume::read("20 L").unwrap();
        assert_eq!(bag.share(0.85), Volume::read("17 L").unwrap());
        assert_eq!(bag.share(1.0), bag);
    }
}
