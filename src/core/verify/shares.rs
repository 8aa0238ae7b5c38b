//! How a kit's repairs share out the occurrences of each failure, and how far its stocks reach for them, by direct iteration
//! from names: the second reckoning of what `risk` does by numbers.

use super::stock;
use crate::domain::Pooling;
use std::collections::BTreeMap;

/// A failure as the sharing sees it.
pub(super) struct Fault {
    /// Expected occurrences over the whole trip.
    pub mean: f64,
    /// Repairs worth beginning, the one that saves most first.
    pub ways: Vec<Way>,
}

/// A repair as the sharing sees it.
pub(super) struct Way {
    /// Key of the repair within its failure.
    pub repair: String,
    /// Hours saved if it can always be done, dread among them.
    pub benefit: f64,
    /// The dread in it.
    pub dread: f64,
    /// Are all its functions in the kit?
    pub equipped: bool,
    /// Stocks and units used up.
    pub uses: Vec<(String, u32)>,
}

/// Fills that moved by less than this have settled.
const SETTLED: f64 = 1e-13;

/// The shares of every way of every fault.
pub(super) fn shares(faults: &[Fault], carried: &dyn Fn(&str) -> u32, pooling: Pooling) -> Vec<Vec<f64>> {
    let able = |way: &Way| way.equipped && way.uses.iter().all(|(name, units)| carried(name) >= *units);
    let mut names: Vec<&str> =
        faults.iter().flat_map(|fault| &fault.ways).flat_map(|way| &way.uses).map(|(name, _)| name.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let mut fills: BTreeMap<&str, f64> = names.iter().map(|name| (*name, 1.0)).collect();
    let mut shares = shared(faults, &able, &fills, pooling);
    for _ in 0..1000 {
        let next: BTreeMap<&str, f64> = names
            .iter()
            .map(|name| (*name, stock::fill(&sources(faults, &shares, &able, name, pooling), carried(name))))
            .collect();
        let moved = names.iter().map(|name| (next[name] - fills[name]).abs()).fold(0.0, f64::max);
        fills = next;
        shares = shared(faults, &able, &fills, pooling);
        if moved <= SETTLED || pooling == Pooling::EveryRepair {
            break;
        }
    }
    shares
}

/// The shares where it is known how far each stock reaches.
pub(super) fn shares_by(
    faults: &[Fault],
    carried: &dyn Fn(&str) -> u32,
    fill: &dyn Fn(&str) -> f64,
    pooling: Pooling,
) -> Vec<Vec<f64>> {
    let able = |way: &Way| way.equipped && way.uses.iter().all(|(name, units)| carried(name) >= *units);
    let names = faults.iter().flat_map(|fault| &fault.ways).flat_map(|way| &way.uses).map(|(name, _)| name.as_str());
    let fills: BTreeMap<&str, f64> = names.map(|name| (name, fill(name))).collect();
    shared(faults, &able, &fills, pooling)
}

/// What comes to a stock: of each fault, what the better ways of this kit leave over, at the units of the first way that
/// draws on it. The first version of these sums takes every fault in full, by the best of all ways.
fn sources(
    faults: &[Fault],
    shares: &[Vec<f64>],
    able: &dyn Fn(&Way) -> bool,
    name: &str,
    pooling: Pooling,
) -> Vec<(f64, u32)> {
    let of = |(fault, shares): (&Fault, &Vec<f64>)| {
        let mut met = 0.0;
        for (way, share) in fault.ways.iter().zip(shares) {
            let drawn = way.uses.iter().find(|(other, _)| other == name).map(|(_, units)| *units);
            if let Some(units) = drawn.filter(|_| able(way) || pooling == Pooling::EveryRepair) {
                let left = if pooling == Pooling::EveryRepair { 1.0 } else { 1.0 - met };
                return Some((fault.mean * left, units));
            }
            met += share;
        }
        None
    };
    faults.iter().zip(shares).filter_map(of).filter(|(mean, _)| *mean > 0.0).collect()
}

fn shared(
    faults: &[Fault],
    able: &dyn Fn(&Way) -> bool,
    fills: &BTreeMap<&str, f64>,
    pooling: Pooling,
) -> Vec<Vec<f64>> {
    let of = |fault: &Fault| {
        let mut open = 1.0_f64;
        let mut rest: BTreeMap<&str, f64> = fills.clone();
        let share = |way: &Way| {
            let reach = way.uses.iter().map(|(name, _)| rest[name.as_str()]).fold(open, f64::min).max(0.0);
            if !able(way) || reach <= 0.0 {
                return 0.0;
            }
            open -= reach;
            if pooling == Pooling::LeftOver {
                for (name, _) in &way.uses {
                    if let Some(left) = rest.get_mut(name.as_str()) {
                        *left -= reach;
                    }
                }
            }
            reach
        };
        fault.ways.iter().map(share).collect()
    };
    faults.iter().map(of).collect()
}
