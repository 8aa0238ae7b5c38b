//! Where each day ends.

use crate::limits::DAYS;
use crate::map::Ground;
use crate::ride::Ride;
use crate::track::{MarkKind, Track};
use fardel_words::{say, word};

/// What days are told by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Split {
    /// Camps, files, long stops, or length, the first of them that fits.
    Auto,
    /// One file a day.
    Files,
    /// The rider's marks of camps.
    Camps,
    /// Long stops in tracks with times.
    Stops,
    /// Equal lengths.
    Length,
    /// Equal hours of riding by what is ridden on.
    Riding,
}

/// Days of a ride.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    /// Metres from the start at which each ends, rising; the last is the end of the ride.
    pub ends: Vec<f64>,
    /// What the camp at each end is called; empty where there is none or it has no name.
    pub camps: Vec<String>,
    /// How it was split, in words.
    pub how: String,
}

/// A camp farther than this from the way is not on it, in metres.
const CAMP_REACH: f64 = 2000.0;
/// A stop that ends a day, in hours, and the circle that is not left meanwhile, in metres.
const NIGHT_HOURS: f64 = 5.0;
const STOP_CIRCLE: f64 = 200.0;
/// Kilometres of a day where nothing is said.
const USUAL_KM: f64 = 200.0;

/// Hours of riding on a piece: judgement from memory, no source; only their proportions matter.
#[must_use]
pub fn riding_hours(ground: Ground, metres: f64) -> f64 {
    let speed = match ground {
        Ground::Sealed => 70.0,
        Ground::Gravel => 45.0,
        Ground::Track => 28.0,
        Ground::Rough => 12.0,
        Ground::Unknown => 40.0,
        Ground::OffMap => 20.0,
        Ground::Ferry => return 0.0,
    };
    metres / 1000.0 / speed
}

/// Splits a ride into so many days, or as many as there are.
///
/// # Errors
/// In words, where what is asked for cannot be had of this track.
pub fn split(
    ride: &Ride,
    track: &Track,
    wanted: Option<usize>,
    by: Split,
    grounds: Option<&[Ground]>,
) -> Result<Days, String> {
    if wanted.is_some_and(|days| days == 0 || days > DAYS) {
        return Err(say!("found {} days; expected from 1 to {DAYS}", wanted.unwrap_or_default()));
    }
    let by = if by == Split::Auto { chosen(ride, track, wanted) } else { by };
    match by {
        Split::Camps => camps(ride, track, wanted),
        Split::Files => files(ride, wanted),
        Split::Stops => stops(ride, wanted),
        Split::Riding => {
            let grounds = grounds.ok_or(word!("found no map; expected one, to tell how hard the riding is"))?;
            let hours = |at: usize, metres: f64| riding_hours(grounds[at], metres);
            let how = word!("days of equal riding time (speeds by surface: judgement from memory, no source)");
            Ok(equal(ride, wanted.unwrap_or_else(|| usual(ride)), hours, how))
        }
        Split::Auto | Split::Length => {
            let how = match wanted {
                Some(_) => word!("days of equal length"),
                None => word!("days of about 200 km, as no number of days was given"),
            };
            Ok(equal(ride, wanted.unwrap_or_else(|| usual(ride)), |_, metres| metres, how))
        }
    }
}

fn chosen(ride: &Ride, track: &Track, wanted: Option<usize>) -> Split {
    let fits = |found: usize| found > 1 && found <= DAYS && wanted.is_none_or(|wanted| wanted == found);
    let camps = camp_places(ride, track).len() + 1;
    let nights = nights(ride).len() + 1;
    if fits(camps) {
        Split::Camps
    } else if fits(file_ends(ride).len() + 1) {
        Split::Files
    } else if nights > 1 && nights <= DAYS && wanted.is_none_or(|wanted| wanted > 1 && wanted <= nights) {
        Split::Stops
    } else {
        Split::Length
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to the most days")]
fn usual(ride: &Ride) -> usize {
    (ride.metres / 1000.0 / USUAL_KM).ceil().clamp(1.0, 60.0) as usize
}

/// So many days with the same sum each.
fn equal(ride: &Ride, days: usize, weight: impl Fn(usize, f64) -> f64, how: &str) -> Days {
    let total: f64 = ride.pieces.iter().enumerate().map(|(at, piece)| weight(at, piece.metres)).sum();
    let mut ends = Vec::new();
    let (mut sum, mut day) = (0.0, 1.0);
    let each = total / f64::from(u32::try_from(days).unwrap_or(1));
    for (at, piece) in ride.pieces.iter().enumerate() {
        let more = weight(at, piece.metres);
        while ends.len() + 1 < days && more > 0.0 && sum + more >= each * day {
            ends.push(piece.from + piece.metres * ((each * day - sum) / more).clamp(0.0, 1.0));
            day += 1.0;
        }
        sum += more;
    }
    done(ride, ends.into_iter().map(|end| (end, String::new())).collect(), how.to_owned())
}

/// Ends that are apart from each other and from both ends of the ride.
fn done(ride: &Ride, mut ends: Vec<(f64, String)>, how: String) -> Days {
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    ends.retain(|(end, _)| *end > 0.0 && *end < ride.metres);
    ends.dedup_by(|after, before| after.0 <= before.0);
    ends.push((ride.metres, String::new()));
    let (ends, camps) = ends.into_iter().unzip();
    Days { ends, camps, how }
}

fn camp_places(ride: &Ride, track: &Track) -> Vec<(f64, String)> {
    let camps = track.marks.iter().filter(|mark| mark.kind == MarkKind::Camp);
    let away = |metres: &f64| {
        *metres > CAMP_REACH.min(ride.metres / 20.0) && *metres < ride.metres - CAMP_REACH.min(ride.metres / 20.0)
    };
    let pass = |mark: &crate::track::Mark| ride.passes(mark.at.space(), CAMP_REACH).into_iter().find(away);
    let mut places: Vec<(f64, String)> =
        camps.filter_map(|mark| pass(mark).map(|metres| (metres, mark.name.clone()))).collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places.dedup_by(|after, before| after.0 - before.0 < PASSED);
    places
}

/// Two camps nearer to each other than this are one, in metres.
const PASSED: f64 = 500.0;

fn camps(ride: &Ride, track: &Track, wanted: Option<usize>) -> Result<Days, String> {
    let places = camp_places(ride, track);
    match wanted {
        _ if places.len() >= DAYS => Err(say!("found {} camps; expected fewer than {DAYS}", places.len())),
        Some(days) if days != places.len() + 1 => {
            Err(say!("found {} camps along the way; expected {} for {days} days", places.len(), days - 1))
        }
        _ if places.is_empty() => Err(say!("found no waypoint that is a camp along the way; expected one")),
        _ => Ok(done(ride, places, say!("a day from camp to camp, as marked"))),
    }
}

fn file_ends(ride: &Ride) -> Vec<f64> {
    let pairs = ride.lines.iter().zip(ride.lines.iter().skip(1));
    pairs.filter(|(before, after)| before.1 != after.1).map(|(_, after)| after.0).collect()
}

fn files(ride: &Ride, wanted: Option<usize>) -> Result<Days, String> {
    let ends = file_ends(ride);
    if ends.len() >= DAYS || wanted.is_some_and(|wanted| wanted != ends.len() + 1) {
        let expected = wanted.unwrap_or(DAYS);
        return Err(say!("found {} files with tracks; expected {expected} for as many days", ends.len() + 1));
    }
    Ok(done(ride, ends.into_iter().map(|end| (end, String::new())).collect(), say!("a file for each day")))
}

/// Long stops: metres from the start, and hours.
fn nights(ride: &Ride) -> Vec<(f64, f64)> {
    let (clock, mut stops, mut at) = (&ride.clock, Vec::new(), 0);
    while at < clock.len() {
        let (metres, since, place) = clock[at];
        let near =
            clock[at..].iter().take_while(|(_, time, there)| *time >= since && there.metres_to(place) <= STOP_CIRCLE);
        let near = near.count().max(1);
        let hours = (clock[at + near - 1].1 - since) / 3600.0;
        let stopped = hours >= NIGHT_HOURS;
        if stopped {
            stops.push((metres, hours));
        }
        at += if stopped { near } else { 1 };
    }
    stops.retain(|(metres, _)| *metres > 0.0 && *metres < ride.metres);
    stops
}

fn stops(ride: &Ride, wanted: Option<usize>) -> Result<Days, String> {
    let mut stops = nights(ride);
    if let Some(wanted) = wanted {
        if stops.len() + 1 < wanted {
            let found = stops.len();
            return Err(say!("found {found} stops of {NIGHT_HOURS} hours or more; expected {}", wanted - 1));
        }
        // The longest are the nights.
        stops.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.total_cmp(&b.0)));
        stops.truncate(wanted - 1);
    }
    if stops.len() >= DAYS {
        return Err(say!("found {} long stops; expected fewer than {DAYS}", stops.len()));
    }
    let ends = stops.into_iter().map(|(metres, _)| (metres, String::new())).collect();
    Ok(done(ride, ends, say!("a day up to each stop of {NIGHT_HOURS} hours or more, by the track's times")))
}
