//! Trips that were asked about lately, with what was found for them: a call that changes little begins where the last one
//! ended.

use crate::host::Host;
use crate::kit::no_kit;
use crate::refused::Refused;
use crate::trip::Trip;
use fardel_core::live::{Change, Live};
use fardel_core::milp::SolveOptions;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Trips that are kept: those of two tabs, or of a group's riders.
const KEPT: usize = 6;

/// A trip that is kept open.
#[derive(Debug, Clone)]
pub(crate) struct Session {
    /// All that the call brought of it.
    key: String,
    /// The trip of one rider, and the best kit known.
    pub live: Live,
    /// How the files were read.
    pub notes: Vec<String>,
}

/// The trips that are kept, the last one first.
#[derive(Debug, Default)]
pub(crate) struct Sessions(Mutex<VecDeque<Session>>);

impl Sessions {
    fn kept(&self) -> MutexGuard<'_, VecDeque<Session>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A trip as it stands, of its own: what is found for it counts once it is [kept](Sessions::keep).
    ///
    /// # Errors
    /// [`Refused`] with everything wrong in any of its texts.
    pub fn open(&self, host: &Host, trip: &Trip) -> Result<Session, Refused> {
        let key = trip.key();
        if let Some(known) = self.known(&key) {
            return Ok(known);
        }
        let loaded = trip.load(host)?;
        let rider = trip.rider_of(&loaded.scenario)?;
        let near = self.kept().iter().find(|one| one.live.is_of(&loaded.catalogue, rider)).cloned();
        let failed = |error| no_kit("pack", host.catalogue(), error);
        let live = match near {
            Some(Session { mut live, .. }) => {
                live.patch(Change::Scenario(Box::new(loaded.scenario))).map_err(failed)?;
                live
            }
            None => Live::open(Arc::new(loaded.catalogue), loaded.scenario, rider, SolveOptions::default())
                .map_err(failed)?,
        };
        let session = Session { key, live, notes: loaded.notes };
        self.keep(&session);
        Ok(session)
    }

    /// The trip of this key, which is the last one from then on.
    fn known(&self, key: &str) -> Option<Session> {
        let mut kept = self.kept();
        let at = kept.iter().position(|one| one.key == key)?;
        let known = kept.remove(at)?;
        kept.push_front(known.clone());
        Some(known)
    }

    /// What was found for a trip, for calls to come. What others have found for it meanwhile stays, if it is better.
    pub fn keep(&self, session: &Session) {
        let mut kept = self.kept();
        if let Some(own) = kept.iter_mut().find(|one| one.key == session.key) {
            own.live.adopt(&session.live);
            return;
        }
        kept.push_front(session.clone());
        kept.truncate(KEPT);
    }
}
