//! Which failures and preparations concern this bike, and how preparations change a failure's rate.

use crate::domain::{Bike, Catalogue, Failure, Style};

/// The failures that can happen on this bike and a trip of this style, in catalogue order.
pub(super) fn failures<'a>(
    catalogue: &'a Catalogue,
    bike: &'a Bike,
    style: Style,
) -> impl Iterator<Item = &'a Failure> {
    catalogue.failures.values().filter(move |failure| bike.matches(&failure.applies) && failure.happens_on(style))
}

/// Product of the effects, on one failure, of the parts fitted and the preparations done. Each counts once.
#[must_use]
pub fn modifier(catalogue: &Catalogue, done: &[String], bike: &Bike, failure: &str) -> f64 {
    let done = done.iter().filter(|id| !bike.fitted.contains(id));
    bike.fitted
        .iter()
        .chain(done)
        .filter_map(|id| catalogue.preparations.get(id))
        .filter(|preparation| bike.matches(&preparation.applies))
        .filter_map(|preparation| preparation.effects.get(failure))
        .product()
}
