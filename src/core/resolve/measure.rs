//! What a kit is limited in: mass, packed volume, money.

use super::Instance;
use crate::units::{Currency, Mass, Money, Quantity, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// Something of which a kit takes so much, and of which there may be a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Measure {
    /// Mass of the kit.
    Mass,
    /// Packed volume of the kit.
    Volume,
    /// Money for what is not owned.
    Money,
}

/// An amount of one measure, in its smallest unit: milligrams, microlitres, hundredths of money.
pub type Amount = i64;

impl Measure {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Volume => "volume",
            Self::Money => "money",
        }
    }

    /// The unit that answers write its amounts in: `g`, `mL`, or the currency.
    #[must_use]
    pub fn unit(self, currency: Currency) -> String {
        match self {
            Self::Mass => "g".to_owned(),
            Self::Volume => "mL".to_owned(),
            Self::Money => currency.to_string(),
        }
    }

    /// How much of it these counts take.
    #[must_use]
    pub fn used(self, instance: &Instance, counts: &[u32]) -> Amount {
        match self {
            Self::Mass => instance.items.iter().zip(counts).map(|(item, n)| item.mass * *n).sum::<Mass>().milligrams(),
            Self::Volume => instance.volume(counts).microlitres(),
            Self::Money => instance.to_buy(counts).cents(),
        }
    }

    /// The limit of a case, if it has one.
    #[must_use]
    pub fn limit(self, instance: &Instance) -> Option<Amount> {
        match self {
            Self::Mass => instance.kit_mass.map(Mass::milligrams),
            Self::Volume => instance.kit_volume.map(Volume::microlitres),
            Self::Money => instance.budget.map(Money::cents),
        }
    }

    /// Sets or lifts the limit of a case.
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    pub fn set_limit(self, instance: &mut Instance, limit: Option<Amount>) {
        match self {
            Self::Mass => {
                instance.kit_mass = limit.map(|amount| Mass::from_base(amount as f64));
                // A rider alone has no other wish than the limit of all.
                if let [own] = instance.own_kit_mass.as_mut_slice() {
                    *own = instance.kit_mass;
                }
            }
            Self::Volume => instance.kit_volume = limit.map(|amount| Volume::from_base(amount as f64)),
            Self::Money => instance.budget = limit.map(Money::from_cents),
        }
    }

    /// Key of its row in the model.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Mass => "kit mass, g",
            Self::Volume => "kit volume, mL",
            Self::Money => "budget",
        }
    }

    /// An amount in the unit of that row: grams, millilitres, whole money.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
    pub fn in_row(self, amount: Amount) -> f64 {
        amount as f64 / if self == Self::Money { 100.0 } else { 1000.0 }
    }
}
