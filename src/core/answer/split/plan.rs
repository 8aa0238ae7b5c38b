//! The answer of `split` as plain data: who carries what, what it saves, and what is left when somebody leaves.

use crate::answer::plan::{Home, PriceTags};
use crate::answer::shapes::{Cautions, Holder, HomeTogether, Lacking};
use crate::answer::{
    BikeChecks, ChargeShort, FuelShort, Loading, NeedLine, PackedBag, Purchase, RiskLine, SetsOnBikes, Totals,
};
use crate::domain::{Kind, Role};
use crate::risk::Terms;
use crate::serial::{Listed, Number, OrNull, WholeGrams};
use crate::units::{Distance, Hours, Mass, Money};
use schemars::JsonSchema;
use serde::Serialize;

/// One kit for a group.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct SplitAnswer {
    /// Title of the scenario.
    pub scenario: String,
    /// Where and how long.
    pub trip: GroupTrip,
    /// Mass, volume and money of the whole kit.
    pub totals: Totals,
    /// Hours of all riders together.
    pub figures: GroupFigures,
    /// What the kit was chosen by.
    pub prices: PriceTags,
    /// How sure it is that no kit is better.
    pub proof: GroupProof,
    /// One for each rider, in the order of the scenario.
    #[serde(rename = "riders")]
    pub cards: Vec<Card>,
    /// Sets of shared things that are used together, and which of them one bike has whole.
    pub sets: SetsOnBikes,
    /// Shared things that two or more riders carry.
    #[serde(rename = "carried_by_several")]
    pub twice: Vec<Carried>,
    /// Shared things that one rider alone carries, the most missed first.
    #[serde(rename = "only_copies")]
    pub once: Vec<Carried>,
    /// What is left when one rider leaves, for each.
    #[serde(rename = "if_one_leaves")]
    pub absences: Vec<AbsenceLine>,
    /// Parts of the group that ride legs of their own, and what they lack there.
    pub apart: Vec<ApartLine>,
    /// What keeping the floor costs, where one was asked for.
    pub floor: Option<Floor>,
    /// Each rider packing alone.
    pub alone: Vec<Alone>,
    /// What changes hands, where the group has packed already.
    pub moves: Option<Vec<Move>>,
    /// What is looked at before leaving; bikes that are looked at alike together.
    pub checks: Vec<BikeChecks>,
    /// What the trip demands and what is carried for it.
    pub needs: Vec<NeedLine>,
    /// Where the petrol does not reach the next pump.
    #[serde(rename = "fuel_short")]
    pub fuel: Option<FuelShort>,
    /// Where a battery does not reach the next place to charge; left out where all do.
    #[serde(rename = "charge_short", skip_serializing_if = "Option::is_none")]
    pub charge: Option<ChargeShort>,
    /// What has to be bought, the dearest first.
    pub purchases: Vec<Purchase>,
    /// Every failure that can happen, the costliest left over first; bikes that are alike together.
    pub risks: Vec<RiskLine>,
    /// Things the riders should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
}

/// Where and how long.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct GroupTrip {
    /// Days of the rider who is longest under way.
    pub days: f64,
    /// Nights of that rider.
    pub nights: u32,
    /// The longest distance of any rider.
    #[serde(rename = "distance_km", with = "Number")]
    pub distance: Distance,
    /// The longest hours to help of any leg.
    #[serde(rename = "furthest_help_h", with = "Number")]
    pub furthest: Hours,
    /// Does the group split on some legs?
    pub splits: bool,
}

/// Hours of all riders together.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct GroupFigures {
    /// Expected number of failures of any sort, on all bikes.
    #[serde(rename = "expected_failures")]
    pub failures: f64,
    /// Expected hours lost with nothing aboard.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Expected hours saved by repairs with what is there on each leg.
    #[serde(with = "Number")]
    pub hours_saved: Hours,
    /// Hours that the kit's weight costs, through riding and falls.
    #[serde(with = "Number")]
    pub hours_handling: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// Share of the hours that the kit saves.
    pub coverage: f64,
    /// Chance that no stop of any bike is left unrepaired; `None` where the group splits.
    #[serde(flatten, with = "HomeTogether")]
    pub home: Option<Home>,
}

/// How sure it is that no kit is better, and no handing out fairer.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct GroupProof {
    /// Name of the engine.
    pub engine: &'static str,
    /// Proven optimal?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    /// Relative distance to the bound; 0 when proven.
    #[serde(rename = "relative_gap")]
    pub gap: f64,
    /// Hours saved less handling.
    #[serde(rename = "objective_h")]
    pub objective: f64,
    /// No kit does better.
    #[serde(rename = "bound_h")]
    pub bound: f64,
    /// Is no handing out fairer?
    pub fairest: bool,
    /// The largest load relative to its rider's share.
    #[serde(rename = "largest_load_of_share")]
    pub largest_share: f64,
}

/// What one rider carries.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Card {
    /// The rider's name.
    pub rider: String,
    /// Name of the bike.
    pub bike: String,
    /// What the rider does in the group.
    pub roles: Vec<Role>,
    /// What the rider carries.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// A fair share of the load.
    #[serde(rename = "fair_share_g", with = "WholeGrams")]
    pub fair: Mass,
    /// The rider's own limit.
    #[serde(rename = "mass_limit_g", with = "OrNull")]
    pub limit: Option<Mass>,
    /// What is in the bags that the rider alone uses.
    #[serde(rename = "own_things_g", with = "Number")]
    pub personal: Mass,
    /// Bags and what is in them.
    pub bags: Vec<PackedBag>,
    /// What rests on the wheels.
    pub load: Loading,
}

/// A shared thing and who carries it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[schemars(rename = "SharedThing")]
pub struct Carried {
    /// As a rider would say it.
    pub name: String,
    /// Riders and how many each carries.
    #[serde(rename = "carried_by", with = "Listed::<Holder>")]
    pub by: Vec<(String, u32)>,
    /// Mass of all of them.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Expected hours that the others would lose more if whoever carries it were not there with it; for things there
    /// twice, if all of them were gone.
    #[serde(rename = "hours_lost_without", with = "Number")]
    pub missed: Hours,
}

/// What is left when one rider leaves with what is on that bike.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AbsenceLine {
    /// Who leaves.
    pub rider: String,
    /// Hours that the whole kit would save for the others.
    #[serde(rename = "hours_saved_with_all", with = "Number")]
    pub with_all: Hours,
    /// Hours that what is left saves for them.
    #[serde(rename = "hours_saved_with_rest", with = "Number")]
    pub left: Hours,
    /// The second as a share of the first.
    #[serde(rename = "share_kept")]
    pub share: f64,
    /// Failures that can no longer be mended, the costliest first.
    #[serde(rename = "no_longer_mended")]
    pub open: Vec<String>,
}

/// Riders who ride legs without the others.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ApartLine {
    /// Who.
    pub riders: Vec<String>,
    /// Names of the legs.
    pub legs: Vec<String>,
    /// What these legs demand and they do not have with them, with those of the others who do.
    #[serde(with = "Listed::<Lacking>")]
    pub lacking: Vec<(String, Vec<String>)>,
}

/// What keeping a floor costs.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Floor {
    /// The share asked for.
    pub share: f64,
    /// What is there twice because of it, in the words of functions and stocks.
    #[serde(rename = "there_twice")]
    pub doubled: Vec<String>,
    /// How much heavier the kit is for it.
    #[serde(rename = "extra_mass_g", with = "Number")]
    pub mass: Mass,
    /// Hours given up for it, of those that all together would save.
    #[serde(rename = "hours_given_up", with = "Number")]
    pub hours: Hours,
}

/// A rider packing alone, with the same limits.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Alone {
    /// Who.
    pub rider: String,
    /// What that kit would be; `None` if needs and limits cannot hold together.
    pub kit: Option<AloneKit>,
}

/// The kit of a rider alone.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct AloneKit {
    /// Its mass.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Hours that it saves this rider.
    #[serde(with = "Number")]
    pub hours_saved: Hours,
    /// What would have to be bought.
    #[serde(with = "Number")]
    pub to_buy: Money,
}

/// Units that change hands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Move {
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// From whom; `None`: from home.
    pub from: Option<String>,
    /// To whom; `None`: it stays at home.
    pub to: Option<String>,
}
