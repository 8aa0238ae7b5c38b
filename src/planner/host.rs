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
use serde::de::DeserializeOwned;

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
    catalogue: Catalogue,
    pub(crate) sessions: Sessions,
}

impl Host {
    /// Reads the shipped catalogue.
    ///
    /// # Errors
    /// [`Faults`], never with the catalogue that is shipped.
    pub fn new() -> Result<Self, Faults> {
        let (shelf, catalogue) = Shelf::with_catalogue(&load::shipped())?;
        Ok(Self { shelf, catalogue, sessions: Sessions::default() })
    }

    /// The catalogue files, read once for all trips.
    pub(crate) const fn shelf(&self) -> &Shelf {
        &self.shelf
    }

    /// The catalogue without anything of a trip's own.
    pub(crate) const fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// A bike of the catalogue.
    ///
    /// # Errors
    /// [`Refused`] with the nearest name, where there is none of this one.
    pub(crate) fn bike(&self, id: &str) -> Result<&Bike, Refused> {
        let bikes = &self.catalogue.bikes;
        bikes.get(id).ok_or_else(|| {
            let near = did_you_mean(nearest(id, bikes.keys().map(String::as_str)));
            Refused::words(format!("no bike `{}`{near}", id.escape_debug()))
        })
    }

    /// Answers a call: its name, its JSON, where parts go as they come, and what asks it to stop. The answer is JSON; of a
    /// call that answers in parts it is the last part.
    ///
    /// # Errors
    /// [`Refused`] with what is wrong.
    pub fn call(&self, name: &str, body: &str, tell: &mut dyn FnMut(&str), stop: &Cancel) -> Result<String, Refused> {
        let call = Call::read(name).ok_or_else(|| Refused::Unknown(name.chars().take(40).collect()))?;
        let answer = under(stop, || self.answer(call, body, &mut Listener { tell, stop }));
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

/// What a call brings. Its trip is read apart from the rest: a tree that is to stay as written cannot be part of both.
///
/// # Errors
/// [`Refused`] where it is no JSON of this shape.
pub fn read<T: DeserializeOwned>(body: &str) -> Result<T, Refused> {
    serde_json::from_str(body).map_err(|error| Refused::words(format!("what is asked cannot be read: {error}")))
}
