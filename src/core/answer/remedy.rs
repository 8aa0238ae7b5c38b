//! What it would have taken to deal with a failure that the kit leaves open.

use crate::resolve::{Instance, InstanceRepair, amount};
use crate::risk::RiskModel;
use crate::units::Mass;
use schemars::JsonSchema;
use serde::Serialize;

/// What it would take to do better at one failure.
#[derive(Debug, Clone, PartialEq)]
pub enum Remedy {
    /// These items on top, for this repair.
    Take {
        /// The repair they allow.
        repair: String,
        /// What to add to the kit.
        items: Vec<Extra>,
        /// Their mass.
        mass: Mass,
    },
    /// Somebody who can do more.
    Skill(&'static str),
    /// The kit already does all that can be done on the road.
    NothingMore,
}

/// Something to add to the kit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Extra {
    /// As a rider would say it.
    pub name: String,
    /// How many more.
    pub count: u32,
    /// Is there one in the kit already?
    pub one_aboard: bool,
}

/// Item numbers with how many more of each.
type ExtraUnits = Vec<(usize, u32)>;

/// The remedy for failure `f`, beyond what `counts` already allow. Items are the lightest that give each missing
/// function or stock: an example, not an optimum of the whole kit.
#[must_use]
pub(super) fn remedy(instance: &Instance, risk_model: &RiskModel, counts: &[u32], f: usize, saved: f64) -> Remedy {
    let failure = &instance.failures[f];
    let mut best: Option<(f64, &InstanceRepair, ExtraUnits)> = None;
    for (repair, stake) in failure.repairs.iter().zip(&risk_model.repairs[f]) {
        if stake.benefit <= saved + 1e-9 {
            continue;
        }
        let Some(extra) = missing(instance, counts, repair) else { continue };
        if !extra.is_empty() && best.as_ref().is_none_or(|(benefit, _, _)| stake.benefit > *benefit) {
            best = Some((stake.benefit, repair, extra));
        }
    }
    match best {
        Some((_, repair, extra)) => Remedy::Take {
            repair: repair.name.clone(),
            mass: extra.iter().map(|(item, n)| instance.items[*item].mass * *n).sum(),
            items: extra
                .into_iter()
                .map(|(item, count)| Extra {
                    name: instance.items[item].name.clone(),
                    count,
                    one_aboard: counts[item] > 0,
                })
                .collect(),
        },
        None => match failure.beyond_skill {
            Some(skill) if failure.repairs.is_empty() => Remedy::Skill(skill.word()),
            _ => Remedy::NothingMore,
        },
    }
}

/// Items to add so that the repair can be done once more than now; `None` if the counts at hand cannot be raised.
fn missing(instance: &Instance, counts: &[u32], repair: &InstanceRepair) -> Option<Vec<(usize, u32)>> {
    let mut kit = counts.to_vec();
    for (function, wanted) in &repair.needs {
        add_function(instance, &mut kit, *function, *wanted, 0)?;
    }
    for (stock, units) in &repair.uses {
        let held = |kit: &[u32]| -> u32 { total(instance, kit, |item| amount(&item.holds, *stock)) };
        let target = held(counts) + units;
        while held(&kit) < target {
            let item = lightest(instance, &kit, |item| amount(&item.holds, *stock) > 0)?;
            kit[item] += 1;
            add_required(instance, &mut kit, item, 0)?;
        }
    }
    Some((0..kit.len()).filter(|i| kit[*i] > counts[*i]).map(|i| (i, kit[i] - counts[i])).collect())
}

/// Compositions nest a few deep at most; a ring in the catalogue is refused at loading, this only bounds the work.
const DEEPEST: u32 = 8;

fn add_function(instance: &Instance, kit: &mut Vec<u32>, function: usize, wanted: u32, depth: u32) -> Option<()> {
    let have = |kit: &[u32]| total(instance, kit, |item| amount(&item.provides, function));
    if depth > DEEPEST {
        return None;
    }
    if wanted == 1 && have(kit) == 0 {
        let mut options: Vec<Vec<u32>> = Vec::new();
        if let Some(item) = lightest(instance, kit, |item| amount(&item.provides, function) > 0) {
            let mut with = kit.clone();
            with[item] += 1;
            if add_required(instance, &mut with, item, depth).is_some() {
                options.push(with);
            }
        }
        for way in &instance.functions[function].also_from {
            let mut with = kit.clone();
            if way.iter().all(|part| add_function(instance, &mut with, *part, 1, depth + 1).is_some()) {
                options.push(with);
            }
        }
        *kit = options.into_iter().min_by_key(|with| crate::risk::value::mass(instance, with))?;
        return Some(());
    }
    while have(kit) < wanted {
        let item = lightest(instance, kit, |item| amount(&item.provides, function) > 0)?;
        kit[item] += 1;
        add_required(instance, kit, item, depth)?;
    }
    Some(())
}

fn add_required(instance: &Instance, kit: &mut Vec<u32>, item: usize, depth: u32) -> Option<()> {
    for (function, count) in &instance.items[item].requires {
        add_function(instance, kit, *function, (*count).max(1), depth + 1)?;
    }
    Some(())
}

fn total(instance: &Instance, kit: &[u32], of: impl Fn(&crate::resolve::InstanceItem) -> u32) -> u32 {
    instance.items.iter().zip(kit).map(|(item, n)| of(item).saturating_mul(*n)).fold(0, u32::saturating_add)
}

/// The lightest item that gives something and of which one more may be taken.
fn lightest(instance: &Instance, kit: &[u32], gives: impl Fn(&crate::resolve::InstanceItem) -> bool) -> Option<usize> {
    let open = (0..instance.items.len()).filter(|i| kit[*i] < instance.items[*i].at_most && gives(&instance.items[*i]));
    open.min_by_key(|i| (instance.items[*i].mass, *i))
}
