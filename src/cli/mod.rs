//! The command line: what can be typed, and what each command does, in the order of the pipeline.

mod ask;
mod batch;
mod bike;
mod card;
mod check;
mod class;
mod complaint;
mod completions;
mod debrief;
mod dump;
mod evidence;
mod export;
mod find;
mod gear;
mod help;
mod man;
mod measure_first;
mod new;
mod output;
mod pack;
mod pool;
mod progress;
mod refusal;
mod rehearse;
mod route;
mod schema;
mod season;
mod serve;
mod settings;
mod show;
mod split;
mod topics;
mod tradeoff;
mod trim;
mod trip;
mod verbosity;
mod why;

use self::complaint::complain;
use crate::files::temp_files::heed_signals;
use crate::milp::timing;
use clap::builder::PossibleValuesParser;
use clap::{CommandFactory as _, FromArgMatches as _, Parser, Subcommand};
use fardel_words::Language;
use fardel_words::say;
use std::ffi::OsString;
use std::io::ErrorKind;

/// Works out what to carry on this bike for this trip.
#[derive(Debug, Parser)]
#[command(name = "fardel", version, about, long_about = LONG, propagate_version = true, disable_help_subcommand = true)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
    #[command(flatten)]
    talk: verbosity::Talk,
    /// Language of the answers, such as `de`
    #[arg(long, global = true, value_name = "CODE", display_order = 103, hide_possible_values = true,
        value_parser = PossibleValuesParser::new(Language::codes()))]
    language: Option<String>,
    #[command(flatten)]
    dump: dump::Dump,
}

/// What `fardel --help` says first.
const LONG: &str = "Works out what to carry on this bike for this trip: which tools, spares, consumables and camping \
gear save the most trouble within your limits of mass, room and money, and which bag each goes into.\n\n\
Exit status: 0 answered, also if the reader of a pipe goes away; 1 no kit meets all needs within all limits, or none was \
found in time; 2 bad input, or the answer cannot be written; 3 a defect of the program. Ctrl-C ends it as the system has \
it, which shells show as 130, and leaves nothing half-written.";

/// In the order of a trip: plan it, pack, look closer, ride, learn; then what is known, and what is for other programs.
#[derive(Debug, Subcommand)]
enum Command {
    /// The planner in the browser: plan, pack and tick off without typing a command
    Serve(serve::Serve),
    /// Write a commented scenario to begin with, for a bike and so many days
    New(new::New),
    /// Make the trip of a scenario from a track; with a map the surfaces, gaps and hours to help too
    Route(Box<route::Route>),
    /// Read catalogues, scenarios and gear files and report every problem and oddity
    Check(check::Check),
    /// Choose and stow the kit for a scenario
    Pack(pack::Pack),
    /// Which numbers are worth knowing better before this trip
    MeasureFirst(measure_first::MeasureFirst),
    /// Why a thing is in the kit or is not, and how a failure is dealt with
    Why(why::Why),
    /// What to leave at home of a packed kit, at the least cost
    Trim(trim::Trim),
    /// One kit for a group, and who carries what of it
    Split(split::Split),
    /// Riders on one trip who each pack for themselves: a sheet for each and one for the coach
    Class(class::Class),
    /// What more mass, room or money would buy: the best kit under one limit after another
    Tradeoff(tradeoff::Tradeoff),
    /// Ride the trip many thousand times with the kit, and see what happens
    Rehearse(rehearse::Rehearse),
    /// A card for the pocket: what is likely to break, and how the kit mends it
    Card(card::Card),
    /// Learn from rides that are over: rates by what really broke
    Debrief(debrief::Debrief),
    /// Show what the failure rates rest on, and how wide they are
    Evidence(evidence::Evidence),
    /// Write questions to riders about the numbers that matter most
    Ask(ask::Ask),
    /// Read riders' answers and report what they come to together
    Pool(pool::Pool),
    /// Read your own list of things and say what each line is taken for
    Gear(gear::Gear),
    /// Find things, failures, repairs, bikes and bags by name, synonym or what they mend
    Find(find::Find),
    /// Show everything that is known of one entry of the catalogue
    Show(show::Show),
    /// A sheet to fill in at the bike; reads a filled one; lists the fasteners that a kit cannot turn
    Bike(bike::Bike),
    /// Work off many jobs on all cores: a line of results for each, in the same order
    Batch(batch::Batch),
    /// What the results of many jobs come to: bought most, spares, coverage, support vehicle, what to measure first
    Season(season::Season),
    /// Draw the jobs of an invented season
    SeasonJobs(season::SeasonJobs),
    /// Write the model of the kit for other solvers
    ExportModel(export::Export),
    /// Print the JSON Schema of a file, for editors
    Schema(schema::Schema),
    /// Print what lets a shell complete commands and options
    Completions(completions::Completions),
    /// Print the manual page of the program or of one command
    Man(man::Man),
    /// Show the commands and the guides, or one guide
    Help(help::Help),
}

impl Command {
    fn run(&self) -> Ending {
        match self {
            Self::Serve(serve) => serve.run(),
            Self::New(new) => new.run(),
            Self::Find(find) => find.run(),
            Self::Show(show) => show.run(),
            Self::Bike(bike) => bike.run(),
            Self::Gear(gear) => gear.run(),
            Self::Route(route) => route.run(),
            Self::Check(check) => check.run(),
            Self::Pack(pack) => pack.run(),
            Self::MeasureFirst(measure) => measure.run(),
            Self::Why(why) => why.run(),
            Self::Tradeoff(tradeoff) => tradeoff.run(),
            Self::Trim(trim) => trim.run(),
            Self::Split(split) => split.run(),
            Self::Rehearse(rehearse) => rehearse.run(),
            Self::Card(card) => card.run(),
            Self::Debrief(debrief) => debrief.run(),
            Self::Evidence(evidence) => evidence.run(),
            Self::Ask(ask) => ask.run(),
            Self::Pool(pool) => pool.run(),
            Self::Class(class) => class.run(),
            Self::Batch(batch) => batch.run(),
            Self::Season(season) => season.run(),
            Self::SeasonJobs(jobs) => jobs.run(),
            Self::ExportModel(export) => export.run(),
            Self::Schema(schema) => schema.run(),
            Self::Completions(completions) => completions.run(),
            Self::Man(man) => man.run(),
            Self::Help(help) => help.run(),
        }
    }
}

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// The question was answered.
    Answered,
    /// There is no feasible kit, or none was found in time.
    NoKit,
    /// The input is wrong.
    BadInput,
    /// A defect of the program.
    Defect,
}

impl Ending {
    /// The exit status.
    #[must_use]
    pub const fn code(self) -> u8 {
        match self {
            Self::Answered => 0,
            Self::NoKit => 1,
            Self::BadInput => 2,
            Self::Defect => 3,
        }
    }
}

/// Runs the program with these arguments (the first is its name) and says how it ended.
pub fn run(arguments: impl IntoIterator<Item = impl Into<OsString> + Clone>) -> Ending {
    heed_signals();
    let raw: Vec<OsString> = arguments.into_iter().map(Into::into).collect();
    let read = Arguments::command().try_get_matches_from(&raw).and_then(|matches| {
        complaint::heed_format(&matches);
        Arguments::from_arg_matches(&matches)
    });
    match read {
        Ok(arguments) => {
            arguments.talk.apply();
            arguments.language.as_deref().and_then(Language::read).into_iter().for_each(fardel_words::set);
            let ending = timing::timed("all of it", || arguments.command.run());
            arguments.talk.account();
            arguments.dump.write(&raw);
            ending
        }
        Err(error) if error.use_stderr() && complaint::heed_raw(&raw) => {
            complain(&error.to_string());
            Ending::BadInput
        }
        Err(error) => {
            // Help and version are answers; anything else is bad input. A reader that has gone away is no matter.
            match error.print() {
                Err(unwritten) if unwritten.kind() != ErrorKind::BrokenPipe => {
                    complain(&say!("the help cannot be written: {unwritten}"));
                    Ending::BadInput
                }
                _ if error.use_stderr() => Ending::BadInput,
                _ => Ending::Answered,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Arguments;
    use clap::CommandFactory;

    #[test]
    fn the_command_tree_is_sound() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn every_argument_has_help() {
        let tree = Arguments::command();
        for command in tree.get_subcommands() {
            for argument in command.get_arguments() {
                assert!(argument.get_help().is_some(), "{} {}", command.get_name(), argument.get_id());
            }
        }
    }
}
