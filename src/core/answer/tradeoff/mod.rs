//! `tradeoff`: what more mass, room or money would buy, as a curve of the best kits.

mod curve;
mod envelope;
mod figures;
mod limits;
mod steps;

pub use curve::{Curve, CurvePoint, curve};
pub use figures::{CurveFigures, PointFigures};
pub use limits::Limits;
pub(super) use steps::differences;
pub use steps::{Change, Step, TradeoffPoint};

use super::pack::PackError;
use super::plan::{PriceTags, TripSummary};
use super::ready::Ready;
use super::shapes::Cautions;
use super::shapes::TripParts;
use super::solve::in_time;
use crate::domain::{Catalogue, Kind, Rider, Scenario};
use crate::resolve::{Amount, Measure};
use crate::serial::Shown;
use crate::units::{Currency, Money};
use fardel_milp::SolveOptions;
use fardel_milp::control;
use schemars::JsonSchema;
use serde::Serialize;

/// The curve for one rider, told point by point.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct TradeoffAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// What is limited.
    #[serde(rename = "over")]
    pub measure: Measure,
    /// Currency of all money.
    #[serde(with = "Shown")]
    pub currency: Currency,
    /// The rider's own limit of it.
    #[serde(skip)]
    pub own_limit: Option<Amount>,
    /// The least limit under which all needs can be met.
    #[serde(skip)]
    pub least: Amount,
    /// Is it the least indeed?
    #[serde(rename = "least_is_exact")]
    pub least_exact: bool,
    /// What the best kit without this limit takes: more than that is of no use.
    #[serde(skip)]
    pub enough: Amount,
    /// Limits asked for that are too low for the needs.
    #[serde(skip)]
    pub too_low: Vec<Amount>,
    /// The same amounts as numbers of a unit.
    #[serde(flatten)]
    pub figures: CurveFigures,
    /// By rising limit. What the rider pays for this measure itself is left out of these kits, so that the curve goes on where
    /// the rider would stop.
    pub points: Vec<TradeoffPoint>,
    /// What the best kit without this limit takes by the rider's own prices: there the curve is as steep as the price.
    #[serde(skip)]
    pub worth: Option<Amount>,
    /// The rider's prices.
    pub prices: PriceTags,
    /// The used amount from which on a further step (100 g, a litre, ten units of money) saves less than a minute, as
    /// far as the points show.
    #[serde(skip)]
    pub not_worth_a_minute: Option<Amount>,
    /// Name of the engine.
    pub engine: &'static str,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in any of the kits; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
}

/// The share of the time that is left for all that what the best kit takes without the limit may take.
const BEFORE_THE_CURVE: f64 = 0.3;

/// What the best kit takes of a measure that is priced, but not limited; nothing where it has no price.
fn worth(priced: &Ready<'_>, measure: Measure, options: &SolveOptions) -> Result<Option<Amount>, PackError> {
    let prices = &priced.instance.prices;
    let has_price = match measure {
        Measure::Mass => prices.weight > 0.0,
        Measure::Money => prices.buying > 0.0 && prices.hour > Money::ZERO,
        Measure::Volume => false,
    };
    if !has_price {
        return Ok(None);
    }
    let open = priced.limited(measure, None);
    let solved = control::within(BEFORE_THE_CURVE, || open.solve(options))?;
    Ok(Some(measure.used(&open.instance, &solved.choice.counts)))
}

/// The scenario without the price of one measure.
fn without_its_price(scenario: &Scenario, measure: Measure) -> Scenario {
    let mut free = scenario.clone();
    match measure {
        Measure::Mass => free.prices.weight = Some(0.0),
        Measure::Money => free.prices.buying = Some(0.0),
        Measure::Volume => {}
    }
    free
}

/// Works out the curve of a rider's trip.
///
/// # Errors
/// [`PackError`]: no feasible kit whatever this limit is, no time, a failing solver, or a point that did not survive
/// checking.
pub fn tradeoff(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    (measure, limits): (Measure, &Limits),
    options: &SolveOptions,
    tick: &(dyn Fn(u64) + Sync),
) -> Result<TradeoffAnswer, PackError> {
    in_time(options, |options| curve_of(catalogue, scenario, rider, (measure, limits), options, tick))
}

fn curve_of(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    (measure, limits): (Measure, &Limits),
    options: &SolveOptions,
    tick: &(dyn Fn(u64) + Sync),
) -> Result<TradeoffAnswer, PackError> {
    let priced = Ready::new(catalogue, scenario, rider)?;
    let worth = worth(&priced, measure, options)?;
    let free = without_its_price(scenario, measure);
    let ready = Ready::new(catalogue, &free, rider)?;
    let curve = curve(&ready.instance, &ready.risk_model, measure, limits, options, tick)
        .map_err(|error| ready.limited(measure, None).explain(error, options))?;
    let points = steps::told(&ready, &curve, options)?;
    let mut kinds: Vec<Kind> = points.iter().flat_map(|(_, kinds)| kinds.clone()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let points: Vec<TradeoffPoint> = points.into_iter().map(|(point, _)| point).collect();
    let (own_limit, currency) = (measure.limit(&ready.instance), ready.catalogue.currency);
    let not_worth_a_minute = steps::not_worth_a_minute(measure, &points);
    let figures = CurveFigures::new(&curve, currency, [own_limit, worth, not_worth_a_minute]);
    Ok(TradeoffAnswer {
        trip: super::describe::summary(&ready.catalogue, &ready.scenario, rider),
        measure,
        currency,
        figures,
        own_limit,
        least: curve.least,
        least_exact: curve.least_exact,
        enough: curve.enough,
        too_low: curve.too_low,
        worth,
        prices: super::home::price_tags(&priced.instance, &priced.risk_model),
        not_worth_a_minute,
        points,
        engine: options.engine.word(),
        warnings: ready.instance.warnings.clone(),
        kinds,
    })
}
