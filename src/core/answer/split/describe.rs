//! A solved split told in plain data.

use super::floor::absences;
use super::plan::{
    AbsenceLine, Alone, ApartLine, Card, Carried, Floor, GroupFigures, GroupProof, GroupTrip, Move, SplitAnswer,
};
use super::solve::{SplitSolved, terms};
use crate::allocation::{self, Absence, Preferences, Situation, stretches};
use crate::answer::checks::group_checks;
use crate::answer::describe::{needs, overcome, packed_bag, packed_items, purchases, risks, totals};
use crate::answer::home;
use crate::answer::loading::loadings;
use crate::answer::sets::on_bikes;
use crate::answer::{charge_short, fuel};
use crate::domain::{Catalogue, Kind, Rider, Scenario, Surface};
use crate::resolve::{Apart, Instance};
use crate::risk::{self, KitValue, RiskModel};
use crate::units::{Distance, Hours, Mass, Quantity};
use fardel_milp::SolveOptions;

/// What was given and what was found.
pub(super) struct Found<'a> {
    pub catalogue: &'a Catalogue,
    pub scenario: &'a Scenario,
    pub riders: &'a [Rider],
    pub instance: &'a Instance,
    pub risk_model: &'a RiskModel,
    pub preferences: &'a Preferences,
    pub solved: &'a SplitSolved,
    pub floor: Option<f64>,
    pub alone: Vec<Alone>,
    pub options: &'a SolveOptions,
}

/// The whole answer.
pub(super) fn describe(found: &Found<'_>) -> SplitAnswer {
    let Found { catalogue, scenario, instance, risk_model, solved, .. } = *found;
    let counts = &solved.counts;
    let together = stretches(instance);
    let value = risk::value(instance, risk_model, counts);
    let absences = absences(instance, counts, found.floor.unwrap_or(0.0));
    let mut kinds: Vec<Kind> =
        instance.items.iter().zip(counts).filter(|(_, n)| **n > 0).map(|(i, _)| i.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let (twice, once) = carried(found, &absences);
    SplitAnswer {
        scenario: scenario.name.clone(),
        trip: trip(scenario, found.riders, &together),
        totals: totals(catalogue, instance, counts),
        figures: figures(found, &together),
        prices: home::price_tags(instance, &risk_model.at(instance, counts)),
        proof: GroupProof {
            engine: found.options.engine.word(),
            proven: solved.proven,
            gap: if solved.proven {
                0.0
            } else {
                (solved.bound - solved.objective).max(0.0) / solved.objective.abs().max(1e-9)
            },
            objective: solved.objective,
            bound: solved.bound,
            fairest: solved.allocation.proven,
            largest_share: solved.allocation.largest,
        },
        cards: cards(found, &value),
        sets: on_bikes(instance, &solved.allocation.holdings),
        twice,
        once,
        absences: absences.iter().map(|absence| absence_line(found, absence)).collect(),
        apart: apart(found, &together),
        floor: found.floor.map(|share| Floor {
            share,
            doubled: doubled(found),
            mass: risk::value::mass(instance, counts) - solved.before_floor.0.min(risk::value::mass(instance, counts)),
            hours: Hours::new((solved.before_floor.1 - solved.objective).max(0.0)),
        }),
        alone: found.alone.clone(),
        moves: found.preferences.before.as_ref().map(|before| moves(instance, before, &solved.allocation.holdings)),
        checks: group_checks(catalogue, found.riders),
        needs: group_needs(instance, counts),
        fuel: fuel::short(instance, counts),
        charge: charge_short(instance),
        purchases: purchases(instance, counts),
        risks: risks(catalogue, &with_riders(instance), risk_model, &value, counts),
        warnings: instance.warnings.iter().cloned().chain(overcome(&solved.failed)).collect(),
        kinds,
    }
}

fn trip(scenario: &Scenario, riders: &[Rider], together: &[Situation]) -> GroupTrip {
    let own: Vec<Scenario> = riders.iter().map(|rider| scenario.as_ridden_by(rider)).collect();
    let legs = || own.iter().map(|own| &own.trip.legs);
    let km = |legs: &Vec<crate::domain::Leg>| -> Distance {
        legs.iter().flat_map(|leg| Surface::ALL.iter().map(|s| leg.km.on(*s))).sum()
    };
    let longest = |a: Distance, b: Distance| if b > a { b } else { a };
    GroupTrip {
        days: legs().map(|legs| legs.iter().map(|leg| leg.days).sum()).fold(0.0, f64::max),
        nights: legs().map(|legs| legs.iter().map(|leg| leg.nights).sum()).max().unwrap_or(0),
        distance: legs().map(km).fold(Distance::ZERO, longest),
        furthest: legs().flatten().map(|leg| leg.hours_to_help).fold(Hours::ZERO, |a, b| if b > a { b } else { a }),
        splits: together.len() > 1,
    }
}

fn figures(found: &Found<'_>, together: &[Situation]) -> GroupFigures {
    let holdings = &found.solved.allocation.holdings;
    let terms = terms(found.instance, found.risk_model, together, holdings, &found.solved.counts);
    let saved = terms.saved;
    let empty = found.risk_model.hours_empty();
    GroupFigures {
        failures: found.risk_model.means.iter().sum(),
        hours_empty: Hours::new(empty),
        hours_saved: Hours::new(saved),
        hours_handling: Hours::new(terms.handling()),
        terms,
        coverage: if empty > 0.0 { saved / empty } else { 1.0 },
        home: (together.len() == 1).then(|| home::home(found.instance, &found.solved.counts, &masses(found))),
    }
}

/// What is on each bike.
fn masses(found: &Found<'_>) -> Vec<Mass> {
    found.solved.allocation.holdings.iter().map(|held| risk::value::mass(found.instance, held)).collect()
}

fn cards(found: &Found<'_>, value: &KitValue) -> Vec<Card> {
    let Found { catalogue, instance, risk_model, solved, .. } = *found;
    let counts = &solved.counts;
    let total = risk::value::mass(instance, counts).kilograms();
    let items = packed_items(instance, risk_model, value, counts);
    let card = |(at, rider): (usize, &Rider)| {
        let part = allocation::part(instance, at);
        let placement = &solved.allocation.placements[at];
        let built_in = |id: &String| catalogue.bikes.get(&rider.bike).is_some_and(|bike| bike.bags.contains(id));
        let bags = part.bags.iter().zip(placement);
        let bags = bags.map(|(bag, units)| packed_bag(bag, built_in(&bag.id), instance, &items, units));
        let held = &solved.allocation.holdings[at];
        let personal = instance.items.iter().zip(held).filter(|(item, _)| item.owner.is_some());
        Some(Card {
            rider: rider.name.clone(),
            bike: instance.mounts[at].bike.clone(),
            roles: rider.roles.clone(),
            mass: risk::value::mass(instance, held),
            fair: Mass::from_base(total * found.preferences.fair[at] * 1e6),
            limit: instance.own_kit_mass[at],
            personal: personal.map(|(item, n)| item.mass * *n).sum(),
            bags: bags.collect(),
            load: loadings(&part, placement, (catalogue, found.scenario, &[rider])).into_iter().next()?,
        })
    };
    found.riders.iter().enumerate().filter_map(card).collect()
}

/// Shared things that several riders carry, and those that one carries; the latter by how much they are missed.
fn carried(found: &Found<'_>, absences: &[Absence]) -> (Vec<Carried>, Vec<Carried>) {
    let Found { instance, solved, .. } = *found;
    let (mut twice, mut once) = (Vec::new(), Vec::new());
    for (item, own) in instance.items.iter().enumerate().filter(|(_, item)| item.owner.is_none()) {
        let by: Vec<(usize, u32)> = solved
            .allocation
            .holdings
            .iter()
            .enumerate()
            .map(|(at, held)| (at, held[item]))
            .filter(|(_, n)| *n > 0)
            .collect();
        let mut without = solved.counts.clone();
        without[item] = 0;
        let missed = |absence: &Absence| -> f64 {
            absence.with_all - absence.situations.iter().map(|situation| situation.saved(&without)).sum::<f64>()
        };
        let (list, missed) = match by.as_slice() {
            [] => continue,
            [(only, _)] => (&mut once, missed(&absences[*only])),
            _ => (&mut twice, absences.iter().map(missed).fold(0.0, f64::max)),
        };
        list.push(Carried {
            name: own.name.clone(),
            by: by.iter().map(|(at, n)| (instance.mounts[*at].rider.clone(), *n)).collect(),
            mass: own.mass * solved.counts[item],
            missed: Hours::new(missed.max(0.0)),
        });
    }
    for list in [&mut twice, &mut once] {
        list.sort_by(|a, b| b.missed.get().total_cmp(&a.missed.get()));
    }
    (twice, once)
}

fn absence_line(found: &Found<'_>, absence: &Absence) -> AbsenceLine {
    let holdings = &found.solved.allocation.holdings;
    let left = absence.saved(holdings);
    let mut open: Vec<(f64, String)> = Vec::new();
    for situation in &absence.situations {
        let with_all = risk::value(&situation.instance, &situation.risk_model, &found.solved.counts);
        let now = risk::value(&situation.instance, &situation.risk_model, &situation.held(holdings));
        for (at, failure) in situation.instance.failures.iter().enumerate() {
            let lost = with_all.saved[at] - now.saved[at];
            if with_all.saved[at] > 0.0 && now.saved[at] <= 0.0 {
                open.push((lost, failure.name.clone()));
            }
        }
    }
    open.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let mut names: Vec<String> = Vec::new();
    for (_, name) in open {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    AbsenceLine {
        rider: found.instance.mounts[absence.rider].rider.clone(),
        with_all: Hours::new(absence.with_all),
        left: Hours::new(left),
        share: if absence.with_all > 0.0 { left / absence.with_all } else { 1.0 },
        open: names,
    }
}

/// Who rides legs without the others, and what is not with them that these legs demand.
fn apart(found: &Found<'_>, together: &[Situation]) -> Vec<ApartLine> {
    let Found { instance, solved, .. } = *found;
    let holdings = &solved.allocation.holdings;
    let name = |rider: usize| instance.mounts[rider].rider.clone();
    let line = |part: &Apart| {
        let situation = together.iter().find(|situation| situation.present == part.present)?;
        let has = |rider: usize, demand: usize| {
            let held = instance.items.iter().zip(&holdings[rider]).filter(|(_, n)| **n > 0);
            held.into_iter().any(|(item, _)| item.meets.iter().any(|(met, _)| *met == demand))
        };
        let with = |demand: usize| {
            (0..holdings.len()).filter(|rider| !part.present[*rider] && has(*rider, demand)).map(name).collect()
        };
        let lacking = allocation::lacking(situation, holdings);
        let lacking = lacking.into_iter().map(|demand| (instance.demands[demand].name.clone(), with(demand)));
        let riders = situation.riders().into_iter().map(name).collect();
        Some(ApartLine { riders, legs: part.legs.clone(), lacking: lacking.collect() })
    };
    instance.apart.iter().filter_map(line).collect()
}

/// Where the group rides several sorts of bike, failures are told with those whom they can happen to.
fn with_riders(instance: &Instance) -> Instance {
    let mut told = instance.clone();
    let riders =
        |own: &[usize]| own.iter().map(|at| instance.mounts[*at].rider.as_str()).collect::<Vec<_>>().join(", ");
    for failure in told.failures.iter_mut().filter(|failure| failure.riders.len() < instance.mounts.len()) {
        failure.name = format!("{} ({})", failure.name, riders(&failure.riders));
    }
    told
}

/// What is there twice because of the floor; of one function only the largest count.
fn doubled(found: &Found<'_>) -> Vec<String> {
    use crate::allocation::Redundancy::Function;
    let all = &found.solved.redundancies;
    let larger =
        |function: usize, count: u32| all.iter().any(|d| matches!(d, Function(f, n) if *f == function && *n > count));
    let told = all.iter().filter(|redundancy| !matches!(redundancy, Function(f, n) if larger(*f, *n)));
    let mut names: Vec<String> = told.map(|redundancy| redundancy.name(found.instance)).collect();
    names.sort();
    names.dedup();
    names
}

/// Needs that each rider has are told once where all of them are alike.
fn group_needs(instance: &Instance, counts: &[u32]) -> Vec<crate::answer::NeedLine> {
    let mut lines = needs(instance, counts);
    for (line, demand) in lines.iter_mut().zip(&instance.demands) {
        if let Some(owner) = demand.owner {
            line.name = format!("{}, {}", line.name, instance.mounts[owner].rider);
        }
    }
    lines
}

/// What changes hands: units that one rider has fewer of go to those who have more, in the order of the riders; the
/// rest comes from home or stays there.
fn moves(instance: &Instance, before: &[Vec<u32>], after: &[Vec<u32>]) -> Vec<Move> {
    let mut all = Vec::new();
    for (item, own) in instance.items.iter().enumerate() {
        let name = |rider: usize| Some(instance.mounts[rider].rider.clone());
        let change = |rider: usize| i64::from(after[rider][item]) - i64::from(before[rider][item]);
        let mut giving: Vec<(usize, i64)> =
            (0..after.len()).map(|rider| (rider, -change(rider))).filter(|(_, n)| *n > 0).collect();
        let mut add = |from: Option<String>, to: Option<String>, count: i64| {
            let count = u32::try_from(count).unwrap_or(0);
            all.push(Move { name: own.name.clone(), count, from, to });
        };
        for rider in 0..after.len() {
            let mut wanted = change(rider).max(0);
            for (giver, left) in &mut giving {
                let count = wanted.min(*left);
                if count > 0 {
                    add(name(*giver), name(rider), count);
                    wanted -= count;
                    *left -= count;
                }
            }
            if wanted > 0 {
                add(None, name(rider), wanted);
            }
        }
        for (giver, left) in giving.into_iter().filter(|(_, left)| *left > 0) {
            add(name(giver), None, left);
        }
    }
    all
}
