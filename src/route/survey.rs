//! Everything that track and map tell, worked out once; what is written and drawn is taken from here.

use crate::days::{Days, Split, split};
use crate::fault::Fault;
use crate::gaps::passes;
use crate::help::{HelpAt, Helpers, OnMap, Wait, profile};
use crate::map::{self, Corridor, Ground, Place, PlaceKind};
use crate::matching::{OnWay, grounds, matched};
use crate::network::{Network, Speeds};
use crate::ride::Ride;
use crate::track::Track;
use fardel_words::word;
use std::io::{Read, Seek};

/// What the rider wants, and knows better.
#[derive(Debug, Clone, PartialEq)]
pub struct Wishes {
    /// Days, if their number is given.
    pub days: Option<usize>,
    /// What they are told by.
    pub split: Split,
    /// Surfaces by stretch, where the map does not tell them.
    pub stretches: Vec<Stretch>,
    /// How help gets to know.
    pub wait: Wait,
    /// How fast it drives.
    pub speeds: Speeds,
    /// The weather at some height.
    pub weather: Option<Weather>,
    /// Hours to help where no map tells them.
    pub help_hours: Option<f64>,
    /// Half the width of the corridor in which help is looked for, in metres.
    pub reach: f64,
}

impl Default for Wishes {
    fn default() -> Self {
        Self {
            days: None,
            split: Split::Auto,
            stretches: Vec::new(),
            wait: Wait::default(),
            speeds: Speeds::default(),
            weather: None,
            help_hours: None,
            reach: 30_000.0,
        }
    }
}

/// What the rider says of a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Metres from the start.
    pub from: f64,
    /// Metres from the start; infinite for the end.
    pub to: f64,
    /// Shares of sealed, gravel, track and rough, together 1.
    pub shares: [f64; 4],
}

/// The coldest and the hottest hour at a height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weather {
    /// Degrees Celsius.
    pub lowest: f64,
    /// Degrees Celsius.
    pub highest: f64,
    /// Metres above the sea; none where it holds for the whole ride.
    pub height: Option<f64>,
}

/// What track and map tell.
#[derive(Debug, Clone)]
pub struct Survey {
    /// The ride, laid out.
    pub ride: Ride,
    /// Its days.
    pub days: Days,
    /// What the map told; none without one.
    pub map: Option<Mapped>,
    /// Places of map and rider: those of the rider first.
    pub places: Vec<Place>,
    /// Passes of pumps, shops and taps: metres from the start, and the place.
    pub fuel: Vec<(f64, usize)>,
    /// Where food is sold.
    pub food: Vec<(f64, usize)>,
    /// Where there is water; shops and pumps sell it.
    pub water: Vec<(f64, usize)>,
    /// Water across the way.
    pub fords: Vec<f64>,
    /// Gates on the way.
    pub gates: Vec<f64>,
}

/// What a map tells of a ride.
#[derive(Debug, Clone)]
pub struct Mapped {
    /// What was read.
    pub corridor: Corridor,
    /// The way under each piece.
    pub matched: Vec<Option<OnWay>>,
    /// What is under each piece.
    pub grounds: Vec<Ground>,
    /// Help along the ride.
    pub help: Vec<HelpAt>,
    /// Places that can help, and those of them that no way leads to.
    pub helpers: (usize, usize),
}

/// Works everything out.
///
/// # Errors
/// [`Fault`] where the track has no length, the map cannot be used, or the days cannot be split as asked.
pub fn survey<R: Read + Seek>(
    name: &str,
    track: &Track,
    extract: Option<(&str, R)>,
    wishes: &Wishes,
) -> Result<Survey, Fault> {
    along(name, ride(name, track)?, track, extract, wishes)
}

/// The ride of a track.
///
/// # Errors
/// [`Fault`] where the track has no length, or too much.
pub fn ride(name: &str, track: &Track) -> Result<Ride, Fault> {
    Ride::new(track).map_err(|words| fault(name, &words))
}

fn fault(name: &str, words: &str) -> Fault {
    match words.split_once("; expected ") {
        Some((found, expected)) => Fault::new(name, found.trim_start_matches("found "), expected),
        None => Fault::new(name, words, word!("a track that can be used")),
    }
}

/// The same along a ride that is laid out already.
///
/// # Errors
/// [`Fault`] where the map cannot be used, or the days cannot be split as asked.
pub fn along<R: Read + Seek>(
    name: &str,
    ride: Ride,
    track: &Track,
    extract: Option<(&str, R)>,
    wishes: &Wishes,
) -> Result<Survey, Fault> {
    let mut places: Vec<Place> = track.marks.iter().filter_map(Place::marked).collect();
    let map = match extract {
        None => None,
        Some((name, reader)) => {
            let corridor = map::read(name, reader, &ride, wishes.reach)?;
            places.extend(corridor.places.iter().cloned());
            Some(mapped(&ride, corridor, &places, wishes))
        }
    };
    let grounds = map.as_ref().map(|map| map.grounds.as_slice());
    let days = split(&ride, track, wishes.days, wishes.split, grounds).map_err(|words| fault(name, &words))?;
    let at = |kinds: &[PlaceKind]| passes(&ride, &places, kinds);
    let (fuel, food) = (at(&[PlaceKind::Fuel]), at(&[PlaceKind::Shop]));
    let water = at(&[PlaceKind::Water, PlaceKind::Shop, PlaceKind::Fuel]);
    let mut fords: Vec<f64> = at(&[PlaceKind::Ford]).into_iter().map(|(metres, _)| metres).collect();
    fords.extend(map.as_ref().map(|map| ways_through_water(&ride, map)).unwrap_or_default());
    let gates = at(&[PlaceKind::Gate]).into_iter().map(|(metres, _)| metres).collect();
    Ok(Survey { fords: apart(fords), gates: apart(gates), ride, days, map, places, fuel, food, water })
}

fn mapped(ride: &Ride, corridor: Corridor, places: &[Place], wishes: &Wishes) -> Mapped {
    let matched = matched(ride, &corridor);
    let grounds = grounds(&matched, &corridor);
    let speeds = &wishes.speeds;
    let network = Network::new(&corridor, speeds);
    let helpers = Helpers::new(places, &network, speeds);
    let map = OnMap { ride, corridor: &corridor, places, matched: &matched, network: &network, speeds };
    let help = profile(&map, &helpers, &wishes.wait);
    Mapped { helpers: (helpers.count(), helpers.unreached), matched, grounds, help, corridor }
}

/// Where the ride comes to a way that is a ford as a whole.
fn ways_through_water(ride: &Ride, map: &Mapped) -> Vec<f64> {
    let wet = |at: usize| map.matched[at].filter(|on| map.corridor.ways[on.way as usize].kind.ford).map(|on| on.way);
    let begins = |at: &usize| wet(*at).is_some() && (*at == 0 || wet(at - 1) != wet(*at));
    (0..ride.pieces.len()).filter(begins).map(|at| ride.pieces[at].from).collect()
}

/// One of those within 50 m of each other: a ford is often both a point and a way, and a gate has two posts.
fn apart(mut places: Vec<f64>) -> Vec<f64> {
    places.sort_by(f64::total_cmp);
    places.dedup_by(|after, before| *after - *before < 50.0);
    places
}
