//! What a group wants of the handing out: fair shares, things that go with a role, and where things are now.

use super::Holdings;
use crate::domain::{Fair, Rider, Role, Scenario};
use crate::resolve::{Instance, Scale};

/// The wishes, numbered.
#[derive(Debug, Clone)]
pub struct Preferences {
    /// Each rider's fair share of the load; they sum to 1.
    pub fair: Vec<f64>,
    /// What goes with a role.
    pub pins: Vec<Pin>,
    /// Where things are now, if the group has packed already.
    pub before: Option<Holdings>,
}

/// Those with a role carry at least one of these.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pin {
    /// What is pinned, and to which role.
    pub name: String,
    /// Those who have the role.
    pub riders: Vec<usize>,
    /// Items that give it.
    pub items: Vec<usize>,
}

/// The least spare payload that counts, in kilograms: a bike that is full already still has a share, so that shares
/// stay finite; what it may really bear is a row of its own.
const LEAST_SPARE_KG: f64 = 0.1;

impl Preferences {
    /// The wishes of a scenario for the riders of a case, who stand in the same order.
    #[must_use]
    pub fn new(instance: &Instance, scenario: &Scenario, riders: &[Rider]) -> Self {
        let weight = |(at, rider): (usize, &Rider)| match scenario.group.fair {
            Fair::Equal => 1.0,
            Fair::Stated => scenario.group.shares.get(&rider.name).copied().unwrap_or(1.0),
            Fair::SparePayload => instance.mounts[at].spare(Scale::Gross).unwrap_or(LEAST_SPARE_KG).max(LEAST_SPARE_KG),
        };
        let weights: Vec<f64> = riders.iter().enumerate().map(weight).collect();
        let sum: f64 = weights.iter().sum();
        let fair = weights.iter().map(|weight| weight / sum).collect();
        Self { fair, pins: pins(instance, scenario, riders), before: None }
    }
}

fn pins(instance: &Instance, scenario: &Scenario, riders: &[Rider]) -> Vec<Pin> {
    let mut pins = Vec::new();
    for (role, names) in &scenario.group.pins {
        let has = |rider: &Rider| Role::from_word(role).is_some_and(|role| rider.roles.contains(&role));
        let holders: Vec<usize> = riders.iter().enumerate().filter(|(_, rider)| has(rider)).map(|(at, _)| at).collect();
        for name in names {
            let items: Vec<usize> = (0..instance.items.len()).filter(|item| gives(instance, *item, name)).collect();
            if !holders.is_empty() && !items.is_empty() {
                pins.push(Pin { name: format!("{name}, {role}"), riders: holders.clone(), items });
            }
        }
    }
    pins
}

/// Does an item give this function, hold this stock or meet this need?
fn gives(instance: &Instance, item: usize, name: &str) -> bool {
    let own = &instance.items[item];
    own.provides.iter().any(|(function, _)| instance.functions[*function].id == name)
        || own.holds.iter().any(|(stock, _)| instance.stocks[*stock] == name)
        || own.meets.iter().any(|(demand, _)| instance.demands[*demand].id == name)
}
