//! The bike seen from the left and from above, with each bag where the catalogue puts it, filled as far as it is full and
//! the darker the nearer to its load. The bike itself is a sketch stretched to its wheelbase.

use super::bags::share;
use super::chart::hundredth;
use super::outline::{Outline, from_above, from_left};
use crate::Look;
use crate::view::load::weight;
use crate::words::{list, percent};
use fardel_core::answer::{Loading, PackedBag};
use fardel_core::domain::{Bag, Bike, Catalogue, Side};
use fardel_core::resolve::Scale;
use fardel_words::say;
use serde::Serialize;
use std::f64::consts::PI;

/// Picture units for a metre.
const METRE: f64 = 142.0;
/// Where the front axle lies in both views: the bike looks to the left.
const FRONT: f64 = 58.0;
/// Where the ground lies in the view from the left.
const GROUND: f64 = 204.0;
/// Where the middle of the bike lies in the view from above.
const MIDDLE: f64 = 96.0;
/// Numbers in the picture keep this far apart.
const APART: f64 = 24.0;
/// Radius of a number's disc.
const NUMBER: f64 = 12.0;

/// The top of the bars above the ground in metres; a bag may be higher.
const BARS: f64 = 1.13;
/// Room above the highest thing.
const AIR: f64 = 4.0;
/// Room below the ground.
const BELOW: f64 = 6.0;
/// Radius of a wheel in metres.
const WHEEL: f64 = 0.32;
/// Where the shades change: shares of the load that a bag may bear.
const SHADES: [f64; 3] = [0.25, 0.5, 0.75];

/// Both views.
#[derive(Serialize)]
pub(super) struct Picture {
    front: f64,
    rear: f64,
    ground: f64,
    middle: f64,
    metre: f64,
    /// The upper edge and the height of the view from the left.
    top: f64,
    height: f64,
    /// Radius of the wheels, and half their circumference.
    wheel: f64,
    round: f64,
    /// How far the sketch is stretched along.
    stretch: f64,
    left: Vec<Shape>,
    above: Vec<Shape>,
    front_load: Axle,
    rear_load: Axle,
    /// What is hidden from the left, and what the shades mean, in the words below the picture.
    caption: String,
    /// The view from the left for those who do not see it.
    told: String,
}

/// A bag in one view.
#[derive(Serialize)]
struct Shape {
    number: usize,
    outline: &'static str,
    x: f64,
    y: f64,
    width: f64,
    height: f64,
    /// The filled part, from below: its upper edge, and its share of the whole.
    fill_y: f64,
    fill: f64,
    fill_height: f64,
    empty: f64,
    /// How much of the load that it may bear is in it, from 1 to 4.
    shade: usize,
    /// Where its number stands.
    at: f64,
    up: f64,
    /// The middle of the bag, to which a line leads from a number that had to move.
    middle: f64,
}

#[derive(Serialize)]
struct Axle {
    mass: String,
    used: Option<String>,
    /// The part of the wheel's circumference that stands for what is used.
    arc: f64,
}

/// A bag that the catalogue knows: its number, how full it is and how loaded.
struct Placed<'a> {
    number: usize,
    bag: &'a Bag,
    filled: f64,
    loaded: f64,
}

/// Wheelbase of the sketch in metres.
const SKETCH: f64 = 1.45;

/// The picture, if the catalogue still knows the bike.
pub(super) fn picture(catalogue: &Catalogue, bike: &Bike, bags: &[PackedBag], load: &Loading, look: &Look) -> Picture {
    let wheelbase = bike.wheelbase.metres();
    let placed: Vec<Placed> = bags.iter().enumerate().filter_map(|own| placed(catalogue, own)).collect();
    let along = |bag: &Bag| FRONT + (wheelbase - bag.ahead.metres()) * METRE;
    // From the left, the bags on the right side are hidden.
    let seen = placed.iter().filter(|own| own.bag.side != Side::Right);
    let left = seen.map(|own| {
        let middle = (along(own.bag), GROUND - own.bag.height.metres() * METRE);
        shape(own, from_left(own.bag), middle)
    });
    let left = apart(left.collect());
    let above = placed.iter().map(|own| shape(own, from_above(own.bag), (along(own.bag), sideways(own.bag))));
    let wheel = WHEEL * METRE;
    let axle = |scale: Scale| {
        let used = load.used(scale);
        let arc = hundredth(used.unwrap_or(0.0).clamp(0.0, 1.0) * 2.0 * PI * wheel);
        Axle { mass: weight(load.loaded.on(scale), look), used: used.map(percent), arc }
    };
    let highest = left.iter().map(|shape| shape.y.min(shape.up - NUMBER)).fold(GROUND - BARS * METRE, f64::min);
    let top = hundredth(highest - AIR);
    Picture {
        front: FRONT,
        rear: hundredth(FRONT + wheelbase * METRE),
        ground: GROUND,
        middle: MIDDLE,
        metre: METRE,
        top,
        height: hundredth(GROUND + BELOW - top),
        wheel: hundredth(wheel),
        round: hundredth(2.0 * PI * wheel),
        stretch: hundredth(METRE * wheelbase / SKETCH),
        left,
        above: apart(above.collect()),
        front_load: axle(Scale::Front),
        rear_load: axle(Scale::Rear),
        caption: caption(&placed),
        told: in_words(&placed),
    }
}

fn placed<'a>(catalogue: &'a Catalogue, (at, own): (usize, &PackedBag)) -> Option<Placed<'a>> {
    Some(Placed {
        number: at + 1,
        bag: catalogue.bags.get(&own.id)?,
        filled: share(own.filled.millilitres(), own.usable.millilitres()),
        loaded: share(own.mass.grams(), own.max_load.grams()),
    })
}

fn sideways(bag: &Bag) -> f64 {
    let out = match bag.side {
        Side::Left => bag.out.metres(),
        Side::Right => -bag.out.metres(),
        Side::Centre => 0.0,
    };
    MIDDLE + METRE * out
}

/// Which bags are hidden, and what the shades say about this load.
fn caption(placed: &[Placed]) -> String {
    let numbers = |own: Vec<&Placed>| list(&own.iter().map(|own| own.number.to_string()).collect::<Vec<_>>());
    let hidden: Vec<&Placed> = placed.iter().filter(|own| own.bag.side == Side::Right).collect();
    let heavy: Vec<&Placed> = placed.iter().filter(|own| shade(own.loaded) == SHADES.len() + 1).collect();
    let hidden = match hidden.len() {
        0 => String::new(),
        1 => say!("; bag {} behind", numbers(hidden)),
        _ => say!("; bags {} behind", numbers(hidden)),
    };
    let heavy = match heavy.len() {
        0 => say!("none near its load"),
        1 => say!("bag {} near its load", numbers(heavy)),
        _ => say!("bags {} near their load", numbers(heavy)),
    };
    say!("From the left{hidden}. Darkest: {heavy}.")
}

/// Each bag with its fill and load.
fn in_words(placed: &[Placed]) -> String {
    let one = |own: &Placed| {
        let (room, load) = (percent(own.filled), percent(own.loaded));
        say!("{}, {}: room {room}, load {load}", own.number, own.bag.name)
    };
    let bags: Vec<String> = placed.iter().map(one).collect();
    say!(
        "The bike from the left, front wheel on the left of the picture, with the bags of the list. {}.",
        bags.join("; ")
    )
}

/// From 1, lightly loaded, to 4, over three quarters.
fn shade(loaded: f64) -> usize {
    SHADES.iter().filter(|limit| loaded > **limit).count() + 1
}

fn shape(own: &Placed, outline: Outline, (x, y): (f64, f64)) -> Shape {
    let side = (own.bag.volume.litres() / 1000.0).cbrt() * METRE;
    // The picture's boxes keep their area: what is longer is lower.
    let (width, height) = (side * outline.along, side * outline.other);
    let (left, top) = (x - width / 2.0, y - height / 2.0);
    Shape {
        number: own.number,
        outline: outline.path,
        x: hundredth(left),
        y: hundredth(top),
        width: hundredth(width),
        height: hundredth(height),
        fill_y: hundredth(top + height * (1.0 - own.filled)),
        fill: hundredth(own.filled),
        fill_height: hundredth(height * own.filled),
        empty: hundredth(1.0 - own.filled),
        shade: shade(own.loaded),
        at: hundredth(x),
        up: hundredth(y),
        middle: hundredth(y),
    }
}

/// Small boxes lie on large ones. Moves numbers that would cover each other upwards.
fn apart(mut shapes: Vec<Shape>) -> Vec<Shape> {
    shapes.sort_by(|a, b| (b.width * b.height).total_cmp(&(a.width * a.height)));
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
        let (width, height) = (1.0, 1.0);
        let (fill_y, fill, fill_height, empty) = (0.0, 0.0, 0.0, 1.0);
        Shape {
            number,
            outline: "",
            x: 0.0,
            y: 0.0,
            width,
            height,
            fill_y,
            fill,
            fill_height,
            empty,
            shade: 1,
            at,
            up,
            middle: up,
        }
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
