//! The answer of `class`, and of a study.

use super::brief::brief;
use super::{Head, head, pretty};
use fardel_core::answer::Study;
use fardel_core::answer::cautions;
use fardel_core::answer::class::{ClassAnswer, Member, Shopping};
use serde::Serialize;

/// The answer of `class` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn class(answer: &ClassAnswer) -> Result<String, serde_json::Error> {
    pretty(&class_document(answer))
}

/// One rider's part of it.
///
/// # Errors
/// As [`class`].
pub fn class_member(own: &Member) -> Result<String, serde_json::Error> {
    pretty(&Alone { head: head("class"), member: member(own) })
}

#[derive(Serialize)]
struct Alone<T: Serialize> {
    #[serde(flatten)]
    head: Head,
    #[serde(flatten)]
    member: T,
}

#[derive(Serialize)]
struct Class<'a, M: Serialize> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    leader: &'a str,
    all_ride_together: bool,
    currency: String,
    members: Vec<M>,
    shopping: Vec<Line<'a>>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Of<'a, K: Serialize> {
    rider: &'a str,
    bike: &'a str,
    /// Why there is no kit.
    no_kit: Option<String>,
    kit: Option<K>,
    fasteners: usize,
    cannot_turn: Vec<Fastener<'a>>,
    lacks: Vec<Lack<'a>>,
}

#[derive(Serialize)]
struct Fastener<'a> {
    what: &'a str,
    size: &'a str,
    jobs: &'a [String],
    would_turn: &'a [String],
}

#[derive(Serialize)]
struct Lack<'a> {
    id: &'a str,
    name: &'a str,
    mass_g: f64,
}

#[derive(Serialize)]
struct Line<'a> {
    id: &'a str,
    name: &'a str,
    price: f64,
    buyers: Vec<Buyer<'a>>,
    one_for_all: Option<Once<'a>>,
}

#[derive(Serialize)]
struct Buyer<'a> {
    rider: &'a str,
    count: u32,
}

#[derive(Serialize)]
struct Once<'a> {
    carrier: &'a str,
    saves: f64,
    saves_g: f64,
}

/// As plain data.
pub(super) fn class_document(answer: &ClassAnswer) -> impl Serialize {
    let kinds = answer.members.iter().filter_map(|member| member.kit.as_ref().ok());
    let kinds: Vec<_> = kinds.flat_map(|kit| kit.kinds.clone()).collect();
    Class {
        head: head("class"),
        scenario: &answer.scenario,
        leader: answer.members.get(answer.leader).map_or("", |member| member.rider.as_str()),
        all_ride_together: answer.together,
        currency: answer.currency.to_string(),
        members: answer.members.iter().map(member).collect(),
        shopping: answer.shopping.iter().map(line).collect(),
        warnings: &answer.warnings,
        cautions: cautions(&kinds),
    }
}

fn member(member: &Member) -> impl Serialize {
    Of {
        rider: &member.rider,
        bike: &member.bike,
        no_kit: member.kit.as_ref().err().map(ToString::to_string),
        kit: member.kit.as_ref().ok().map(brief),
        fasteners: member.fasteners,
        cannot_turn: member
            .unturned
            .iter()
            .map(|own| Fastener { what: &own.what, size: &own.size, jobs: &own.jobs, would_turn: &own.would_turn })
            .collect(),
        lacks: member.lacks.iter().map(|own| Lack { id: &own.id, name: &own.name, mass_g: own.mass.grams() }).collect(),
    }
}

fn line(line: &Shopping) -> Line<'_> {
    Line {
        id: &line.id,
        name: &line.name,
        price: line.price.units(),
        buyers: line.buyers.iter().map(|(rider, count)| Buyer { rider, count: *count }).collect(),
        one_for_all: line.once.as_ref().map(|once| Once {
            carrier: &once.carrier,
            saves: once.money.units(),
            saves_g: once.mass.grams(),
        }),
    }
}

#[derive(Serialize)]
struct Studied<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    draws: u64,
    kits_compared: usize,
    all_rates_h: f64,
    rates: Vec<Rate<'a>>,
    turned: Vec<Turned>,
}

#[derive(Serialize)]
struct Rate<'a> {
    id: &'a str,
    name: &'a str,
    factor_low: f64,
    factor_high: f64,
    hours: f64,
}

#[derive(Serialize)]
struct Turned {
    what: &'static str,
    factor: f64,
    hours: f64,
}

/// A study as plain data.
pub(super) fn study_document(study: &Study) -> impl Serialize + '_ {
    let rates = study.rates.iter().map(|own| Rate {
        id: &own.id,
        name: &own.name,
        factor_low: own.range.0,
        factor_high: own.range.1,
        hours: own.hours.get(),
    });
    Studied {
        head: head("study"),
        scenario: &study.trip.0,
        rider: &study.trip.1,
        bike: &study.trip.2,
        draws: study.draws,
        kits_compared: study.kits,
        all_rates_h: study.all_rates.get(),
        rates: rates.collect(),
        turned: study
            .turned
            .iter()
            .map(|own| Turned { what: own.dial.word(), factor: own.factor, hours: own.hours.get() })
            .collect(),
    }
}
