//! How firm a kit is: what of it stays where a price, the hours to help or the falls are a third of what was said, or three
//! times that.
//!
//! The trip is changed where it is numbers already: the needs stay, and the kit is chosen anew within the same limits, by
//! the stakes of the kit at hand and without asking again which bag takes what.

use super::shapes::{DialWord, SameRange};
use super::tradeoff::{Change, differences};
use crate::domain::Catalogue;
use crate::parallel;
use crate::resolve::Instance;
use crate::risk::{self, RiskModel};
use crate::select;
use fardel_milp::SolveOptions;
use fardel_milp::timing::timed;
use schemars::JsonSchema;
use serde::Serialize;
use std::time::Duration;

/// How far a number is turned, the furthest first; the other way as well.
const FACTORS: [f64; 3] = [3.0, 2.0, 1.5];
/// So many things may go for a kit to count as the same.
pub const ALMOST_THE_SAME: u32 = 5;
/// How near the best a changed kit need be chosen (relative gap).
const NEAR: f64 = 0.005;
/// Longest that choosing it may take.
const LONGEST: Duration = Duration::from_secs(10);

/// What is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dial {
    /// What a kilogram costs through riding.
    Weight,
    /// What buying is charged with.
    Money,
    /// What a thing costs to pack.
    Packing,
    /// Hours to help of every leg.
    Help,
    /// Falls on every leg.
    Falls,
}

/// How firm a kit is.
#[derive(Debug, Clone, Default, Serialize, JsonSchema)]
pub struct Firm {
    /// One for each number that was turned.
    #[serde(rename = "dials")]
    pub lines: Vec<FirmLine>,
    /// Things of the kit.
    pub things: u32,
    /// Those of them that are in the kit whichever number is turned, as far as it is turned.
    pub certain: u32,
    /// Those that most often are not, the least certain first; no more than [`ALMOST_THE_SAME`].
    pub least_certain: Vec<String>,
}

/// Over what range a kit stays nearly the same.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FirmLine {
    /// What was turned.
    #[serde(with = "DialWord")]
    pub dial: Dial,
    /// Factors down to and up to which no more than [`ALMOST_THE_SAME`] things of the kit go; 1: not even the nearest tried.
    #[serde(flatten, with = "SameRange")]
    pub range: (f64, f64),
    /// What goes and comes at the ends of what was tried.
    pub trials: Vec<FirmTrial>,
}

/// A kit chosen with one number turned.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FirmTrial {
    /// Times what was said.
    pub factor: f64,
    /// What is no longer in the kit.
    pub leaving: Vec<Change>,
    /// What is in it instead.
    pub entering: Vec<Change>,
}

impl Dial {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Weight, Self::Money, Self::Packing, Self::Help, Self::Falls];

    /// What it is called.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Weight => "price of weight",
            Self::Money => "price of buying",
            Self::Packing => "price of packing",
            Self::Help => "hours to help",
            Self::Falls => "falls",
        }
    }

    /// The case with this number so many times as high.
    fn turned(self, instance: &Instance, factor: f64) -> Instance {
        let mut own = instance.clone();
        match self {
            Self::Weight => own.exposures.iter_mut().for_each(|exposure| exposure.riding_per_kg *= factor),
            Self::Money => own.items.iter_mut().for_each(|item| item.buying = item.buying * factor),
            Self::Packing => own.prices.thing = own.prices.thing * factor,
            Self::Help => {
                for leg in own.exposures.iter_mut().flat_map(|exposure| &mut exposure.legs) {
                    leg.hours_to_help = leg.hours_to_help * factor;
                    leg.fetched = instance.prices.fetched(leg.hours_to_help);
                    leg.dread = instance.prices.dread(leg.hours_to_help);
                }
            }
            Self::Falls => {
                own.exposures.iter_mut().flat_map(|exposure| &mut exposure.legs).for_each(|leg| leg.falls *= factor);
            }
        }
        own
    }

    /// Is there anything to turn?
    pub(super) fn matters(self, instance: &Instance) -> bool {
        match self {
            Self::Weight => instance.exposures.iter().any(|exposure| exposure.riding_per_kg > 0.0),
            Self::Money => instance.items.iter().any(|item| item.buying.get() > 0.0),
            Self::Packing => instance.prices.thing.get() > 0.0,
            Self::Help => true,
            Self::Falls => instance.exposures.iter().flat_map(|exposure| &exposure.legs).any(|leg| leg.falls > 0.0),
        }
    }
}

/// How firm the kit with these counts is.
pub(super) fn firm(catalogue: &Catalogue, instance: &Instance, counts: &[u32], options: &SolveOptions) -> Firm {
    timed("see how firm the kit is", || firmness(catalogue, instance, counts, options))
}

fn firmness(catalogue: &Catalogue, instance: &Instance, counts: &[u32], options: &SolveOptions) -> Firm {
    let near = SolveOptions {
        gap: options.gap.max(NEAR),
        time_limit: Some(options.time_limit.map_or(LONGEST, |limit| limit.min(LONGEST))),
        ..*options
    };
    let sides: Vec<(Dial, bool)> = Dial::ALL
        .into_iter()
        .filter(|dial| dial.matters(instance))
        .flat_map(|dial| [(dial, false), (dial, true)])
        .collect();
    let look = |(dial, up): (Dial, bool)| (dial, up, side(instance, counts, dial, up, &near));
    let found: Vec<(Dial, bool, Side)> = parallel::map(sides, look);
    let mut often = vec![0_u32; counts.len()];
    let mut stays = counts.to_vec();
    for kit in found.iter().filter_map(|(_, _, side)| side.furthest.as_ref()) {
        for (at, (now, before)) in kit.iter().zip(counts).enumerate() {
            stays[at] = stays[at].min(*now);
            often[at] += u32::from(now < before);
        }
    }
    let mut least: Vec<usize> = (0..counts.len()).filter(|at| often[*at] > 0).collect();
    least.sort_by_key(|at| (std::cmp::Reverse(often[*at]), *at));
    let names = least.into_iter().take(ALMOST_THE_SAME as usize).map(|at| instance.items[at].name.clone());
    Firm {
        lines: lines(catalogue, instance, counts, &found),
        things: counts.iter().sum(),
        certain: stays.iter().sum(),
        least_certain: names.collect(),
    }
}

/// One number turned one way.
struct Side {
    /// The furthest factor at which the kit is nearly the same; 1: none that was tried.
    reach: f64,
    /// The kit at the furthest factor that was tried.
    furthest: Option<Vec<u32>>,
}

fn side(instance: &Instance, counts: &[u32], dial: Dial, up: bool, options: &SolveOptions) -> Side {
    let mut furthest = None;
    for factor in FACTORS.map(|factor| if up { factor } else { 1.0 / factor }) {
        let (_, Some(chosen)) = chosen_anew(instance, counts, dial, factor, options) else { continue };
        let gone: u32 = counts.iter().zip(&chosen).map(|(before, now)| before.saturating_sub(*now)).sum();
        furthest.get_or_insert(chosen);
        if gone <= ALMOST_THE_SAME {
            return Side { reach: factor, furthest };
        }
    }
    Side { reach: 1.0, furthest }
}

/// The case with a number turned, and the kit chosen for it by the stakes of the kit at hand.
pub(super) fn chosen_anew(
    instance: &Instance,
    counts: &[u32],
    dial: Dial,
    factor: f64,
    options: &SolveOptions,
) -> (Instance, Option<Vec<u32>>) {
    let own = dial.turned(instance, factor);
    let risk_model: RiskModel = risk::assess(&own).at(&own, counts);
    let chosen = select::select_once(&own, &risk_model, counts, options).ok().map(|choice| choice.counts);
    (own, chosen)
}

fn lines(catalogue: &Catalogue, instance: &Instance, counts: &[u32], found: &[(Dial, bool, Side)]) -> Vec<FirmLine> {
    let before = instance.kit(counts);
    let trial = |up: bool, side: &Side| {
        let (entering, leaving) = differences(catalogue, &before, &instance.kit(side.furthest.as_ref()?));
        Some(FirmTrial { factor: if up { FACTORS[0] } else { 1.0 / FACTORS[0] }, leaving, entering })
    };
    let line = |pair: &[(Dial, bool, Side)]| {
        let [(dial, _, down), (_, _, up)] = pair else { return None };
        let trials = [(false, down), (true, up)].into_iter().filter_map(|(way, side)| trial(way, side)).collect();
        Some(FirmLine { dial: *dial, range: (down.reach, up.reach), trials })
    };
    found.chunks(2).filter_map(line).collect()
}
