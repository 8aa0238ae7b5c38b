//! A job as it is written: a line of JSON, or a row of a spreadsheet under a heading. Nothing is shared between jobs, so
//! they can be cut into parts and worked off anywhere.

use super::Patches;
use crate::diagnostic::{did_you_mean, nearest, quoted};
use fardel_words::say;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// What is asked of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Task {
    /// The kit of one rider.
    Pack,
    /// One kit for all riders.
    Split,
    /// A kit for each rider, and what they have to do with each other.
    Class,
    /// Which numbers of one rider's trip are worth knowing better.
    Study,
}

impl Task {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Pack, Self::Split, Self::Class, Self::Study];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pack => "pack",
            Self::Split => "split",
            Self::Class => "class",
            Self::Study => "study",
        }
    }
}

/// Where the scenario is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Written {
    /// In a file of this name.
    File(String),
    /// In the job itself.
    Text(String),
}

/// One trip to be worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// By which its result is known.
    pub id: String,
    /// What is asked.
    pub task: Task,
    /// The trip.
    pub scenario: Written,
    /// Texts of files that the scenario names, which are then looked for nowhere else.
    pub files: BTreeMap<String, String>,
    /// What is changed in the scenario.
    pub patches: Patches,
}

/// A job that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// Its id, if that can be read.
    pub id: Option<String>,
    /// Everything wrong with it.
    pub errors: Vec<String>,
}

/// Keys of a job beside those of its patches.
const KEYS: [&str; 5] = ["id", "command", "scenario", "scenario_text", "files"];

impl Job {
    /// Reads a line of JSON. Keys that are `null` are as good as left out; `limits` may be written as a map of its own.
    ///
    /// # Errors
    /// [`Refused`] with everything that is wrong.
    pub fn from_json(line: &str) -> Result<Self, Refused> {
        let alone = |error: String| Refused { id: None, errors: vec![error] };
        match serde_json::from_str::<Value>(line) {
            Ok(Value::Object(fields)) => Self::from_fields(&fields),
            Ok(_) => Err(alone(say!("{} is no job; a JSON object such as {EXAMPLE} is expected", quoted(line)))),
            Err(error) => Err(alone(say!("not JSON, at column {}: {} is found", error.column(), quoted(line)))),
        }
    }

    /// Reads a row of a spreadsheet. Empty cells are as good as left out.
    ///
    /// # Errors
    /// As [`Job::from_json`].
    pub fn from_cells<'a>(cells: impl IntoIterator<Item = (&'a str, &'a str)>) -> Result<Self, Refused> {
        let filled = cells.into_iter().filter(|(_, cell)| !cell.trim().is_empty());
        Self::from_fields(&filled.map(|(head, cell)| (head.trim().to_owned(), Value::from(cell.trim()))).collect())
    }

    fn from_fields(fields: &Map<String, Value>) -> Result<Self, Refused> {
        let fields = flat(fields);
        let mut reading = Reading { fields: &fields, errors: Vec::new() };
        reading.unknown_keys();
        let id = reading.text("id");
        if id.is_none() && reading.errors.is_empty() {
            reading.errors.push(say!("`id` is missing; every job has one of its own"));
        }
        let task = reading.task();
        let scenario = reading.scenario();
        let files = reading.files();
        let patches = Patches::read(&mut |key| reading.text(key));
        let (patches, wrong) = patches.map_or_else(|wrong| (Patches::default(), wrong), |own| (own, Vec::new()));
        reading.errors.extend(wrong);
        match (id, scenario) {
            (Some(id), Some(scenario)) if reading.errors.is_empty() => Ok(Self { id, task, scenario, files, patches }),
            (id, _) => Err(Refused { id, errors: reading.errors }),
        }
    }
}

/// A job as it may be written, for messages.
const EXAMPLE: &str = "`{\"id\": \"7\", \"scenario\": \"trip.yaml\"}`";

/// `limits: { kit_mass: ... }` as `limits.kit_mass`, without what is `null`.
fn flat(fields: &Map<String, Value>) -> Map<String, Value> {
    let mut flat = Map::new();
    for (key, value) in fields {
        match value {
            Value::Object(inner) if key == "limits" => {
                flat.extend(inner.iter().map(|(name, value)| (format!("limits.{name}"), value.clone())));
            }
            value => {
                flat.insert(key.clone(), value.clone());
            }
        }
    }
    flat.retain(|_, value| !value.is_null());
    flat
}

struct Reading<'a> {
    fields: &'a Map<String, Value>,
    errors: Vec<String>,
}

impl Reading<'_> {
    fn unknown_keys(&mut self) {
        let known = || KEYS.into_iter().chain(Patches::KEYS);
        for key in self.fields.keys().filter(|key| known().all(|known| known != key.as_str())) {
            let near = nearest(key, known()).map_or_else(|| ".".to_owned(), |near| say!("; did you mean `{near}`?"));
            let all = known().collect::<Vec<_>>().join(", ");
            self.errors.push(say!("{} is no key of a job{near} There are {all}", quoted(key)));
        }
    }

    /// A text, or a number as one.
    fn text(&mut self, key: &str) -> Option<String> {
        match self.fields.get(key)? {
            Value::String(text) if !text.trim().is_empty() => Some(text.clone()),
            Value::Number(number) => Some(number.to_string()),
            other => {
                let found = quoted(&other.to_string());
                self.errors.push(say!("`{key}`: {found} is found, a text that is not empty is expected"));
                None
            }
        }
    }

    fn task(&mut self) -> Task {
        let Some(word) = self.text("command") else { return Task::Pack };
        Task::ALL.into_iter().find(|task| task.word() == word).unwrap_or_else(|| {
            let words = Task::ALL.map(Task::word);
            let near = did_you_mean(nearest(&word, words));
            self.errors.push(say!(
                "`command`: {} is found, one of {} is expected{near}",
                quoted(&word),
                words.join(", ")
            ));
            Task::Pack
        })
    }

    fn scenario(&mut self) -> Option<Written> {
        match (self.text("scenario"), self.text("scenario_text")) {
            (None, Some(text)) => Some(Written::Text(text)),
            (Some(name), None) => Some(Written::File(name)),
            (None, None) => {
                self.errors
                    .push(say!("`scenario` (the name of a file) or `scenario_text` (the text itself) is expected"));
                None
            }
            (Some(_), Some(_)) => {
                self.errors.push(say!("`scenario` and `scenario_text` are found; one of them is expected"));
                None
            }
        }
    }

    fn files(&mut self) -> BTreeMap<String, String> {
        let Some(given) = self.fields.get("files") else { return BTreeMap::new() };
        let texts = |files: &Map<String, Value>| {
            files.iter().map(|(name, text)| Some((name.clone(), text.as_str()?.to_owned()))).collect()
        };
        given.as_object().and_then(texts).unwrap_or_else(|| {
            self.errors.push(say!("`files`: a map from names of files to their texts is expected"));
            BTreeMap::new()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_job_is_read_from_json_and_from_cells_alike() {
        let json =
            r#"{"id": 7, "scenario": "a.yaml", "rider": null, "limits": {"kit_mass": "8 kg"}, "hours_to_help": "3 h"}"#;
        let cells =
            [("id", "7"), ("scenario", "a.yaml"), ("rider", ""), ("limits.kit_mass", "8 kg"), ("hours_to_help", "3 h")];
        let job = Job::from_json(json).unwrap();
        assert_eq!(Job::from_cells(cells), Ok(job.clone()));
        assert_eq!((job.id.as_str(), job.task), ("7", Task::Pack));
    }

    #[test]
    fn everything_wrong_is_told_at_once_with_the_id() {
        let refused =
            Job::from_json(r#"{"id": "x", "comand": "pack", "limits.kit_mass": "8", "hours_to_help": "2 kg"}"#);
        let refused = refused.unwrap_err();
        assert_eq!(refused.id.as_deref(), Some("x"));
        assert_eq!(refused.errors.len(), 4, "{:?}", refused.errors);
        assert!(refused.errors[0].contains("did you mean `command`?"), "{:?}", refused.errors);
    }

    #[test]
    fn what_is_no_object_is_no_job() {
        for line in ["", "[]", "7", "{", "{\"id\": \"x\"} {}", "null"] {
            assert_eq!(Job::from_json(line).unwrap_err().id, None, "{line}");
        }
        assert!(Job::from_json("{}").unwrap_err().errors[0].starts_with("`id` is missing"));
    }
}
