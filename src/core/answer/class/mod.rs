//! `class`: riders on one trip who each pack for themselves, and what they have to do with each other: what several buy
//! and one would do for, which tools do not fit whose bike, who lacks what the leader carries.

mod buying;
mod lacking;
mod tools;

pub use buying::{Shopping, Sum};
pub use lacking::Lack;
pub use tools::Unturned;

use super::pack::{PackError, pack_briefly};
use super::plan::PackAnswer;
use crate::domain::{Catalogue, Rider, Role, Scenario};
use crate::parallel;
use crate::units::Currency;
use fardel_milp::SolveOptions;

/// A class before the trip.
#[derive(Debug)]
pub struct ClassAnswer {
    /// Title of the scenario.
    pub scenario: String,
    /// Position of the rider who leads: the first with that role, or the first of all.
    pub leader: usize,
    /// One for each rider, in the order of the scenario.
    pub members: Vec<Member>,
    /// What is bought, the dearest first.
    pub shopping: Vec<Shopping>,
    /// Do all riders ride every leg? If not, nothing is shared.
    pub together: bool,
    /// Of all prices.
    pub currency: Currency,
    /// Things that everybody should know.
    pub warnings: Vec<String>,
}

/// One rider of the class.
#[derive(Debug)]
pub struct Member {
    /// What the rider is called.
    pub rider: String,
    /// Key of the bike.
    pub bike_id: String,
    /// Name of the bike.
    pub bike: String,
    /// The kit, or why there is none.
    pub kit: Result<PackAnswer, PackError>,
    /// Fasteners that a repair on the road asks for and the kit cannot turn.
    pub unturned: Vec<Unturned>,
    /// Fasteners that were looked at.
    pub fasteners: usize,
    /// What the leader carries, this rider's bike could need, and this rider has nothing instead of.
    pub lacks: Vec<Lack>,
}

/// Riders packed for side by side when the time is shared out among them.
const AT_ONCE: u32 = 2;

/// Packs for every rider of the scenario and compares. Each rider has a share of the time limit.
#[must_use]
pub fn class(catalogue: &Catalogue, scenario: &Scenario, options: &SolveOptions) -> ClassAnswer {
    let turns = u32::try_from(scenario.riders.len()).unwrap_or(u32::MAX).div_ceil(AT_ONCE).max(1);
    let each = SolveOptions { time_limit: options.time_limit.map(|limit| limit / turns), ..*options };
    let packed = |rider: &Rider| pack_briefly(catalogue, scenario, rider, &each);
    let kits = parallel::map(scenario.riders.iter().collect(), packed);
    let leads = |rider: &Rider| rider.roles.contains(&Role::Leads);
    let leader = scenario.riders.iter().position(leads).unwrap_or(0);
    let lacks: Vec<Vec<Lack>> = (0..kits.len())
        .map(|at| match (&kits[leader], &kits[at]) {
            (Ok(theirs), Ok(own)) if at != leader => {
                lacking::lacks(catalogue, scenario, &scenario.riders[at], (&own.kit, &theirs.kit))
            }
            _ => Vec::new(),
        })
        .collect();
    let together = scenario.trip.legs.iter().all(|leg| scenario.riders.iter().all(|own| leg.is_ridden_by(&own.name)));
    let shopping = buying::shopping(catalogue, &scenario.riders, &kits, together);
    let members = scenario.riders.iter().zip(kits.into_iter().zip(lacks)).map(|(rider, (kit, lacks))| {
        let (unturned, fasteners) = tools::unturned(catalogue, rider, kit.as_ref().ok().map(|answer| &answer.kit));
        Member {
            rider: rider.name.clone(),
            bike_id: rider.bike.clone(),
            bike: catalogue.bikes.get(&rider.bike).map_or_else(|| rider.bike.clone(), |bike| bike.name.clone()),
            kit,
            unturned,
            fasteners,
            lacks,
        }
    });
    ClassAnswer {
        scenario: scenario.name.clone(),
        leader,
        members: members.collect(),
        shopping,
        together,
        currency: catalogue.currency,
        warnings: Vec::new(),
    }
}

#[cfg(test)]
mod tests;
