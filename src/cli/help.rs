//! `fardel help`: the commands in the order of a trip, the guides, and each of them by name.

use super::output::{told, width};
use super::topics::{ALSO, TOPICS, Topic, related, render, topic};
use super::{Arguments, Ending, complain};
use crate::diagnostic::{did_you_mean, nearest};
use crate::files::write;
use clap::builder::styling::Style;
use clap::{Args, Command, CommandFactory};

/// Show the commands and the guides, or one guide
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  fardel help\n  fardel help group")]
pub(super) struct Help {
    /// Guide, or command, to show
    #[arg(value_name = "TOPIC")]
    about: Option<String>,
}

/// The commands in the order in which a trip asks for them.
const JOURNEY: [(&str, &[&str]); 7] = [
    ("To begin", &["serve", "new", "route", "find", "show", "bike", "gear", "check"]),
    ("The kit", &["pack", "why", "tradeoff", "trim", "split"]),
    ("Put to the test", &["rehearse", "measure-first"]),
    ("On the way", &["card"]),
    ("After the ride", &["debrief", "evidence", "ask", "pool"]),
    ("Many riders, many trips", &["class", "season-jobs", "batch", "season"]),
    ("Tools", &["export-model", "schema", "completions", "man", "help"]),
];

impl Help {
    pub(super) fn run(&self) -> Ending {
        let mut whole = Arguments::command();
        // Only a built tree knows the full names of its commands.
        whole.build();
        let Some(name) = self.about.as_deref().map(str::to_lowercase) else {
            return told(write::print(&overview(&whole)));
        };
        if let Some(found) = topic(&name) {
            return told(write::print(&guide(found, &whole)));
        }
        let near = related(&name);
        match (whole.find_subcommand_mut(&name), near) {
            (Some(command), near) => {
                let further = near.map_or_else(String::new, |near| format!("\nGuide: fardel help {}\n", near.name));
                told(write::print(&format!("{}{further}", command.render_long_help().ansi())))
            }
            (None, Some(near)) => told(write::print(&guide(near, &whole))),
            (None, None) => {
                complain(&unknown(&name, &whole));
                Ending::BadInput
            }
        }
    }
}

/// A guide, and where the options of the command of the same name are.
fn guide(topic: &Topic, whole: &Command) -> String {
    let text = render(topic.text(), width());
    match whole.find_subcommand(topic.name) {
        Some(command) => format!("{text}\nAll options: fardel {} --help\n", command.get_name()),
        None => text,
    }
}

/// What the program does, its commands in the order of a trip, and the guides.
fn overview(whole: &Command) -> String {
    let bold = Style::new().bold();
    let mut text =
        whole.get_about().map_or_else(String::new, |about| textwrap::fill(&about.to_string(), width()) + "\n\n");
    let names = JOURNEY.iter().flat_map(|(_, names)| *names).copied().chain(TOPICS.iter().map(|topic| topic.name));
    let widest = names.map(str::len).max().unwrap_or(0);
    let line = |name: &str, about: &str| {
        let indent = " ".repeat(widest + 4);
        let first = format!("  {name:widest$}  ");
        let options = textwrap::Options::new(width()).initial_indent(&first).subsequent_indent(&indent);
        textwrap::fill(about, options) + "\n"
    };
    for (heading, names) in JOURNEY {
        text += &format!("{bold}{heading}{bold:#}\n");
        for command in names.iter().filter_map(|name| whole.find_subcommand(name)) {
            let about = command.get_about().map(ToString::to_string).unwrap_or_default();
            text += &line(command.get_name(), &about);
        }
        text.push('\n');
    }
    text += &format!("{bold}Guides: fardel help TOPIC{bold:#}\n");
    for topic in &TOPICS {
        text += &line(topic.name, topic.title());
    }
    text + "\nAll options of a command: fardel COMMAND --help\n"
}

/// What to say where neither a guide nor a command has this name.
fn unknown(name: &str, whole: &Command) -> String {
    let topics = TOPICS.iter().map(|topic| topic.name);
    let commands = whole.get_subcommands().map(Command::get_name);
    let near = nearest(name, topics.clone().chain(commands).chain(ALSO.iter().map(|(also, _)| *also)));
    let near = did_you_mean(near);
    let all: Vec<&str> = topics.collect();
    format!("help {name}: no such guide or command{near}\nGuides: {}", all.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_command_stands_once_in_the_journey() {
        let mut named: Vec<&str> = JOURNEY.iter().flat_map(|(_, names)| *names).copied().collect();
        let whole = Arguments::command();
        let mut known: Vec<&str> = whole.get_subcommands().map(Command::get_name).collect();
        named.sort_unstable();
        known.sort_unstable();
        assert_eq!(named, known);
    }
}
