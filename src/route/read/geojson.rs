//! GeoJSON: lines and points, alone, in features or in collections.

use crate::fault::{Fault, shown};
use crate::geo::Point;
use crate::track::{Line, Mark, MarkKind, Track, TrackPoint};
use fardel_words::{say, word};
use serde_json::Value;

/// Reads a text. The parser refuses what is nested deeply.
pub(super) fn read(file: &str, text: &str) -> Result<Track, Fault> {
    let value: Value = serde_json::from_str(text)
        .map_err(|error| Fault::at(file, error.line(), say!("broken JSON ({error})"), "GeoJSON"))?;
    let mut reading = Reading { file, track: Track::default() };
    reading.object(&value, None)?;
    Ok(reading.track)
}

struct Reading<'a> {
    file: &'a str,
    track: Track,
}

impl Reading<'_> {
    fn fault(&self, found: impl Into<String>, expected: &str) -> Fault {
        Fault::new(self.file, found, expected)
    }

    fn list<'a>(&self, value: &'a Value, key: &str) -> Result<&'a Vec<Value>, Fault> {
        let list = value[key].as_array();
        list.ok_or_else(|| self.fault(say!("no list `{key}`"), word!("a list, as GeoJSON has it")))
    }

    fn object(&mut self, value: &Value, name: Option<&str>) -> Result<(), Fault> {
        let kind = value["type"].as_str().ok_or_else(|| self.fault("no `type`", word!("a GeoJSON object")))?;
        match kind {
            "FeatureCollection" => self.list(value, "features")?.iter().try_for_each(|part| self.object(part, None)),
            "GeometryCollection" => self.list(value, "geometries")?.iter().try_for_each(|part| self.object(part, name)),
            "Feature" if value["geometry"].is_null() => Ok(()),
            "Feature" => self.object(&value["geometry"], value["properties"]["name"].as_str()),
            "LineString" => self.line(self.list(value, "coordinates")?, name),
            "MultiLineString" => self.list(value, "coordinates")?.iter().try_for_each(|part| match part.as_array() {
                Some(positions) => self.line(positions, name),
                None => Err(self.fault(shown(&part.to_string()), word!("a list of positions"))),
            }),
            "Point" => self.mark(&value["coordinates"], name),
            "MultiPoint" => self.list(value, "coordinates")?.iter().try_for_each(|part| self.mark(part, name)),
            "Polygon" | "MultiPolygon" => Ok(()),
            other => Err(self.fault(shown(other), word!("a kind of GeoJSON object"))),
        }
    }

    fn line(&mut self, positions: &[Value], name: Option<&str>) -> Result<(), Fault> {
        let points = positions.iter().map(|value| self.point(value)).collect::<Result<Vec<_>, _>>()?;
        if !points.is_empty() {
            self.track.lines.push(Line { file: 0, name: name.map(str::to_owned), points });
        }
        Ok(())
    }

    fn mark(&mut self, value: &Value, name: Option<&str>) -> Result<(), Fault> {
        let name = name.unwrap_or_default();
        let at = self.point(value)?.at;
        self.track.marks.push(Mark { at, name: name.to_owned(), kind: MarkKind::told([name]) });
        Ok(())
    }

    fn point(&self, value: &Value) -> Result<TrackPoint, Fault> {
        let number = |at: usize| value.get(at).and_then(Value::as_f64);
        let at = number(1).zip(number(0)).and_then(|(lat, lon)| Point::new(lat, lon));
        let at =
            at.ok_or_else(|| self.fault(shown(&value.to_string()), word!("a position: degrees east, degrees north")))?;
        Ok(TrackPoint { at, height: number(2), time: None })
    }
}
