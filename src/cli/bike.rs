//! `fardel bike`.

use super::Ending;
use super::complaint::{Trouble, bad_input};
use super::output::{OutputArguments, PageFormat};
use super::trip::Known;
use crate::diagnostic::{nearest, quoted};
use crate::domain::{Bike as Machine, Catalogue};
use crate::load::{self, Source};
use crate::report::{json, sheet as pages, terminal};
use crate::sheet::sheet;
use clap::Args;
use fardel_words::say;
use std::path::{Path, PathBuf};

/// A sheet to print and fill in at the bike: plate, tyres, tank, plug, chain, and what turns each fastener for which job.
///
/// With --read, a filled sheet becomes a catalogue file with your bike in it. With --kit, lists the fasteners that the
/// tools of a kit cannot turn.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel bike single-450-tubed --format html --out sheet.html\n  \
                  fardel bike single-450-tubed --read filled.csv --id my-bike --out my-bike.yaml\n  \
                  fardel bike single-450-tubed --kit packed.csv")]
pub(super) struct Bike {
    /// Id of the bike in the catalogue that is most like yours
    bike: String,
    /// Kit whose tools are to turn its fasteners
    #[arg(long, value_name = "FILE", conflicts_with = "read")]
    kit: Option<PathBuf>,
    /// Sheet that was filled in, CSV or YAML; the answer is then a catalogue file with the bike
    #[arg(long, value_name = "FILE")]
    read: Option<PathBuf>,
    /// Id of the bike that is read
    #[arg(long, value_name = "ID", default_value = "my-bike", requires = "read")]
    id: String,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments<PageFormat>,
}

impl Bike {
    pub(super) fn run(&self) -> Ending {
        match self.answer() {
            Ok(ending) | Err(ending) => ending,
        }
    }

    fn answer(&self) -> Result<Ending, Ending> {
        let look = self.output.look();
        self.output.unobstructed(None)?;
        let catalogue = self.known.catalogue()?;
        let bike = find(&self.bike, &catalogue).map_err(bad_input)?;
        if let Some(path) = &self.read {
            let text = self.own(path, &catalogue, bike).map_err(bad_input)?;
            return Ok(self.output.finish(Ok::<_, String>(text)));
        }
        let packed = self.kit.as_ref().map(|path| load::kit(path, &catalogue)).transpose();
        let packed = packed.map_err(bad_input)?;
        let own = packed.as_ref().and_then(|packed| packed.with_own(&catalogue));
        let sheet =
            sheet(own.as_ref().unwrap_or(&catalogue), bike, packed.as_ref().map(|packed| &packed.kit), look.units);
        Ok(self.output.finish(match self.output.format {
            PageFormat::Text if packed.is_some() => Ok(terminal::unturned(&sheet, &look)),
            PageFormat::Text => Ok(terminal::bike(&sheet, &look)),
            PageFormat::Markdown => pages::markdown(&sheet, &look),
            PageFormat::Csv => pages::csv(&sheet),
            PageFormat::Json => json::bike(&sheet).map_err(|error| error.to_string()),
            PageFormat::Html => pages::html(&sheet, &look),
        }))
    }

    /// The text of a catalogue file, read with the catalogue to make sure that it will be again.
    fn own(&self, path: &Path, catalogue: &Catalogue, base: &Machine) -> Result<String, Trouble> {
        let text = load::bike_sheet(load::source(path), catalogue, base, &self.id)?;
        let source = Source { name: say!("{} as a catalogue file", path.display()), text: text.clone() };
        let sources = self.known.sources()?;
        load::catalogue(&sources, &[source])?;
        Ok(text)
    }
}

fn find<'a>(id: &str, catalogue: &'a Catalogue) -> Result<&'a Machine, String> {
    catalogue.bikes.get(id).ok_or_else(|| {
        let near = nearest(id, catalogue.bikes.keys().map(String::as_str));
        let near = near.map_or_else(String::new, |id| say!("\n  did you mean `{id}`?"));
        let all: Vec<&str> = catalogue.bikes.keys().map(String::as_str).collect();
        say!("{}: no such bike{near}\n  there are {}", quoted(id), all.join(", "))
    })
}
