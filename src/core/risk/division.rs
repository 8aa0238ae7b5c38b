//! How the occurrences of each failure are divided among the repairs that a kit allows, and how the stocks reach for
//! them.
//!
//! The two hang on each other. A repair gets what better repairs of the same failure leave over, as far as its stocks
//! reach; a stock is wanted for what better repairs leave over, and reaches the less far the more it is wanted:
//!
//! ```text
//! share[f,r]  = min(1 - shares of better repairs of f, least over stocks s of r of (fill[s] - shares of better repairs of f from s))
//! demand[s]   = compound Poisson: failure f, with the first of its repairs that draws on s, occurs
//!               mean[f] x (1 - shares of better repairs) times and takes the units of that repair
//! fill[s]     = E[min(demand[s], carried)] / E[demand[s]]
//! ```
//!
//! From `fill = 1` the iteration falls to its largest fixed point: less fill leaves more over, which wants more of the
//! other stocks.

use super::RiskModel;
use super::demand::CompoundPoisson;
use super::value::{available, stocked};
use crate::domain::Pooling;
use crate::resolve::{Instance, InstanceRepair};

/// The iteration ends when no fill (a share) moves by more than this ...
const SETTLED: f64 = 1e-13;
/// ... which it does within a few steps where stocks mostly suffice; the rest is for the odd case.
const MOST_STEPS: usize = 500;

/// How a kit divides the occurrences.
#[derive(Debug, Clone)]
pub struct Division {
    /// For each failure and repair, the share of occurrences met by it.
    pub shares: Vec<Vec<f64>>,
    /// For each failure and repair: does the kit allow it at all?
    able: Vec<Vec<bool>>,
}

/// Which repairs a kit allows, once at least.
fn able(instance: &Instance, functions: &[u32], stocks: &[u32]) -> Vec<Vec<bool>> {
    let able = |repair: &InstanceRepair| repair.is_possible(functions, stocks);
    instance.failures.iter().map(|failure| failure.repairs.iter().map(able).collect()).collect()
}

/// The division for a kit, by its own demands.
pub(super) fn settle(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> Division {
    let (functions, stocks) = (available(instance, counts), stocked(instance, counts));
    let able = able(instance, &functions, &stocks);
    let mut fills: Vec<f64> = stocks.iter().map(|units| f64::from(u8::from(*units > 0))).collect();
    let mut division = Division { shares: divide(instance, risk_model, &able, &fills), able };
    for _ in 0..MOST_STEPS {
        let mut moved = 0.0_f64;
        for stock in (0..stocks.len()).filter(|stock| stocks[*stock] > 0) {
            let fill = division.wanted(instance, risk_model, stock).fill(stocks[stock]);
            moved = moved.max((fill - fills[stock]).abs());
            fills[stock] = fill;
        }
        if moved <= SETTLED {
            break;
        }
        division.shares = divide(instance, risk_model, &division.able, &fills);
    }
    division
}

/// The division for a kit whose stocks reach as far as the ladders of the stakes say.
pub(super) fn by_ladders(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> Division {
    let (functions, stocks) = (available(instance, counts), stocked(instance, counts));
    let able = able(instance, &functions, &stocks);
    let fills: Vec<f64> = risk_model.ladders.iter().zip(&stocks).map(|(ladder, units)| ladder.fill(*units)).collect();
    Division { shares: divide(instance, risk_model, &able, &fills), able }
}

/// Shares of each failure: the repair that saves most first, as far as its stocks reach, then the next.
fn divide(instance: &Instance, risk_model: &RiskModel, able: &[Vec<bool>], fills: &[f64]) -> Vec<Vec<f64>> {
    let one = |f: usize| {
        let failure = &instance.failures[f];
        let mut shares = vec![0.0; failure.repairs.len()];
        let mut left = 1.0_f64;
        // What this failure has taken of each stock so far.
        let mut taken: Vec<(usize, f64)> = Vec::new();
        for at in risk_model.order[f].iter().copied().filter(|at| able[f][*at]) {
            let uses = &failure.repairs[at].uses;
            let before =
                |stock: usize| taken.iter().find(|(other, _)| *other == stock).map_or(0.0, |(_, share)| *share);
            let reach = uses.iter().map(|(stock, _)| fills[*stock] - before(*stock)).fold(left, f64::min);
            if reach <= 0.0 {
                continue;
            }
            shares[at] = reach;
            left -= reach;
            if instance.pooling == Pooling::LeftOver {
                for (stock, _) in uses {
                    match taken.iter_mut().find(|(other, _)| other == stock) {
                        Some((_, share)) => *share += reach,
                        None => taken.push((*stock, reach)),
                    }
                }
            }
        }
        shares
    };
    (0..instance.failures.len()).map(one).collect()
}

impl Division {
    /// What is wanted of a stock with this kit. Where the kit can use it for nothing: what would be if each failure turned to
    /// it after the repairs that the kit does allow.
    pub fn wanted(&self, instance: &Instance, risk_model: &RiskModel, stock: usize) -> CompoundPoisson {
        let able = self.sources(instance, risk_model, stock, true);
        if able.is_empty() {
            CompoundPoisson::new(self.sources(instance, risk_model, stock, false))
        } else {
            CompoundPoisson::new(able)
        }
    }

    /// Occurrences that come to a stock, with the units taken each time.
    fn sources(&self, instance: &Instance, risk_model: &RiskModel, stock: usize, able_only: bool) -> Vec<(f64, u32)> {
        let source = |f: usize| {
            let mut left = 1.0;
            for at in &risk_model.order[f] {
                let drawn = instance.failures[f].repairs[*at].uses.iter().find(|(used, _)| *used == stock);
                match drawn {
                    Some((_, units)) if self.able[f][*at] || !able_only => {
                        return Some((risk_model.means[f] * left, *units));
                    }
                    _ => left -= self.shares[f][*at],
                }
            }
            None
        };
        let all = instance.failures_drawing_on(stock).filter_map(source);
        all.filter(|(mean, _)| *mean > 0.0).collect()
    }
}
