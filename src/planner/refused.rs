//! Why a call has no answer, as JSON.

use fardel_core::diagnostic::{Fault, Faults};
use fardel_words::say;
use serde::Serialize;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Refused {
    /// Something is wrong with what was given: problems in their places, or words alone.
    Given {
        /// In words, as the command line has it.
        message: String,
        /// Problems of files, each in its place; empty where the trouble is another.
        faults: Vec<Fault>,
    },
    /// There is no such call.
    Unknown(String),
    /// No kit will do: the answer of the command line, with what falls short and the ways out.
    NoKit(String),
    /// A file is not what it was when it was opened; nothing was written over it.
    Changed(String),
    /// The work was no longer wanted.
    Stopped,
    /// A defect of the program.
    Defect(String),
}

#[derive(Serialize)]
struct Given<'a> {
    message: &'a str,
    faults: &'a [Fault],
}

#[derive(Serialize)]
struct Defect<'a> {
    defect: &'a str,
}

impl Refused {
    /// Something wrong with what was given, in words.
    pub fn words(message: impl Into<String>) -> Self {
        Self::Given { message: message.into(), faults: Vec::new() }
    }

    /// The status of HTTP for it.
    #[must_use]
    pub const fn status(&self) -> u16 {
        match self {
            Self::Given { .. } | Self::NoKit(_) => 422,
            Self::Unknown(_) => 404,
            Self::Changed(_) => 409,
            Self::Stopped => 499,
            Self::Defect(_) => 500,
        }
    }

    /// What is sent in the place of an answer.
    #[must_use]
    pub fn json(&self) -> String {
        let told = |message: &str, faults: &[Fault]| serde_json::to_string(&Given { message, faults });
        let written = match self {
            Self::Given { message, faults } => told(message, faults),
            Self::Unknown(name) => told(&say!("there is no call `{name}`"), &[]),
            Self::Changed(message) => told(message, &[]),
            Self::NoKit(answer) => Ok(answer.clone()),
            Self::Stopped => Ok(r#"{"stopped":true}"#.to_owned()),
            Self::Defect(defect) => serde_json::to_string(&Defect { defect }),
        };
        written.unwrap_or_else(|_| r#"{"defect":"a refusal that cannot be written"}"#.to_owned())
    }
}

impl From<Faults> for Refused {
    fn from(faults: Faults) -> Self {
        Self::Given { message: faults.to_string(), faults: faults.0 }
    }
}

impl From<serde_json::Error> for Refused {
    fn from(error: serde_json::Error) -> Self {
        Self::Defect(say!("the answer cannot be written: {error}"))
    }
}
