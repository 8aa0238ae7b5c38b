//! Quantities as a rider reads them, metric or imperial.

use super::{Distance, Hours, Length, Mass, Pressure, Temperature, Volume};
use fardel_words::say;

/// Which units the output uses. Input is always read in either.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// Grams, litres, kilometres.
    #[default]
    Metric,
    /// Pounds, US gallons and fluid ounces, miles.
    Imperial,
}

/// Showing a quantity in the chosen units.
pub trait Show {
    /// The text, with its unit.
    fn show(&self, system: UnitSystem) -> String;
}

impl Show for Mass {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric if self.grams() < 1.0 && *self != Self::ZERO => say!("{} g", self.grams()),
            UnitSystem::Metric if self.grams() < 999.5 => say!("{:.0} g", self.grams()),
            UnitSystem::Metric => say!("{:.2} kg", self.kilograms()),
            UnitSystem::Imperial => {
                let ounces = self.grams() / 28.349_523_125;
                if ounces < 15.95 { say!("{ounces:.1} oz") } else { say!("{:.2} lb", ounces / 16.0) }
            }
        }
    }
}

impl Show for Volume {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric if self.litres() < 0.995 => say!("{:.0} mL", self.millilitres()),
            UnitSystem::Metric => say!("{:.1} L", self.litres()),
            UnitSystem::Imperial => {
                let ounces = self.millilitres() / 29.573_529_562_5;
                if ounces < 127.5 { say!("{ounces:.1} fl oz") } else { say!("{:.1} gal", ounces / 128.0) }
            }
        }
    }
}

impl Show for Length {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric => say!("{:.0} mm", self.millimetres()),
            UnitSystem::Imperial => say!("{:.1} in", self.millimetres() / 25.4),
        }
    }
}

impl Show for Hours {
    fn show(&self, _: UnitSystem) -> String {
        match self.get() {
            h if h.abs() < 0.0083 => "0 min".to_owned(),
            h if h.abs() < 0.995 => say!("{:.0} min", h * 60.0),
            h => say!("{h:.1} h"),
        }
    }
}

impl Show for Distance {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric => say!("{:.0} km", self.km()),
            UnitSystem::Imperial => say!("{:.0} mi", self.km() / 1.609_344),
        }
    }
}

impl Show for Pressure {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric => say!("{:.0} kPa", self.kilopascals()),
            UnitSystem::Imperial => say!("{:.0} psi", self.psi()),
        }
    }
}

impl Show for Temperature {
    fn show(&self, system: UnitSystem) -> String {
        match system {
            UnitSystem::Metric => say!("{:.0} °C", self.celsius()),
            UnitSystem::Imperial => say!("{:.0} °F", self.fahrenheit()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Quantity;

    #[test]
    fn units_choose_themselves() {
        assert_eq!(Mass::from_grams(350).show(UnitSystem::Metric), "350 g");
        assert_eq!(Mass::from_grams(12_340).show(UnitSystem::Metric), "12.34 kg");
        assert_eq!(Mass::read("13 kg").unwrap().show(UnitSystem::Imperial), "28.66 lb");
        assert_eq!(Hours::new(0.5).show(UnitSystem::Metric), "30 min");
        assert_eq!(Hours::new(26.0).show(UnitSystem::Metric), "26.0 h");
    }
}
