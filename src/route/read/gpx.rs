//! GPX 1.0 and 1.1: tracks, routes, waypoints; extensions are passed over.

use super::time;
use super::xml::{Element, Here, Listener};
use crate::fault::Fault;
use crate::geo::Point;
use crate::track::{Line, Mark, MarkKind, Track, TrackPoint};
use fardel_words::word;

/// A file as it is heard.
#[derive(Debug, Default)]
pub(super) struct Gpx {
    tracks: Vec<Line>,
    routes: Vec<Line>,
    marks: Vec<Mark>,
    /// Of the track or route that is open.
    name: Option<String>,
    /// Where its first line is in the list.
    first: usize,
    point: Option<TrackPoint>,
    mark: Option<Heard>,
}

/// What has been heard of a waypoint.
#[derive(Debug)]
struct Heard {
    at: Point,
    name: String,
    kind: String,
    symbol: String,
}

impl Listener for Gpx {
    fn start(&mut self, path: &[String], element: &Element<'_>) -> Result<(), Fault> {
        match words(path).as_slice() {
            ["gpx", "wpt"] => {
                let at = element.point()?;
                self.mark = Some(Heard { at, name: String::new(), kind: String::new(), symbol: String::new() });
            }
            ["gpx", "trk"] => (self.name, self.first) = (None, self.tracks.len()),
            ["gpx", "rte"] => {
                (self.name, self.first) = (None, self.routes.len());
                self.routes.push(Line::default());
            }
            ["gpx", "trk", "trkseg"] => self.tracks.push(Line::default()),
            ["gpx", "rte", "rtept"] | ["gpx", "trk", "trkseg", "trkpt"] => {
                self.point = Some(TrackPoint { at: element.point()?, height: None, time: None });
            }
            _ => {}
        }
        Ok(())
    }

    fn end(&mut self, path: &[String], text: &str, here: &Here<'_>) -> Result<(), Fault> {
        let text = text.trim();
        match words(path).as_slice() {
            ["gpx", "wpt", part] => self.of_mark(part, text),
            ["gpx", "wpt"] => self.marks.extend(self.mark.take().map(Heard::mark)),
            ["gpx", "trk" | "rte", "name"] => self.name = Some(text.to_owned()).filter(|name| !name.is_empty()),
            ["gpx", "trk"] => named(&mut self.tracks[self.first..], self.name.as_deref()),
            ["gpx", "rte"] => named(&mut self.routes[self.first..], self.name.as_deref()),
            ["gpx", "rte", "rtept"] => push(&mut self.routes, self.point.take()),
            ["gpx", "trk", "trkseg", "trkpt"] => push(&mut self.tracks, self.point.take()),
            ["gpx", "rte", "rtept", part] | ["gpx", "trk", "trkseg", "trkpt", part] => {
                self.of_point(part, text, here)?;
            }
            _ => {}
        }
        Ok(())
    }

    fn track(self: Box<Self>) -> Track {
        let lines = |lines: Vec<Line>| lines.into_iter().filter(|line| !line.points.is_empty()).collect::<Vec<_>>();
        let tracks = lines(self.tracks);
        let lines = if tracks.is_empty() { lines(self.routes) } else { tracks };
        Track { lines, marks: self.marks }
    }
}

impl Gpx {
    fn of_mark(&mut self, part: &str, text: &str) {
        if let Some(mark) = &mut self.mark {
            match part {
                "name" => text.clone_into(&mut mark.name),
                "type" => text.clone_into(&mut mark.kind),
                "sym" => text.clone_into(&mut mark.symbol),
                _ => {}
            }
        }
    }

    fn of_point(&mut self, part: &str, text: &str, here: &Here<'_>) -> Result<(), Fault> {
        let Some(point) = &mut self.point else { return Ok(()) };
        match part {
            "ele" if !text.is_empty() => {
                let height = here.number(text, word!("metres above the sea"))?;
                if !(-12_000.0..=100_000.0).contains(&height) {
                    return Err(here.fault(crate::fault::shown(text), word!("metres above the sea")));
                }
                point.height = Some(height);
            }
            // A clock that cannot be read is no reason to refuse the way.
            "time" => point.time = time::seconds(text),
            _ => {}
        }
        Ok(())
    }
}

impl Heard {
    fn mark(self) -> Mark {
        let kind = MarkKind::told([self.kind.as_str(), &self.symbol, &self.name]);
        Mark { at: self.at, name: self.name, kind }
    }
}

fn words(path: &[String]) -> Vec<&str> {
    path.iter().map(String::as_str).collect()
}

fn push(lines: &mut [Line], point: Option<TrackPoint>) {
    if let Some(line) = lines.last_mut() {
        line.points.extend(point);
    }
}

fn named(lines: &mut [Line], name: Option<&str>) {
    for line in lines {
        line.name = name.map(str::to_owned);
    }
}
