//! What lies along a ride, from an extract of OpenStreetMap in its PBF format.
//!
//! The extract is read three times, one blob at a time, and only a corridor around the ride is kept: first the ids of the
//! nodes in it and its places, then the ways that go through it, then where the nodes of these ways are. The reader of the
//! format is written here because what the registry has maps files into memory or stops at a crafted file.

mod blob;
mod block;
mod corridor;
pub mod cut;
mod places;
mod tags;
mod wire;

pub use corridor::{Corridor, Way, read};
pub use places::{Place, PlaceKind};
pub use tags::{Ground, WayKind};
