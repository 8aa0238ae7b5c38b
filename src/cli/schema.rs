//! `fardel schema`.

use super::output::put;
use super::{Ending, complain};
use crate::load;
use crate::report::json;
use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use std::path::PathBuf;

/// Print the JSON Schema of a file, for editors, or of answers, for programs that read them.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel schema scenario --out scenario.json\n  \
fardel schema answer --command pack\n\n\
With the first, `# yaml-language-server: $schema=scenario.json` as the first line of a scenario beside it lets an editor \
complete and check its keys.")]
pub(super) struct Schema {
    /// Which sort of file, or `answer` for what commands print with --format json
    #[arg(value_name = "SORT", value_parser = PossibleValuesParser::new(words()).map(shape))]
    shape: Shape,
    /// Answers of this command only (with `answer`)
    #[arg(long, value_name = "COMMAND", value_parser = PossibleValuesParser::new(json::COMMANDS))]
    command: Option<String>,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
}

/// What has a schema.
#[derive(Debug, Clone, Copy)]
enum Shape {
    /// A sort of file.
    File(load::Shape),
    /// What commands print.
    Answer,
}

/// The word for what commands print.
const ANSWER: &str = "answer";

fn words() -> Vec<&'static str> {
    load::Shape::WORDS.iter().copied().chain([ANSWER]).collect()
}

#[allow(clippy::needless_pass_by_value, reason = "the shape that clap calls")]
fn shape(word: String) -> Shape {
    load::Shape::from_word(&word).map_or(Shape::Answer, Shape::File)
}

impl Schema {
    pub(super) fn run(&self) -> Ending {
        let text = match (self.shape, &self.command) {
            (Shape::File(_), Some(command)) => {
                complain(&format!("--command {command}: it goes with `fardel schema {ANSWER}`"));
                return Ending::BadInput;
            }
            (Shape::File(shape), None) => load::schema(shape),
            (Shape::Answer, command) => json::schema(command.as_deref()),
        };
        match text {
            Ok(text) => put(&text, self.out.as_deref(), self.force),
            Err(error) => {
                complain(&format!("internal error: the schema cannot be written as JSON: {error}"));
                Ending::Defect
            }
        }
    }
}
