//! The figures of a leg, each with its basis.

use super::leg::Figure;
use crate::gaps::{Gap, longest};
use crate::help::HelpAt;
use crate::map::Ground;
use crate::survey::{Survey, Wishes};

/// Shares of sealed, gravel, track and rough where nobody says anything: a guess.
const GUESS: [f64; 4] = [0.25, 0.40, 0.30, 0.05];
/// Hours to help where nobody says anything: a guess.
const GUESSED_HOURS: f64 = 12.0;
/// Cooling with height, in degrees for a metre: the international standard atmosphere (ISO 2533).
const LAPSE: f64 = 6.5 / 1000.0;
/// The coldest and the hottest hour where nobody says anything: a guess.
const GUESSED_WEATHER: (f64, f64) = (5.0, 26.0);

/// Kilometres by surface. What the map does not tell is as the rider says, or else counted as gravel on a way and as track
/// off the map.
pub(super) fn kilometres(
    survey: &Survey,
    wishes: &Wishes,
    (from, to): (f64, f64),
    under: &[(Ground, f64)],
) -> ([f64; 4], String) {
    let mut km = [0.0; 4];
    let mut said = 0.0;
    for (at, metres) in survey.ride.between(from, to) {
        let ground = survey.map.as_ref().map_or(Ground::Unknown, |map| map.grounds[at]);
        if ground == Ground::Ferry {
            continue;
        }
        let middle = survey.ride.pieces[at].from;
        let stretch = wishes.stretches.iter().find(|stretch| (stretch.from..stretch.to).contains(&middle));
        let shares = match (Ground::KNOWN.iter().position(|known| *known == ground), stretch) {
            (Some(known), _) => only(known),
            (None, Some(stretch)) => {
                said += metres;
                stretch.shares
            }
            (None, None) if survey.map.is_none() => GUESS,
            (None, None) => only(if ground == Ground::OffMap { 2 } else { 1 }),
        };
        km.iter_mut().zip(shares).for_each(|(km, share)| *km += share * metres / 1000.0);
    }
    (km, km_basis(survey, under, (to - from) / 1000.0, said / 1000.0))
}

fn only(at: usize) -> [f64; 4] {
    let mut shares = [0.0; 4];
    shares[at] = 1.0;
    shares
}

fn km_basis(survey: &Survey, under: &[(Ground, f64)], total: f64, said: f64) -> String {
    let of =
        |ground: Ground| under.iter().find(|(found, _)| *found == ground).map_or(0.0, |(_, metres)| metres / 1000.0);
    let length = format!("{total:.1} km along the track");
    if survey.map.is_none() {
        let rest = total - said;
        return match (said > 0.05, rest > 0.05) {
            (true, false) => format!("{length}; surfaces in the shares that you gave"),
            (true, true) => format!("{length}; surfaces of {said:.1} km in the shares that you gave, the rest a guess"),
            _ => format!("{length}; surfaces are a guess: no map, and no shares given"),
        };
    }
    let percent = |km: f64| 100.0 * km / total.max(1e-9);
    let (unknown, off) = (of(Ground::Unknown), of(Ground::OffMap));
    let mut basis = format!("{length}; surfaces by the map's tags");
    if unknown > 0.05 {
        basis += &format!("; {unknown:.1} km ({:.0} %) without a tag that tells", percent(unknown));
    }
    if off > 0.05 {
        basis += &format!("; {off:.1} km ({:.0} %) off the map", percent(off));
    }
    if said > 0.05 {
        basis += &format!("; {said:.1} km of these in the shares that you gave");
    }
    if unknown + off - said > 0.05 {
        basis += "; without your word untagged counts as gravel, off the map as track";
    }
    basis
}

/// What is known of help on a leg.
pub(super) struct Help {
    pub worst: Figure,
    pub mean: Option<f64>,
    pub unreached: f64,
}

pub(super) fn help(survey: &Survey, wishes: &Wishes, from: f64, to: f64) -> Help {
    let fallback = wishes.help_hours.unwrap_or(GUESSED_HOURS);
    let said = if wishes.help_hours.is_some() { "as you gave it" } else { "a guess" };
    let Some(map) = &survey.map else {
        let worst = Figure::new(fallback, format!("{said}: without a map nothing tells it; it matters most"));
        return Help { worst, mean: None, unreached: 1.0 };
    };
    // A leg shorter than the distance between two looks has at least the look nearest to it.
    let mut looks: Vec<&HelpAt> = map.help.iter().filter(|look| (from..to).contains(&look.metres)).collect();
    if looks.is_empty() {
        let away = |look: &&HelpAt| (look.metres - f64::midpoint(from, to)).abs();
        looks.extend(map.help.iter().min_by(|a, b| away(a).total_cmp(&away(b))));
    }
    let known: Vec<(f64, &HelpAt)> = looks.iter().filter_map(|look| Some((look.hours()?, *look))).collect();
    let count = |number: usize| u32::try_from(number).map_or(f64::MAX, f64::from);
    let unreached = 1.0 - count(known.len()) / count(looks.len()).max(1.0);
    let Some((hours, look)) = known.iter().copied().max_by(|a, b| a.0.total_cmp(&b.0)) else {
        let km = wishes.reach / 1000.0;
        let basis = format!("{said}: no place that can help is reached on the map within {km:.0} km of the track");
        return Help { worst: Figure::new(fallback, basis), mean: None, unreached };
    };
    let mean = known.iter().map(|(hours, _)| hours).sum::<f64>() / count(known.len());
    let worst = Figure::new((hours * 2.0).ceil() / 2.0, help_basis(survey, look, mean, unreached));
    Help { worst, mean: Some(mean), unreached }
}

fn help_basis(survey: &Survey, look: &HelpAt, mean: f64, unreached: f64) -> String {
    let (out, back) = look.drive.unwrap_or_default();
    let place = look.from.and_then(|number| survey.places.get(number));
    let place = place.map_or_else(String::new, |place| match place.name.as_str() {
        "" => format!(" ({})", place.kind.word()),
        name => format!(" ({} {name})", place.kind.word()),
    });
    let mut basis = format!(
        "worst at km {:.0}: wait {:.1} h, drive {out:.1} h out{place} and {back:.1} h back; mean of the leg {mean:.1} h",
        look.metres / 1000.0,
        look.wait,
    );
    if unreached > 0.0 {
        basis +=
            &format!("; no way on the map leads to {:.0} % of the leg: there it may take longer", unreached * 100.0);
    }
    basis
}

/// The coldest and the hottest hour, brought to the heights of the leg.
pub(super) fn weather(survey: &Survey, wishes: &Wishes, (from, to): (f64, f64), last: bool) -> (Figure, Figure) {
    let Some(weather) = wishes.weather else {
        let (lowest, highest) = GUESSED_WEATHER;
        let basis = "a guess: look at the forecast for the highest camp";
        return (Figure::new(lowest, basis), Figure::new(highest, "a guess"));
    };
    let range = survey.ride.heights.range(from, to);
    let (Some(height), Some((low, high))) = (weather.height, range) else {
        return (Figure::new(weather.lowest, "as you gave it"), Figure::new(weather.highest, "as you gave it"));
    };
    // The coldest hour is that of the night in camp; on a day without one it is on the highest pass.
    let cold = if last { high } else { survey.ride.heights.height(to).unwrap_or(high) };
    let at = |given: f64, there: f64| {
        let degrees = given - (there - height) * LAPSE;
        let basis = format!("{given:.0} °C at {height:.0} m, brought to {there:.0} m at 6.5 °C a kilometre (ISO 2533)");
        Figure::new(degrees.round(), basis)
    };
    (at(weather.lowest, cold), at(weather.highest, low))
}

/// Days and part of a day passed at a place along the way.
fn day_at(parts: &[(f64, f64)], metres: f64) -> f64 {
    let day = |(from, to): &(f64, f64)| ((metres - from) / (to - from).max(1e-9)).clamp(0.0, 1.0);
    parts.iter().map(day).sum()
}

fn told(gap: Gap) -> String {
    format!("longest stretch from km {:.0} to km {:.0}", gap.from / 1000.0, gap.to / 1000.0)
}

/// Rounded up to so many steps of a day; half an hour more is none.
fn up(days: f64, steps: f64) -> f64 {
    ((days - 0.02) * steps).ceil().max(1.0) / steps
}

pub(super) fn water(survey: &Survey, parts: &[(f64, f64)], day: usize) -> Figure {
    if survey.map.is_none() && survey.water.is_empty() {
        return Figure::new(0.5, "a guess: water treated on the way");
    }
    let (from, to) = parts[day];
    let gap = longest(&survey.water, survey.ride.metres, from, to);
    let days = up(day_at(parts, gap.to) - day_at(parts, gap.from), 4.0);
    let basis = format!("{} between taps, shops and pumps; creeks are not counted", told(gap));
    if days > 1.0 {
        let basis =
            format!("{basis}; it takes {days:.2} days, but here a day: you must find and treat water in between");
        return Figure::new(1.0, basis);
    }
    Figure::new(days, basis)
}

pub(super) fn food(survey: &Survey, parts: &[(f64, f64)], day: usize) -> Figure {
    if survey.map.is_none() && survey.food.is_empty() {
        return Figure::new(1.0, "a guess: no shop is known");
    }
    let (from, to) = parts[day];
    let gap = longest(&survey.food, survey.ride.metres, from, to);
    let days = up(day_at(parts, gap.to) - day_at(parts, gap.from), 2.0);
    Figure::new(days, format!("{} between shops; opening hours are not asked", told(gap)))
}

pub(super) fn fuel(survey: &Survey, from: f64, to: f64) -> Option<Figure> {
    if survey.map.is_none() && survey.fuel.is_empty() {
        return None;
    }
    let gap = longest(&survey.fuel, survey.ride.metres, from, to);
    let km = (gap.metres() / 5000.0).ceil() * 5.0;
    let basis = format!("{} between pumps, full at the start; rounded up to 5 km", told(gap));
    Some(Figure::new(km, basis))
}

pub(super) fn altitude(survey: &Survey, to: f64, last: bool) -> Option<Figure> {
    let height = survey.ride.heights.height(to).filter(|_| !last)?;
    Some(Figure::new((height.max(0.0) / 10.0).round() * 10.0, "the track's height at the end of the day"))
}
