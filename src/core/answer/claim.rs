//! Figures of an answer as the verifier takes them.

use super::plan::Home;
use crate::risk;
use crate::units::Hours;
use crate::verify::Terms;

/// The terms of the objective.
pub(crate) fn terms(terms: &risk::Terms) -> Terms {
    Terms {
        saved: Hours::new(terms.saved),
        relief: Hours::new(terms.relief),
        riding: Hours::new(terms.riding),
        falls: Hours::new(terms.falls),
        money: Hours::new(terms.money),
        packing: Hours::new(terms.packing),
    }
}

/// The chance of getting home, if it was ridden.
pub(super) fn home(home: &Home) -> Option<(f64, f64)> {
    home.ridden.map(|ridden| (ridden.mean, ridden.error))
}
