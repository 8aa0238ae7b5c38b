//! `fardel man`.

use super::output::{put, told};
use super::{Arguments, Ending, complain};
use crate::diagnostic::{did_you_mean, nearest};
use crate::files::write;
use clap::{Args, Command, CommandFactory};
use clap_mangen::Man as Page;
use std::path::{Path, PathBuf};

/// Print the manual page of the program or of one command, in roff.
///
/// `fardel man | man -l -` shows it; `--out` writes the pages of all commands into a folder.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel man pack | man -l -\n  fardel man --out ~/.local/share/man/man1")]
pub(super) struct Man {
    /// Command to print the page of
    #[arg(conflicts_with = "out")]
    command: Option<String>,
    /// Write all pages into this folder instead: fardel.1, fardel-pack.1 ...
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Replace files that are there already
    #[arg(long, requires = "out")]
    force: bool,
}

impl Man {
    pub(super) fn run(&self) -> Ending {
        let mut whole = Arguments::command();
        // Only a built tree knows the options that hold everywhere, and the full names of its commands.
        whole.build();
        match (&self.out, &self.command) {
            (Some(folder), _) => self.write(&whole, folder),
            (None, None) => printed(whole),
            (None, Some(name)) => {
                if let Some(command) = whole.find_subcommand(name) {
                    return printed(command.clone());
                }
                let near = nearest(name, whole.get_subcommands().map(Command::get_name));
                let near = did_you_mean(near);
                complain(&format!("man {name}: no such command{near}"));
                Ending::BadInput
            }
        }
    }

    /// The pages of the program and of every command.
    fn write(&self, whole: &Command, folder: &Path) -> Ending {
        let commands = std::iter::once(whole).chain(whole.get_subcommands().filter(|own| own.get_name() != "help"));
        let pages = commands.map(|command| page(command.clone()).map(|(name, text)| (folder.join(name), text)));
        let pages: Vec<(PathBuf, String)> = match pages.collect() {
            Ok(pages) => pages,
            Err(ending) => return ending,
        };
        let files = pages.iter().map(|(path, text)| (&**path, text.as_bytes()));
        told(write::into_folder(folder, files, self.force))
    }
}

fn printed(command: Command) -> Ending {
    match page(command) {
        Ok((_, text)) => put(&text, None, false),
        Err(ending) => ending,
    }
}

/// File name and text of a page.
fn page(command: Command) -> Result<(String, String), Ending> {
    let page = Page::new(command);
    let mut text = Vec::new();
    match page.render(&mut text) {
        Ok(()) => Ok((page.get_filename(), String::from_utf8_lossy(&text).into_owned())),
        Err(error) => {
            complain(&format!("internal error: the page cannot be written: {error}"));
            Err(Ending::Defect)
        }
    }
}
