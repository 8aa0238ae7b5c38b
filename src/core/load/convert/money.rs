//! One currency for all prices: the first one seen. No exchange rate is ever guessed.

use crate::diagnostic::Code;
use crate::load::findings::{Findings, Place};
use crate::load::quantity::Price;
use crate::units::{Currency, Money};

/// Collects prices.
#[derive(Debug, Default)]
pub(super) struct Purse {
    currency: Option<Currency>,
}

impl Purse {
    /// The amount; a price in another currency than the first one is told.
    pub fn take(&mut self, price: Price, place: &Place, findings: &mut Findings) -> Money {
        // Nothing at all costs the same in every currency.
        if price.money == Money::ZERO {
            return Money::ZERO;
        }
        let own = *self.currency.get_or_insert(price.currency);
        check(price.currency, own, place, findings);
        price.money
    }
    /// The currency of all prices.
    pub fn currency(&self) -> Currency {
        self.currency.unwrap_or_default()
    }
}

/// Tells when two currencies differ.
pub(super) fn check(currency: Currency, own: Currency, place: &Place, findings: &mut Findings) {
    if currency != own {
        let expected = format!("{own}, like the other prices; no exchange rate is guessed");
        findings.add(Code::MixedCurrencies, place, format!("an amount in {currency}"), expected, None);
    }
}
