//! How much is taken. Beyond it a file is refused with a clear word instead of filling the memory.

/// Bytes of one track file: about a million points with heights and times.
pub const TEXT_BYTES: usize = 256 << 20;
/// Bytes of one GeoJSON file, which takes twenty times as much memory while it is read.
pub const JSON_BYTES: usize = 32 << 20;
/// Points of all tracks together.
pub const POINTS: usize = 2_000_000;
/// Waypoints of all files together.
pub const WAYPOINTS: usize = 20_000;
/// Length of all tracks together, in metres: halfway around the earth.
pub const METRES: f64 = 20_000_000.0;
/// Nested elements of an XML file.
pub const DEPTH: usize = 64;
/// Days that a track is split into.
pub const DAYS: usize = 60;
/// Nodes of a map in the corridor, 4 bytes each while ways are read.
pub const MAP_NODES: usize = 100_000_000;
/// Points of roads and tracks in the corridor, about 150 bytes each until all is worked out.
pub const NETWORK_NODES: usize = 16_000_000;
/// Fuel, shops, taps, places and marks in the corridor.
pub const MAP_PLACES: usize = 500_000;
