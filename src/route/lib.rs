//! From a track and an open map to the figures of a trip.
//!
//! ```text
//! read -> track -> ride (pieces along the way) -> days
//!                  map corridor -> matching, network -> help, gaps -> draft -> trip as YAML, picture as SVG
//! ```
//!
//! Plain data in, plain data out. It knows nothing of the rest of fardel, opens no file and starts no thread: texts and
//! readers are given to it, so it runs in a browser too. Map data are those of OpenStreetMap (© OpenStreetMap
//! contributors, Open Database License 1.0).

pub mod climb;
pub mod days;
pub mod draft;
pub mod fault;
pub mod gaps;
pub mod geo;
pub mod grid;
pub mod help;
pub mod limits;
pub mod map;
pub mod matching;
pub mod network;
pub mod picture;
pub mod read;
pub mod ride;
pub mod survey;
pub mod table;
pub mod track;
