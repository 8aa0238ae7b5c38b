//! `trim`: what to leave at home of a packed kit, so that least is lost. What goes is decided exactly, for the target;
//! the order in which it goes is the best one on the way there, and says where it is not the best for its weight.

mod figures;
mod order;
mod packed;
mod short;

pub use figures::{GoingFigures, TrimFigures};
pub use order::Going;
pub use short::Short;

use self::order::Order;
use self::packed::{Packed, amount_of};
use super::home;
use super::pack::PackError;
use super::plan::TripSummary;
use super::shapes::Cautions;
use super::shapes::TripParts;
use super::solve::in_time;
use super::tradeoff::{Change, differences};
use crate::domain::{Catalogue, Kind, Kit, Rider, Scenario};
use crate::resolve::{Amount, Measure};
use crate::risk;
use crate::serial::{KitList, Number, Shown};
use crate::units::{Currency, Hours};
use fardel_milp::SolveOptions;
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked of a trim.
#[derive(Debug, Clone)]
pub struct Wish {
    /// Mass or volume.
    pub measure: Measure,
    /// What the kit is to come to.
    pub target: Amount,
    /// May other things from the catalogue take the place of packed ones?
    pub swap: bool,
    /// Items that stay.
    pub keep: Vec<String>,
}

/// What to leave at home.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TrimAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// Mass or volume.
    #[serde(rename = "over")]
    pub measure: Measure,
    /// Currency of all money.
    #[serde(with = "Shown")]
    pub currency: Currency,
    /// What the packed kit takes.
    #[serde(skip)]
    pub packed: Amount,
    /// What it was to come to.
    #[serde(skip)]
    pub target: Amount,
    /// What it comes to.
    #[serde(skip)]
    pub left: Amount,
    /// The same amounts as numbers of a unit.
    #[serde(flatten)]
    pub figures: TrimFigures,
    /// Net hours that the packed kit saves.
    #[serde(rename = "hours_net_before", with = "Number")]
    pub net_before: Hours,
    /// Net hours that the trimmed kit saves.
    #[serde(rename = "hours_net_after", with = "Number")]
    pub net_after: Hours,
    /// Chance of getting home with the packed kit, at least.
    #[serde(rename = "self_recovery_before")]
    pub recovery_before: f64,
    /// The same with the trimmed one.
    #[serde(rename = "self_recovery_after")]
    pub recovery_after: f64,
    /// Needs that the packed kit does not meet; no more is asked of the trimmed one.
    #[serde(rename = "shortfalls")]
    pub short: Vec<Short>,
    /// What goes, the first to go first.
    pub order: Vec<Going>,
    /// What comes in instead, with its price.
    pub entering: Vec<Change>,
    /// The trimmed kit.
    #[serde(with = "KitList")]
    pub kit: Kit,
    /// Is no other choice of things to leave better?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the trimmed kit; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
}

/// Trims a packed kit.
///
/// # Errors
/// [`PackError`]: the target is too low for the needs, no time, a failing solver, or an answer that did not survive
/// checking.
pub fn trim(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    wish: &Wish,
    options: &SolveOptions,
) -> Result<TrimAnswer, PackError> {
    in_time(options, |options| trimmed(catalogue, scenario, rider, kit, wish, options))
}

fn trimmed(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    wish: &Wish,
    options: &SolveOptions,
) -> Result<TrimAnswer, PackError> {
    let measure = wish.measure;
    let packed = Packed::new(catalogue, scenario, rider, kit, wish)?;
    let ready = packed.ready(wish)?;
    let solved = ready.solve(options)?;
    let answer = ready.answer(&solved, options)?;
    let (entering, leaving) = differences(&ready.catalogue, &packed.used, &answer.kit);
    let counts: Vec<u32> = ready.instance.counts(&packed.used);
    let value = risk::value(&ready.instance, &ready.risk_model, &counts);
    let recovery_before = home::home(&ready.instance, &counts, &[kit.mass(&ready.catalogue)]).chance();
    let idle = |kit: &Kit| ready.risk_model.handling_per_kg(None) * kit.mass(&ready.catalogue).kilograms();
    let total = amount_of(&ready.catalogue, kit, measure);
    let mut order = Order::new(&ready, measure, counts, total);
    packed.idle_going().iter().for_each(|(id, count)| order.idle(id, count));
    order.all(&leaving);
    if !wish.swap {
        order.compare(options)?;
    }
    let stays = answer.kit.iter().chain(packed.idle_staying.iter()).map(|(id, n)| (id.to_owned(), n));
    let left = measure.used(&ready.instance, &solved.choice.counts)
        + amount_of(&ready.catalogue, &packed.idle_staying, measure);
    let currency = ready.catalogue.currency;
    Ok(TrimAnswer {
        measure,
        currency,
        packed: total,
        target: wish.target,
        left,
        figures: TrimFigures::new(measure, currency, [total, wish.target, left]),
        net_before: Hours::new(value.objective() - idle(&packed.idle)),
        net_after: Hours::new(answer.proof.objective - idle(&packed.idle_staying)),
        recovery_before,
        recovery_after: answer.figures.home.chance(),
        short: packed.short.clone(),
        order: order.into_gone(),
        entering,
        kit: Kit::new(stays),
        proven: answer.proof.proven,
        trip: answer.trip,
        warnings: answer.warnings,
        kinds: answer.kinds,
    })
}
