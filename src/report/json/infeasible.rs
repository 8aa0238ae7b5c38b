//! No kit will do: the shortfalls and the ways out.

use super::{Head, head, written};
use crate::Look;
use crate::terminal::{change, shortfall};
use fardel_core::answer::{TripChange as Change, TripRemedy};
use fardel_core::domain::Catalogue;
use fardel_core::select::relax::Shortfall;
use serde::Serialize;

#[derive(Serialize)]
struct Infeasible<'a> {
    #[serde(flatten)]
    head: Head,
    infeasible: bool,
    shortfalls: Vec<Short<'a>>,
    ways_out: Vec<Way>,
}

#[derive(Serialize)]
struct Short<'a> {
    family: &'static str,
    key: &'a str,
    by: f64,
    limit: f64,
    text: String,
}

#[derive(Serialize)]
struct Way {
    changes: Vec<Changed>,
}

#[derive(Serialize)]
struct Changed {
    what: &'static str,
    unit: Option<&'static str>,
    from: Option<f64>,
    to: Option<f64>,
    text: String,
}

/// Why there is no kit as JSON with a trailing newline; the texts are in the units asked for.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which never happens for finite shortfalls.
pub fn infeasible(
    catalogue: &Catalogue,
    shortfalls: &[Shortfall],
    ways: &[TripRemedy],
    look: &Look,
) -> Result<String, serde_json::Error> {
    written(&infeasible_document(catalogue, shortfalls, ways, look))
}

/// The same as plain data.
pub(super) fn infeasible_document<'a>(
    catalogue: &Catalogue,
    shortfalls: &'a [Shortfall],
    ways: &[TripRemedy],
    look: &Look,
) -> impl Serialize + use<'a> {
    let short = |short: &'_ Shortfall| shortfall(catalogue, short, look);
    let shortfalls = shortfalls.iter().map(|found| Short {
        family: found.family,
        key: &found.key,
        by: rounded(found.by),
        limit: rounded(found.limit),
        text: short(found),
    });
    let changed = |made: &Change| {
        let figures = made.figures();
        Changed {
            what: made.word(),
            unit: figures.map(|(unit, _, _)| unit),
            from: figures.map(|(_, from, _)| rounded(from)),
            to: figures.map(|(_, _, to)| rounded(to)),
            text: change(catalogue, made, look),
        }
    };
    let ways = ways.iter().map(|way| Way { changes: way.changes.iter().map(changed).collect() });
    Infeasible { head: head("pack"), infeasible: true, shortfalls: shortfalls.collect(), ways_out: ways.collect() }
}

/// Three places: solvers agree on no more.
fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}
