//! `fardel gear`.

use super::Ending;
use super::complaint::bad_input;
use super::output::{Format, OutputArguments};
use super::trip::Known;
use crate::files::write;
use crate::load;
use crate::report::{json, terminal};
use clap::Args;
use fardel_words::{say, word};
use std::path::PathBuf;

/// Read your own list of things, a spreadsheet with any usual headings, and say what each line is taken for.
///
/// The names that are not the catalogue's own are written to a file beside the list (my-list.names.csv for my-list.csv),
/// which confirms them: `trim`, `rehearse`, `card`, `split --packed` and a rider's `gear` read it with the list. What the
/// catalogue lacks is a thing of your own, of which only the weight must be known.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel gear my-list.csv\n  \
                  fardel gear my-list.csv --is 'camp towel=' --is 'levers=tyre-lever' --is 'harmonica=90 g'\n  \
                  fardel trim trip.yaml --kit my-list.csv --to 20kg")]
pub(super) struct Gear {
    /// The list: CSV or TSV with a column of names, and columns of counts and weights
    list: PathBuf,
    /// What a name stands for: NAME=ID, NAME= for a thing of your own, NAME=120 g for its weight; may be given several times
    #[arg(long, value_name = "NAME=WHAT", value_parser = change)]
    is: Vec<(String, String)>,
    /// Only show it: write no file of names
    #[arg(long)]
    look_only: bool,
    #[command(flatten)]
    known: Known,
    #[command(flatten)]
    output: OutputArguments<Format>,
}

fn change(text: &str) -> Result<(String, String), String> {
    let (name, what) = text.rsplit_once('=').ok_or(word!("NAME=ID, NAME= or NAME=120 g is expected"))?;
    let (name, what) = (name.trim(), what.trim());
    if name.is_empty() {
        Err(say!("a name is expected before the `=`"))
    } else {
        Ok((name.to_owned(), what.to_owned()))
    }
}

impl Gear {
    pub(super) fn run(&self) -> Ending {
        match self.answer() {
            Ok(ending) | Err(ending) => ending,
        }
    }

    fn answer(&self) -> Result<Ending, Ending> {
        let look = self.output.look();
        self.output.unobstructed(None)?;
        let catalogue = self.known.catalogue()?;
        let list = load::list(&self.list, &catalogue, &self.is).map_err(bad_input)?;
        let mut text = match self.output.format {
            Format::Text => Ok(terminal::list(&list, &look)),
            Format::Json => json::list(&list).map_err(|error| error.to_string()),
        };
        if self.look_only {
            return Ok(self.output.finish(text));
        }
        let names = list.names().map_err(bad_input)?;
        let path = load::names_path(&self.list);
        if let (Format::Text, Ok(text)) = (self.output.format, &mut text) {
            *text += &say!("\nConfirmed in {}, which is read with the list.\n", path.display());
        }
        if !path.exists() {
            return Ok(self.output.finish_beside(text, Some((&path, names.as_bytes()))));
        }
        // What stood there was read and is in the new one.
        write::whole_file(&path, &names, true).map_err(|unwritten| bad_input(unwritten.to_string()))?;
        Ok(self.output.finish(text))
    }
}
