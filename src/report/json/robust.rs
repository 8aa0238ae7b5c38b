//! The part of `pack` that tells what depends on numbers that are not known well.

use super::measure::{Measured, measured};
use fardel_core::answer::{Robust, Trial};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Uncertain<'a> {
    draws: u64,
    draws_unsolved: u64,
    different_kits: usize,
    items: Vec<Share<'a>>,
    packed: Judged<'a>,
    best_on_average: Judged<'a>,
    best_in_worst_tenth: Judged<'a>,
    measure_first: Measured<'a>,
}

#[derive(Serialize)]
struct Share<'a> {
    id: &'a str,
    name: &'a str,
    share_of_kits: f64,
    in_packed_kit: bool,
}

#[derive(Serialize)]
struct Judged<'a> {
    hours_lost_mean: f64,
    hours_lost_worst_tenth: f64,
    hours_lost_ridden: f64,
    hours_lost_ridden_standard_error: f64,
    items: Vec<Counted<'a>>,
}

#[derive(Serialize)]
struct Counted<'a> {
    id: &'a str,
    count: u32,
}

pub(super) fn uncertain(robust: &Robust) -> Uncertain<'_> {
    let items = robust.items.iter().map(|item| Share {
        id: &item.id,
        name: &item.name,
        share_of_kits: item.share,
        in_packed_kit: item.packed,
    });
    Uncertain {
        draws: robust.draws,
        draws_unsolved: robust.unsolved,
        different_kits: robust.kits,
        items: items.collect(),
        packed: judged(&robust.packed),
        best_on_average: judged(&robust.best_mean),
        best_in_worst_tenth: judged(&robust.best_worst),
        measure_first: measured(&robust.measure),
    }
}

fn judged(trial: &Trial) -> Judged<'_> {
    Judged {
        hours_lost_mean: trial.mean.get(),
        hours_lost_worst_tenth: trial.worst.get(),
        hours_lost_ridden: trial.ridden.mean,
        hours_lost_ridden_standard_error: trial.ridden.error,
        items: trial.kit.iter().map(|(id, count)| Counted { id, count }).collect(),
    }
}
