//! Files of a rider to lines and marks. The format is told by the content, not by the name.

mod geojson;
mod gpx;
mod kml;
mod time;
mod xml;

use crate::fault::Fault;
use crate::limits;
use crate::track::Track;
use fardel_words::{say, word};

/// A file as a named text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrackFile {
    /// What to call it in messages.
    pub name: String,
    /// What is in it.
    pub text: String,
}

/// Reads files in the order in which they are ridden: GPX 1.0 or 1.1, KML, or GeoJSON.
///
/// Of a GPX file the tracks are taken; its routes only where it has no track.
///
/// # Errors
/// [`Fault`] with file and line where a file is none of these, broken, too large, or without a line of two points.
pub fn tracks(files: &[TrackFile]) -> Result<Track, Fault> {
    let mut all = Track::default();
    for (number, file) in files.iter().enumerate() {
        let read = one(file)?;
        if read.lines.iter().all(|line| line.points.len() < 2) {
            return Err(Fault::new(
                &file.name,
                word!("no line of two points or more"),
                word!("a track, a route or a line"),
            ));
        }
        all.lines.extend(read.lines.into_iter().map(|line| crate::track::Line { file: number, ..line }));
        all.marks.extend(read.marks);
        too_many(&file.name, &all)?;
    }
    Ok(all)
}

fn one(file: &TrackFile) -> Result<Track, Fault> {
    let text = file.text.trim_start_matches('\u{feff}');
    let most = if text.trim_start().starts_with('{') { limits::JSON_BYTES } else { limits::TEXT_BYTES };
    if text.len() > most {
        let found = say!("more than {} MiB", most >> 20);
        return Err(Fault::new(&file.name, found, say!("at most {} MiB", most >> 20)));
    }
    match text.trim_start().chars().next() {
        Some('{') => geojson::read(&file.name, text),
        Some('<') => xml::read(&file.name, text),
        Some(_) => Err(Fault::at(&file.name, 1, crate::fault::shown(text), word!("GPX, KML or GeoJSON"))),
        None => Err(Fault::at(&file.name, 1, word!("an empty file"), word!("GPX, KML or GeoJSON"))),
    }
}

fn too_many(name: &str, track: &Track) -> Result<(), Fault> {
    if track.point_count() > limits::POINTS {
        return Err(Fault::new(name, word!("more points"), say!("at most {} in all files", limits::POINTS)));
    }
    if track.marks.len() > limits::WAYPOINTS {
        return Err(Fault::new(name, word!("more waypoints"), say!("at most {} in all files", limits::WAYPOINTS)));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::track::MarkKind;

    pub(super) fn read(text: &str) -> Result<Track, String> {
        tracks(&[TrackFile { name: "a.gpx".to_owned(), text: text.to_owned() }]).map_err(|fault| fault.to_string())
    }

    #[test]
    fn a_track_with_heights_times_and_marks() {
        let track = read(
            r#"<?xml version="1.0"?><gpx version="1.1"><wpt lat="1" lon="2"><name>A &amp; B</name><sym>Campground</sym></wpt>
            <rte><rtept lat="9" lon="9"/><rtept lat="9" lon="8"/></rte>
            <trk><name>Day</name><trkseg><trkpt lat="1.5" lon="2.5"><ele>700</ele><time>2026-05-01T08:00:00Z</time></trkpt>
            <trkpt lat="1.6" lon="2.5"></trkpt></trkseg></trk></gpx>"#,
        );
        let track = track.unwrap();
        assert_eq!(track.lines.len(), 1, "tracks go before routes");
        assert_eq!(track.lines[0].name.as_deref(), Some("Day"));
        let first = track.lines[0].points[0];
        assert_eq!((first.at.lat, first.height, first.time), (1.5, Some(700.0), Some(1_777_622_400.0)));
        assert_eq!((track.marks[0].name.as_str(), track.marks[0].kind), ("A & B", MarkKind::Camp));
    }

    #[test]
    fn a_route_where_there_is_no_track() {
        let track = read("<gpx><rte><rtept lat='9' lon='9'/><rtept lat='9' lon='8'/></rte></gpx>").unwrap();
        assert_eq!(track.lines[0].points.len(), 2);
    }

    #[test]
    fn lines_of_other_formats() {
        let kml = "<kml><Document><Placemark><name>Camp</name><Point><coordinates>2,1</coordinates></Point></Placemark>
            <Placemark><LineString><coordinates>2,1,500 2.5,1\n 3,1</coordinates></LineString></Placemark></Document></kml>";
        let track = read(kml).unwrap();
        assert_eq!((track.lines[0].points.len(), track.marks[0].kind), (3, MarkKind::Camp));
        assert_eq!(track.lines[0].points[0].height, Some(500.0));
        let json = r#"{"type":"FeatureCollection","features":[
            {"type":"Feature","properties":{"name":"pump"},"geometry":{"type":"Point","coordinates":[2,1]}},
            {"type":"Feature","properties":{},"geometry":{"type":"MultiLineString","coordinates":[[[2,1],[3,1]],[[3,1],[3,2]]]}}]}"#;
        let track = read(json).unwrap();
        assert_eq!((track.lines.len(), track.marks[0].kind), (2, MarkKind::Fuel));
    }

    #[test]
    fn what_is_broken_is_told_with_its_line() {
        let cases = [
            ("", "a.gpx:1: found an empty file; expected GPX, KML or GeoJSON"),
            ("hello", "a.gpx:1: found `hello`; expected GPX, KML or GeoJSON"),
            ("<svg/>", "a.gpx:1: found `svg`; expected `gpx` or `kml`"),
            (
                "<gpx>\n<trk>\n<trkseg><trkpt lat='1'/>",
                "a.gpx:3: found no `lon`; expected degrees east, from -180 to 180",
            ),
            ("<gpx>\n<rte><rtept lat='NaN' lon='1'/>", "a.gpx:2: found `NaN`; expected degrees north, from -90 to 90"),
            ("<gpx>\n<rte><rtept lat='91' lon='1'/>", "a.gpx:2: found `91`; expected degrees north, from -90 to 90"),
            ("<gpx>\n<wpt lat='1' lon='-181'/>", "a.gpx:2: found `-181`; expected degrees east, from -180 to 180"),
            ("<gpx>\n<trk>\n", "a.gpx:3: found the end of the file; expected `</trk>`"),
            (
                "<gpx></trk>",
                "a.gpx:1: found broken XML (expected `</gpx>`, but `</trk>` was found); expected well-formed XML",
            ),
            ("<gpx></gpx>", "a.gpx: found no line of two points or more; expected a track, a route or a line"),
            (
                "<!DOCTYPE x [<!ENTITY a 'b'>]><gpx/>",
                "a.gpx:1: found a document type; expected none: entities are not read",
            ),
            (
                "<gpx><wpt lat='1' lon='1'><name>&a;</name></wpt></gpx>",
                "a.gpx:1: found `&a;`; expected one of the five entities of XML",
            ),
            ("{\"type\":\n3}", "a.gpx: found no `type`; expected a GeoJSON object"),
            ("{\"type\"\n3}", "a.gpx:2: found broken JSON (expected `:` at line 2 column 1); expected GeoJSON"),
            (
                "{\"type\":\"LineString\",\"coordinates\":[[1,95],[1,2]]}",
                "a.gpx: found `[1,95]`; expected a position: degrees east, degrees north",
            ),
        ];
        for (text, message) in cases {
            assert_eq!(read(text).unwrap_err(), message);
        }
        let deep = "<gpx>".repeat(100);
        assert_eq!(read(&deep).unwrap_err(), "a.gpx:1: found elements nested more deeply; expected at most 64 levels");
        let deep = "{\"a\":".repeat(10_000);
        assert!(read(&deep).unwrap_err().contains("broken JSON"));
    }
}
