//! An extract as a run of blobs, each unpacked when it is wanted. No more than one is in memory.

use super::wire::{Broken, Field, Message};
use crate::fault::Fault;
use fardel_words::{mark, plain, say, word};
use flate2::read::ZlibDecoder;
use std::io::{self, ErrorKind, Read, Seek, SeekFrom};

/// Largest header of a blob, and largest blob, packed or not, as the format allows them.
const MOST_HEADER: u32 = 64 << 10;
const MOST_BLOB: u64 = 32 << 20;

/// What is read from, and how far it has been read.
#[derive(Debug)]
pub(super) struct Blobs<'a, R> {
    name: &'a str,
    reader: R,
    position: u64,
    size: u64,
    header_seen: bool,
    /// What the header says the file was made from.
    pub(super) source: Option<String>,
}

/// A blob that has not been unpacked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    /// Where its bytes begin.
    pub at: u64,
    size: u64,
    /// Is it data, and not the header of the file or something unknown?
    data: bool,
}

impl<'a, R: Read + Seek> Blobs<'a, R> {
    pub(super) fn new(name: &'a str, mut reader: R) -> Result<Self, Fault> {
        let sized = reader.seek(SeekFrom::End(0)).and_then(|size| reader.seek(SeekFrom::Start(0)).map(|_| size));
        let size = sized.map_err(|error| Fault::new(name, error.to_string(), word!("a file that can be read")))?;
        Ok(Self { name, reader, position: 0, size, header_seen: false, source: None })
    }

    /// At this place of the file.
    pub(super) fn fault(&self, found: &str, expected: &str) -> Fault {
        Fault::new(&say!("{}, byte {}", self.name, self.position), found, expected)
    }

    fn broken(&self) -> Fault {
        self.fault(word!("a broken blob"), word!("an OpenStreetMap extract (.osm.pbf), whole"))
    }

    fn io(&self, error: &io::Error) -> Fault {
        match error.kind() {
            ErrorKind::UnexpectedEof => {
                self.fault(word!("the end of the file"), word!("the rest of a blob: is the download whole?"))
            }
            _ => self.fault(&error.to_string(), word!("a file that can be read")),
        }
    }

    /// The next blob of data, none at the end. The header is read and looked at on the way.
    pub(super) fn next(&mut self) -> Result<Option<Place>, Fault> {
        loop {
            let Some(place) = self.place()? else {
                return if self.header_seen { Ok(None) } else { Err(self.broken()) };
            };
            if place.data {
                return Ok(Some(place));
            }
        }
    }

    fn place(&mut self) -> Result<Option<Place>, Fault> {
        if self.position == self.size {
            return Ok(None);
        }
        let mut length = [0; 4];
        self.exactly(&mut length)?;
        let length = u32::from_be_bytes(length);
        if length == 0 || length > MOST_HEADER {
            return Err(self.broken());
        }
        let mut header = vec![0; length as usize];
        self.exactly(&mut header)?;
        let (kind, size) = header_of(&header).map_err(|Broken| self.broken())?;
        if size > MOST_BLOB {
            return Err(self.fault(word!("a blob that is too large"), word!("blobs of at most 32 MiB")));
        }
        let place = Place { at: self.position, size, data: kind == b"OSMData" };
        if kind == b"OSMHeader" {
            let content = self.unpack(place)?;
            self.check(&content)?;
            self.header_seen = true;
        } else if !self.header_seen {
            return Err(self.broken());
        } else {
            self.skip_to(place.at + size)?;
        }
        Ok(Some(place))
    }

    fn exactly(&mut self, bytes: &mut [u8]) -> Result<(), Fault> {
        self.reader.read_exact(bytes).map_err(|error| self.io(&error))?;
        self.position += bytes.len() as u64;
        Ok(())
    }

    fn skip_to(&mut self, position: u64) -> Result<(), Fault> {
        if position > self.size {
            return Err(self.io(&ErrorKind::UnexpectedEof.into()));
        }
        self.reader.seek(SeekFrom::Start(position)).map_err(|error| self.io(&error))?;
        self.position = position;
        Ok(())
    }

    /// What is in a blob; the next one asked for is the one after it.
    pub(super) fn unpack(&mut self, place: Place) -> Result<Vec<u8>, Fault> {
        self.skip_to(place.at)?;
        if place.size > self.size - place.at {
            return Err(self.io(&ErrorKind::UnexpectedEof.into()));
        }
        let mut packed = vec![0; usize::try_from(place.size).map_err(|_| self.broken())?];
        self.exactly(&mut packed)?;
        unpacked(&packed).map_err(|found| self.fault(found, word!("data packed with zlib, or not packed")))
    }

    /// Features that a reader has to know, or else it would misread the file. What it was made from is kept.
    fn check(&mut self, header: &[u8]) -> Result<(), Fault> {
        for field in Message(header) {
            let field = field.map_err(|Broken| self.broken())?;
            if let (17, Field::Bytes(source)) = field {
                self.source = Some(String::from_utf8_lossy(source).into_owned());
            }
            if let (4, Field::Bytes(feature)) = field
                && !matches!(feature, b"OsmSchema-V0.6" | b"DenseNodes")
            {
                let feature = crate::fault::shown(&String::from_utf8_lossy(feature));
                return Err(
                    self.fault(&say!("the feature {feature}"), word!("an extract of the present, without history"))
                );
            }
        }
        Ok(())
    }
}

fn header_of(header: &[u8]) -> Result<(&[u8], u64), Broken> {
    let (mut kind, mut size): (&[u8], _) = (&[], None);
    for field in Message(header) {
        match field? {
            (1, Field::Bytes(bytes)) => kind = bytes,
            (3, Field::Number(number)) => size = Some(number),
            _ => {}
        }
    }
    Ok((kind, size.ok_or(Broken)?))
}

fn unpacked(blob: &[u8]) -> Result<Vec<u8>, &'static str> {
    const BROKEN: &str = mark!("a broken blob");
    let mut content = None;
    for field in Message(blob) {
        match field.map_err(|Broken| plain(BROKEN))? {
            (1, Field::Bytes(raw)) => content = Some(raw.to_vec()),
            (3, Field::Bytes(packed)) => {
                let mut bytes = Vec::new();
                // What would unpack without end is cut off, and refused.
                let read = ZlibDecoder::new(packed).take(MOST_BLOB + 1).read_to_end(&mut bytes);
                read.map_err(|_| word!("data that do not unpack"))?;
                if bytes.len() as u64 > MOST_BLOB {
                    return Err(word!("a blob that unpacks to more than 32 MiB"));
                }
                content = Some(bytes);
            }
            (4..=7, Field::Bytes(_)) => return Err(word!("data packed otherwise")),
            _ => {}
        }
    }
    content.ok_or(plain(BROKEN))
}
