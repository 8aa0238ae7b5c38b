//! Amounts of a measure in words and numbers.

use crate::Look;
use fardel_core::resolve::{Amount, Measure};
use fardel_core::units::{Currency, Mass, Money, Quantity, Volume};
use fardel_words::say;

/// `13.20 kg`, `41.0 L`, `120 USD`.
#[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
pub(crate) fn amount(measure: Measure, amount: Amount, currency: Currency, look: &Look) -> String {
    match measure {
        Measure::Mass => look.show(Mass::from_base(amount as f64)),
        Measure::Volume => look.show(Volume::from_base(amount as f64)),
        Measure::Money => money(Money::from_cents(amount), currency),
    }
}

/// Whole units where there is no fraction: `120 USD`, `12.50 EUR`.
pub(crate) fn money(money: Money, currency: Currency) -> String {
    if money.cents() % 100 == 0 {
        say!("{:.0} {currency}", money.units())
    } else {
        say!("{:.2} {currency}", money.units())
    }
}

/// What the next step of a measure is called.
pub(crate) fn next(measure: Measure, currency: Currency, look: &Look) -> String {
    amount(measure, measure.step(), currency, look)
}
