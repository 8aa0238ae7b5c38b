//! Totals, hours and chances, and the proof.

use crate::answer::PackAnswer;
use crate::answer::solve::Way;
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
    self_recovery_at_least: f64,
    self_recovery_empty_at_least: f64,
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

pub(super) fn totals_of(totals: &crate::answer::Totals) -> Totals {
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

pub(super) fn figures(answer: &PackAnswer) -> Figures {
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

pub(super) fn proof(proof: &crate::answer::Proof) -> Proof {
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
