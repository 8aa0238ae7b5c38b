//! One day of the ride as a leg of the trip.

use super::figures;
use crate::map::{Ground, PlaceKind};
use crate::survey::{Survey, Wishes};

/// A number and what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The number, in the unit that the trip has for it.
    pub value: f64,
    /// Where it comes from, in words.
    pub basis: String,
}

impl Figure {
    pub(super) fn new(value: f64, basis: impl Into<String>) -> Self {
        Self { value, basis: basis.into() }
    }
}

/// A leg.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// What it is called.
    pub name: String,
    /// Metres from the start of the ride.
    pub from: f64,
    /// Metres from the start of the ride.
    pub to: f64,
    /// Nights on it: one, but none on the last.
    pub nights: u32,
    /// Metres by what is under them, as found: all of [`Ground::ALL`], in their order.
    pub under: Vec<(Ground, f64)>,
    /// Kilometres of sealed, gravel, track and rough as the trip has them.
    pub km: [f64; 4],
    /// What they rest on.
    pub km_basis: String,
    /// Metres climbed and descended.
    pub climb: Option<(f64, f64)>,
    /// Worst hours to help.
    pub hours_to_help: Figure,
    /// The mean along the leg, where the map tells it.
    pub mean_hours: Option<f64>,
    /// Share of the leg to which no way of the map leads.
    pub unreached: f64,
    /// Degrees Celsius.
    pub lowest: Figure,
    /// Degrees Celsius.
    pub highest: Figure,
    /// Days.
    pub water_every: Figure,
    /// Days.
    pub food_every: Figure,
    /// Kilometres; none where no pump is known.
    pub fuel_every: Option<Figure>,
    /// Of the camp, in metres.
    pub altitude: Option<Figure>,
    /// Fords, gates, ferries.
    pub notes: Vec<String>,
}

/// A town that gives an end of a day its name is at most so far away, in metres.
const NAMED: f64 = 5000.0;

pub(super) fn leg(survey: &Survey, wishes: &Wishes, parts: &[(f64, f64)], day: usize) -> Leg {
    let (from, to) = parts[day];
    let under = under(survey, from, to);
    let (km, km_basis) = figures::kilometres(survey, wishes, (from, to), &under);
    let last = day + 1 == parts.len();
    let help = figures::help(survey, wishes, from, to);
    let (lowest, highest) = figures::weather(survey, wishes, (from, to), last);
    Leg {
        name: name(survey, day, from, to),
        from,
        to,
        nights: u32::from(!last),
        km,
        km_basis,
        climb: survey.ride.heights.climb(from, to),
        hours_to_help: help.worst,
        mean_hours: help.mean,
        unreached: help.unreached,
        lowest,
        highest,
        water_every: figures::water(survey, parts, day),
        food_every: figures::food(survey, parts, day),
        fuel_every: figures::fuel(survey, from, to),
        altitude: figures::altitude(survey, to, last),
        notes: notes(survey, from, to, &under),
        under,
    }
}

/// Metres of each ground between two places.
fn under(survey: &Survey, from: f64, to: f64) -> Vec<(Ground, f64)> {
    let mut sums: Vec<(Ground, f64)> = Ground::ALL.iter().map(|ground| (*ground, 0.0)).collect();
    for (at, metres) in survey.ride.between(from, to) {
        let ground = survey.map.as_ref().map_or(Ground::Unknown, |map| map.grounds[at]);
        for sum in sums.iter_mut().filter(|sum| sum.0 == ground) {
            sum.1 += metres;
        }
    }
    sums
}

fn name(survey: &Survey, day: usize, from: f64, to: f64) -> String {
    let camp = |day: usize| survey.days.camps.get(day).cloned().filter(|name| !name.is_empty());
    let start = day.checked_sub(1).and_then(camp).or_else(|| town(survey, from));
    let end = camp(day).or_else(|| town(survey, to));
    let number = day + 1;
    match (start, end) {
        (Some(start), Some(end)) if start == end => format!("Day {number}: around {start}"),
        (Some(start), Some(end)) => format!("Day {number}: {start} to {end}"),
        (Some(start), None) => format!("Day {number}: from {start}"),
        (None, Some(end)) => format!("Day {number}: to {end}"),
        (None, None) => format!("Day {number}"),
    }
}

/// The nearest town or village to a place along the way that has a name.
fn town(survey: &Survey, metres: f64) -> Option<String> {
    let here = survey.ride.piece_at(metres)?.space;
    let named = survey.places.iter().filter(|place| place.kind == PlaceKind::Settlement && !place.name.is_empty());
    let away = named.map(|place| (place.at.space().metres_to(here), place)).filter(|(metres, _)| *metres <= NAMED);
    away.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, place)| place.name.clone())
}

fn notes(survey: &Survey, from: f64, to: f64, under: &[(Ground, f64)]) -> Vec<String> {
    let within = |places: &[f64]| places.iter().copied().filter(|at| (from..to).contains(at)).collect::<Vec<f64>>();
    let listed = |what: &str, places: &[f64]| {
        let shown: Vec<String> = places.iter().take(8).map(|at| format!("{:.1}", at / 1000.0)).collect();
        let more = if places.len() > 8 { format!(" and {} more", places.len() - 8) } else { String::new() };
        (!places.is_empty()).then(|| format!("{what} at km {}{more}", shown.join(", ")))
    };
    let ferry = under.iter().find(|(ground, metres)| *ground == Ground::Ferry && *metres > 0.0);
    let ferry = ferry.map(|(_, metres)| format!("ferry: {:.1} km, not counted as ridden", metres / 1000.0));
    let notes = [listed("fords", &within(&survey.fords)), listed("gates", &within(&survey.gates)), ferry];
    notes.into_iter().flatten().collect()
}
