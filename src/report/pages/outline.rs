//! What bags look like from the left and from above: an outline in a square of one, and how long and high it is drawn.
//! The shape follows from where a bag hangs and how long it is; the area is that of a face of a cube of its volume.

use fardel_core::domain::{Bag, Side};

/// An outline, and the sides of the box that it is stretched to, by the side of a cube of the bag's volume.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Outline {
    pub path: &'static str,
    pub along: f64,
    pub other: f64,
}

/// A case, a pack, a tray.
const CASE: &str = "M.1 0H.9Q1 0 1 .12V.88Q1 1 .9 1H.1Q0 1 0 .88V.12Q0 0 .1 0z";
/// A side bag with its roll on top, narrower below, where the wheel and the exhaust are.
const SIDE_BAG: &str = "M.12 0H.88Q.96 0 .96 .1L1 .2L.9 .88Q.88 1 .78 1H.22Q.12 1 .1 .88L0 .2L.04 .1Q.04 0 .12 0z";
/// A roll or a tube seen from its end.
const ROUND: &str = "M.5 0A.5 .5 0 0 1 .5 1A.5 .5 0 0 1 .5 0z";
/// A roll, bottle or tube seen from its side.
const UPRIGHT: &str = "M.5 0Q1 0 1 .22V.78Q1 1 .5 1Q0 1 0 .78V.22Q0 0 .5 0z";
/// A tank bag rises towards the bars.
const WEDGE: &str = "M.06 .3Q.16 0 .4 0Q.8 .1 1 .72Q1 1 .86 1H.1Q0 1 0 .8z";

/// Above this height in metres, behind the tank, a bag is worn.
const WORN_M: f64 = 0.99;
/// Rolls lie across; what is shorter is a pack or a case.
const ROLL_FROM_MM: f64 = 480.0;
/// Below this many litres a bag hung at a side is a bottle's or a small one.
const SMALL_L: f64 = 8.0;
/// Below this height in metres a bag hangs at the frame.
const LOW_M: f64 = 0.5;

/// Seen from the left.
pub(super) fn from_left(bag: &Bag) -> Outline {
    let outline = |path, along: f64| Outline { path, along, other: 1.0 / along };
    let ahead = bag.ahead.metres();
    match bag.side {
        Side::Left | Side::Right if bag.volume.litres() >= SMALL_L => outline(SIDE_BAG, 1.15),
        Side::Left | Side::Right => outline(UPRIGHT, 0.8),
        Side::Centre if bag.height.metres() < LOW_M => outline(ROUND, 1.0),
        Side::Centre if across(bag) => outline(ROUND, 1.0),
        Side::Centre if (0.6..1.0).contains(&ahead) => outline(WEDGE, 1.35),
        Side::Centre if flat(bag) => outline(CASE, 1.7),
        Side::Centre if bag.height.metres() > WORN_M && ahead > 0.3 => outline(UPRIGHT, 0.75),
        Side::Centre => outline(CASE, 1.3),
    }
}

/// Seen from above, the front on the left.
pub(super) fn from_above(bag: &Bag) -> Outline {
    let outline = |path, along: f64| Outline { path, along, other: 1.0 / along };
    match bag.side {
        Side::Left | Side::Right if bag.volume.litres() >= SMALL_L => outline(CASE, 1.3),
        Side::Left | Side::Right => outline(ROUND, 1.0),
        Side::Centre if across(bag) || bag.height.metres() < LOW_M => outline(UPRIGHT, 0.6),
        Side::Centre if (0.6..1.0).contains(&bag.ahead.metres()) => outline(CASE, 1.15),
        Side::Centre => outline(CASE, 1.0),
    }
}

/// Lies across the bike.
fn across(bag: &Bag) -> bool {
    bag.longest.metres() * 1000.0 >= ROLL_FROM_MM
}

/// Lies under the seat.
fn flat(bag: &Bag) -> bool {
    bag.volume.litres() < 1.0
}
