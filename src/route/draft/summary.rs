//! The trip in a few lines, to read at once.

use super::leg::Leg;
use super::wrap::days;
use crate::map::Ground;
use crate::survey::Survey;
use fardel_words::{say, word};

/// What was found, day by day.
#[must_use]
pub fn summary(survey: &Survey, legs: &[Leg]) -> String {
    let mut text = say!("{:.1} km, {}.\n", survey.ride.metres / 1000.0, survey.days.how);
    for leg in legs {
        text += &say!("\n{}: {:.1} km\n", plain(&leg.name), (leg.to - leg.from) / 1000.0);
        text += &format!("  {}\n", surfaces(survey, leg));
        text += &format!("  {}\n", help(leg));
        let fuel = leg
            .fuel_every
            .as_ref()
            .map_or(say!("fuel: no pump is known"), |fuel| say!("fuel every {:.0} km", fuel.value));
        text +=
            &say!("  {fuel}, food every {}, water every {}\n", days(leg.food_every.value), days(leg.water_every.value));
        if let Some((up, down)) = leg.climb {
            text += &say!("  climbs {up:.0} m, descends {down:.0} m\n");
        }
        leg.notes.iter().for_each(|note| text += &format!("  {note}\n"));
    }
    text +=
        word!("\nA plan, not a promise: maps err, tracks close, waits are judgement. Ask somebody who lives there.\n");
    if survey.map.is_some() {
        text += word!("Map data © OpenStreetMap contributors, Open Database License 1.0.\n");
    }
    text
}

fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

fn surfaces(survey: &Survey, leg: &Leg) -> String {
    if survey.map.is_none() {
        let shown = Ground::KNOWN.iter().zip(leg.km).map(|(ground, km)| say!("{} {km:.1}", ground.word()));
        return say!("{} km, without a map", shown.collect::<Vec<_>>().join(", "));
    }
    let there = leg.under.iter().filter(|(_, metres)| *metres >= 50.0);
    let shown = there.map(|(ground, metres)| say!("{} {:.1}", ground.word(), metres / 1000.0));
    say!("{} km", shown.collect::<Vec<_>>().join(", "))
}

fn help(leg: &Leg) -> String {
    let worst = say!("hours to help {:.1}", leg.hours_to_help.value);
    match leg.mean_hours {
        Some(mean) if leg.unreached > 0.0 => {
            say!("{worst}, {mean:.1} in the mean; no way leads to {:.0} % of it", leg.unreached * 100.0)
        }
        Some(mean) => say!("{worst}, {mean:.1} in the mean"),
        None => format!("{worst}: {}", leg.hours_to_help.basis),
    }
}
