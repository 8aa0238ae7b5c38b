//! `fardel check`.

use super::settings::CatalogueArguments;
use super::{Ending, complain};
use crate::diagnostic::counted;
use crate::load;
use crate::report::write;
use clap::Args;
use std::path::PathBuf;

/// Read catalogues and scenarios and report every problem.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel check scenarios/five-day-loop.yaml")]
pub(super) struct Check {
    /// Scenario files; without any, only the catalogue is read
    scenarios: Vec<PathBuf>,
    #[command(flatten)]
    catalogue: CatalogueArguments,
}

impl Check {
    pub(super) fn run(&self) -> Ending {
        let folder = self.catalogue.catalogues.as_deref();
        let sources = folder.map_or_else(|| Ok(load::shipped()), load::catalogue_from_dir);
        let catalogue = match sources.and_then(|sources| load::catalogue(&sources, &[])) {
            Ok(catalogue) => catalogue,
            Err(faults) => {
                complain(&faults.to_string());
                return Ending::BadInput;
            }
        };
        let repairs: usize = catalogue.failures.values().map(|failure| failure.repairs.len()).sum();
        let mut text = format!(
            "Catalogue: {}, {} with {}, {}, {}, {}; no problems found.\n",
            counted(catalogue.items.len(), "item"),
            counted(catalogue.failures.len(), "failure"),
            counted(repairs, "repair"),
            counted(catalogue.bikes.len(), "bike"),
            counted(catalogue.bags.len(), "bag"),
            counted(catalogue.preparations.len(), "preparation"),
        );
        let mut ending = Ending::Answered;
        for path in &self.scenarios {
            match load::load(path, folder) {
                Ok(loaded) => {
                    text += &format!("{}: {}; no problems found.\n", path.display(), loaded.scenario.name);
                    text.extend(loaded.notes.iter().map(|note| format!("  {note}\n")));
                }
                Err(faults) => {
                    complain(&faults.to_string());
                    ending = Ending::BadInput;
                }
            }
        }
        match write::print(&text) {
            Ok(()) => ending,
            Err(_) => Ending::BadInput,
        }
    }
}
