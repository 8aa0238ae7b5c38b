//! `fardel export-model`.

use super::output::{not_read, told, unobstructed};
use super::trip::{Party, TripArguments};
use super::verbosity::quiet;
use super::{Ending, complain};
use crate::answer;
use crate::answer::split::group_model;
use crate::files::write;
use crate::milp::SolveOptions;
use crate::milp::{self, Model};
use crate::resolve::resolve;
use crate::{risk, select};
use clap::Args;
use fardel_words::say;
use std::path::{Path, PathBuf};

/// Write the model that chooses the kit to a file that any solver of integer programs reads.
///
/// Its best value, in hours, is what `pack` reaches when it says "Proven" and every kit it chose went into the bags; for
/// several riders, none of them named, what `split` reaches.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel export-model scenarios/five-day-loop.yaml --lp loop.lp")]
pub(super) struct Export {
    #[command(flatten)]
    trip: TripArguments,
    /// LP file to write, maximising
    #[arg(long, value_name = "FILE", required_unless_present = "mps")]
    lp: Option<PathBuf>,
    /// Free MPS file to write, minimising the objective with its sign turned
    #[arg(long, value_name = "FILE")]
    mps: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long)]
    force: bool,
}

impl Export {
    pub(super) fn run(&self) -> Ending {
        let free = unobstructed(self.lp.iter().chain(&self.mps), self.force);
        let party = match free.and_then(|()| self.trip.open_party()) {
            Ok(party) => party,
            Err(ending) => return ending,
        };
        match titled(&party) {
            Ok((title, model)) => self.write(&title, &model),
            Err(message) => {
                complain(&say!("internal error: {message}"));
                Ending::Defect
            }
        }
    }

    fn write(&self, title: &str, model: &Model) -> Ending {
        let lp = self.lp.as_deref().map(|path| (path, milp::exchange::lp(model, title)));
        let mps = self.mps.as_deref().map(|path| (path, milp::exchange::mps(model, title)));
        let files: Vec<(&Path, String)> = lp.into_iter().chain(mps).collect();
        if let Err(ending) = not_read(files.iter().map(|(path, _)| path)) {
            return ending;
        }
        let written = write::whole_files(files.iter().map(|(path, text)| (*path, text.as_bytes())), self.force);
        let said = || if quiet() { Ok(()) } else { write::print(&account(&files, model)) };
        told(written.and_then(|()| said()))
    }
}

/// What was written.
fn account(files: &[(&Path, String)], model: &Model) -> String {
    let (columns, rows) = (model.columns.len(), model.rows.len());
    let integer = model.columns.iter().filter(|column| column.integer).count();
    let line =
        |path: &Path| say!("Wrote {}: {columns} columns, {integer} of them whole, and {rows} rows.\n", path.display());
    files.iter().map(|(path, _)| line(path)).collect()
}

/// What the model is of, and the model.
fn titled(party: &Party) -> Result<(String, Model), String> {
    match party {
        Party::One(opened) => {
            let (scenario, rider) = (opened.scenario(), opened.rider());
            let instance = resolve(opened.catalogue(), scenario, rider).ok_or(say!("no bike `{}`", rider.bike))?;
            // The model that the packed kit was chosen by; where there is no kit, that of the best of all repairs.
            let start = risk::assess(&instance);
            let solved = answer::solve::solve(&instance, &start, &SolveOptions::default());
            let risk_model = solved.map_or(start, |solved| solved.choice.risk_model);
            let (model, _) = select::model(&instance, &risk_model, &[]);
            Ok((say!("{}: the kit of {}, in hours saved", scenario.name, rider.name), model))
        }
        Party::Group(loaded) => {
            let model = group_model(&loaded.catalogue, &loaded.scenario).map_err(|error| error.to_string())?;
            Ok((say!("{}: the kit of the group, in hours saved", loaded.scenario.name), model))
        }
    }
}
