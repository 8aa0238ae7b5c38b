//! Help along the ride as rows for a spreadsheet.

use crate::survey::Survey;
use fardel_words::say;

/// A row for every half a kilometre: where, hours in all and in their parts, and the node of the map from which the last
/// bit is gone. Empty cells where no way of the map leads there, and without a map the heading alone.
#[must_use]
pub fn csv(survey: &Survey) -> String {
    let mut text = "km,lat,lon,hours,wait_h,out_h,back_h,node,node_h,surface,kind,place\n".to_owned();
    let Some(map) = &survey.map else { return text };
    for look in &map.help {
        let hours = |hours: Option<f64>| hours.map_or_else(String::new, |hours| format!("{hours:.5}"));
        let place = look.from.and_then(|number| survey.places.get(number));
        let after = survey.ride.pieces.partition_point(|piece| piece.from <= look.metres);
        let ground = map.grounds.get(after.saturating_sub(1)).map_or("", |ground| ground.word());
        let node = look.node.and_then(|(node, _)| map.corridor.ids.get(node as usize));
        text += &say!(
            "{:.3},{:.6},{:.6},{},{:.2},{},{},{},{},{ground},{},{}\n",
            look.metres / 1000.0,
            look.at.lat,
            look.at.lon,
            hours(look.hours()),
            look.wait,
            hours(look.drive.map(|drive| drive.0)),
            hours(look.drive.map(|drive| drive.1)),
            node.map_or_else(String::new, ToString::to_string),
            hours(look.node.map(|node| node.1)),
            place.map_or("", |place| place.kind.word()),
            cell(place.map_or("", |place| &place.name)),
        );
    }
    text
}

/// Quoted, and so that no program takes it for a formula.
fn cell(text: &str) -> String {
    let plain: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    let mark = if plain.starts_with(['=', '+', '-', '@']) { "'" } else { "" };
    if plain.is_empty() { plain } else { format!("\"{mark}{}\"", plain.replace('"', "\"\"")) }
}
