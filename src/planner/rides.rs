//! Rides that are over: the log into the book, and what the book teaches.

use crate::host::Host;
use crate::refused::Refused;
use fardel_core::debrief;
use fardel_core::load::{self, Source};
use fardel_report::{files, json};
use fardel_words::word;
use indexmap::IndexMap;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

/// What a call to learn brings.
#[derive(Debug, Deserialize)]
pub(crate) struct Ridden {
    /// Rides that are not in the book yet, as a tree or as the text of a file.
    #[serde(default)]
    log: Option<Box<RawValue>>,
    /// The text of the book.
    #[serde(default)]
    book: Option<String>,
    /// Catalogue files of the rider's own that the rides are about.
    #[serde(default)]
    own: IndexMap<String, String>,
}

#[derive(Serialize)]
struct Learnt<'a> {
    learnt: &'a RawValue,
    /// The book with the new rides at its end.
    book: &'a str,
    /// A catalogue with the rates, which a scenario names under `catalogues`.
    rates: &'a str,
}

/// What rides have taught.
pub(crate) fn debrief(host: &Host, ridden: &Ridden) -> Result<String, Refused> {
    let own: Vec<Source> =
        ridden.own.iter().map(|(name, text)| Source { name: name.clone(), text: text.clone() }).collect();
    let catalogue = host.shelf().catalogue(&own)?;
    let source = |name: &str, text: String| Source { name: name.to_owned(), text };
    let book = ridden.book.clone().map(|text| source("book.yaml", text));
    let log = ridden.log.as_ref().map(|log| log_text(log).map(|text| source("log.yaml", text))).transpose()?;
    if book.is_none() && log.is_none() {
        return Err(Refused::words(word!("a ride log or a book of rides is expected")));
    }
    let before = match &book {
        Some(book) => load::rides(vec![Ok(book.clone())], &catalogue)?.len(),
        None => 0,
    };
    let rides = load::rides(book.iter().cloned().chain(log).map(Ok).collect(), &catalogue)?;
    let answer = debrief::debrief(&catalogue, &rides, None);
    let grown = files::book(book.as_ref().map(|book| book.text.as_str()), &rides[before..]);
    let again = load::rides(vec![Ok(source("book.yaml", grown.clone()))], &catalogue);
    if !again.is_ok_and(|again| again == rides) {
        return Err(Refused::words(word!("nothing can be added at the end of the book; let `rides:` be its last key")));
    }
    let learnt = RawValue::from_string(json::debrief(&answer)?)?;
    Ok(serde_json::to_string(&Learnt { learnt: &learnt, book: &grown, rates: &files::rates(&answer) })?)
}

/// The log as the text of a file.
fn log_text(log: &RawValue) -> Result<String, Refused> {
    if let Ok(text) = serde_json::from_str::<String>(log.get()) {
        return Ok(text);
    }
    Ok(load::tree_yaml(Source { name: "log.yaml".to_owned(), text: log.get().to_owned() })?)
}
