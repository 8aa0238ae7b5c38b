//! A trip from a track: legs, distances, and a picture of the way. Without a map, surfaces and hours to help stay guesses.

use crate::refused::Refused;
use fardel_core::load::{self, Source};
use fardel_route::draft;
use fardel_route::fault::Fault;
use fardel_route::limits;
use fardel_route::picture;
use fardel_route::read::{TrackFile, tracks};
use fardel_route::survey::{Survey, Wishes, survey};
use fardel_words::say;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use std::io::Cursor;

/// A track file.
#[derive(Debug, Deserialize)]
pub(crate) struct Track {
    name: String,
    text: String,
    /// Into how many days it is split.
    #[serde(default)]
    days: Option<usize>,
}

#[derive(Serialize)]
struct Trip<'a> {
    /// The key `trip` of a scenario.
    trip: &'a RawValue,
    /// The same as it stands in a file, with what each figure rests on.
    text: &'a str,
    /// A few lines about it.
    summary: &'a str,
    /// The way as SVG.
    picture: &'a str,
}

/// The one key of the text that is drafted.
#[derive(Debug, Deserialize)]
struct Drafted {
    trip: Box<RawValue>,
}

/// The trip of a track.
pub(crate) fn route(track: &Track) -> Result<String, Refused> {
    if track.days.is_some_and(|days| !(1..=limits::DAYS).contains(&days)) {
        return Err(Refused::words(say!("1 to {} days are expected", limits::DAYS)));
    }
    let wishes = Wishes { days: track.days, ..Wishes::default() };
    let survey = surveyed(track, &wishes).map_err(|fault| Refused::words(fault.to_string()))?;
    let legs = draft::legs(&survey, &wishes);
    let text = draft::trip(&survey, &wishes, &legs, std::slice::from_ref(&track.name), None);
    let json = load::tree_json(Source { name: say!("the trip of the track"), text: text.clone() })?;
    let Drafted { trip } = serde_json::from_str(&json)?;
    let (summary, picture) = (draft::summary(&survey, &legs), picture::svg(&survey, &legs, &track.name));
    Ok(serde_json::to_string(&Trip { trip: &trip, text: &text, summary: &summary, picture: &picture })?)
}

fn surveyed(track: &Track, wishes: &Wishes) -> Result<Survey, Fault> {
    let file = TrackFile { name: track.name.clone(), text: track.text.clone() };
    let read = tracks(std::slice::from_ref(&file))?;
    survey(&track.name, &read, None::<(&str, Cursor<Vec<u8>>)>, wishes)
}
