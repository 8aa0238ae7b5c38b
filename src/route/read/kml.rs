//! KML: the lines and points of placemarks.

use super::time;
use super::xml::{Element, Here, Listener};
use crate::fault::{Fault, shown};
use crate::track::{Line, Mark, MarkKind, Track, TrackPoint};
use fardel_words::word;

/// A file as it is heard.
#[derive(Debug, Default)]
pub(super) struct Kml {
    track: Track,
    /// Of the placemark that is open.
    name: String,
    lines: Vec<Line>,
    points: Vec<TrackPoint>,
    times: Vec<Option<f64>>,
}

impl Listener for Kml {
    fn start(&mut self, path: &[String], _: &Element<'_>) -> Result<(), Fault> {
        if path.last().is_some_and(|name| name == "Placemark") {
            self.name.clear();
            self.lines.clear();
            self.points.clear();
        }
        Ok(())
    }

    fn end(&mut self, path: &[String], text: &str, here: &Here<'_>) -> Result<(), Fault> {
        let parent = path.len().checked_sub(2).map_or("", |at| path[at].as_str());
        match (parent, path.last().map_or("", String::as_str)) {
            ("Placemark", "name") => text.trim().clone_into(&mut self.name),
            ("LineString", "coordinates") => self.lines.push(Line { points: tuples(text, here)?, ..Line::default() }),
            ("Point", "coordinates") => self.points.extend(tuples(text, here)?),
            // A track with times has them beside its points, in the same order.
            ("Track", "when") => self.times.push(time::seconds(text)),
            ("Track", "coord") => self.next_of_track(text, here)?,
            (_, "Track") => self.close_track(),
            (_, "Placemark") => self.close(),
            _ => {}
        }
        Ok(())
    }

    fn track(self: Box<Self>) -> Track {
        self.track
    }
}

impl Kml {
    fn next_of_track(&mut self, text: &str, here: &Here<'_>) -> Result<(), Fault> {
        let numbers = text.split_whitespace().collect::<Vec<_>>().join(",");
        self.points.extend(tuples(&numbers, here)?);
        Ok(())
    }

    fn close_track(&mut self) {
        let times = std::mem::take(&mut self.times).into_iter().chain(std::iter::repeat(None));
        let points: Vec<TrackPoint> =
            self.points.drain(..).zip(times).map(|(p, time)| TrackPoint { time, ..p }).collect();
        if !points.is_empty() {
            self.lines.push(Line { points, ..Line::default() });
        }
    }

    fn close(&mut self) {
        let name = Some(self.name.clone()).filter(|name| !name.is_empty());
        let lines = self.lines.drain(..).filter(|line| !line.points.is_empty());
        self.track.lines.extend(lines.map(|line| Line { name: name.clone(), ..line }));
        let kind = MarkKind::told([self.name.as_str()]);
        let marks = self.points.drain(..).map(|point| Mark { at: point.at, name: self.name.clone(), kind });
        self.track.marks.extend(marks);
    }
}

/// `longitude,latitude[,height]`, separated by spaces.
fn tuples(text: &str, here: &Here<'_>) -> Result<Vec<TrackPoint>, Fault> {
    let tuple = |text: &str| {
        let parts: Vec<&str> = text.split(',').collect();
        let ([lon, lat] | [lon, lat, _]) = parts.as_slice() else {
            return Err(here.fault(shown(text), word!("degrees east, degrees north and perhaps a height, with commas")));
        };
        let height = parts.get(2).map(|height| here.number(height, word!("metres above the sea"))).transpose()?;
        Ok(TrackPoint { at: here.point(lat, lon)?, height, time: None })
    };
    text.split_whitespace().map(tuple).collect()
}
