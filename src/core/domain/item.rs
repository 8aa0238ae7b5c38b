//! Things that can be carried.

use super::{Basis, Kind, Map};
use crate::units::{Length, Mass, Money, Temperature, Volume};

/// A thing that can be carried.
#[allow(clippy::struct_excessive_bools, reason = "independent marks of a catalogue entry")]
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// The same in two or three words, for lists; the name where that is short enough.
    pub short: String,
    /// Tool, spare, food ...
    pub kind: Kind,
    /// Mass of one, as carried (canisters and water bags full).
    pub mass: Mass,
    /// Packed volume of one.
    pub volume: Volume,
    /// Longest side as packed.
    pub longest: Length,
    /// What one costs.
    pub price: Money,
    /// The most units that could make sense on one bike.
    pub at_most: u32,
    /// Functions, with how many of them at a time one unit gives.
    pub provides: Map<u32>,
    /// Stocks, in units held by one.
    pub holds: Map<u32>,
    /// Needs of the trip that one unit meets.
    pub meets: Map<Contribution>,
    /// Functions without which the item is useless.
    pub requires: Map<u32>,
    /// Wants to be reachable without unpacking.
    pub quick: bool,
    /// Wants to stay dry.
    pub dry: bool,
    /// Kinds it must not share a bag with.
    pub apart_from: Vec<Kind>,
    /// Belongs to one rider and is not shared in a group.
    pub personal: bool,
    /// Carried for reasons that the program does not know, and only when asked for by name.
    pub on_request: bool,
    /// Where mass, volume and price come from.
    pub basis: Basis,
}

/// What one unit of an item does for a need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contribution {
    /// In the need's unit.
    pub amount: f64,
    /// It counts only where the night is no colder than this (comfort temperature).
    pub down_to: Option<Temperature>,
}
