//! `fardel route`.

mod map;
mod scenario;
mod values;

use super::Ending;
use super::complaint::{bad_input, say};
use super::output::{not_read, told, unobstructed};
use super::settings::CatalogueArguments;
use super::verbosity::quiet;
use crate::files::{read, write};
use clap::{Args, ValueEnum};
use fardel_route::days::Split;
use fardel_route::draft::{self, Leg};
use fardel_route::help::{BEACON_HOURS, Wait};
use fardel_route::read::{TrackFile, tracks};
use fardel_route::ride::Ride;
use fardel_route::survey::{self, Stretch, Survey, Weather, Wishes};
use fardel_route::{limits, picture, table};
use fardel_words::say;
use map::Map;
use std::path::{Path, PathBuf};
use values::{degrees, hours, kilometres, metres, shares};

/// Make the trip of a scenario from a track; with a map also surfaces, fuel and water gaps, and hours to help.
///
/// A plan, not a promise: maps err and age, tracks close, pumps run dry. Every figure comes with what it rests on and is
/// yours to change. With a map its data are © OpenStreetMap contributors, under the Open Database License 1.0.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fardel route loop.gpx --days 5 --map country.osm.pbf --bike single-450-tubed --out trip.yaml"
)]
pub(super) struct Route {
    /// Track files in the order of riding: GPX, KML or GeoJSON
    #[arg(required = true, value_name = "TRACK")]
    tracks: Vec<PathBuf>,
    /// Extract of OpenStreetMap (.osm.pbf) that has the whole track and the towns around it
    ///
    /// Of a large one, what lies along the track is kept beside it (loop.map.osm.pbf), so that the next run is quick.
    #[arg(long, value_name = "FILE")]
    map: Option<PathBuf>,
    /// Keep nothing beside the track, and use nothing that was kept
    #[arg(long, requires = "map")]
    whole_map: bool,
    /// Days; if left out, as many as camps, files or long stops tell, or about 200 km each
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u32).range(1..=60))]
    days: Option<u32>,
    /// What tells where a day ends
    #[arg(long, value_enum, default_value_t = By::Auto)]
    split: By,
    /// Surfaces that the map does not tell, such as "sealed=20,gravel=50,track=30" or, for km 40 to 90, "40-90:gravel=100"
    #[arg(long, value_name = "SHARES", value_parser = shares)]
    surfaces: Vec<Stretch>,
    /// You carry a beacon or messenger that is heard anywhere: help sets out 4 h after a call, rather than 12 h out of cover
    #[arg(long)]
    beacon: bool,
    /// Hours until somebody who can help is on the road, wherever you are
    #[arg(long, value_name = "HOURS", value_parser = hours, conflicts_with = "beacon")]
    wait: Option<f64>,
    /// Telephones work within so many kilometres of a town or village
    #[arg(long, value_name = "KM", value_parser = kilometres, default_value = "10")]
    cover: f64,
    /// Help is looked for within so many kilometres of the track
    #[arg(long, value_name = "KM", value_parser = kilometres, default_value = "30")]
    within: f64,
    /// Hours to help where no map tells them
    #[arg(long, value_name = "HOURS", value_parser = hours)]
    help_hours: Option<f64>,
    /// The coldest hour in degrees Celsius
    #[arg(long, value_name = "DEGREES", value_parser = degrees, requires = "highest", allow_negative_numbers = true)]
    lowest: Option<f64>,
    /// The hottest hour in degrees Celsius
    #[arg(long, value_name = "DEGREES", value_parser = degrees, requires = "lowest", allow_negative_numbers = true)]
    highest: Option<f64>,
    /// Metres above the sea at which it is so cold and hot; brought to the heights of the track
    #[arg(long, value_name = "METRES", value_parser = metres, requires = "lowest", allow_negative_numbers = true)]
    at_height: Option<f64>,
    /// Id of the bike in the scenario; the first of the catalogue if left out
    #[arg(long, value_name = "ID", conflicts_with = "into")]
    bike: Option<String>,
    /// Scenario to put the trip into, in place of its own
    #[arg(long, value_name = "SCENARIO")]
    into: Option<PathBuf>,
    /// Scenario to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Picture to write beside it, as SVG: the track by surface, hours to help, fuel and water
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Table to write beside it, as CSV: hours to help every half a kilometre
    #[arg(long, value_name = "FILE", requires = "map")]
    profile: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

/// What days are told by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// Camps, files, long stops, or length, the first that fits
    Auto,
    /// A file for each day
    Files,
    /// From one marked camp to the next
    Camps,
    /// Stops of five hours or more in a track with times
    Stops,
    /// Equal lengths
    Length,
    /// Equal hours of riding, by surface
    Riding,
}

impl Route {
    pub(super) fn run(&self) -> Ending {
        if let Err(ending) = unobstructed(self.outputs(), self.force) {
            return ending;
        }
        match self.worked_out() {
            Ok((survey, legs, scenario)) => self.deliver(&survey, &legs, &scenario),
            Err(message) => bad_input(message),
        }
    }

    fn outputs(&self) -> impl Iterator<Item = &Path> {
        [&self.out, &self.picture, &self.profile].into_iter().flatten().map(PathBuf::as_path)
    }

    fn worked_out(&self) -> Result<(Survey, Vec<Leg>, String), String> {
        // What goes wrong in a moment is told before the map is read.
        let frame = scenario::Frame::new(self.into.as_deref(), self.bike.as_deref(), &self.catalogue)?;
        let files = self.tracks.iter().map(|path| track_file(path)).collect::<Result<Vec<_>, String>>()?;
        let track = tracks(&files).map_err(|fault| fault.to_string())?;
        let wishes = self.wishes();
        let name = files.first().map_or("", |file| file.name.as_str());
        let ride = survey::ride(name, &track).map_err(|fault| fault.to_string())?;
        let map = self.map.as_ref().map(|extract| self.map(extract, &ride, wishes.reach)).transpose()?;
        let extract = map.as_ref().map(|map| (map.name.as_str(), &map.file));
        let survey = survey::along(name, ride, &track, extract, &wishes).map_err(|fault| fault.to_string())?;
        let keep = map.as_ref().and_then(|map| map.keep.as_ref()).zip(survey.map.as_ref());
        if let Some(kept) = keep.and_then(|(keep, map)| keep.keep(&map.corridor)).filter(|_| !quiet()) {
            say(&say!("What the map has along the track is kept in {}; it may be deleted.", kept.display()));
        }
        let legs = draft::legs(&survey, &wishes);
        let names: Vec<String> = self.tracks.iter().map(|path| short(path)).collect();
        let trip = draft::trip(&survey, &wishes, &legs, &names, self.map.as_deref().map(short).as_deref());
        let scenario = frame.around(&trip, &names.join(", "), legs.len())?;
        Ok((survey, legs, scenario))
    }

    fn map(&self, extract: &Path, ride: &Ride, reach: f64) -> Result<Map, String> {
        let beside = self.tracks.first().filter(|_| !self.whole_map);
        Map::opened(extract, beside.map(|track| (track.as_path(), ride)), reach)
    }

    fn wishes(&self) -> Wishes {
        let usual = Wait::default();
        let elsewhere = if self.beacon { BEACON_HOURS } else { usual.elsewhere };
        let wait = Wait {
            cover: self.cover * 1000.0,
            covered: self.wait.unwrap_or(usual.covered),
            elsewhere: self.wait.unwrap_or(elsewhere),
        };
        let weather = self.lowest.zip(self.highest);
        Wishes {
            days: self.days.and_then(|days| usize::try_from(days).ok()),
            split: self.split.into(),
            stretches: self.surfaces.clone(),
            wait,
            weather: weather.map(|(lowest, highest)| Weather { lowest, highest, height: self.at_height }),
            help_hours: self.help_hours,
            reach: self.within * 1000.0,
            ..Wishes::default()
        }
    }

    /// All files or none; the scenario goes to the terminal where no file is named for it.
    fn deliver(&self, survey: &Survey, legs: &[Leg], scenario: &str) -> Ending {
        if let Err(ending) = not_read(self.outputs()) {
            return ending;
        }
        let title = self.tracks.first().map(|path| short(path)).unwrap_or_default();
        let picture = self.picture.as_ref().map(|path| (path, picture::svg(survey, legs, &title)));
        let profile = self.profile.as_ref().map(|path| (path, table::csv(survey)));
        let out = self.out.as_ref().map(|path| (path, scenario.to_owned()));
        let files: Vec<(&PathBuf, String)> = [out, picture, profile].into_iter().flatten().collect();
        let written =
            write::whole_files(files.iter().map(|(path, text)| (path.as_path(), text.as_bytes())), self.force);
        let shown = if self.out.is_some() { draft::summary(survey, legs) } else { scenario.to_owned() };
        told(written.and_then(|()| write::print(&shown)))
    }
}

/// The name of a file without its folder.
fn short(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

fn track_file(path: &Path) -> Result<TrackFile, String> {
    let source = read::large_source(path, limits::TEXT_BYTES as u64).map_err(|error| error.fault().to_string())?;
    Ok(TrackFile { name: source.name, text: source.text })
}

impl From<By> for Split {
    fn from(by: By) -> Self {
        match by {
            By::Auto => Self::Auto,
            By::Files => Self::Files,
            By::Camps => Self::Camps,
            By::Stops => Self::Stops,
            By::Length => Self::Length,
            By::Riding => Self::Riding,
        }
    }
}
