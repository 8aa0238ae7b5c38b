//! Why there is no answer: faults of files, limits that cannot hold together, and everything else in words.

use super::{Head, head};
use crate::Look;
use crate::terminal::{change, shortfall};
use fardel_core::answer::{TripChange as Change, TripRemedy};
use fardel_core::diagnostic::Fault;
use fardel_core::domain::Catalogue;
use fardel_core::select::relax::Shortfall;
use schemars::JsonSchema;
use serde::Serialize;

/// Needs and limits that cannot hold together, and what would help; texts are in the units asked for.
#[derive(Debug, Clone, Copy)]
pub struct Unmet<'a> {
    /// What the trip is packed from.
    pub catalogue: &'a Catalogue,
    /// The smallest shortfalls.
    pub shortfalls: &'a [Shortfall],
    /// What would make the trip possible.
    pub ways: &'a [TripRemedy],
    /// How quantities are shown.
    pub look: &'a Look,
}

/// The answer where no kit will do.
#[derive(Serialize, JsonSchema)]
pub(super) struct Infeasible {
    #[serde(flatten)]
    head: Head,
    /// Always true: by this field the answer is known.
    infeasible: bool,
    /// The smallest shortfalls.
    shortfalls: Vec<Short>,
    /// What would make the trip possible, the shortest first.
    ways_out: Vec<Way>,
}

/// What stands on standard error, where answers are JSON, instead of words.
#[derive(Serialize, JsonSchema)]
pub(super) struct Complaint<'a> {
    #[serde(flatten)]
    head: Head,
    /// What is wrong, in words.
    message: &'a str,
    /// Problems of files, each in its place; empty where the trouble is another.
    faults: &'a [Fault],
    /// Where no kit will do: the smallest shortfalls.
    shortfalls: Vec<Short>,
    /// Where no kit will do: what would make the trip possible, the shortest first.
    ways_out: Vec<Way>,
}

/// A limit or need that cannot hold with the others.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "Shortfall")]
struct Short {
    /// `stranded`, `mass`, `volume`, `budget`, `always`, `room`, `bears` (a bag), `load` (a wheel) or `need`.
    family: &'static str,
    /// Which of them.
    key: String,
    /// By how much: g, mL, money, things, kg; of a need the share that is missing. To three places.
    by: f64,
    /// The limit itself; for `load` what is spare for the kit, in kg. To three places.
    limit: f64,
    /// In the rider's words.
    text: String,
}

/// Changes that together make the trip possible.
#[derive(Serialize, JsonSchema)]
struct Way {
    /// The changes.
    changes: Vec<Changed>,
}

/// A change of the trip.
#[derive(Serialize, JsonSchema)]
struct Changed {
    /// `leave`, `borrow`, `water`, `food`, `fuel`, `share`, `kit mass`, `budget`, `bags`, `nights`, `tyre` or `passenger`.
    what: &'static str,
    /// Unit of the two figures; null where it has none.
    unit: Option<&'static str>,
    /// What it is. To three places.
    from: Option<f64>,
    /// What it would be. To three places.
    to: Option<f64>,
    /// In the rider's words.
    text: String,
}

/// Why no kit will do, as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which never happens for finite shortfalls.
pub fn infeasible(command: &'static str, unmet: &Unmet<'_>) -> Result<String, serde_json::Error> {
    super::pretty(&infeasible_document(command, unmet))
}

/// The same as plain data.
pub(super) fn infeasible_document(command: &'static str, unmet: &Unmet<'_>) -> impl Serialize + use<> {
    let (shortfalls, ways_out) = unmet.parts();
    Infeasible { head: head(command), infeasible: true, shortfalls, ways_out }
}

/// What is wrong, as JSON with a trailing newline.
///
/// # Errors
/// As [`infeasible`].
pub fn complaint(
    command: &'static str,
    message: &str,
    faults: &[Fault],
    unmet: Option<&Unmet<'_>>,
) -> Result<String, serde_json::Error> {
    let (shortfalls, ways_out) = unmet.map(Unmet::parts).unwrap_or_default();
    let complaint = Complaint { head: head(command), message: message.trim_end(), faults, shortfalls, ways_out };
    serde_json::to_string_pretty(&complaint).map(|text| text + "\n")
}

impl Unmet<'_> {
    fn parts(&self) -> (Vec<Short>, Vec<Way>) {
        let way = |way: &TripRemedy| Way { changes: way.changes.iter().map(|made| self.changed(made)).collect() };
        (self.shortfalls.iter().map(|found| self.short(found)).collect(), self.ways.iter().map(way).collect())
    }

    fn short(&self, found: &Shortfall) -> Short {
        Short {
            family: found.family,
            key: found.key.clone(),
            by: rounded(found.by),
            limit: rounded(found.limit),
            text: shortfall(self.catalogue, found, self.look),
        }
    }

    fn changed(&self, made: &Change) -> Changed {
        let figures = made.figures();
        Changed {
            what: made.word(),
            unit: figures.map(|(unit, _, _)| unit),
            from: figures.map(|(_, from, _)| rounded(from)),
            to: figures.map(|(_, _, to)| rounded(to)),
            text: change(self.catalogue, made, self.look),
        }
    }
}

/// Three places: solvers agree on no more.
fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}
