//! What a class buys, and of what one would do for all.

use super::super::pack::PackError;
use super::super::plan::PackAnswer;
use crate::domain::{Catalogue, Item, Kind, Map, Rider};
use crate::units::{Mass, Money};
use std::collections::BTreeMap;

/// A thing that at least one rider has to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Shopping {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Who buys how many.
    pub buyers: Vec<(String, u32)>,
    /// What all of them cost.
    pub price: Money,
    /// What is saved where one does for all; nothing where everybody should have their own.
    pub once: Option<Sum>,
}

/// What one for the group saves.
#[derive(Debug, Clone, PartialEq)]
pub struct Sum {
    /// Who carries the one: a rider who has it packed and does not have to buy it, or the first who does.
    pub carrier: String,
    /// Money.
    pub money: Money,
    /// Mass that is no longer carried.
    pub mass: Mass,
}

/// What is bought, the dearest first. One does for all where everybody rides together and the thing is a tool that is used
/// and put back: no spare, nothing personal, nothing that meets a need of the trip.
pub(super) fn shopping(
    catalogue: &Catalogue,
    riders: &[Rider],
    kits: &[Result<PackAnswer, PackError>],
    together: bool,
) -> Vec<Shopping> {
    let packed: Vec<(&Rider, &PackAnswer)> =
        riders.iter().zip(kits).filter_map(|(r, kit)| Some((r, kit.as_ref().ok()?))).collect();
    let mut buyers: Map<Vec<(String, u32)>> = Map::new();
    for (rider, answer) in &packed {
        for (id, count) in to_buy(answer) {
            buyers.entry(id.to_owned()).or_default().push((rider.name.clone(), count));
        }
    }
    let line = |(id, buyers): (String, Vec<(String, u32)>)| {
        let item = catalogue.items.get(&id)?;
        let count = buyers.iter().map(|(_, count)| *count).sum::<u32>();
        let once = (together && is_shared(item)).then(|| once(item, &packed, &buyers)).flatten();
        Some(Shopping { name: item.name.clone(), price: item.price * count, once, id, buyers })
    };
    let mut lines: Vec<Shopping> = buyers.into_iter().filter_map(line).collect();
    lines.sort_by(|a, b| b.price.cmp(&a.price).then_with(|| a.id.cmp(&b.id)));
    lines
}

/// What a kit buys of each item; an item may lie in several bags.
fn to_buy(answer: &PackAnswer) -> BTreeMap<&str, u32> {
    let items = answer.bags.iter().flat_map(|bag| &bag.items).filter(|item| item.to_buy > 0);
    items.map(|item| (item.id.as_str(), item.to_buy)).collect()
}

fn is_shared(item: &Item) -> bool {
    item.kind == Kind::Tool && !item.personal && item.holds.is_empty() && item.meets.is_empty()
}

/// What one for all saves, if more than one rider carries it.
fn once(item: &Item, packed: &[(&Rider, &PackAnswer)], buyers: &[(String, u32)]) -> Option<Sum> {
    let carriers: Vec<(&Rider, u32)> =
        packed.iter().map(|(rider, answer)| (*rider, answer.kit.count(&item.id))).filter(|(_, n)| *n > 0).collect();
    if carriers.len() < 2 {
        return None;
    }
    let buys = |rider: &Rider| buyers.iter().find(|(name, _)| *name == rider.name).map_or(0, |(_, count)| *count);
    // Whoever buys least of it, the first of equals; and whoever needs several keeps several.
    let (carrier, own) = carriers.iter().min_by_key(|(rider, _)| buys(rider))?;
    let most = carriers.iter().map(|(_, count)| *count).max()?;
    let bought: u32 = buyers.iter().map(|(_, count)| *count).sum();
    let carried: u32 = carriers.iter().map(|(_, count)| *count).sum();
    let still = buys(carrier) + most.saturating_sub(*own);
    let money = item.price * bought.saturating_sub(still);
    let mass = item.mass * carried.saturating_sub(most);
    (money > Money::ZERO).then(|| Sum { carrier: carrier.name.clone(), money, mass })
}
