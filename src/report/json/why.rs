//! The answer of `why`.

use super::changes::{Change, changes};
use super::figures::{Costs, costs};
use super::{Head, head, written};
use crate::cautions::cautions;
use fardel_core::answer::{self, About, WhyAnswer};
use serde::Serialize;

#[derive(Serialize)]
struct Why<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    currency: String,
    id: &'a str,
    name: &'a str,
    about: &'static str,
    carried: Option<Carried<'a>>,
    left_out: Option<Left<'a>>,
    not_weighed_because: Option<&'static str>,
    failure: Option<Failure<'a>>,
    proven_optimal: bool,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Carried<'a> {
    count: u32,
    mass_g: f64,
    standing: &'static str,
    purposes: &'a [String],
    covers: Vec<Cover<'a>>,
    hours_lost_nothing_else_changed: f64,
    costs: Costs,
    needs_unmet_then: &'a [String],
    packed_anew_without: Option<Other<'a>>,
}

#[derive(Serialize)]
struct Cover<'a> {
    failure: &'a str,
    hours_lost: f64,
    together_with: &'a [String],
}

#[derive(Serialize)]
struct Left<'a> {
    mass_g: f64,
    price: f64,
    hours_saved_on_top: f64,
    costs: Costs,
    packed_anew_with: Option<Other<'a>>,
}

#[derive(Serialize)]
struct Other<'a> {
    hours_lost: f64,
    mass_g: f64,
    self_recovery: f64,
    entering: Vec<Change<'a>>,
    leaving: Vec<Change<'a>>,
}

#[derive(Serialize)]
struct Failure<'a> {
    outcome: &'static str,
    expected_occurrences: f64,
    hours_lost_empty: f64,
    hours_lost_with_kit: f64,
    repairs: Vec<Repair<'a>>,
    skill_wanted: Option<&'static str>,
}

#[derive(Serialize)]
struct Repair<'a> {
    name: &'a str,
    hours_saved_if_always_done: f64,
    share_of_occurrences: f64,
    with: &'a [String],
    lightest_set: Option<Set<'a>>,
    cheapest_set: Option<Set<'a>>,
}

#[derive(Serialize)]
struct Set<'a> {
    items: Vec<Counted<'a>>,
    mass_g: f64,
    price: f64,
}

#[derive(Serialize)]
struct Counted<'a> {
    name: &'a str,
    count: u32,
}

/// The answer of `why` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn why(answer: &WhyAnswer) -> Result<String, serde_json::Error> {
    written(&why_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn why_document(answer: &WhyAnswer) -> impl Serialize {
    let about = &answer.about;
    Why {
        head: head("why"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        currency: answer.currency.to_string(),
        id: &answer.id,
        name: &answer.name,
        about: match about {
            About::Carried(_) => "item in the kit",
            About::Left(_) => "item left out",
            About::Dropped(_) => "item not weighed",
            About::Failure(_) => "failure",
            About::NotOnThisBike => "failure of other bikes",
        },
        carried: if let About::Carried(own) = about { Some(carried(own)) } else { None },
        left_out: if let About::Left(own) = about { Some(left(own)) } else { None },
        not_weighed_because: if let About::Dropped(reason) = about { Some(reason.words()) } else { None },
        failure: if let About::Failure(own) = about { Some(failure(own)) } else { None },
        proven_optimal: answer.proven,
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    }
}

fn carried(own: &answer::Carried) -> Carried<'_> {
    Carried {
        count: own.count,
        mass_g: own.mass.grams(),
        standing: super::bags::standing(own.standing),
        purposes: &own.purposes,
        covers: own.covers.iter().map(cover).collect(),
        hours_lost_nothing_else_changed: own.alone.get(),
        costs: costs(&own.costs),
        needs_unmet_then: &own.unmet,
        packed_anew_without: own.without.as_ref().map(other),
    }
}

fn cover(own: &answer::Cover) -> Cover<'_> {
    Cover { failure: &own.failure, hours_lost: own.hours.get(), together_with: &own.with }
}

fn left(own: &answer::Left) -> Left<'_> {
    Left {
        mass_g: own.mass.grams(),
        price: own.price.units(),
        hours_saved_on_top: own.on_top.get(),
        costs: costs(&own.costs),
        packed_anew_with: own.with.as_ref().map(other),
    }
}

fn other(own: &answer::Other) -> Other<'_> {
    Other {
        hours_lost: own.loss.get(),
        mass_g: own.mass.grams(),
        self_recovery: own.self_recovery,
        entering: changes(&own.entering),
        leaving: changes(&own.leaving),
    }
}

fn failure(own: &answer::FailureReasons) -> Failure<'_> {
    Failure {
        outcome: own.outcome,
        expected_occurrences: own.mean,
        hours_lost_empty: own.hours_empty.get(),
        hours_lost_with_kit: own.hours_left.get(),
        repairs: own.repairs.iter().map(repair).collect(),
        skill_wanted: own.skill_wanted,
    }
}

fn repair(own: &answer::RepairReasons) -> Repair<'_> {
    Repair {
        name: &own.name,
        hours_saved_if_always_done: own.hours.get(),
        share_of_occurrences: own.share,
        with: &own.uses,
        lightest_set: own.lightest.as_ref().map(set),
        cheapest_set: own.cheapest.as_ref().map(set),
    }
}

fn set(own: &answer::Set) -> Set<'_> {
    let items = own.items.iter().map(|(name, count)| Counted { name, count: *count }).collect();
    Set { items, mass_g: own.mass.grams(), price: own.price.units() }
}
