//! Petrol that a need takes is spoken for: none of it is there for breakdowns.

use crate::domain::{Catalogue, NeedRule};

/// A catalogue in which whatever meets a need for fuel that these demand holds nothing else.
pub(super) fn spoken_for<'a>(catalogue: &Catalogue, demanded: impl Iterator<Item = (&'a String, f64)>) -> Catalogue {
    let mut own = catalogue.clone();
    for (need, amount) in demanded {
        let is_fuel = catalogue.needs.get(need).is_some_and(|need| need.rule == NeedRule::Fuel);
        if is_fuel && amount > 0.0 {
            own.items.values_mut().filter(|item| item.meets.contains_key(need)).for_each(|item| item.holds.clear());
        }
    }
    own
}
