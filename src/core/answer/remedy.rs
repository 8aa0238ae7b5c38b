//! What it would have taken to deal with a failure that the kit leaves open.

use crate::resolve::{Case, CaseRepair, amount};
use crate::risk::Stakes;
use crate::units::Mass;

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
#[derive(Debug, Clone, PartialEq, Eq)]
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
pub(super) fn remedy(case: &Case, stakes: &Stakes, counts: &[u32], f: usize, saved: f64) -> Remedy {
    let failure = &case.failures[f];
    let mut best: Option<(f64, &CaseRepair, ExtraUnits)> = None;
    for (repair, stake) in failure.repairs.iter().zip(&stakes.repairs[f]) {
        if stake.benefit <= saved + 1e-9 {
            continue;
        }
        let Some(extra) = missing(case, counts, repair) else { continue };
        if !extra.is_empty() && best.as_ref().is_none_or(|(benefit, _, _)| stake.benefit > *benefit) {
            best = Some((stake.benefit, repair, extra));
        }
    }
    match best {
        Some((_, repair, extra)) => Remedy::Take {
            repair: repair.name.clone(),
            mass: extra.iter().map(|(item, n)| case.items[*item].mass * *n).sum(),
            items: extra
                .into_iter()
                .map(|(item, count)| Extra { name: case.items[item].name.clone(), count, one_aboard: counts[item] > 0 })
                .collect(),
        },
        None => match failure.beyond_skill {
            Some(skill) if failure.repairs.is_empty() => Remedy::Skill(skill.word()),
            _ => Remedy::NothingMore,
        },
    }
}

/// Items to add so that the repair can be done once more than now; `None` if the counts at hand cannot be raised.
fn missing(case: &Case, counts: &[u32], repair: &CaseRepair) -> Option<Vec<(usize, u32)>> {
    let mut kit = counts.to_vec();
    for (function, wanted) in &repair.needs {
        add_function(case, &mut kit, *function, *wanted, 0)?;
    }
    for (stock, units) in &repair.uses {
        let held = |kit: &[u32]| -> u32 { total(case, kit, |item| amount(&item.holds, *stock)) };
        let target = held(counts) + units;
        while held(&kit) < target {
            let item = lightest(case, &kit, |item| amount(&item.holds, *stock) > 0)?;
            kit[item] += 1;
            add_required(case, &mut kit, item, 0)?;
        }
    }
    Some((0..kit.len()).filter(|i| kit[*i] > counts[*i]).map(|i| (i, kit[i] - counts[i])).collect())
}

/// Compositions nest a few deep at most; a ring in the catalogue is refused at loading, this only bounds the work.
const DEEPEST: u32 = 8;

fn add_function(case: &Case, kit: &mut Vec<u32>, function: usize, wanted: u32, depth: u32) -> Option<()> {
    let have = |kit: &[u32]| total(case, kit, |item| amount(&item.provides, function));
    if depth > DEEPEST {
        return None;
    }
    if wanted == 1 && have(kit) == 0 {
        let mut options: Vec<Vec<u32>> = Vec::new();
        if let Some(item) = lightest(case, kit, |item| amount(&item.provides, function) > 0) {
            let mut with = kit.clone();
            with[item] += 1;
            if add_required(case, &mut with, item, depth).is_some() {
                options.push(with);
            }
        }
        for way in &case.functions[function].also_from {
            let mut with = kit.clone();
            if way.iter().all(|part| add_function(case, &mut with, *part, 1, depth + 1).is_some()) {
                options.push(with);
            }
        }
        *kit = options.into_iter().min_by_key(|with| crate::risk::value::mass(case, with))?;
        return Some(());
    }
    while have(kit) < wanted {
        let item = lightest(case, kit, |item| amount(&item.provides, function) > 0)?;
        kit[item] += 1;
        add_required(case, kit, item, depth)?;
    }
    Some(())
}

fn add_required(case: &Case, kit: &mut Vec<u32>, item: usize, depth: u32) -> Option<()> {
    for (function, count) in &case.items[item].requires {
        add_function(case, kit, *function, (*count).max(1), depth + 1)?;
    }
    Some(())
}

fn total(case: &Case, kit: &[u32], of: impl Fn(&crate::resolve::CaseItem) -> u32) -> u32 {
    case.items.iter().zip(kit).map(|(item, n)| of(item).saturating_mul(*n)).fold(0, u32::saturating_add)
}

/// The lightest item that gives something and of which one more may be taken.
fn lightest(case: &Case, kit: &[u32], gives: impl Fn(&crate::resolve::CaseItem) -> bool) -> Option<usize> {
    let open = (0..case.items.len()).filter(|i| kit[*i] < case.items[*i].at_most && gives(&case.items[*i]));
    open.min_by_key(|i| (case.items[*i].mass, *i))
}
