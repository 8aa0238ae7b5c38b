//! `fardel completions`.

use super::output::put;
use super::{Arguments, Ending};
use clap::{Args, CommandFactory};
use clap_complete::Shell;
use std::path::PathBuf;

/// Print what lets a shell complete commands and options.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  fardel completions bash --out ~/.local/share/bash-completion/completions/fardel\n  \
                  fardel completions fish --out ~/.config/fish/completions/fardel.fish"
)]
pub(super) struct Completions {
    /// For which shell
    #[arg(value_enum)]
    shell: Shell,
    /// File to write instead of the terminal
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Replace the file if it is there already
    #[arg(long, requires = "out")]
    force: bool,
}

impl Completions {
    pub(super) fn run(&self) -> Ending {
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut Arguments::command(), "fardel", &mut script);
        put(&String::from_utf8_lossy(&script), self.out.as_deref(), self.force)
    }
}
