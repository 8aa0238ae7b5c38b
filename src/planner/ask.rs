//! Questions about a trip or the catalogue that are answered at once.

use crate::host::Host;
use crate::kit::{Aboard, no_kit};
use crate::refused::Refused;
use crate::trip::Trip;
use fardel_core::answer::{self, WhyError};
use fardel_core::diagnostic::did_you_mean;
use fardel_core::find;
use fardel_core::sheet;
use fardel_core::units::UnitSystem;
use fardel_report::json;
use fardel_words::say;
use serde::Deserialize;

/// Entries of each sort that a search gives, as on the command line.
const MOST_FOUND: usize = 12;

/// What a call asks why of.
#[derive(Debug, Deserialize)]
pub(crate) struct Why {
    /// Id or name of an item or a failure.
    item: String,
    /// Is the trip also packed with the thing or without it, as the command line does it? It takes a proof or two.
    #[serde(default)]
    anew: bool,
}

/// The reasons: of the kit that was found last for this trip, or of the best one.
pub(crate) fn why(host: &Host, trip: &Trip, asked: &Why) -> Result<String, Refused> {
    let mut session = host.sessions.open(host, trip)?;
    let live = &mut session.live;
    let answer = if asked.anew {
        answer::why(live.catalogue(), live.scenario(), live.rider(), &asked.item, &trip.options())
    } else {
        live.at_hand();
        live.why(&asked.item, false)
    };
    match answer {
        Ok(mut answer) => {
            answer.warnings.extend(session.notes.iter().cloned());
            Ok(json::why(&answer)?)
        }
        Err(WhyError::Pack(error)) => Err(no_kit("why", session.live.catalogue(), error)),
        Err(WhyError::Unknown { name, nearest, .. }) => {
            let near = did_you_mean(nearest);
            Err(Refused::words(say!("nothing is called `{}`{near}", name.escape_debug())))
        }
    }
}

/// What a search looks for.
#[derive(Debug, Deserialize)]
pub(crate) struct Find {
    text: String,
}

/// Entries with these words.
pub(crate) fn find(host: &Host, asked: &Find) -> Result<String, Refused> {
    Ok(json::found(&find::find(host.catalogue(), &asked.text, MOST_FOUND))?)
}

/// Whose sheet.
#[derive(Debug, Deserialize)]
pub(crate) struct Sheet {
    bike: String,
    /// Tools that are to turn its fasteners.
    #[serde(default)]
    kit: Option<Aboard>,
}

/// The sheet to fill in at the bike.
pub(crate) fn sheet(host: &Host, asked: &Sheet) -> Result<String, Refused> {
    let catalogue = host.catalogue();
    let bike = host.bike(&asked.bike)?;
    let packed = asked.kit.as_ref().map(|kit| kit.read(catalogue)).transpose()?;
    let kit = packed.as_ref().map(|packed| &packed.kit);
    Ok(json::bike(&sheet::sheet(catalogue, bike, kit, UnitSystem::Metric))?)
}
