//! A card for the pocket: what is likely to break, and how the kit aboard mends it.

use super::cautions::on_the_card;
use super::charge::{ChargeShort, charge_short};
use super::checks::checks;
use super::describe::summary;
use super::fuel::{self, FuelShort};
use super::plan::{PackAnswer, TripSummary};
use super::shapes::TripParts;
use super::shapes::{Cautions, OpenFailure};
use crate::domain::{Catalogue, Check, Grade, Kind, Kit, Repair, RepairSkill, Rider, Scenario, Stowage};
use crate::rehearse::Providers;
use crate::resolve::{Instance, InstanceRepair, resolve};
use crate::risk;
use crate::serial::{Listed, Number};
use crate::units::Hours;
use schemars::JsonSchema;
use serde::Serialize;

/// A repair that deals with a smaller share of the occurrences than this is not on the card.
const SELDOM: f64 = 0.005;

/// What to do about likely failures with a kit.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CardAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// What is looked at before leaving, in the order of the catalogue.
    pub checks: Vec<Check>,
    /// The failures that the kit mends, the likeliest first.
    pub failures: Vec<CardFailure>,
    /// How many more, less likely ones the kit mends.
    #[serde(rename = "more_failures")]
    pub more: usize,
    /// Likely failures that the kit does nothing about, with their means.
    #[serde(rename = "not_mended", with = "Listed::<OpenFailure>")]
    pub open: Vec<(String, f64)>,
    /// What goes before any repair on the roadside, in words.
    pub before_any_repair: Vec<&'static str>,
    /// Is it known which bag each thing is in?
    #[serde(rename = "bags_known")]
    pub stowed: bool,
    /// Where the petrol does not reach the next pump.
    #[serde(rename = "fuel_short")]
    pub fuel: Option<FuelShort>,
    /// Where a battery does not reach the next place to charge; left out where all do.
    #[serde(rename = "charge_short", skip_serializing_if = "Option::is_none")]
    pub charge: Option<ChargeShort>,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
}

/// A failure on the card.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CardFailure {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// `stops`, `limps` or `nags`.
    pub outcome: &'static str,
    /// Expected occurrences on the trip.
    #[serde(rename = "expected_occurrences")]
    pub mean: f64,
    /// What the kit does about it, the first choice first.
    pub repairs: Vec<CardRepair>,
}

/// A way to mend it with what is aboard.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct CardRepair {
    /// Key within the failure.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Bodge, field repair or full repair.
    pub grade: Grade,
    /// 1: as before.
    pub restores: f64,
    /// Working time.
    #[serde(rename = "time_h", with = "Number")]
    pub time: Hours,
    /// The least skill for it.
    pub skill: RepairSkill,
    /// How many riders have to be there.
    pub riders: u32,
    /// What is done, in order; none where the catalogue has none.
    pub steps: Vec<String>,
    /// What to look at afterwards.
    pub check_after: Vec<String>,
    /// Things to reach for.
    pub tools: Vec<CardThing>,
    /// Things that are used up, with what is used of them.
    pub used_up: Vec<CardThing>,
}

/// A thing and where it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CardThing {
    /// As a rider would say it.
    pub name: String,
    /// Names of the bags that hold some; empty where that is not known.
    pub bags: Vec<String>,
}

/// A kit that is aboard, and where it is if that is known.
#[derive(Debug, Clone, Copy)]
pub struct Aboard<'a> {
    /// What there is.
    pub kit: &'a Kit,
    /// Which bag it is in.
    pub stowage: Option<&'a Stowage>,
}

impl<'a> Aboard<'a> {
    /// As packed by `pack`.
    #[must_use]
    pub const fn packed(answer: &'a PackAnswer) -> Self {
        Self { kit: &answer.kit, stowage: Some(&answer.stowage) }
    }
}

/// The card of a rider's trip with a kit, for so many failures. `None` if the rider's bike is not in the catalogue.
#[must_use]
pub fn card(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    aboard: Aboard<'_>,
    top: usize,
) -> Option<CardAnswer> {
    let instance = resolve(catalogue, scenario, rider)?;
    let electric = catalogue.bikes.get(&rider.bike).is_some_and(|bike| bike.energy.range().is_some());
    let counts = instance.counts(aboard.kit);
    let risk_model = risk::assess(&instance);
    let shares = risk::value(&instance, &risk_model, &counts).shares;
    let search = Search {
        catalogue,
        instance: &instance,
        providers: Providers::new(&instance, &counts),
        counts: &counts,
        aboard,
    };
    let mut order: Vec<usize> = (0..instance.failures.len()).collect();
    order.sort_by(|a, b| risk_model.means[*b].total_cmp(&risk_model.means[*a]).then(a.cmp(b)));
    let (mended, open): (Vec<usize>, Vec<usize>) =
        order.into_iter().partition(|at| shares[*at].iter().any(|share| *share > SELDOM));
    let failures: Vec<CardFailure> =
        mended.iter().take(top).map(|at| search.failure(*at, risk_model.means[*at], &shares[*at])).collect();
    let least = failures.last().map_or(0.0, |last| last.mean);
    let open = open.into_iter().filter(|at| risk_model.means[*at] >= least).take(top);
    let mut kinds: Vec<Kind> =
        instance.items.iter().zip(&counts).filter(|(_, n)| **n > 0).map(|(i, _)| i.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    Some(CardAnswer {
        trip: summary(catalogue, scenario, rider),
        checks: checks(catalogue, rider),
        more: mended.len() - failures.len(),
        open: open.map(|at| (instance.failures[at].name.clone(), risk_model.means[at])).collect(),
        failures,
        before_any_repair: on_the_card(electric),
        stowed: aboard.stowage.is_some(),
        fuel: fuel::short(&instance, &counts),
        charge: charge_short(&instance),
        warnings: Vec::new(),
        kinds,
    })
}

/// What is looked through.
struct Search<'a> {
    catalogue: &'a Catalogue,
    instance: &'a Instance,
    providers: Providers<'a>,
    counts: &'a [u32],
    aboard: Aboard<'a>,
}

impl Search<'_> {
    fn failure(&self, at: usize, mean: f64, shares: &[f64]) -> CardFailure {
        let own = &self.instance.failures[at];
        let mut chosen: Vec<usize> = (0..own.repairs.len()).filter(|r| shares[*r] > SELDOM).collect();
        chosen.sort_by(|a, b| shares[*b].total_cmp(&shares[*a]).then(a.cmp(b)));
        CardFailure {
            id: own.id.clone(),
            name: own.name.clone(),
            outcome: own.outcome.word(),
            mean,
            repairs: chosen.into_iter().map(|r| self.repair(&own.id, &own.repairs[r])).collect(),
        }
    }

    fn repair(&self, failure: &str, own: &InstanceRepair) -> CardRepair {
        let written = self.catalogue.failures.get(failure);
        let written: Option<&Repair> = written.and_then(|failure| failure.repairs.iter().find(|r| r.id == own.id));
        let needed = own.needs.iter().filter_map(|(function, n)| self.providers.of(*function, *n)).flatten();
        CardRepair {
            id: own.id.clone(),
            name: own.name.clone(),
            grade: own.grade,
            restores: own.restores,
            time: own.time,
            skill: own.skill,
            riders: own.riders,
            steps: written.map_or_else(Vec::new, |written| written.steps.clone()),
            check_after: written.map_or_else(Vec::new, |written| written.check_after.clone()),
            tools: self.things(needed),
            used_up: self.things(own.uses.iter().flat_map(|(stock, _)| self.holders(*stock))),
        }
    }

    /// Items in the kit that hold some of a stock.
    fn holders(&self, stock: usize) -> Vec<usize> {
        let holds = |item: &usize| self.instance.items[*item].holds.iter().any(|(held, n)| *held == stock && *n > 0);
        (0..self.counts.len()).filter(|item| self.counts[*item] > 0 && holds(item)).collect()
    }

    /// Each thing once, with its bags.
    fn things(&self, items: impl Iterator<Item = usize>) -> Vec<CardThing> {
        let mut seen: Vec<usize> = Vec::new();
        items.for_each(|item| {
            if !seen.contains(&item) {
                seen.push(item);
            }
        });
        let thing = |item: usize| {
            let own = &self.instance.items[item];
            CardThing { name: own.name.clone(), bags: self.bags(&own.key) }
        };
        seen.into_iter().map(thing).collect()
    }

    fn bags(&self, item: &str) -> Vec<String> {
        let holding = self.aboard.stowage.into_iter().flatten();
        let holding = holding.filter(|(_, things)| things.get(item).is_some_and(|count| *count > 0));
        holding
            .filter_map(|(bag, _)| Some(self.instance.bags.iter().find(|own| own.id == *bag)?.name.clone()))
            .collect()
    }
}
