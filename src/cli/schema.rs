//! `fardel schema`.

use super::output::put;
use super::{Ending, complain};
use crate::load::{self, Shape};
use clap::builder::PossibleValuesParser;
use clap::{Args, builder::TypedValueParser as _};
use std::path::PathBuf;

/// Print the JSON Schema of a file, for editors.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel schema scenario --out scenario.json\n\n\
Then `# yaml-language-server: $schema=scenario.json` as the first line of a scenario beside it lets an editor complete \
and check its keys.")]
pub(super) struct Schema {
    /// Which sort of file
    #[arg(value_name = "SORT", value_parser = PossibleValuesParser::new(Shape::WORDS)
        .try_map(|word| Shape::from_word(&word).ok_or("no such sort of file")))]
    shape: Shape,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
}

impl Schema {
    pub(super) fn run(&self) -> Ending {
        match load::schema(self.shape) {
            Ok(text) => put(&text, self.out.as_deref(), self.force),
            Err(error) => {
                complain(&format!("internal error: the schema cannot be written as JSON: {error}"));
                Ending::Defect
            }
        }
    }
}
