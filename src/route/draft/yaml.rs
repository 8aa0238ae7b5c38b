//! The trip as it stands in a scenario, every figure with its basis beside it.

use super::leg::Leg;
use super::wrap::{comment, commented, days};
use crate::survey::{Survey, Wishes};

/// What is said above every trip that comes out of a track.
const CAUTION: &str = "A plan, not a promise: maps err and age, tracks close, pumps run dry, and waits are judgement. Ask \
    somebody who lives there, and change what you know better: every figure is yours to edit.";

/// The names of the files that the trip is from.
fn sources(files: &[String], map: Option<&str>) -> String {
    let with = map.map_or_else(String::new, |map| {
        format!(", on the map of {map} (map data © OpenStreetMap contributors, Open Database License 1.0)")
    });
    format!("Worked out from {}{with}.", files.join(", "))
}

/// The text of `trip:`, from its key to its end.
#[must_use]
pub fn trip(survey: &Survey, wishes: &Wishes, legs: &[Leg], files: &[String], map: Option<&str>) -> String {
    let mut text = "trip:\n".to_owned();
    text += &comment(2, &sources(files, map));
    text += &comment(2, CAUTION);
    general(survey, wishes).iter().for_each(|line| text += &comment(2, line));
    let style = if legs.len() > 1 { "camping" } else { "none" };
    text += &commented(2, &format!("style: {style}"), "none | roofed | camping");
    text += "  legs:\n";
    legs.iter().for_each(|leg| text += &one(leg));
    text
}

/// What holds for the whole ride.
fn general(survey: &Survey, wishes: &Wishes) -> Vec<String> {
    let ride = &survey.ride;
    let mut lines = vec![format!("{:.1} km, {}.", ride.metres / 1000.0, survey.days.how)];
    if ride.between_lines > 1000.0 {
        let km = ride.between_lines / 1000.0;
        lines.push(format!("Between the parts of the track {km:.1} km are missing and not counted."));
    }
    if ride.drawn > 0.0 {
        let km = ride.drawn / 1000.0;
        lines.push(format!("{km:.1} km are straight lines between points more than 1 km apart: the way is longer."));
    }
    if let Some(map) = &survey.map {
        let (count, aside) = map.helpers;
        let (wait, speeds) = (&wishes.wait, &wishes.speeds);
        lines.push(format!(
            "Hours to help: the shortest drive from and to {count} towns, workshops, pumps, hospitals and rangers within {:.0} km \
             of the track, at {:.0} km/h on sealed roads, {:.0} on gravel, {:.0} on tracks, {:.0} on rough ground and {:.0} where \
             the map does not tell, after a wait of {:.1} h within {:.0} km of a town or village, where a telephone is taken \
             to work, and of {:.1} h elsewhere (speeds and waits: common practice, no source).",
            map.corridor.reach / 1000.0,
            speeds.sealed,
            speeds.gravel,
            speeds.track,
            speeds.rough,
            speeds.unknown,
            wait.covered,
            wait.cover / 1000.0,
            wait.elsewhere,
        ));
        if aside > 0 {
            lines.push(format!("{aside} more such places have no driven way within 2 km and are left out."));
        }
    }
    lines
}

/// Shown with one decimal, without one where it is whole.
fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

fn one(leg: &Leg) -> String {
    // JSON strings are YAML strings, whatever is in them.
    let name = serde_json::Value::from(leg.name.clone()).to_string();
    let mut text = format!("    - name: {name}\n      days: 1\n      nights: {}\n", leg.nights);
    let mut line = |value: String, remark: &str| text += &commented(6, &value, remark);
    let [sealed, gravel, track, rough] = rounded(leg.km).map(number);
    line(format!("km: {{ sealed: {sealed}, gravel: {gravel}, track: {track}, rough: {rough} }}"), &leg.km_basis);
    line(format!("hours_to_help: {} h", number(leg.hours_to_help.value)), &leg.hours_to_help.basis);
    line(format!("lowest: {} °C", number(leg.lowest.value)), &leg.lowest.basis);
    line(format!("highest: {} °C", number(leg.highest.value)), &leg.highest.basis);
    line(format!("water_every: {}", days(leg.water_every.value)), &leg.water_every.basis);
    line(format!("food_every: {}", days(leg.food_every.value)), &leg.food_every.basis);
    match &leg.fuel_every {
        Some(fuel) => line(format!("fuel_every: {} km", number(fuel.value)), &fuel.basis),
        None => line("# fuel_every: 200 km".to_owned(), "no pump is known: take away the # and put in yours"),
    }
    if let Some(altitude) = &leg.altitude {
        line(format!("altitude: {} m", number(altitude.value)), &altitude.basis);
    }
    if let Some((up, down)) = leg.climb {
        text += &comment(6, &format!("climbs {up:.0} m, descends {down:.0} m"));
    }
    leg.notes.iter().for_each(|note| text += &comment(6, note));
    text
}

/// To a tenth, so that the sum stays what it is to a tenth: the largest part takes what rounding leaves.
fn rounded(km: [f64; 4]) -> [f64; 4] {
    let tenth = |value: f64| (value * 10.0).round() / 10.0;
    let total = tenth(km.iter().sum());
    let mut parts = km.map(tenth);
    let left = total - parts.iter().sum::<f64>();
    if let Some(largest) = parts.iter_mut().max_by(|a, b| a.total_cmp(b)) {
        *largest = tenth(*largest + left).max(0.0);
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[allow(clippy::float_cmp, reason = "rounded figures are exact")]
    fn rounding_keeps_the_sum() {
        assert_eq!(rounded([0.04, 0.05, 0.04, 0.0]), [0.0, 0.1, 0.0, 0.0]);
        let parts = rounded([33.333, 33.333, 33.334, 0.0]);
        assert!((parts.iter().sum::<f64>() - 100.0).abs() < 1e-9, "{parts:?}");
    }

    #[test]
    fn nobodys_words_leave_their_comment() {
        let text = comment(2, "a\nb: c\u{2028}d\r\u{0}e");
        assert_eq!(text, "  # a b: c d e\n");
    }
}
