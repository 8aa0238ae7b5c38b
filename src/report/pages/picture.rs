//! The bike seen from the left and from above, with each bag where the catalogue puts it. Boxes are as large as cubes of
//! the bags' volumes; the bike itself is a sketch stretched to its wheelbase.

use super::bags::share;
use super::chart::hundredth;
use crate::Look;
use crate::view::load::weight;
use crate::words::percent;
use fardel_core::answer::{Loading, PackedBag};
use fardel_core::domain::{Bag, Bike, Catalogue, Side};
use fardel_core::resolve::Scale;
use serde::Serialize;

/// Picture units for a metre.
const METRE: f64 = 142.0;
/// Where the front axle lies in both views: the bike looks to the left.
const FRONT: f64 = 58.0;
/// Where the ground lies in the view from the left.
const GROUND: f64 = 204.0;
/// Where the middle of the bike lies in the view from above.
const MIDDLE: f64 = 96.0;
/// Numbers in the picture keep this far apart.
const APART: f64 = 19.0;

/// Both views.
#[derive(Serialize)]
pub(super) struct Picture {
    front: f64,
    rear: f64,
    ground: f64,
    middle: f64,
    metre: f64,
    /// How far the sketch is stretched along.
    stretch: f64,
    left: Vec<Shape>,
    above: Vec<Shape>,
    front_load: Axle,
    rear_load: Axle,
}

/// A bag in one view.
#[derive(Serialize)]
struct Shape {
    number: usize,
    x: f64,
    y: f64,
    size: f64,
    /// The filled part, from below.
    fill_y: f64,
    fill: f64,
    /// Where its number stands.
    at: f64,
    up: f64,
}

#[derive(Serialize)]
struct Axle {
    mass: String,
    used: Option<String>,
}

/// Wheelbase of the sketch in metres.
const SKETCH: f64 = 1.45;

/// The picture, if the catalogue still knows the bike.
pub(super) fn picture(catalogue: &Catalogue, bike: &Bike, bags: &[PackedBag], load: &Loading, look: &Look) -> Picture {
    let wheelbase = bike.wheelbase.metres();
    let placed = || {
        let bag = |(at, own): (usize, &'_ PackedBag)| Some((at + 1, catalogue.bags.get(&own.id)?, filled(own)));
        bags.iter().enumerate().filter_map(bag).collect::<Vec<_>>()
    };
    let along = |bag: &Bag| FRONT + (wheelbase - bag.ahead.metres()) * METRE;
    let up = |bag: &Bag| GROUND - bag.height.metres() * METRE;
    let sideways = |bag: &Bag| {
        MIDDLE
            + METRE
                * match bag.side {
                    Side::Left => bag.out.metres(),
                    Side::Right => -bag.out.metres(),
                    Side::Centre => 0.0,
                }
    };
    // From the left, the bags on the right side are hidden.
    let seen = placed().into_iter().filter(|(_, bag, _)| bag.side != Side::Right);
    let left = seen.map(|(number, bag, fill)| shape(number, bag, fill, (along(bag), up(bag)))).collect();
    let above =
        placed().into_iter().map(|(number, bag, fill)| shape(number, bag, fill, (along(bag), sideways(bag)))).collect();
    let axle = |scale: Scale| Axle { mass: weight(load.loaded.on(scale), look), used: load.used(scale).map(percent) };
    Picture {
        front: FRONT,
        rear: hundredth(FRONT + wheelbase * METRE),
        ground: GROUND,
        middle: MIDDLE,
        metre: METRE,
        stretch: hundredth(METRE * wheelbase / SKETCH),
        left: apart(left),
        above: apart(above),
        front_load: axle(Scale::Front),
        rear_load: axle(Scale::Rear),
    }
}

fn filled(bag: &PackedBag) -> f64 {
    share(bag.filled.millilitres(), bag.usable.millilitres())
}

fn shape(number: usize, bag: &Bag, fill: f64, (x, y): (f64, f64)) -> Shape {
    let size = (bag.volume.litres() / 1000.0).cbrt() * METRE;
    let (left, top) = (x - size / 2.0, y - size / 2.0);
    Shape {
        number,
        x: hundredth(left),
        y: hundredth(top),
        size: hundredth(size),
        fill_y: hundredth(top + size * (1.0 - fill)),
        fill: hundredth(size * fill),
        at: hundredth(x),
        up: hundredth(y),
    }
}

/// Small boxes lie on large ones. Moves numbers that would cover each other upwards.
fn apart(mut shapes: Vec<Shape>) -> Vec<Shape> {
    shapes.sort_by(|a, b| b.size.total_cmp(&a.size));
    for later in 1..shapes.len() {
        let (before, own) = shapes.split_at_mut(later);
        let near = |own: &Shape, other: &Shape| (own.at - other.at).abs() < APART && (own.up - other.up).abs() < APART;
        for _ in 0..before.len() {
            let Some(other) = before.iter().find(|other| near(&own[0], other)) else { break };
            own[0].up = hundredth(other.up - APART);
        }
    }
    shapes
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(number: usize, at: f64, up: f64) -> Shape {
        Shape { number, x: 0.0, y: 0.0, size: 1.0, fill_y: 0.0, fill: 0.0, at, up }
    }

    #[test]
    fn numbers_keep_apart() {
        let shapes = apart(vec![at(1, 50.0, 50.0), at(2, 55.0, 52.0), at(3, 52.0, 49.0), at(4, 200.0, 50.0)]);
        for (at, one) in shapes.iter().enumerate() {
            for other in &shapes[..at] {
                let apart = (one.at - other.at).abs() >= APART || (one.up - other.up).abs() >= APART;
                assert!(apart, "{} and {}", one.number, other.number);
            }
        }
    }
}
