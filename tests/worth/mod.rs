//! What a kilogram, a purchase, a thing to pack and a breakdown cost: kits that stop growing.

mod bands;
mod before;
mod chance;
mod own_figures;
mod prices;
