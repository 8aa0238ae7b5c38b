//! Totals, hours and chances, and the proof.

use fardel_core::answer::PackAnswer;
use fardel_core::answer::solve::Way;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Totals {
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
pub(super) struct Figures {
    expected_failures: f64,
    hours_lost_empty: f64,
    hours_saved: f64,
    hours_handling: f64,
    hours_lost_with_kit: f64,
    coverage: f64,
    self_recovery: Option<f64>,
    self_recovery_standard_error: Option<f64>,
    self_recovery_at_least: f64,
    self_recovery_empty_at_least: f64,
}

/// The terms of the objective, in hours of the trip.
#[derive(Serialize)]
pub(super) struct Objective {
    hours_saved: f64,
    dread_saved: f64,
    riding: f64,
    falls: f64,
    money: f64,
    packing: f64,
    total: f64,
}

/// What the kit was chosen by.
#[derive(Serialize)]
pub(super) struct Prices {
    kilogram_h: f64,
    kilogram_riding_h: f64,
    kilogram_falls_h: f64,
    hour: f64,
    thing_h: f64,
    fetched_nearest_h: f64,
    fetched_furthest_h: f64,
    dread_furthest_h: f64,
}

#[derive(Serialize)]
pub(super) struct Proof {
    engine: &'static str,
    proven_optimal: bool,
    relative_gap: f64,
    objective_h: f64,
    bound_h: f64,
    stow_rounds: usize,
    joint_model: bool,
}

pub(super) fn totals(answer: &PackAnswer) -> Totals {
    totals_of(&answer.totals)
}

pub(super) fn totals_of(totals: &fardel_core::answer::Totals) -> Totals {
    Totals {
        units: totals.units,
        mass_g: totals.mass.grams(),
        mass_limit_g: totals.mass_limit.map(fardel_core::units::Mass::grams),
        volume_ml: totals.volume.millilitres(),
        room_ml: totals.room.millilitres(),
        to_buy: totals.to_buy.units(),
        budget: totals.budget.map(fardel_core::units::Money::units),
        currency: totals.currency.to_string(),
    }
}

pub(super) fn figures(answer: &PackAnswer) -> Figures {
    let figures = &answer.figures;
    let (empty, saved, handling) = (figures.hours_empty.get(), figures.hours_saved.get(), figures.handling().get());
    Figures {
        expected_failures: figures.failures,
        hours_lost_empty: empty,
        hours_saved: saved,
        hours_handling: handling,
        hours_lost_with_kit: empty - saved + handling,
        coverage: figures.coverage,
        self_recovery: figures.home.ridden.map(|ridden| ridden.mean),
        self_recovery_standard_error: figures.home.ridden.map(|ridden| ridden.error),
        self_recovery_at_least: figures.home.bound,
        self_recovery_empty_at_least: figures.self_recovery_empty,
    }
}

/// The objective, term by term.
pub(super) const fn objective(terms: &fardel_core::risk::Terms, total: f64) -> Objective {
    Objective {
        hours_saved: terms.saved,
        dread_saved: terms.relief,
        riding: terms.riding,
        falls: terms.falls,
        money: terms.money,
        packing: terms.packing,
        total,
    }
}

/// What carrying, packing and buying a thing costs, in hours of the trip.
#[derive(Serialize)]
pub(super) struct Costs {
    weight_h: f64,
    packing_h: f64,
    money_h: f64,
}

/// The costs of a thing.
pub(super) const fn costs(costs: &fardel_core::answer::ItemCosts) -> Costs {
    Costs { weight_h: costs.weight.get(), packing_h: costs.packing.get(), money_h: costs.money.get() }
}

/// The prices.
pub(super) fn prices(tags: &fardel_core::answer::PriceTags) -> Prices {
    Prices {
        kilogram_h: tags.kilogram.hours(),
        kilogram_riding_h: tags.kilogram.riding,
        kilogram_falls_h: tags.kilogram.falls,
        hour: tags.hour.units(),
        thing_h: tags.thing.get(),
        fetched_nearest_h: tags.fetched.0.get(),
        fetched_furthest_h: tags.fetched.1.get(),
        dread_furthest_h: tags.dread.get(),
    }
}

pub(super) fn proof(proof: &fardel_core::answer::Proof) -> Proof {
    Proof {
        engine: proof.engine,
        proven_optimal: proof.proven,
        relative_gap: proof.gap,
        objective_h: proof.objective,
        bound_h: proof.bound,
        stow_rounds: proof.rounds,
        joint_model: proof.way == Way::Joint,
    }
}
