//! The points of a curve told one after the other: what comes in, what goes out, what the step brings.

use super::curve::Curve;
use super::figures::PointFigures;
use crate::answer::pack::PackError;
use crate::answer::plan::PackAnswer;
use crate::answer::ready::Ready;
use crate::domain::{Catalogue, Kind, Kit};
use crate::resolve::{Amount, Measure};
use crate::serial::{KitList, Number, OrNull};
use crate::units::{Hours, Mass, Money, Volume};
use fardel_milp::SolveOptions;
use schemars::JsonSchema;
use serde::Serialize;

/// The best kit under one limit.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TradeoffPoint {
    /// The limit.
    #[serde(skip)]
    pub limit: Amount,
    /// What the kit takes of it.
    #[serde(skip)]
    pub used: Amount,
    /// Both as numbers of the answer's unit.
    #[serde(flatten)]
    pub figures: PointFigures,
    /// Mass of the kit.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Its packed volume.
    #[serde(rename = "volume_ml", with = "Number")]
    pub volume: Volume,
    /// Money for what is not owned.
    #[serde(with = "Number")]
    pub to_buy: Money,
    /// Number of things.
    pub units: u32,
    /// Expected hours saved by repairs.
    #[serde(rename = "hours_saved", with = "Number")]
    pub saved: Hours,
    /// Hours that carrying it costs.
    #[serde(rename = "hours_handling", with = "Number")]
    pub handling: Hours,
    /// All that it saves less all that it costs by the prices of the trip, but for the price of what is limited.
    #[serde(rename = "hours_net", with = "Number")]
    pub objective: Hours,
    /// Chance of ending the trip without a stop that could not be repaired, at least.
    pub self_recovery: f64,
    /// Is no other kit under this limit better?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    /// No kit does better than this (hours saved less handling).
    #[serde(rename = "bound_h", with = "Number")]
    pub bound: Hours,
    /// Does it lie on the least concave curve above all points?
    pub on_envelope: bool,
    /// The whole kit.
    #[serde(with = "KitList")]
    pub kit: Kit,
    /// What has changed since the point before; at the first point, nothing.
    #[serde(flatten)]
    pub step: Step,
}

impl TradeoffPoint {
    /// What these kits were chosen for: all that is saved less all that is charged.
    #[must_use]
    pub const fn net(&self) -> Hours {
        self.objective
    }
}

/// From one point to the next.
#[derive(Debug, Clone, Default, Serialize, JsonSchema)]
pub struct Step {
    /// Net hours gained for each step of the measure, with the amounts that the two kits take.
    #[serde(rename = "hours_gained_per_step", with = "OrNull")]
    pub gain: Option<Hours>,
    /// What comes in.
    pub entering: Vec<Change>,
    /// What goes out.
    pub leaving: Vec<Change>,
    /// Units to buy now that were not to be bought before.
    pub bought: Vec<Change>,
    /// Units no longer bought.
    #[serde(rename = "no_longer_bought")]
    pub not_bought: Vec<Change>,
}

/// Some units of an item.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Change {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Price of so many.
    #[serde(with = "Number")]
    pub price: Money,
}

impl Measure {
    /// What "the next" means: 100 g, a litre, ten units of money.
    #[must_use]
    pub const fn step(self) -> Amount {
        match self {
            Self::Mass => 100_000,
            Self::Volume => 1_000_000,
            Self::Money => 1000,
        }
    }
}

/// Every point checked and told, with the kinds of things in its kit.
pub(super) fn told(
    ready: &Ready<'_>,
    curve: &Curve,
    options: &SolveOptions,
) -> Result<Vec<(TradeoffPoint, Vec<Kind>)>, PackError> {
    let mut points: Vec<(TradeoffPoint, Vec<Kind>)> = Vec::new();
    for own in &curve.points {
        let answer = ready.limited(curve.measure, Some(own.limit)).answer(&own.solved, options)?;
        let figures = PointFigures::new(curve.measure, own.limit, own.used);
        let mut point = point(&answer, (own.limit, own.used, figures), own.on_envelope);
        if let Some((before, _)) = points.last() {
            point.step = step(ready, curve.measure, before, &point);
        }
        points.push((point, answer.kinds));
    }
    Ok(points)
}

fn point(
    answer: &PackAnswer,
    (limit, used, figures): (Amount, Amount, PointFigures),
    on_envelope: bool,
) -> TradeoffPoint {
    TradeoffPoint {
        limit,
        used,
        figures,
        mass: answer.totals.mass,
        volume: answer.totals.volume,
        to_buy: answer.totals.to_buy,
        units: answer.totals.units,
        saved: answer.figures.hours_saved,
        handling: answer.figures.handling(),
        objective: Hours::new(answer.proof.objective),
        self_recovery: answer.figures.home.chance(),
        proven: answer.proof.proven,
        bound: Hours::new(answer.proof.bound),
        on_envelope,
        kit: answer.kit.clone(),
        step: Step::default(),
    }
}

fn step(ready: &Ready<'_>, measure: Measure, before: &TradeoffPoint, now: &TradeoffPoint) -> Step {
    let owned = |id: &str| ready.instance.items.iter().find(|item| item.id == id).map_or(0, |item| item.owned);
    let (entering, leaving) = differences(&ready.catalogue, &before.kit, &now.kit);
    let bought = |kit: &Kit, id: &str| kit.count(id).saturating_sub(owned(id));
    Step {
        gain: gain(measure, before, now),
        entering,
        leaving,
        bought: more(&ready.catalogue, &now.kit, |id| bought(&now.kit, id).saturating_sub(bought(&before.kit, id))),
        not_bought: more(&ready.catalogue, &before.kit, |id| {
            bought(&before.kit, id).saturating_sub(bought(&now.kit, id))
        }),
    }
}

/// What the kit `now` has that `before` has not, and the other way round.
pub(in crate::answer) fn differences(catalogue: &Catalogue, before: &Kit, now: &Kit) -> (Vec<Change>, Vec<Change>) {
    let surplus = |of: &Kit, over: &Kit| more(catalogue, of, |id| of.count(id).saturating_sub(over.count(id)));
    (surplus(now, before), surplus(before, now))
}

/// Items of a kit with a count above zero.
fn more(catalogue: &Catalogue, kit: &Kit, count: impl Fn(&str) -> u32) -> Vec<Change> {
    let change = |(id, _): (&str, u32)| {
        let (item, count) = (catalogue.items.get(id)?, count(id));
        let change = Change { id: id.to_owned(), name: item.name.clone(), count, price: item.price * count };
        (count > 0).then_some(change)
    };
    kit.iter().filter_map(change).collect()
}

#[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
fn gain(measure: Measure, before: &TradeoffPoint, now: &TradeoffPoint) -> Option<Hours> {
    let steps = (now.used - before.used) as f64 / measure.step() as f64;
    (steps > 0.0).then(|| Hours::new((now.net().get() - before.net().get()) / steps))
}

/// Least use on the envelope from which the next points gain less than a minute a step.
pub(super) fn not_worth_a_minute(measure: Measure, points: &[TradeoffPoint]) -> Option<Amount> {
    let corners: Vec<&TradeoffPoint> = points.iter().filter(|point| point.on_envelope).collect();
    let flat = |pair: &[&TradeoffPoint]| gain(measure, pair[0], pair[1]).is_some_and(|gain| gain.get() < MINUTE);
    corners.windows(2).find(|pair| flat(pair)).map(|pair| pair[0].used)
}

/// A minute in hours.
const MINUTE: f64 = 1.0 / 60.0;
