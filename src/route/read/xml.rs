//! XML as a run of elements with their line, for whatever format is in it. No document type is taken, so no entity grows.

use super::{gpx, kml};
use crate::fault::{Fault, shown};
use crate::geo::Point;
use crate::limits::DEPTH;
use crate::track::Track;
use fardel_words::{say, word};
use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;

/// What an element hears of the file that it is in.
pub(super) trait Listener {
    /// An element begins; `path` ends with its name.
    fn start(&mut self, path: &[String], element: &Element<'_>) -> Result<(), Fault>;
    /// It ends; `text` is what stood directly in it.
    fn end(&mut self, path: &[String], text: &str, here: &Here<'_>) -> Result<(), Fault>;
    /// What was heard.
    fn track(self: Box<Self>) -> Track;
}

/// A place in a file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Here<'a> {
    pub file: &'a str,
    pub line: usize,
}

impl Here<'_> {
    pub(super) fn fault(&self, found: impl Into<String>, expected: impl Into<String>) -> Fault {
        Fault::at(self.file, self.line, found, expected)
    }

    /// A number in the text of an element.
    pub(super) fn number(&self, text: &str, expected: &str) -> Result<f64, Fault> {
        let number = text.trim().parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| self.fault(shown(text.trim()), expected))
    }

    /// A place by its degrees.
    pub(super) fn point(&self, lat: &str, lon: &str) -> Result<Point, Fault> {
        let (north, east) = (word!("degrees north, from -90 to 90"), word!("degrees east, from -180 to 180"));
        let (y, x) = (self.number(lat, north)?, self.number(lon, east)?);
        Point::new(y, x).ok_or_else(|| match Point::new(y, 0.0) {
            None => self.fault(shown(lat), north),
            Some(_) => self.fault(shown(lon), east),
        })
    }
}

/// A start tag.
#[derive(Debug)]
pub(super) struct Element<'a> {
    tag: &'a BytesStart<'a>,
    pub here: Here<'a>,
}

impl Element<'_> {
    /// The place that `lat` and `lon` give.
    pub(super) fn point(&self) -> Result<Point, Fault> {
        let lat = self.attribute("lat", word!("degrees north, from -90 to 90"))?;
        let lon = self.attribute("lon", word!("degrees east, from -180 to 180"))?;
        self.here.point(&lat, &lon)
    }

    fn attribute(&self, name: &str, expected: &str) -> Result<String, Fault> {
        let missing = || self.here.fault(say!("no `{name}`"), expected);
        let found = self.tag.attributes().flatten().find(|attribute| attribute.key.local_name().as_ref() == name);
        let value = found.ok_or_else(missing)?;
        Ok(value.value.trim().to_owned())
    }
}

/// Reads a text.
pub(super) fn read(file: &str, text: &str) -> Result<Track, Fault> {
    let mut reader = Reader::from_str(text);
    let mut walk = Walk { file, text, line: 1, counted: 0, path: Vec::new(), texts: Vec::new(), listener: None };
    loop {
        let event = reader.read_event();
        let here = walk.here(reader.buffer_position());
        match event {
            Ok(Event::Start(tag)) => walk.start(&tag, here)?,
            Ok(Event::Empty(tag)) => {
                walk.start(&tag, here)?;
                walk.end(here)?;
            }
            Ok(Event::End(_)) => walk.end(here)?,
            Ok(Event::Text(text)) => walk.hear(&text.xml10_content()),
            Ok(Event::CData(text)) => walk.hear(&text.xml10_content()),
            Ok(Event::GeneralRef(name)) => {
                let known = name.resolve_char_ref().ok().flatten().map(String::from);
                let name = name.into_inner();
                let known = known.or_else(|| quick_xml::escape::resolve_xml_entity(&name).map(str::to_owned));
                let known = known
                    .ok_or_else(|| here.fault(shown(&format!("&{name};")), word!("one of the five entities of XML")))?;
                walk.hear(&known);
            }
            Ok(Event::DocType(_)) => {
                return Err(here.fault(word!("a document type"), word!("none: entities are not read")));
            }
            Ok(Event::Eof) => return walk.finish(here),
            Ok(Event::Decl(_) | Event::PI(_) | Event::Comment(_)) => {}
            Err(error) => {
                let told = error.to_string();
                let told = told.strip_prefix("ill-formed document: ").unwrap_or(&told);
                return Err(here.fault(say!("broken XML ({told})"), word!("well-formed XML")));
            }
        }
    }
}

struct Walk<'a> {
    file: &'a str,
    text: &'a str,
    line: usize,
    counted: usize,
    path: Vec<String>,
    texts: Vec<String>,
    listener: Option<Box<dyn Listener>>,
}

impl<'a> Walk<'a> {
    fn here(&mut self, position: u64) -> Here<'a> {
        let position = usize::try_from(position).unwrap_or(usize::MAX).min(self.text.len());
        let passed = self.text.get(self.counted..position).unwrap_or_default();
        self.line += passed.matches('\n').count();
        self.counted = self.counted.max(position);
        Here { file: self.file, line: self.line }
    }

    fn start(&mut self, tag: &BytesStart<'_>, here: Here<'_>) -> Result<(), Fault> {
        if self.path.len() == DEPTH {
            return Err(here.fault(word!("elements nested more deeply"), say!("at most {DEPTH} levels")));
        }
        let name = tag.local_name().as_ref().to_owned();
        if self.path.is_empty() {
            self.listener = Some(match name.as_str() {
                "gpx" => Box::<gpx::Gpx>::default(),
                "kml" => Box::<kml::Kml>::default(),
                _ => return Err(here.fault(shown(&name), word!("`gpx` or `kml`"))),
            });
        }
        self.path.push(name);
        self.texts.push(String::new());
        let element = Element { tag, here };
        self.listener.as_mut().map_or(Ok(()), |listener| listener.start(&self.path, &element))
    }

    fn hear(&mut self, text: &str) {
        if let Some(heard) = self.texts.last_mut() {
            heard.push_str(text);
        }
    }

    fn end(&mut self, here: Here<'_>) -> Result<(), Fault> {
        let text = self.texts.pop().unwrap_or_default();
        let heard = self.listener.as_mut().map_or(Ok(()), |listener| listener.end(&self.path, &text, &here));
        self.path.pop();
        heard
    }

    fn finish(self, here: Here<'_>) -> Result<Track, Fault> {
        if let Some(open) = self.path.last() {
            return Err(here.fault(word!("the end of the file"), shown(&format!("</{open}>"))));
        }
        Ok(self.listener.map(Listener::track).unwrap_or_default())
    }
}
