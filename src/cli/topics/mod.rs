//! The guides that `fardel help TOPIC` shows: one text a topic, built into the program.
//!
//! The texts are Markdown with few forms, so that they read well here and in the repository: `#` and `##` headings,
//! paragraphs on one line, lists, and fenced blocks. Comments say where a sample comes from; `tests/documents` runs the
//! commands, compares the samples and loads the YAML.

mod render;

pub(super) use render::render;

/// A guide.
#[derive(Debug, Clone, Copy)]
pub(super) struct Topic {
    /// What it is asked for by.
    pub name: &'static str,
    /// The guide itself; its first line is the title.
    pub text: &'static str,
}

impl Topic {
    /// The guide in the language that is spoken.
    pub(super) fn text(&self) -> &'static str {
        fardel_words::guide(self.name).unwrap_or(self.text)
    }

    /// The title, from the first line.
    pub(super) fn title(&self) -> &'static str {
        self.text().lines().next().unwrap_or_default().trim_start_matches("# ")
    }
}

/// Declares topics, each from the file of its name.
macro_rules! topics {
    ($($name:literal)+) => {
        [$(Topic { name: $name, text: include_str!(concat!($name, ".md")) }),+]
    };
}

/// Every topic, in the order in which a rider comes upon them.
pub(super) const TOPICS: [Topic; 22] = topics!(
    "planner" "trip" "route" "gear" "pack" "why" "prices" "method" "tradeoff" "trim" "group" "pages" "card" "rehearse" "certainty" "evidence"
    "learning" "season" "files"
    "catalogue" "problems" "solvers"
);

/// Other words for a topic, and commands that a topic of another name is about.
pub(super) const ALSO: [(&str, &str); 24] = [
    ("serve", "planner"),
    ("new", "trip"),
    ("lists", "gear"),
    ("track", "route"),
    ("map", "route"),
    ("gpx", "route"),
    ("bike", "gear"),
    ("find", "trip"),
    ("show", "trip"),
    ("split", "group"),
    ("class", "season"),
    ("batch", "season"),
    ("season-jobs", "season"),
    ("truth", "rehearse"),
    ("measure-first", "certainty"),
    ("ask", "certainty"),
    ("pool", "certainty"),
    ("simulation", "rehearse"),
    ("debrief", "learning"),
    ("check", "problems"),
    ("limits", "problems"),
    ("schema", "files"),
    ("formats", "pages"),
    ("export-model", "solvers"),
];

/// The topic of this name.
pub(super) fn topic(name: &str) -> Option<&'static Topic> {
    TOPICS.iter().find(|topic| topic.name == name)
}

/// The topic that another word stands for.
pub(super) fn related(word: &str) -> Option<&'static Topic> {
    ALSO.iter().find(|(also, _)| *also == word).and_then(|(_, name)| topic(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_topic_has_a_title_and_every_other_word_leads_to_one() {
        for topic in &TOPICS {
            assert!(topic.text.starts_with("# ") && !topic.title().is_empty(), "{}", topic.name);
        }
        for (also, name) in ALSO {
            assert!(topic(also).is_none(), "`{also}` is a topic of its own");
            assert!(topic(name).is_some(), "`{also}` leads to `{name}`, which is none");
        }
    }
}
