//! One place that every call goes through.

use crate::call::Call;
use crate::refused::Refused;
use crate::sessions::Sessions;
use crate::{ask, catalogue, check, kit, list, plan, rides, start, text, track};
use fardel_core::diagnostic::{Faults, did_you_mean, nearest};
use fardel_core::domain::{Bike, Catalogue};
use fardel_core::live::Cancel;
use fardel_core::load::{self, Shelf};
use fardel_core::milp::control::under;
use fardel_words::say;
use fardel_words::{Language, apart, current, within};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::sync::OnceLock;

/// Somebody to hand the parts of an answer to: each is one JSON object without a line break in it.
pub(crate) struct Listener<'a> {
    tell: &'a mut dyn FnMut(&str),
    stop: &'a Cancel,
}

impl Listener<'_> {
    /// What asks the work to stop.
    pub const fn stop(&self) -> &Cancel {
        self.stop
    }

    /// Hands over a part.
    ///
    /// # Errors
    /// [`Refused::Stopped`] where nobody wants it.
    pub fn part(&mut self, part: &str) -> Result<(), Refused> {
        self.check()?;
        (self.tell)(part);
        Ok(())
    }

    /// Is the work still wanted?
    ///
    /// # Errors
    /// [`Refused::Stopped`] where it is not.
    pub fn check(&self) -> Result<(), Refused> {
        if self.stop.is_cancelled() { Err(Refused::Stopped) } else { Ok(()) }
    }
}

/// Answers calls by the shipped catalogue. Every call brings its own trip; what was found for the last ones is kept, so
/// that the next call begins there.
#[derive(Debug)]
pub struct Host {
    shelf: Shelf,
    /// The catalogue in each language, read when it is first spoken.
    catalogues: Vec<(Language, OnceLock<Catalogue>)>,
    english: Catalogue,
    pub(crate) sessions: Sessions,
}

impl Host {
    /// Reads the shipped catalogue.
    ///
    /// # Errors
    /// [`Faults`], never with the catalogue that is shipped.
    pub fn new() -> Result<Self, Faults> {
        let (shelf, english) = within(Language::ENGLISH, || Shelf::with_catalogue(&load::shipped()))?;
        let catalogues = Language::all().map(|language| (language, OnceLock::new())).collect();
        Ok(Self { shelf, catalogues, english, sessions: Sessions::default() })
    }

    /// The catalogue files, read once for all trips.
    pub(crate) const fn shelf(&self) -> &Shelf {
        &self.shelf
    }

    /// The catalogue without anything of a trip's own, in the language that is spoken.
    pub(crate) fn catalogue(&self) -> &Catalogue {
        let spoken = current();
        let own = self.catalogues.iter().find(|(language, _)| *language == spoken && spoken != Language::ENGLISH);
        // The texts alone differ, so what can be read in English can be read in every language.
        own.map_or(&self.english, |(_, own)| {
            own.get_or_init(|| self.shelf.catalogue(&[]).unwrap_or_else(|_| self.english.clone()))
        })
    }

    /// A bike of the catalogue.
    ///
    /// # Errors
    /// [`Refused`] with the nearest name, where there is none of this one.
    pub(crate) fn bike(&self, id: &str) -> Result<&Bike, Refused> {
        let bikes = &self.catalogue().bikes;
        bikes.get(id).ok_or_else(|| {
            let near = did_you_mean(nearest(id, bikes.keys().map(String::as_str)));
            Refused::words(say!("no bike `{}`{near}", id.escape_debug()))
        })
    }

    /// Answers a call: its name, its JSON, where parts go as they come, and what asks it to stop. The answer is JSON; of a
    /// call that answers in parts it is the last part.
    ///
    /// # Errors
    /// [`Refused`] with what is wrong.
    pub fn call(&self, name: &str, body: &str, tell: &mut dyn FnMut(&str), stop: &Cancel) -> Result<String, Refused> {
        let call = Call::read(name).ok_or_else(|| Refused::Unknown(name.chars().take(40).collect()))?;
        let work = || under(stop, || self.answer(call, body, &mut Listener { tell, stop }));
        let answer = match spoken(body)? {
            Some(language) => within(language, work),
            None => apart(work),
        };
        if stop.is_cancelled() { Err(Refused::Stopped) } else { answer }
    }

    fn answer(&self, call: Call, body: &str, listener: &mut Listener<'_>) -> Result<String, Refused> {
        match call {
            Call::Catalogue => catalogue::catalogue(self),
            Call::Start => start::start(self, &read(body)?),
            Call::Read => text::read(&read(body)?),
            Call::Write => text::write(&read(body)?),
            Call::Check => check::check(self, &read(body)?),
            Call::Plan => plan::plan(self, &read(body)?, listener),
            Call::Evaluate => kit::evaluate(self, &read(body)?, &read(body)?),
            Call::Why => ask::why(self, &read(body)?, &read(body)?),
            Call::Curve => plan::curve(self, &read(body)?, &read(body)?, listener),
            Call::Split => plan::split(self, &read(body)?, &read(body)?, listener),
            Call::Card => kit::card(self, &read(body)?, &read(body)?),
            Call::Debrief => rides::debrief(self, &read(body)?),
            Call::Match => list::matched(self, &read(body)?),
            Call::Find => ask::find(self, &read(body)?),
            Call::Sheet => ask::sheet(self, &read(body)?),
            Call::Route => track::route(&read(body)?),
        }
    }
}

/// The language that a call asks for, beside whatever else it brings.
#[derive(Deserialize)]
struct Asked {
    #[serde(default)]
    language: Option<String>,
}

/// The language of a call; none where it asks for none, or cannot be read, which is told later.
///
/// # Errors
/// [`Refused`] with the languages there are, where it is none of them.
fn spoken(body: &str) -> Result<Option<Language>, Refused> {
    let Some(code) = serde_json::from_str::<Asked>(body).ok().and_then(|asked| asked.language) else {
        return Ok(None);
    };
    let unknown = || {
        let codes: Vec<String> = Language::codes().iter().map(|code| format!("`{code}`")).collect();
        Refused::words(say!("no language `{}`; there are {}", code.escape_debug(), codes.join(", ")))
    };
    Language::read(&code).map(Some).ok_or_else(unknown)
}

/// What a call brings. Its trip is read apart from the rest: a tree that is to stay as written cannot be part of both.
///
/// # Errors
/// [`Refused`] where it is no JSON of this shape.
pub fn read<T: DeserializeOwned>(body: &str) -> Result<T, Refused> {
    serde_json::from_str(body).map_err(|error| Refused::words(say!("what is asked cannot be read: {error}")))
}
