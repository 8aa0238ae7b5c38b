//! What the rate of a failure rests on, for those who look it up.

use super::show::{Fact, Reference, References};
use crate::debrief::gamma;
use crate::domain::{Catalogue, Failure};
use crate::evidence::{derive, rested_on, rounded};
use fardel_words::{say, word};

/// How wide the rate of one bike is.
pub(super) fn width(failure: &Failure) -> [Fact; 2] {
    let (low, high) = gamma::width(failure.rate.worth_events);
    let fact = |key: &str, label: &str, value: f64| Fact {
        key: key.to_owned(),
        label: label.to_owned(),
        value: Some(value),
        text: say!("{} times the mean", rounded(value)),
    };
    [
        fact("low", word!("one bike in twenty has less than"), low),
        fact("high", word!("one bike in twenty has more than"), high),
    ]
}

/// The sources that bear on it, each with what it counts.
pub(super) fn rests_on(catalogue: &Catalogue, failure: &Failure) -> References {
    let entries = match rested_on(catalogue, &derive(catalogue, None), &failure.id) {
        None => vec![Reference { id: None, text: say!("nothing but what was typed in") }],
        Some(rested) => {
            let group = say!(
                "counted under {}; its typed-in rates are multiplied by {}, this one by {}",
                rested.group,
                rounded(rested.factors.0),
                rounded(rested.factors.1)
            );
            let source = |own: &crate::evidence::Bearing| Reference {
                id: Some(own.source.clone()),
                text: say!(
                    "{}: {} seen, {} by the typed-in rates, {} by these",
                    own.name,
                    rounded(own.seen),
                    rounded(own.typed),
                    rounded(own.found)
                ),
            };
            let first = Reference { id: None, text: group };
            std::iter::once(first).chain(rested.bearings.iter().map(source)).collect()
        }
    };
    References { title: say!("What the rate rests on"), entries }
}
