//! The ride as a picture: where it goes, and what lies along it. One SVG that loads nothing.
//!
//! What is ridden on is told by the pattern of the line as well as by its colour, and every place has its letter.

mod along;
mod pen;
mod plan;

use crate::draft::Leg;
use crate::map::{Ground, PlaceKind};
use crate::survey::Survey;
use fardel_words::{say, several, word};
use pen::Pen;

/// Width of the picture, and the space around what is drawn. Narrow, so that it can be read on a phone too.
const WIDTH: f64 = 620.0;
const MARGIN: f64 = 72.0;
/// Size of letters.
const LETTERS: f64 = 15.0;
/// Room that a letter takes on average.
const LETTER: f64 = 8.3;

/// How a line looks on which something is ridden: colour, pattern, width.
fn look(ground: Ground) -> (&'static str, &'static str, f64) {
    match ground {
        Ground::Sealed => ("#1a1a1a", "", 4.5),
        Ground::Gravel => ("#0067a5", "16 5", 4.5),
        Ground::Track => ("#c25200", "7 5", 4.5),
        Ground::Rough => ("#a3006b", "2.5 4", 6.0),
        Ground::Unknown => ("#6b6b6b", "", 1.8),
        Ground::OffMap => ("#6b6b6b", "2 5", 1.8),
        Ground::Ferry => ("#00756b", "18 4 3 4", 2.2),
    }
}

/// Letter and colour of a kind of place.
fn sign(kind: PlaceKind) -> (&'static str, &'static str) {
    match kind {
        PlaceKind::Fuel => ("F", "#8a1c00"),
        PlaceKind::Shop => ("S", "#4b2e83"),
        PlaceKind::Water => ("W", "#005a9c"),
        PlaceKind::Ford => ("~", "#00756b"),
        PlaceKind::Gate => ("G", "#5a4a00"),
        _ => ("H", "#1a1a1a"),
    }
}

/// The ground under each piece: unknown where there is no map.
fn ground(survey: &Survey, piece: usize) -> Ground {
    survey.map.as_ref().map_or(Ground::Unknown, |map| map.grounds[piece])
}

/// Draws a ride with its legs.
#[must_use]
pub fn svg(survey: &Survey, legs: &[Leg], title: &str) -> String {
    let mut pen = Pen::default();
    let km = survey.ride.metres / 1000.0;
    pen.text((MARGIN, 30.0), 18.0, "start", "bold", title);
    let days = several!(legs.len(), "{n} day", "{n} days");
    pen.text((MARGIN, 52.0), LETTERS, "start", "normal", &say!("{km:.1} km, {days}"));
    let below = plan::draw(&mut pen, survey, legs, 66.0);
    let below = legend(&mut pen, survey, below + 20.0);
    let below = along::draw(&mut pen, survey, legs, below + 38.0);
    let mut bottom = below + 16.0;
    let caution = word!("A plan, not a promise: maps err, tracks close, waits are judgement.");
    pen.text((MARGIN, bottom), LETTERS, "start", "normal", caution);
    if survey.map.is_some() {
        bottom += 18.0;
        let thanks = word!("Map data © OpenStreetMap contributors, Open Database License 1.0");
        pen.text((MARGIN, bottom), LETTERS, "start", "normal", thanks);
    }
    pen.finish(WIDTH, bottom + 18.0, title)
}

/// What lines and letters mean, of those that are there.
fn legend(pen: &mut Pen, survey: &Survey, top: f64) -> f64 {
    let (mut x, mut y) = (MARGIN, top);
    let mut place = |width: f64| {
        if x + width > WIDTH - MARGIN {
            (x, y) = (MARGIN, y + 22.0);
        }
        x += width;
        (x - width, y)
    };
    for ground_of in Ground::ALL {
        let there = (0..survey.ride.pieces.len()).any(|piece| ground(survey, piece) == ground_of);
        if there {
            let word =
                if survey.map.is_none() { word!("the track; no map tells its surface") } else { ground_of.word() };
            let (x, y) = place(68.0 + LETTER * f64::from(u32::try_from(word.len()).unwrap_or(20)));
            pen.line(&[(x, y), (x + 44.0, y)], look(ground_of));
            pen.text((x + 52.0, y + 4.5), LETTERS, "start", "normal", word);
        }
    }
    let kinds = [
        (PlaceKind::Fuel, word!("fuel"), survey.fuel.is_empty()),
        (PlaceKind::Shop, word!("shop"), survey.food.is_empty()),
        (PlaceKind::Water, word!("drinking water"), !survey.water.iter().any(|pass| is_water(survey, pass.1))),
        (PlaceKind::Ford, word!("ford"), survey.fords.is_empty()),
        (PlaceKind::Gate, word!("gate"), survey.gates.is_empty()),
    ];
    for (kind, word, _) in kinds.into_iter().filter(|(_, _, missing)| !missing) {
        let (x, y) = place(42.0 + LETTER * f64::from(u32::try_from(word.len()).unwrap_or(20)));
        pen.sign((x + 9.0, y), sign(kind));
        pen.text((x + 24.0, y + 4.5), LETTERS, "start", "normal", word);
    }
    y
}

fn is_water(survey: &Survey, place: usize) -> bool {
    survey.places[place].kind == PlaceKind::Water
}
