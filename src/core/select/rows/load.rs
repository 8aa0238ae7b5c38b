//! What the bikes may bear, without saying which bag: for each mount and scale (both wheels, front, rear), the least
//! that the kit can put there.
//!
//! A unit puts on a scale at least what it would from the most favourable bag that may take it. Those bags bear only so
//! much, so for every level `c` of charge there is a row that lets the better bags be full and charges everything
//! beyond at `c`: `sum of mass x least of max(c, charge of bag) n - sum over better bags of (c - charge) max load <=
//! spare`. Each holds for every kit that can be stowed; stow has the exact rows.

use crate::resolve::{Instance, Mount, Scale};
use crate::select::Columns;
use crate::select::rows::PlainRow;
use fardel_milp::{Model, Sense};

/// Adds the rows that some kit could break.
pub fn add(model: &mut Model, columns: &Columns, instance: &Instance) {
    for row in rows(instance) {
        let heaviest: f64 = row.each.iter().zip(&columns.most).map(|(each, most)| each * f64::from(*most)).sum();
        if heaviest > row.most {
            let terms = columns.n.iter().copied().zip(row.each).collect();
            model.row("load", row.key, terms, Sense::AtMost, row.most);
        }
    }
}

/// All rows of a case: those of each mount, and, where there are several, those of all of them together.
pub fn rows(instance: &Instance) -> Vec<PlainRow> {
    let mut all = Vec::new();
    for scale in Scale::ALL {
        for mount in &instance.mounts {
            all.extend(levels(instance, std::slice::from_ref(mount), scale, &mount.rider));
        }
        if instance.mounts.len() > 1 {
            all.extend(levels(instance, &instance.mounts, scale, "all"));
        }
    }
    all
}

fn levels(instance: &Instance, mounts: &[Mount], scale: Scale, who: &str) -> Vec<PlainRow> {
    let Some(spare) = mounts.iter().map(|mount| mount.spare(scale)).sum::<Option<f64>>() else { return Vec::new() };
    // A bag on another mount charges nothing here.
    let charge = |bag: usize| {
        let own = mounts.iter().find(|mount| mount.bags.contains(&bag));
        own.map_or(0.0, |mount| mount.charge(scale, instance.bags[bag].ahead))
    };
    let charges: Vec<f64> = (0..instance.bags.len()).map(charge).collect();
    let mut levels = charges.clone();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    let row = |level: f64| {
        let least = |fits: &[bool]| {
            let open = fits.iter().zip(&charges).filter(|(fits, _)| **fits).map(|(_, charge)| charge.max(level));
            open.fold(f64::INFINITY, f64::min)
        };
        let each = instance.items.iter().map(|item| item.mass.kilograms() * least(&item.fits)).collect();
        let better = instance
            .bags
            .iter()
            .zip(&charges)
            .map(|(bag, charge)| (level - charge).max(0.0) * bag.max_load.kilograms());
        let key = format!("{who}, {} kg at {level:.3}", scale.word());
        PlainRow { key, each, most: spare + better.sum::<f64>() }
    };
    levels.into_iter().map(row).collect()
}
