//! One currency for all prices: the scenario's, or else the first one seen. Others are exchanged at the rates that the
//! scenario states, with their day; no rate is ever guessed.

use super::form::Form;
use crate::diagnostic::Code;
use crate::load::exchange::{CODE, Day};
use crate::load::file::MoneyShape;
use crate::load::findings::{Findings, Place};
use crate::load::quantity::Price;
use crate::units::{Currency, Money};
use fardel_words::{plain, say};

/// Takes prices, and knows what they are worth in the currency of the answers.
#[derive(Debug, Clone, Default)]
pub(crate) struct Purse {
    own: Option<Currency>,
    rates: Vec<(Currency, f64)>,
    /// Something is wrong with the rates, and that is told already.
    unclear: bool,
}

impl Purse {
    /// With one currency that is settled already.
    pub fn in_one(own: Currency) -> Self {
        Self { own: Some(own), ..Self::default() }
    }

    /// With the currency and the rates of a scenario. What is exchanged how is a note.
    pub fn of(shape: Option<&MoneyShape>, file: usize, findings: &mut Findings) -> (Self, Vec<String>) {
        let Some(shape) = shape else { return (Self::default(), Vec::new()) };
        let place = Place { file, ..Place::default() }.key("money");
        let rates = rates(shape, &place.key("rates"), findings);
        let mut form = Form::new(findings, place.clone());
        let own = form.need("in", shape.own.map(Some), None);
        let day = if rates.is_empty() { None } else { form.need("day", shape.day.clone().map(Some), None) };
        let notes = match (own, day) {
            (Some(own), Some(Day(day))) => {
                let note =
                    |(other, rate): &(Currency, f64)| say!("1 {other} counts as {rate} {own}, the rate of {day}");
                rates.iter().map(note).collect()
            }
            _ => Vec::new(),
        };
        (Self { own, rates, unclear: findings.is_spoilt_below(&place) }, notes)
    }

    /// The amount in the currency of the answers, which is this one's if there is none yet. A price that cannot be exchanged
    /// is told.
    pub fn take(&mut self, price: Price, place: &Place, findings: &mut Findings) -> Money {
        // Nothing at all costs the same in every currency.
        if price.money != Money::ZERO {
            self.own.get_or_insert(price.currency);
        }
        self.paid(price, place, findings)
    }

    /// The same once the currency is settled. A scenario without any priced thing may say its amounts in any.
    pub fn paid(&self, price: Price, place: &Place, findings: &mut Findings) -> Money {
        let Some(own) = self.own.filter(|own| price.money != Money::ZERO && *own != price.currency) else {
            return price.money;
        };
        if let Some((_, rate)) = self.rates.iter().find(|(other, _)| *other == price.currency) {
            return price.money.exchanged(*rate);
        }
        if self.unclear {
            return price.money;
        }
        let found = say!("an amount in {}", price.currency);
        let other = price.currency;
        let expected = say!("{own}, like the other prices, or a rate for {other} under `money` (`fardel help prices`)");
        findings.add(Code::MixedCurrencies, place, found, expected, None);
        price.money
    }

    /// The currency of all prices.
    pub fn currency(&self) -> Currency {
        self.own.unwrap_or_default()
    }
}

/// The rates; a name that is no currency is told.
fn rates(shape: &MoneyShape, place: &Place, findings: &mut Findings) -> Vec<(Currency, f64)> {
    let mut rates = Vec::new();
    for (code, rate) in &shape.rates {
        if let Some(currency) = Currency::read(code) {
            rates.push((currency, rate.0));
        } else {
            let at = place.key(code);
            findings.add(Code::NotAQuantity, &at, format!("`{code}`"), plain(CODE).to_owned(), None);
            findings.spoil(&at);
        }
    }
    rates
}
