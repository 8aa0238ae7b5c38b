//! Facts and references, put together.

use super::Sort;
use super::show::{Entry, Fact, Reference, References};
use fardel_words::{number as decimal, say};

pub(super) fn word(key: &str, label: &str, text: &str) -> Fact {
    Fact { key: key.to_owned(), label: label.to_owned(), value: None, text: text.to_owned() }
}

pub(super) fn number(key: &str, label: &str, value: f64) -> Fact {
    Fact { key: key.to_owned(), label: label.to_owned(), value: Some(value), text: decimal(format!("{value}")) }
}

pub(super) fn rounded(key: &str, label: &str, value: f64) -> Fact {
    Fact { text: significant(value), ..number(key, label, value) }
}

pub(super) fn price_text(price: crate::units::Money, currency: crate::units::Currency) -> String {
    say!("{:.2} {currency}", price.units())
}

/// Three figures that count.
pub(super) fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let rounded: f64 = format!("{value:.2e}").parse().unwrap_or(value);
    decimal(format!("{rounded}"))
}

pub(super) fn entry(id: &str, name: &str) -> Reference {
    Reference { id: Some(id.to_owned()), text: name.to_owned() }
}

pub(super) fn plain(text: &str) -> Reference {
    Reference { id: None, text: text.to_owned() }
}

pub(super) fn list(title: &str, entries: impl Iterator<Item = Reference>) -> References {
    References { title: title.to_owned(), entries: entries.collect() }
}

pub(super) fn whole(
    sort: Sort,
    id: &str,
    name: &str,
    facts: Vec<Fact>,
    mut lists: Vec<References>,
    basis: String,
) -> Entry {
    lists.retain(|list| !list.entries.is_empty());
    Entry { sort, id: id.to_owned(), name: name.to_owned(), facts, lists, basis }
}
