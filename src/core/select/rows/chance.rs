//! The chance of a stranding: `sum over stops of mean x (1 - sum of g) <= -ln(1 - chance)`.
//!
//! Stops that are left come as a Poisson process, so the chance that none comes is `exp(-expected number)`: the
//! job-completion criterion of the repair-kit papers (Smith, Chambers & Shlifer, Management Science 26, 1980; Mamer & Smith,
//! Management Science 28, 1982), with pooled stocks reckoned by their fill.

use crate::domain::Outcome;
use crate::resolve::Instance;
use crate::risk::RiskModel;
use crate::select::Columns;
use fardel_milp::{Model, Sense};

/// Adds the row, if the case has such a limit.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance, risk_model: &RiskModel) {
    let Some(most) = instance.stranded else { return };
    let stops =
        || instance.failures.iter().enumerate().filter(|(_, failure)| matches!(failure.outcome, Outcome::Stops));
    let all: f64 = stops().map(|(f, _)| risk_model.loaded[f]).sum();
    let terms = stops().flat_map(|(f, _)| columns.g[f].iter().flatten().map(move |g| (*g, risk_model.loaded[f])));
    model.row("chance", "stranding".to_owned(), terms.collect(), Sense::AtLeast, all - allowed(most));
}

/// Expected strandings that go with a chance of one or more.
pub fn allowed(chance: f64) -> f64 {
    -libm::log1p(-chance)
}

/// Expected strandings where these shares of occurrences are met.
pub fn expected(instance: &Instance, risk_model: &RiskModel, shares: &[Vec<f64>]) -> f64 {
    let stops = instance.failures.iter().enumerate().filter(|(_, failure)| matches!(failure.outcome, Outcome::Stops));
    stops.map(|(f, _)| risk_model.loaded[f] * (1.0 - shares[f].iter().sum::<f64>()).max(0.0)).sum()
}
