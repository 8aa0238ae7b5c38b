//! The answer for machines. Field names carry their unit; a field that does not apply is `null`, never 0.
//!
//! `schema_version` rises when a field changes its meaning or goes; new fields may come without that.

use crate::answer::solve::Way;
use crate::answer::{PackAnswer, PackedItem, Remedy, RiskLine, Standing};
use crate::report::cautions::cautions;
use serde::Serialize;

/// Version of the shape below; see DEVELOPERS.md for the fields.
pub const SCHEMA_VERSION: u32 = 1;

#[derive(Serialize)]
struct Pack<'a> {
    schema_version: u32,
    command: &'static str,
    program: &'static str,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    trip: Trip,
    totals: Totals,
    figures: Figures,
    proof: Proof,
    bags: Vec<Bag<'a>>,
    purchases: Vec<Purchase<'a>>,
    loaded: Loaded,
    toolkit_left: Vec<Left<'a>>,
    risks: Vec<Risk<'a>>,
    needs: Vec<Need<'a>>,
    items_considered: usize,
    items_dropped: Vec<Dropped>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Trip {
    days: f64,
    nights: u32,
    distance_km: f64,
    track_and_rough_km: f64,
    furthest_help_h: f64,
}

#[derive(Serialize)]
struct Totals {
    units: u32,
    mass_g: f64,
    mass_limit_g: Option<f64>,
    volume_ml: f64,
    room_ml: f64,
    to_buy: f64,
    budget: Option<f64>,
    currency: String,
}

#[derive(Serialize)]
struct Figures {
    expected_failures: f64,
    hours_lost_empty: f64,
    hours_saved: f64,
    hours_handling: f64,
    hours_lost_with_kit: f64,
    coverage: f64,
    self_recovery_at_least: f64,
    self_recovery_empty_at_least: f64,
}

#[derive(Serialize)]
struct Proof {
    engine: &'static str,
    proven_optimal: bool,
    relative_gap: f64,
    objective_h: f64,
    bound_h: f64,
    stow_rounds: usize,
    joint_model: bool,
}

#[derive(Serialize)]
struct Bag<'a> {
    id: &'a str,
    name: &'a str,
    empty_g: f64,
    part_of_bike: bool,
    filled_ml: f64,
    usable_ml: f64,
    mass_g: f64,
    max_load_g: f64,
    items: Vec<Item<'a>>,
}

#[derive(Serialize)]
struct Item<'a> {
    id: &'a str,
    name: &'a str,
    kind: &'static str,
    standing: &'static str,
    count: u32,
    mass_g: f64,
    volume_ml: f64,
    to_buy_in_kit: u32,
    from_toolkit_in_kit: u32,
    hours_lost_without: f64,
    purposes: &'a [String],
}

#[derive(Serialize)]
struct Purchase<'a> {
    name: &'a str,
    count: u32,
    price: f64,
}

#[derive(Serialize)]
struct Loaded {
    bike_g: f64,
    people_g: f64,
    bags_g: f64,
    kit_g: f64,
    total_g: f64,
    allowed_g: f64,
}

#[derive(Serialize)]
struct Left<'a> {
    name: &'a str,
    count: u32,
    mass_g: f64,
}

#[derive(Serialize)]
struct Risk<'a> {
    id: &'a str,
    name: &'a str,
    system: &'a str,
    outcome: &'static str,
    expected_occurrences: f64,
    hours_lost_empty: f64,
    hours_lost_with_kit: f64,
    repairs: Vec<Repair<'a>>,
    remedy: Option<Take<'a>>,
    skill_wanted: Option<&'static str>,
}

#[derive(Serialize)]
struct Repair<'a> {
    name: &'a str,
    share_of_occurrences: f64,
}

#[derive(Serialize)]
struct Take<'a> {
    repair: &'a str,
    items: Vec<Counted<'a>>,
    mass_g: f64,
}

#[derive(Serialize)]
struct Counted<'a> {
    name: &'a str,
    count: u32,
}

#[derive(Serialize)]
struct Need<'a> {
    id: &'a str,
    name: &'a str,
    unit: &'a str,
    demanded: f64,
    carried: f64,
    working: &'a str,
}

#[derive(Serialize)]
struct Dropped {
    reason: &'static str,
    items: usize,
}

/// The answer of `pack` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn pack(answer: &PackAnswer) -> Result<String, serde_json::Error> {
    let shape = Pack {
        schema_version: SCHEMA_VERSION,
        command: "pack",
        program: concat!("fardel ", env!("CARGO_PKG_VERSION")),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        trip: Trip {
            days: answer.trip.days,
            nights: answer.trip.nights,
            distance_km: answer.trip.distance.km(),
            track_and_rough_km: answer.trip.off_road.km(),
            furthest_help_h: answer.trip.furthest.get(),
        },
        totals: totals(answer),
        figures: figures(answer),
        proof: Proof {
            engine: answer.proof.engine,
            proven_optimal: answer.proof.proven,
            relative_gap: answer.proof.gap,
            objective_h: answer.proof.objective,
            bound_h: answer.proof.bound,
            stow_rounds: answer.proof.rounds,
            joint_model: answer.proof.way == Way::Joint,
        },
        bags: answer.bags.iter().map(bag).collect(),
        purchases: answer
            .purchases
            .iter()
            .map(|p| Purchase { name: &p.name, count: p.count, price: p.price.units() })
            .collect(),
        loaded: Loaded {
            bike_g: answer.loaded.bike.grams(),
            people_g: answer.loaded.people.grams(),
            bags_g: answer.loaded.bags.grams(),
            kit_g: answer.loaded.kit.grams(),
            total_g: answer.loaded.total().grams(),
            allowed_g: answer.loaded.allowed.grams(),
        },
        toolkit_left: answer
            .toolkit_left
            .iter()
            .map(|left| Left { name: &left.name, count: left.count, mass_g: left.mass.grams() })
            .collect(),
        risks: answer.risks.iter().map(risk).collect(),
        needs: answer
            .needs
            .iter()
            .map(|need| Need {
                id: &need.id,
                name: &need.name,
                unit: &need.unit,
                demanded: need.demanded,
                carried: need.carried,
                working: &need.working,
            })
            .collect(),
        items_considered: answer.considered,
        items_dropped: answer
            .dropped
            .iter()
            .map(|(reason, items)| Dropped { reason: reason.words(), items: *items })
            .collect(),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    };
    serde_json::to_string_pretty(&shape).map(|text| text + "\n")
}

fn totals(answer: &PackAnswer) -> Totals {
    let totals = &answer.totals;
    Totals {
        units: totals.units,
        mass_g: totals.mass.grams(),
        mass_limit_g: totals.mass_limit.map(crate::units::Mass::grams),
        volume_ml: totals.volume.millilitres(),
        room_ml: totals.room.millilitres(),
        to_buy: totals.to_buy.units(),
        budget: totals.budget.map(crate::units::Money::units),
        currency: totals.currency.to_string(),
    }
}

fn figures(answer: &PackAnswer) -> Figures {
    let figures = &answer.figures;
    let (empty, saved, handling) = (figures.hours_empty.get(), figures.hours_saved.get(), figures.handling.get());
    Figures {
        expected_failures: figures.failures,
        hours_lost_empty: empty,
        hours_saved: saved,
        hours_handling: handling,
        hours_lost_with_kit: empty - saved + handling,
        coverage: figures.coverage,
        self_recovery_at_least: figures.self_recovery,
        self_recovery_empty_at_least: figures.self_recovery_empty,
    }
}

fn bag(bag: &crate::answer::PackedBag) -> Bag<'_> {
    Bag {
        id: &bag.id,
        name: &bag.name,
        empty_g: bag.own_mass.grams(),
        part_of_bike: bag.built_in,
        filled_ml: bag.filled.millilitres(),
        usable_ml: bag.usable.millilitres(),
        mass_g: bag.mass.grams(),
        max_load_g: bag.max_load.grams(),
        items: bag.items.iter().map(item).collect(),
    }
}

fn item(item: &PackedItem) -> Item<'_> {
    Item {
        id: &item.id,
        name: &item.name,
        kind: item.kind.word(),
        standing: match item.standing {
            Standing::Earns => "earns",
            Standing::Needed => "needed",
            Standing::Asked => "asked",
        },
        count: item.count,
        mass_g: item.mass.grams(),
        volume_ml: item.volume.millilitres(),
        to_buy_in_kit: item.to_buy,
        from_toolkit_in_kit: item.from_toolkit,
        hours_lost_without: item.worth.get(),
        purposes: &item.purposes,
    }
}

fn risk(risk: &RiskLine) -> Risk<'_> {
    let (remedy, skill_wanted) = match &risk.remedy {
        Remedy::Take { repair, items, mass } => {
            let items = items.iter().map(|extra| Counted { name: &extra.name, count: extra.count }).collect();
            (Some(Take { repair, items, mass_g: mass.grams() }), None)
        }
        Remedy::Skill(skill) => (None, Some(*skill)),
        Remedy::NothingMore => (None, None),
    };
    Risk {
        id: &risk.id,
        name: &risk.name,
        system: &risk.system,
        outcome: risk.outcome,
        expected_occurrences: risk.mean,
        hours_lost_empty: risk.hours_empty.get(),
        hours_lost_with_kit: risk.hours_left.get(),
        repairs: risk.repairs.iter().map(|(name, share)| Repair { name, share_of_occurrences: *share }).collect(),
        remedy,
        skill_wanted,
    }
}
