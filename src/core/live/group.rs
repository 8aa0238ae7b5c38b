//! A group's trip kept open: who carries what is evaluated at once, the split improves in the background.

use super::evaluate::{Breaks, OnWheels, unstowed};
use super::{Budget, Cancel};
use crate::allocation::{Holdings, Situation, part, stretches};
use crate::answer::split::{Demands, SplitAnswer, pooled, solve::terms, split, weighed_by_all};
use crate::answer::{PackError, Wheels, wheels};
use crate::domain::{Catalogue, Kit, Scenario};
use crate::resolve::Instance;
use crate::risk::{self, RiskModel, Terms, value};
use crate::select::{self, relax::Shortfall};
use crate::serial::{Listed, Number};
use crate::stow;
use crate::units::{Hours, Mass, Money};
use fardel_milp::{SolveOptions, control};
use schemars::JsonSchema;
use serde::Serialize;
use std::sync::Arc;

/// A group's trip, kept open. Clones are cheap and work on their own, as those of [`Live`](super::Live).
#[derive(Debug, Clone)]
pub struct LiveGroup {
    catalogue: Arc<Catalogue>,
    scenario: Arc<Scenario>,
    demands: Demands,
    options: SolveOptions,
    case: Arc<Case>,
    revision: u64,
    /// The best split known of this revision.
    in_hand: Option<Arc<SplitAnswer>>,
}

/// The group as one case.
#[derive(Debug)]
struct Case {
    instance: Instance,
    risk_model: RiskModel,
    together: Vec<Situation>,
    /// Each rider's own bags and bike.
    parts: Vec<Instance>,
}

/// Who carries what, evaluated.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct GroupEvaluation {
    /// Expected hours lost by all riders together with nothing aboard.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// The same with this kit, its weight included.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_lost: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// What kits are compared by.
    #[serde(rename = "objective_h")]
    pub objective: f64,
    /// Money for what nobody owns.
    #[serde(with = "Number")]
    pub to_buy: Money,
    /// Limits and needs of all together that it breaks.
    #[serde(with = "Listed::<Breaks>")]
    pub breaks: Vec<Shortfall>,
    /// One for each rider, in the order of the scenario.
    pub riders: Vec<RiderLoad>,
}

/// What one rider carries.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RiderLoad {
    /// The rider's name.
    pub rider: String,
    /// What the rider carries.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// The rider's load as a share of what all carry.
    pub share: f64,
    /// Kilograms on the wheels; empty: no place for everything was found at once.
    #[serde(with = "Listed::<OnWheels>")]
    pub wheels: Vec<Wheels>,
    /// Limits of the rider, the bags and the bike that it breaks.
    #[serde(with = "Listed::<Breaks>")]
    pub breaks: Vec<Shortfall>,
    /// Things that this rider cannot carry or that are of no use, by key.
    pub idle: Vec<String>,
}

impl Case {
    fn of(catalogue: &Catalogue, scenario: &Scenario, demands: &Demands) -> Result<Self, PackError> {
        let instance = pooled(&weighed_by_all(catalogue, &scenario.riders), scenario, demands)?;
        Ok(Self {
            risk_model: risk::assess(&instance),
            together: stretches(&instance),
            parts: (0..instance.mounts.len()).map(|rider| part(&instance, rider)).collect(),
            instance,
        })
    }
}

impl LiveGroup {
    /// Opens the trip of all riders of a scenario.
    ///
    /// # Errors
    /// [`PackError::Engine`]: a bike that the catalogue lacks.
    pub fn open(
        catalogue: Arc<Catalogue>,
        scenario: Scenario,
        demands: Demands,
        options: SolveOptions,
    ) -> Result<Self, PackError> {
        let case = Arc::new(Case::of(&catalogue, &scenario, &demands)?);
        Ok(Self { catalogue, scenario: Arc::new(scenario), demands, options, case, revision: 0, in_hand: None })
    }

    /// Changes the trip or what is asked of the split; gives the revision from now on. Where that fails, nothing is changed.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub fn patch(&mut self, scenario: Scenario, demands: Demands) -> Result<u64, PackError> {
        if scenario == *self.scenario && demands == self.demands {
            return Ok(self.revision);
        }
        let other = Self::open(Arc::clone(&self.catalogue), scenario, demands, self.options)?;
        *self = Self { revision: self.revision + 1, ..other };
        Ok(self.revision)
    }

    /// The trip as patched.
    #[must_use]
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// Goes up with every patch that changes anything.
    #[must_use]
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    /// The best split known of this revision.
    #[must_use]
    pub fn standing(&self) -> Option<&SplitAnswer> {
        self.in_hand.as_deref()
    }

    /// Who carries what, as it is: one kit for each rider, in the order of the scenario; what is missing carries nothing.
    #[must_use]
    pub fn evaluate(&self, kits: &[Kit]) -> GroupEvaluation {
        let Case { instance, risk_model, together, .. } = &*self.case;
        let holdings = self.holdings(kits);
        let counts: Vec<u32> =
            (0..instance.items.len()).map(|item| holdings.iter().map(|held| held[item]).sum()).collect();
        let terms = terms(instance, risk_model, together, &holdings, &counts);
        let all = value::mass(instance, &counts).kilograms();
        let empty = risk_model.hours_empty();
        GroupEvaluation {
            hours_empty: Hours::new(empty),
            hours_lost: Hours::new(empty - terms.saved + terms.handling()),
            objective: terms.objective(),
            terms,
            to_buy: instance.to_buy(&counts),
            breaks: select::broken(instance, risk_model, &counts),
            riders: holdings
                .iter()
                .zip(kits)
                .enumerate()
                .map(|(at, (held, kit))| self.load(at, held, kit, all))
                .collect(),
        }
    }

    /// For each rider, units of each item of the case.
    fn holdings(&self, kits: &[Kit]) -> Holdings {
        let instance = &self.case.instance;
        let none = Kit::default();
        let held = |rider: usize| {
            let kit = kits.get(rider).unwrap_or(&none);
            instance.items.iter().map(|item| if item.is_for(rider) { kit.count(&item.id) } else { 0 }).collect()
        };
        (0..instance.mounts.len()).map(held).collect()
    }

    fn load(&self, rider: usize, held: &[u32], kit: &Kit, all: f64) -> RiderLoad {
        let own = &self.case.parts[rider];
        let mass = value::mass(own, held);
        let placement = stow::at_once(own, held);
        let mut breaks = select::overloaded(own, held);
        if placement.is_none() {
            breaks.push(unstowed());
        }
        let known = |id: &str| own.items.iter().zip(held).any(|(item, n)| item.id == id && *n > 0);
        RiderLoad {
            rider: own.mounts[0].rider.clone(),
            mass,
            share: if all > 0.0 { mass.kilograms() / all } else { 0.0 },
            wheels: placement.map(|placement| wheels(own, &placement)).unwrap_or_default(),
            breaks,
            idle: kit.iter().filter(|(id, _)| !known(id)).map(|(id, _)| id.to_owned()).collect(),
        }
    }

    /// Splits the kit within the budget. What it comes to is what `split` comes to with as much time.
    ///
    /// # Errors
    /// [`PackError`] as of `split`; a split in hand stays.
    pub fn improve(&mut self, budget: Budget, cancel: &Cancel) -> Result<&SplitAnswer, PackError> {
        let options = SolveOptions { time_limit: budget.time, gap: budget.gap, ..self.options };
        let done = control::under(cancel, || split(&self.catalogue, &self.scenario, &self.demands, None, &options));
        let answer = done?;
        Ok(self.in_hand.insert(Arc::new(answer)))
    }

    /// Takes over what a clone has found. `false`: it is of another revision, and nothing was taken.
    pub fn adopt(&mut self, other: &Self) -> bool {
        if self.revision != other.revision {
            return false;
        }
        self.in_hand.clone_from(&other.in_hand);
        true
    }
}
