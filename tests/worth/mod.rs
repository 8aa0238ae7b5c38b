//! What a kilogram, a purchase, a thing to pack and a breakdown cost: kits that stop growing.

mod bands;
mod before;
mod chance;
mod exchange;
mod own_figures;
mod prices;

/// Every price charged, for the tiny worlds.
pub const PRICES: &str = "prices:\n  weight: 1\n  speed_kmh: { sealed: 70, gravel: 45, track: 30, rough: 20 }\n  strain: { sealed: 0, gravel: 0, track: 0, rough: 1 }\n  \
    hour: 40 USD\n  service: { tool: 10 days }\n  thing: 0.5 min\n  rest_of_day: 0 h\n  recovery: 0 USD\n  dread: 0.1\n  basis: from memory\n";
