//! The scenario that the trip goes into: one that is there, or one to begin with.

use crate::cli::settings::CatalogueArguments;
use crate::diagnostic::{nearest, quoted};
use crate::domain::{Bike, Catalogue, RepairSkill, RidingSkill};
use crate::load;
use crate::starter::{self, Ground, Help, Nights, OwnedSet, Season, Wish};
use fardel_route::draft::into_scenario;
use fardel_words::say;
use std::path::Path;

/// What stands around the trip.
pub(super) enum Frame {
    /// The text of a scenario with its own trip.
    There(String),
    /// None yet.
    New(Box<Catalogue>, String),
}

impl Frame {
    /// Reads the scenario, which must be sound, or the catalogue and finds the bike in it.
    pub(super) fn new(into: Option<&Path>, bike: Option<&str>, catalogue: &CatalogueArguments) -> Result<Self, String> {
        if let Some(path) = into {
            load::load(path, catalogue.catalogues.as_deref()).map_err(|faults| faults.to_string())?;
            let text = load::source(path).map_err(|error| error.fault().to_string())?.text;
            return into_scenario(&text, "")
                .map_err(|words| format!("{}: {words}", path.display()))
                .map(|_| Self::There(text));
        }
        let read = catalogue.sources().and_then(|sources| load::catalogue(&sources, &[]));
        let catalogue = read.map_err(|faults| faults.to_string())?;
        let id = find(&catalogue, bike)?.id.clone();
        Ok(Self::New(Box::new(catalogue), id))
    }

    /// The scenario with a trip of so many days.
    pub(super) fn around(&self, trip: &str, name: &str, days: usize) -> Result<String, String> {
        match self {
            Self::There(text) => into_scenario(text, trip),
            Self::New(catalogue, id) => {
                into_scenario(&begun(catalogue, find(catalogue, Some(id.as_str()))?, name, days), trip)
            }
        }
    }
}

fn find<'a>(catalogue: &'a Catalogue, bike: Option<&str>) -> Result<&'a Bike, String> {
    let ids = || catalogue.bikes.keys().map(String::as_str);
    let Some(id) = bike else {
        return catalogue.bikes.values().next().ok_or_else(|| say!("the catalogue has no bike; expected one"));
    };
    catalogue.bikes.get(id).ok_or_else(|| {
        let near = nearest(id, ids()).map_or_else(String::new, |near| say!("\n  did you mean `{near}`?"));
        say!("--bike {}: no such bike{near}\n  there are {}", quoted(id), ids().collect::<Vec<_>>().join(", "))
    })
}

/// A scenario to begin with, named after the track.
fn begun(catalogue: &Catalogue, bike: &Bike, name: &str, days: usize) -> String {
    let nights = if days > 1 { Nights::Camping } else { Nights::None };
    let fits = |set: &OwnedSet| days > 1 || !matches!(set, OwnedSet::Sleeping | OwnedSet::Cooking | OwnedSet::Away);
    let wish = Wish {
        days: u32::try_from(days).unwrap_or(1),
        nights,
        ground: Ground::Mixed,
        help: Help::HalfDay,
        season: Season::Mild,
        riding_skill: RidingSkill::Intermediate,
        repair_skill: RepairSkill::Handy,
        owns: OwnedSet::ALL.into_iter().filter(fits).collect(),
        hour: None,
        recovery: None,
    };
    let text = starter::scenario(catalogue, bike, &wish);
    let rest = text.find("\ntrip:").map_or("", |at| &text[at + 1..]);
    let name = between_quotes(name);
    say!(
        "# A trip from a track, on a {}. What stands in `trip` says what it rests on; all else is a guess to begin with: change\n\
         # it to yours. `fardel check FILE` tells what is wrong with it, `fardel pack FILE` what to carry.\n\n\
         name: \"{name}\"\n\n{rest}",
        bike.name,
    )
}

/// A name between double quotes.
fn between_quotes(name: &str) -> String {
    let plain = |c: char| if c.is_control() || matches!(c, '"' | '\\') { ' ' } else { c };
    name.chars().map(plain).collect()
}
