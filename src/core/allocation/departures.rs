//! What is too much to lose with one rider, and what is missed most of it.

use super::redundancy::{Absence, Redundancy, candidates, obtainable};
use super::{Holdings, Situation};
use crate::parallel;
use crate::resolve::Instance;

/// Units with a rider whose absence leaves too little, the most missed first, as few as already are too much to lose.
#[must_use]
pub fn too_much(instance: &Instance, absence: &Absence, holdings: &Holdings, counts: &[u32]) -> Vec<(usize, u32)> {
    let own = &holdings[absence.rider];
    let without = |units: &[(usize, u32)]| saved_less(absence, counts, units);
    let shared = (0..instance.items.len()).filter(|item| own[*item] > 0 && instance.items[*item].owner.is_none());
    let missed = |item: usize| (absence.with_all - without(&[(item, own[item])]), item);
    let mut carried: Vec<(f64, usize)> = parallel::map(shared.collect(), missed);
    carried.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let mut units = Vec::new();
    for (_, item) in carried {
        units.push((item, own[item]));
        if without(&units) < absence.least {
            break;
        }
    }
    // The last one made it too much; some before it may not be needed for that.
    let mut at = 0;
    while at < units.len() {
        let mut fewer = units.clone();
        fewer.remove(at);
        if without(&fewer) < absence.least { units = fewer } else { at += 1 }
    }
    units
}

/// Would these units be too much to lose with this rider?
#[must_use]
pub fn is_too_much(absence: &Absence, counts: &[u32], units: &[(usize, u32)]) -> bool {
    saved_less(absence, counts, units) < absence.least
}

/// What those who stay save with the whole kit less these units.
fn saved_less(absence: &Absence, counts: &[u32], units: &[(usize, u32)]) -> f64 {
    let mut left = counts.to_vec();
    units.iter().for_each(|(item, count)| left[*item] = left[*item].saturating_sub(*count));
    // As one rider with all of it, so that things whose own requirements are gone do not count.
    let all = |situation: &Situation| {
        let mut holdings = vec![vec![0; left.len()]; situation.present.len()];
        if let Some(first) = situation.present.iter().position(|present| *present) {
            holdings[first].clone_from(&left);
        }
        situation.saved(&situation.held(&holdings))
    };
    absence.situations.iter().map(all).sum()
}

/// What the riders who stay lose by what only one rider has, in an absence where too little is left: the most missed
/// first, as far as it takes to make up for the shortfall.
#[must_use]
pub fn wanting(instance: &Instance, absence: &Absence, holdings: &Holdings, counts: &[u32]) -> Vec<Redundancy> {
    let saved = |held: &dyn Fn(&Situation) -> Vec<u32>| -> f64 {
        absence.situations.iter().map(|situation| situation.saved(&held(situation))).sum()
    };
    let mut shortfall = absence.least - saved(&|situation| situation.held(holdings));
    let left = &holdings[absence.rider];
    let own = |redundancy: &Redundancy| {
        let gone = instance.items.iter().zip(left).any(|(item, n)| *n > 0 && redundancy.given(item) > 0);
        let parts = redundancy.ways(instance).iter().flatten();
        let part_gone = parts
            .map(|part| Redundancy::Function(*part, 1))
            .any(|part| instance.items.iter().zip(left).any(|(item, n)| *n > 0 && part.given(item) > 0));
        (gone || part_gone) && !redundancy.holds(instance, counts)
    };
    let loss = |redundancy: Redundancy| (absence.loss(counts, redundancy), redundancy);
    let open = candidates(instance).into_iter().filter(own).filter(|redundancy| obtainable(instance, *redundancy));
    let mut losses: Vec<(f64, Redundancy)> = parallel::map(open.collect(), loss);
    losses.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let mut wanted = Vec::new();
    for (loss, redundancy) in losses {
        if shortfall <= 0.0 || loss <= 0.0 {
            break;
        }
        shortfall -= loss;
        wanted.push(redundancy);
    }
    wanted
}
