//! `split`: one kit for a group, and who carries what of it.

mod describe;
mod floor;
mod plan;
mod prove;
pub mod solve;
mod twice;

pub use plan::{
    AbsenceLine, Alone, AloneKit, ApartLine, Card, Carried, Floor, GroupFigures, GroupProof, GroupTrip, Move,
    SplitAnswer,
};
pub use solve::Demands;

use super::PackError;
use super::ready::explain;
use super::solve::in_time;
use crate::allocation::{Preferences, stretches};
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::parallel;
use crate::resolve::{Instance, resolve, resolve_group};
use crate::risk;
use crate::units::Hours;
use describe::{Found, describe};
use fardel_milp::control;
use fardel_milp::{EngineError, Model, SolveOptions};
use fardel_words::say;

/// With more things than this to choose from, what riders need on legs of their own is told, but not asked of the kit: the
/// pure-Rust engine would take minutes.
const MOST_APART: usize = 60;

/// Most riders of a group; more would better go as two groups.
pub const MOST_RIDERS: usize = 12;

/// The share of the time that is left for all in which riders pack alone, for comparison.
const ALONE: f64 = 0.8;

/// What a group has packed already, one kit for each rider in the order of the scenario.
pub type Packed<'a> = Option<&'a [Kit]>;

/// One kit for all riders of a scenario.
///
/// # Errors
/// [`PackError`]: no feasible kit, no time, a failing solver, or an answer that did not survive checking.
pub fn split(
    catalogue: &Catalogue,
    scenario: &Scenario,
    demands: &Demands,
    packed: Packed<'_>,
    options: &SolveOptions,
) -> Result<SplitAnswer, PackError> {
    in_time(options, |options| shared(catalogue, scenario, demands, packed, options))
}

fn shared(
    catalogue: &Catalogue,
    scenario: &Scenario,
    demands: &Demands,
    packed: Packed<'_>,
    options: &SolveOptions,
) -> Result<SplitAnswer, PackError> {
    let riders = &scenario.riders;
    let catalogue = &weighed_by_all(catalogue, riders);
    let mut instance = pooled(catalogue, scenario, demands)?;
    let mut preferences = Preferences::new(&instance, scenario, riders);
    if let Some(kits) = packed {
        preferences.before = Some(only_packed(&mut instance, kits));
    }
    // Everybody alone is solved beside the group, on the second core.
    let alone = || {
        let one = |(at, rider)| {
            let share = ALONE / f64::from(u32::try_from(riders.len() - at).unwrap_or(u32::MAX));
            control::within(share, || pack_alone(catalogue, scenario, rider, options))
        };
        riders.iter().enumerate().map(one).collect()
    };
    let together = || {
        // Where nobody can do with what there is on legs of their own, the group still goes, and is told.
        let lenient =
            || solve::solve(&Instance { apart: Vec::new(), ..instance.clone() }, &preferences, demands, options);
        if asks_apart(&instance) {
            match solve::solve(&instance, &preferences, demands, options) {
                Err(EngineError::Infeasible) => lenient(),
                done => done,
            }
        } else {
            lenient()
        }
    };
    let (solved, alone) = parallel::both(together, alone);
    let risk_model = risk::assess(&instance);
    // What could be changed is told for one rider only; for a group, what stands in the way.
    let solved = solved.map_err(|error| explain(&instance, options, error, |_| Vec::new()))?;
    let found = Found {
        catalogue,
        scenario,
        riders,
        instance: &instance,
        risk_model: &risk_model,
        preferences: &preferences,
        solved: &solved,
        floor: demands.keep_if_one_leaves,
        alone,
        options,
    };
    let answer = describe(&found);
    prove::prove(&found, &answer)?;
    Ok(answer)
}

/// The catalogue as the riders have weighed what is theirs.
pub(crate) fn weighed_by_all(catalogue: &Catalogue, riders: &[Rider]) -> Catalogue {
    riders.iter().fold(catalogue.clone(), |catalogue, rider| catalogue.as_weighed_by(rider).into_owned())
}

/// The group as one case.
pub(crate) fn pooled(catalogue: &Catalogue, scenario: &Scenario, demands: &Demands) -> Result<Instance, PackError> {
    let mut instance = resolve_group(catalogue, scenario, &scenario.riders)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(say!("a rider's bike is not in the catalogue"))))?;
    instance.parts = parts(&instance, demands);
    Ok(instance)
}

/// The model that chooses the group's kit where nothing further is asked of it.
///
/// # Errors
/// [`PackError`]: a bike that is not in the catalogue.
pub fn group_model(catalogue: &Catalogue, scenario: &Scenario) -> Result<Model, PackError> {
    let catalogue = &weighed_by_all(catalogue, &scenario.riders);
    let mut instance = pooled(catalogue, scenario, &Demands::default())?;
    if !asks_apart(&instance) {
        instance.apart.clear();
    }
    Ok(solve::first_model(&instance, &Preferences::new(&instance, scenario, &scenario.riders)))
}

/// Is what riders need on legs of their own asked of the kit?
const fn asks_apart(instance: &Instance) -> bool {
    !instance.apart.is_empty() && instance.items.len() <= MOST_APART
}

/// How many parts of the group may want a thing each for themselves.
fn parts(instance: &Instance, demands: &Demands) -> u32 {
    let apart = stretches(instance).iter().filter(|situation| !situation.is_whole()).count();
    let apart = u32::try_from(apart).unwrap_or(u32::MAX);
    apart.max(1 + u32::from(demands.keep_if_one_leaves.is_some()))
}

fn pack_alone(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider, options: &SolveOptions) -> Alone {
    Alone { rider: rider.name.clone(), kit: kit_alone(catalogue, scenario, rider, options) }
}

/// What `pack` would choose.
fn kit_alone(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider, options: &SolveOptions) -> Option<AloneKit> {
    let instance = resolve(catalogue, &scenario.as_ridden_by(rider), rider)?;
    let risk_model = risk::assess(&instance);
    let counts = super::solve::solve(&instance, &risk_model, options).ok()?.choice.counts;
    Some(AloneKit {
        mass: risk::value::mass(&instance, &counts),
        hours_saved: Hours::new(risk::value(&instance, &risk_model, &counts).hours_saved()),
        to_buy: instance.to_buy(&counts),
    })
}

/// Leaves only what the riders have packed, which then costs nothing; gives who has what now.
fn only_packed(instance: &mut Instance, kits: &[Kit]) -> Vec<Vec<u32>> {
    let riders = instance.mounts.len();
    let mut before = vec![vec![0; instance.items.len()]; riders];
    for (item, own) in instance.items.iter_mut().enumerate() {
        let has = |rider: usize| kits.get(rider).filter(|_| own.is_for(rider)).map_or(0, |kit| kit.count(&own.id));
        for (rider, held) in before.iter_mut().enumerate() {
            held[item] = has(rider);
        }
        let all: u32 = before.iter().map(|held| held[item]).sum();
        (own.at_most, own.owned) = (all, all);
        own.at_least = own.at_least.min(all);
    }
    before
}
