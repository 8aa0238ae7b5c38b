//! The map of a ride: the extract, or what an earlier run cut from it along the same ride and kept beside the track.

use crate::files::{read, write};
use fardel_route::map::{Corridor, cut};
use fardel_route::ride::Ride;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

/// Extracts smaller than this are read again in no time.
const WORTH_KEEPING: u64 = 16 << 20;
/// What a cut is called: the track's name with this ending.
const ENDING: &str = "map.osm.pbf";

/// An opened map.
#[derive(Debug)]
pub(super) struct Map {
    /// As faults name it.
    pub name: String,
    /// What is read.
    pub file: File,
    /// Where its corridor is to be kept.
    pub keep: Option<Keep>,
}

/// Where a corridor is to be kept, and what its header says that it was cut from.
#[derive(Debug)]
pub(super) struct Keep {
    place: PathBuf,
    origin: String,
}

impl Map {
    /// The extract, or a cut of it beside the track that is still good.
    ///
    /// # Errors
    /// The fault in words where the extract cannot be opened.
    pub fn opened(extract: &Path, track: Option<(&Path, &Ride)>, reach: f64) -> Result<Self, String> {
        let file = read::opened(extract).map_err(|error| error.fault().to_string())?;
        let name = extract.display().to_string();
        let Some((place, origin)) = track.and_then(|(track, ride)| kept_at(extract, &file, track, ride, reach)) else {
            return Ok(Self { name, file, keep: None });
        };
        // Something else of that name is no cut of ours, and stays as it is.
        let there = origin_at(&place);
        if there.as_ref() == Some(&origin)
            && let Ok(file) = File::open(&place)
        {
            return Ok(Self { name: place.display().to_string(), file, keep: None });
        }
        let free = fs::symlink_metadata(&place).is_err() || there.is_some_and(|there| cut::is_ours(&there));
        Ok(Self { name, file, keep: free.then_some(Keep { place, origin }) })
    }
}

impl Keep {
    /// Keeps the corridor for the next run. That it cannot be written is no fault: the next run takes longer.
    pub fn keep(&self, corridor: &Corridor) -> Option<&Path> {
        let bytes = cut::bytes(corridor, &self.origin).ok()?;
        write::whole_file(&self.place, bytes, true).ok()?;
        Some(&self.place)
    }
}

/// What the file at a place was cut from.
fn origin_at(place: &Path) -> Option<String> {
    File::open(place).ok().and_then(cut::origin_of)
}

/// Where a cut of this extract is kept and what it says; none where it would not pay.
fn kept_at(extract: &Path, file: &File, track: &Path, ride: &Ride, reach: f64) -> Option<(PathBuf, String)> {
    let about = file.metadata().ok().filter(|about| about.is_file() && about.len() >= WORTH_KEEPING)?;
    let changed = about.modified().ok()?.duration_since(UNIX_EPOCH).ok()?.as_secs();
    let name = extract.file_name()?.to_string_lossy();
    Some((track.with_extension(ENDING), cut::origin(&name, about.len(), changed, ride, reach)))
}
