//! `fardel split`.

use super::complaint::{Trouble, bad_input};
use super::output::{FolderArguments, FullArgument, PageFormat};
use super::refusal::refuse;
use super::settings::{CatalogueArguments, LimitArguments, SolveArguments};
use super::verbosity::quiet;
use super::{Ending, complain, progress};
use crate::answer::split::{Demands, MOST_RIDERS, SplitAnswer, split};
use crate::domain::Kit;
use crate::load::Loaded;
use crate::report::view::{self, Names, Typed};
use crate::report::{self, Look, pages};
use clap::Args;
use fardel_words::{say, word};
use std::path::PathBuf;

/// One kit for a group, and who carries what of it.
///
/// The kit is chosen for all riders together: a tool is there once for everybody, spares fit the bikes they fit, personal
/// things stay with their owner. Then it is handed out fairly within everybody's limits, bags, wheels and tyres.
#[derive(Debug, Args)]
#[command(after_help = "Example: fardel split scenarios/six-over-the-range.yaml --keep-if-one-leaves 0.8")]
pub(super) struct Split {
    /// Scenario file with 2 to 12 riders (one will do too)
    scenario: PathBuf,
    #[command(flatten)]
    catalogue: CatalogueArguments,
    /// Whoever leaves with what is on that bike: the others keep at least this share of what the whole kit saves them
    #[arg(long, value_name = "SHARE", value_parser = share)]
    keep_if_one_leaves: Option<f64>,
    /// What a rider has packed already, as RIDER=FILE (YAML, CSV, or JSON of an earlier answer); once for each rider
    #[arg(long, value_name = "RIDER=FILE")]
    packed: Vec<String>,
    /// Let no more than so many things change hands (with --packed)
    #[arg(long, value_name = "N", requires = "packed")]
    max_moves: Option<u32>,
    /// Shape of the answer
    #[arg(long, value_enum, default_value_t = PageFormat::Text)]
    format: PageFormat,
    #[command(flatten)]
    limits: LimitArguments,
    #[command(flatten)]
    options: SolveArguments,
    #[command(flatten)]
    full: FullArgument,
    #[command(flatten)]
    output: FolderArguments,
}

fn share(text: &str) -> Result<f64, String> {
    let share = text.parse().ok().filter(|s: &f64| *s > 0.0 && *s <= 1.0);
    share.ok_or_else(|| say!("a share above 0 and not above 1 is expected, such as 0.8"))
}

impl Split {
    pub(super) fn run(&self) -> Ending {
        let look = self.output.look();
        if let Err(ending) = self.output.unobstructed(&self.group_file()) {
            return ending;
        }
        let read = super::trip::read(&self.scenario, &self.catalogue)
            .and_then(|mut loaded| Ok((self.kits(&mut loaded)?, loaded)));
        let (kits, mut loaded) = match read {
            Ok(read) => read,
            Err(trouble) => return bad_input(trouble),
        };
        self.limits.apply(&mut loaded.scenario);
        let demands = Demands { keep_if_one_leaves: self.keep_if_one_leaves, max_moves: self.max_moves };
        let (catalogue, scenario) = (&loaded.catalogue, &loaded.scenario);
        let answer = progress::while_busy(word!("weighing one thing against another, for everybody"), || {
            split(catalogue, scenario, &demands, kits.as_deref(), &self.options.options())
        });
        match answer {
            Ok(mut answer) => {
                if !quiet() {
                    answer.warnings.extend(loaded.notes.iter().cloned());
                }
                self.deliver(&answer, &loaded, &look)
            }
            Err(error) => refuse(catalogue, &error, &look),
        }
    }

    /// What the riders have packed already, in the order of the scenario.
    fn kits(&self, loaded: &mut Loaded) -> Result<Option<Vec<Kit>>, Trouble> {
        let riders = loaded.scenario.riders.clone();
        if riders.len() > MOST_RIDERS {
            let many = riders.len();
            return Err(say!("{many} riders: a group of at most {MOST_RIDERS} is expected; ride as two").into());
        }
        if self.packed.is_empty() {
            return Ok(None);
        }
        let mut kits = vec![Kit::default(); riders.len()];
        for text in &self.packed {
            let names = || riders.iter().map(|rider| rider.name.as_str()).collect::<Vec<_>>().join(", ");
            let (name, file) = text.split_once('=').ok_or_else(|| say!("--packed {text}: RIDER=FILE is expected"))?;
            let at = riders.iter().position(|rider| rider.name == name);
            let at = at.ok_or_else(|| say!("--packed {text}: no such rider; the scenario has {}", names()))?;
            let packed = super::trip::kit(file.as_ref(), loaded)?;
            kits[at] = packed.kit;
        }
        Ok(Some(kits))
    }

    /// What was typed, for the next command.
    fn typed(&self) -> Typed {
        let scenario = self.scenario.to_string_lossy();
        let folder = self.catalogue.catalogues.as_ref().map(|folder| folder.to_string_lossy());
        let share = self.keep_if_one_leaves.map(|share| share.to_string());
        let mut further: Vec<&str> = folder.iter().flat_map(|folder| ["--catalogues", &**folder]).collect();
        further.extend(share.iter().flat_map(|share| ["--keep-if-one-leaves", share]));
        further.extend(self.packed.iter().flat_map(|packed| ["--packed", packed]));
        Typed::new(&[&scenario], &further)
    }

    fn deliver(&self, answer: &SplitAnswer, loaded: &Loaded, look: &Look) -> Ending {
        match self.files(answer, loaded, look) {
            Ok(files) => self.output.deliver(&files),
            Err(error) => {
                complain(&say!("internal error: the answer cannot be written: {error}"));
                Ending::Defect
            }
        }
    }

    /// What the names of the files end in.
    const fn ending(&self) -> &'static str {
        match self.format {
            PageFormat::Text => "txt",
            PageFormat::Markdown => "md",
            PageFormat::Csv => "csv",
            PageFormat::Json => "json",
            PageFormat::Html => "html",
        }
    }

    fn group_file(&self) -> String {
        format!("group.{}", self.ending())
    }

    /// The group's file first, then one for each rider.
    fn files(&self, answer: &SplitAnswer, loaded: &Loaded, look: &Look) -> Result<Vec<(String, String)>, String> {
        let both = pages::Group { catalogue: &loaded.catalogue, scenario: &loaded.scenario };
        let group = match self.format {
            PageFormat::Text if self.full.full => Ok(report::terminal::split(answer, look)),
            PageFormat::Text => {
                let names = Names::of(&loaded.catalogue);
                Ok(report::terminal::brief(&view::group(answer, &names, &self.typed(), look), look))
            }
            PageFormat::Markdown => report::markdown::split(answer, look).map_err(|error| error.to_string()),
            PageFormat::Csv => report::csv::split(answer).map_err(|error| error.to_string()),
            PageFormat::Json => report::json::split(answer).map_err(|error| error.to_string()),
            PageFormat::Html => pages::split(answer, &both, look).map_err(|error| error.to_string()),
        };
        let mut files = vec![(self.group_file(), group?)];
        for (at, card) in answer.cards.iter().enumerate() {
            let text = match self.format {
                PageFormat::Text => report::terminal::rider_card(answer, card, look),
                PageFormat::Markdown => {
                    report::markdown::rider(answer, card, look).map_err(|error| error.to_string())?
                }
                PageFormat::Csv => report::csv::card(card).map_err(|error| error.to_string())?,
                PageFormat::Json => report::json::card(answer, card).map_err(|error| error.to_string())?,
                PageFormat::Html => {
                    pages::rider_page(answer, (at, card), &both, look).map_err(|error| error.to_string())?
                }
            };
            files.push((format!("{}-{}.{}", at + 1, file_name(&card.rider), self.ending()), text));
        }
        Ok(files)
    }
}

/// A rider's name as part of a file name on any system.
pub(super) fn file_name(name: &str) -> String {
    let safe = |c: char| if c.is_alphanumeric() { c.to_lowercase().to_string() } else { "-".to_owned() };
    name.chars().take(40).map(safe).collect()
}
