//! `fardel new`.

use super::output::put;
use super::settings::CatalogueArguments;
use super::{Ending, complain};
use crate::diagnostic::{nearest, quoted};
use crate::domain::{Bike, Catalogue, Style};
use crate::load;
use crate::starter::{self, Wish};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Write a commented scenario to begin with.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel new --bike single-450-tubed --days 5 --out trip.yaml")]
pub(super) struct New {
    /// Id of the bike
    #[arg(long, value_name = "ID")]
    bike: String,
    /// Days under way
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u32).range(1..=60))]
    days: u32,
    /// How the nights are spent; camping if left out, none for a single day
    #[arg(long, value_enum)]
    style: Option<StyleName>,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum StyleName {
    /// No nights away
    None,
    /// Under roofs
    Roofed,
    /// In a tent or the like
    Camping,
}

impl New {
    pub(super) fn run(&self) -> Ending {
        let made = self.read().and_then(|catalogue| {
            let bike = self.find(&catalogue)?;
            if let (Some(StyleName::Roofed | StyleName::Camping), 1) = (self.style, self.days) {
                return Err("--style: a single day has no nights; ask for more --days, or leave --style out".to_owned());
            }
            Ok(starter::scenario(&catalogue, bike, Wish { days: self.days, style: self.style() }))
        });
        match made {
            Ok(text) => put(&text, self.out.as_deref(), self.force),
            Err(message) => {
                complain(&message);
                Ending::BadInput
            }
        }
    }

    fn read(&self) -> Result<Catalogue, String> {
        let folder = self.catalogue.catalogues.as_deref();
        let sources = folder.map_or_else(|| Ok(load::shipped()), load::catalogue_from_dir);
        sources.and_then(|sources| load::catalogue(&sources, &[])).map_err(|faults| faults.to_string())
    }

    fn find<'a>(&self, catalogue: &'a Catalogue) -> Result<&'a Bike, String> {
        catalogue.bikes.get(&self.bike).ok_or_else(|| {
            let ids: Vec<&str> = catalogue.bikes.keys().map(String::as_str).collect();
            let near = nearest(&self.bike, ids.iter().copied());
            let near = near.map_or_else(String::new, |id| format!("\n  did you mean `{id}`?"));
            format!("--bike {}: no such bike{near}\n  there are {}", quoted(&self.bike), ids.join(", "))
        })
    }

    /// A trip of one day has no nights, so no style that needs some.
    const fn style(&self) -> Style {
        match (self.style, self.days) {
            (Some(StyleName::None), _) | (None, 1) => Style::None,
            (Some(StyleName::Roofed), _) => Style::Roofed,
            (Some(StyleName::Camping) | None, _) => Style::Camping,
        }
    }
}
