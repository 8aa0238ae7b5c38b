//! The rider's limits hold, exactly.

use super::{Evidence, Violation};

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let mut found = Vec::new();
    if let Some(cap) = e.scenario.limits.kit_mass {
        let mass = e.kit.mass(e.catalogue);
        if mass > cap {
            let by = (mass - cap).grams();
            found.push(Violation { rule: "caps", what: "kit mass above its limit, g".to_owned(), by });
        }
    }
    if let Some(cap) = e.scenario.limits.kit_volume {
        let volume = e.kit.volume(e.catalogue);
        if volume > cap {
            let by = (volume - cap).millilitres();
            found.push(Violation { rule: "caps", what: "kit volume above its limit, mL".to_owned(), by });
        }
    }
    if let Some(budget) = e.scenario.limits.budget {
        let spent = e.claim.to_buy;
        if spent > budget {
            let by = (spent - budget).units();
            found.push(Violation { rule: "caps", what: "spending above the budget".to_owned(), by });
        }
    }
    found
}
