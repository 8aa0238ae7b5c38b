//! `why`: an item that is in the kit, one that is not, or a failure. Losses are found by packing again, not guessed: when
//! one thing goes the others rearrange.

mod failure;
mod item;
mod plan;

pub use plan::{About, Carried, Cover, FailureReasons, Left, Other, RepairReasons, WhyAnswer};

use super::describe::{kinds, summary, warnings};
use super::pack::PackError;
use super::ready::Ready;
use super::solve::{Solved, in_time};
use crate::domain::{Catalogue, Rider, Scenario};
use crate::risk;
use fardel_milp::SolveOptions;
use fardel_words::say;
use thiserror::Error;

/// Why there are no reasons.
#[derive(Debug, Error)]
pub enum WhyError {
    /// Neither an item nor a failure.
    #[error("{}", say!("`{name}` is neither an item nor a failure of the catalogue"))]
    Unknown {
        /// What was asked for.
        name: String,
        /// The nearest name there is.
        nearest: Option<String>,
        /// Keys and names that have all its words in them, the first few.
        like: Vec<(String, String)>,
    },
    /// There is no kit to explain.
    #[error(transparent)]
    Pack(#[from] PackError),
}

/// So many names with the same words in them are told.
const MOST_LIKE: usize = 12;

/// Explains an item or a failure, by its key or name.
///
/// # Errors
/// [`WhyError`]: an unknown name, or no kit.
pub fn why(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    name: &str,
    options: &SolveOptions,
) -> Result<WhyAnswer, WhyError> {
    in_time(options, |options| {
        let ready = Ready::new(catalogue, scenario, rider)?;
        find(&ready.catalogue, name)?;
        let solved = ready.solve(options)?;
        why_of(&ready, &solved, name, true, options)
    })
}

/// Explains an item or a failure to whoever has this kit. `anew`: are kits packed for comparison?
///
/// # Errors
/// As [`why`].
pub(crate) fn why_of(
    ready: &Ready<'_>,
    solved: &Solved,
    name: &str,
    anew: bool,
    options: &SolveOptions,
) -> Result<WhyAnswer, WhyError> {
    let found = find(&ready.catalogue, name)?;
    let (instance, counts) = (&ready.instance, &solved.choice.counts);
    let objective = risk::value(instance, &ready.risk_model, counts).objective();
    let asked = Asked { ready, objective, counts, anew, options };
    let (id, own_name, (about, proven)) = match found {
        Found::Item(id) => (id, ready.catalogue.items[id].name.clone(), asked.item(id)?),
        Found::Failure(id) => (id, ready.catalogue.failures[id].name.clone(), (asked.failure(id)?, true)),
    };
    Ok(WhyAnswer {
        id: id.to_owned(),
        name: own_name,
        about,
        anew,
        proven: proven && solved.is_proven(instance, &ready.risk_model),
        currency: ready.catalogue.currency,
        warnings: warnings(instance, &solved.choice),
        kinds: kinds(instance, counts),
        trip: summary(&ready.catalogue, &ready.scenario, ready.rider),
    })
}

enum Found<'a> {
    Item(&'a str),
    Failure(&'a str),
}

/// By key, then by name as shown.
fn find<'a>(catalogue: &'a Catalogue, name: &str) -> Result<Found<'a>, WhyError> {
    let named = |own: &str| own.eq_ignore_ascii_case(name.trim());
    let item = catalogue.items.values().find(|item| named(&item.id) || named(&item.name));
    let failure = || catalogue.failures.values().find(|failure| named(&failure.id) || named(&failure.name));
    if let Some(item) = item {
        return Ok(Found::Item(&item.id));
    }
    if let Some(failure) = failure() {
        return Ok(Found::Failure(&failure.id));
    }
    let items = catalogue.items.values().map(|item| (item.id.as_str(), item.name.as_str()));
    let failures = catalogue.failures.values().map(|failure| (failure.id.as_str(), failure.name.as_str()));
    let known = || failures.clone().chain(items.clone());
    let nearest = crate::diagnostic::nearest(name, known().flat_map(|(id, name)| [id, name]));
    let words: Vec<String> = name.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let has_all = |(id, name): &(&str, &str)| {
        let text = format!("{id} {name}").to_lowercase();
        !words.is_empty() && words.iter().all(|word| text.contains(word))
    };
    let like = known().filter(has_all).take(MOST_LIKE).map(|(id, name)| (id.to_owned(), name.to_owned()));
    Err(WhyError::Unknown { name: name.to_owned(), nearest, like: like.collect() })
}

struct Asked<'a> {
    ready: &'a Ready<'a>,
    /// What the kit is worth.
    objective: f64,
    counts: &'a [u32],
    /// Are kits packed for comparison?
    anew: bool,
    options: &'a SolveOptions,
}
