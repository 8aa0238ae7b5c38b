//! The answer of `split`.

use super::bags::{Bag, bag};
use super::checks::{Group, groups};
use super::figures::{Objective, Prices, Totals, objective, prices, totals_of};
use super::fuel::{FuelShort, fuel};
use super::loads::{Load, load};
use super::pack::{Need, Purchase, need, purchase};
use super::risks::{Risk, risk};
use super::{Head, head, written};
use crate::cautions::cautions;
use fardel_core::answer::split::{self, AbsenceLine, Card, Carried, SplitAnswer};
use serde::Serialize;

#[derive(Serialize)]
struct Split<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    trip: Trip,
    totals: Totals,
    figures: Figures,
    objective: Objective,
    prices: Prices,
    proof: Proof,
    riders: Vec<Rider<'a>>,
    only_copies: Vec<Thing<'a>>,
    carried_by_several: Vec<Thing<'a>>,
    if_one_leaves: Vec<Absence<'a>>,
    apart: Vec<Apart<'a>>,
    floor: Option<Floor<'a>>,
    alone: Vec<Alone<'a>>,
    moves: Option<Vec<Move<'a>>>,
    fuel_short: Option<FuelShort<'a>>,
    checks: Vec<Group<'a>>,
    needs: Vec<Need<'a>>,
    purchases: Vec<Purchase<'a>>,
    risks: Vec<Risk<'a>>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct RiderCard<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    #[serde(flatten)]
    rider: Rider<'a>,
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Trip {
    days: f64,
    nights: u32,
    distance_km: f64,
    furthest_help_h: f64,
    splits: bool,
}

#[derive(Serialize)]
struct Figures {
    expected_failures: f64,
    hours_lost_empty: f64,
    hours_saved: f64,
    hours_handling: f64,
    coverage: f64,
    self_recovery: Option<f64>,
    self_recovery_standard_error: Option<f64>,
    self_recovery_at_least: Option<f64>,
}

#[derive(Serialize)]
struct Proof {
    engine: &'static str,
    proven_optimal: bool,
    relative_gap: f64,
    objective_h: f64,
    bound_h: f64,
    fairest: bool,
    largest_load_of_share: f64,
}

#[derive(Serialize)]
struct Rider<'a> {
    rider: &'a str,
    bike: &'a str,
    roles: Vec<&'static str>,
    mass_g: f64,
    fair_share_g: f64,
    own_things_g: f64,
    mass_limit_g: Option<f64>,
    bags: Vec<Bag<'a>>,
    load: Load<'a>,
}

#[derive(Serialize)]
struct Thing<'a> {
    name: &'a str,
    carried_by: Vec<Holder<'a>>,
    mass_g: f64,
    hours_lost_without: f64,
}

#[derive(Serialize)]
struct Holder<'a> {
    rider: &'a str,
    count: u32,
}

#[derive(Serialize)]
struct Absence<'a> {
    rider: &'a str,
    hours_saved_with_all: f64,
    hours_saved_with_rest: f64,
    share_kept: f64,
    no_longer_mended: &'a [String],
}

/// Riders of legs without the others.
#[derive(Serialize)]
struct Apart<'a> {
    riders: &'a [String],
    legs: &'a [String],
    lacking: Vec<Lacking<'a>>,
}

#[derive(Serialize)]
struct Lacking<'a> {
    name: &'a str,
    with: &'a [String],
}

#[derive(Serialize)]
struct Floor<'a> {
    share: f64,
    there_twice: &'a [String],
    extra_mass_g: f64,
    hours_given_up: f64,
}

#[derive(Serialize)]
struct Alone<'a> {
    rider: &'a str,
    mass_g: Option<f64>,
    hours_saved: Option<f64>,
    to_buy: Option<f64>,
}

#[derive(Serialize)]
struct Move<'a> {
    name: &'a str,
    count: u32,
    from: Option<&'a str>,
    to: Option<&'a str>,
}

/// The answer as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn split(answer: &SplitAnswer) -> Result<String, serde_json::Error> {
    written(&split_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn split_document(answer: &SplitAnswer) -> impl Serialize {
    let (trip, figures, proof) = (&answer.trip, &answer.figures, &answer.proof);
    Split {
        head: head("split"),
        scenario: &answer.scenario,
        trip: Trip {
            days: trip.days,
            nights: trip.nights,
            distance_km: trip.distance.km(),
            furthest_help_h: trip.furthest.get(),
            splits: trip.splits,
        },
        totals: totals_of(&answer.totals),
        figures: Figures {
            expected_failures: figures.failures,
            hours_lost_empty: figures.hours_empty.get(),
            hours_saved: figures.hours_saved.get(),
            hours_handling: figures.terms.handling(),
            coverage: figures.coverage,
            self_recovery: figures.home.and_then(|home| home.ridden).map(|ridden| ridden.mean),
            self_recovery_standard_error: figures.home.and_then(|home| home.ridden).map(|ridden| ridden.error),
            self_recovery_at_least: figures.home.map(|home| home.bound),
        },
        objective: objective(&answer.figures.terms, answer.proof.objective),
        prices: prices(&answer.prices),
        proof: Proof {
            engine: proof.engine,
            proven_optimal: proof.proven,
            relative_gap: proof.gap,
            objective_h: proof.objective,
            bound_h: proof.bound,
            fairest: proof.fairest,
            largest_load_of_share: proof.largest_share,
        },
        riders: answer.cards.iter().map(rider).collect(),
        only_copies: answer.once.iter().map(thing).collect(),
        carried_by_several: answer.twice.iter().map(thing).collect(),
        if_one_leaves: absences(answer),
        apart: answer.apart.iter().map(apart).collect(),
        floor: answer.floor.as_ref().map(|floor| Floor {
            share: floor.share,
            there_twice: &floor.doubled,
            extra_mass_g: floor.mass.grams(),
            hours_given_up: floor.hours.get(),
        }),
        alone: alone(answer),
        moves: answer.moves.as_ref().map(|moves| moves.iter().map(moved).collect()),
        fuel_short: fuel(answer.fuel.as_ref()),
        checks: groups(&answer.checks),
        needs: answer.needs.iter().map(need).collect(),
        purchases: answer.purchases.iter().map(purchase).collect(),
        risks: answer.risks.iter().map(risk).collect(),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    }
}

fn apart(line: &split::ApartLine) -> Apart<'_> {
    let lacking = line.lacking.iter().map(|(name, with)| Lacking { name, with });
    Apart { riders: &line.riders, legs: &line.legs, lacking: lacking.collect() }
}

/// One rider's card as JSON with a trailing newline.
///
/// # Errors
/// As [`split`].
pub fn card(answer: &SplitAnswer, card: &Card) -> Result<String, serde_json::Error> {
    written(&RiderCard {
        head: head("split"),
        scenario: &answer.scenario,
        rider: rider(card),
        cautions: cautions(&answer.kinds),
    })
}

fn rider(card: &Card) -> Rider<'_> {
    Rider {
        rider: &card.rider,
        bike: &card.bike,
        roles: card.roles.iter().map(|role| role.word()).collect(),
        mass_g: card.mass.grams(),
        fair_share_g: card.fair.grams().round(),
        own_things_g: card.personal.grams(),
        mass_limit_g: card.limit.map(fardel_core::units::Mass::grams),
        bags: card.bags.iter().map(bag).collect(),
        load: load(&card.load),
    }
}

fn thing(carried: &Carried) -> Thing<'_> {
    Thing {
        name: &carried.name,
        carried_by: carried.by.iter().map(|(rider, count)| Holder { rider, count: *count }).collect(),
        mass_g: carried.mass.grams(),
        hours_lost_without: carried.missed.get(),
    }
}

fn absences(answer: &SplitAnswer) -> Vec<Absence<'_>> {
    fn line(line: &AbsenceLine) -> Absence<'_> {
        Absence {
            rider: &line.rider,
            hours_saved_with_all: line.with_all.get(),
            hours_saved_with_rest: line.left.get(),
            share_kept: line.share,
            no_longer_mended: &line.open,
        }
    }
    answer.absences.iter().map(line).collect()
}

fn alone(answer: &SplitAnswer) -> Vec<Alone<'_>> {
    fn line(alone: &split::Alone) -> Alone<'_> {
        let kit = alone.kit.as_ref();
        Alone {
            rider: &alone.rider,
            mass_g: kit.map(|kit| kit.mass.grams()),
            hours_saved: kit.map(|kit| kit.hours_saved.get()),
            to_buy: kit.map(|kit| kit.to_buy.units()),
        }
    }
    answer.alone.iter().map(line).collect()
}

fn moved(change: &fardel_core::answer::split::Move) -> Move<'_> {
    Move { name: &change.name, count: change.count, from: change.from.as_deref(), to: change.to.as_deref() }
}
