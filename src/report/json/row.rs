//! A line of the results of many jobs: whose it is, how it ended, what was wrong, and the answer.

use super::brief::brief;
use super::class::{class_document, study_document};
use super::refusal::{Unmet, infeasible_document};
use super::{Packed, headed};
use crate::Look;
use fardel_core::answer::class::ClassAnswer;
use fardel_core::answer::split::SplitAnswer;
use fardel_core::answer::{PackAnswer, Study, TripRemedy};
use fardel_core::domain::Catalogue;
use fardel_core::select::relax::Shortfall;
use serde::Serialize;
use serde_json::Error;

/// How a job ended; the words for what the exit status says of a single run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// With an answer.
    Answered,
    /// No kit meets all needs within all limits, or none was found in time.
    NoKit,
    /// Something is wrong with the job or with what it names.
    BadInput,
    /// A defect of the program.
    Defect,
}

impl Status {
    /// As it stands in a row.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Answered => "answered",
            Self::NoKit => "no_kit",
            Self::BadInput => "bad_input",
            Self::Defect => "defect",
        }
    }
}

/// A row but for its answer.
#[derive(Debug, Clone, Serialize)]
pub struct Row<'a> {
    /// Id of the job; none if it cannot be read.
    pub id: Option<&'a str>,
    /// Where the job stands, if it has no id.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<u64>,
    /// How it ended.
    pub status: Status,
    /// What was wrong.
    pub errors: &'a [String],
}

#[derive(Serialize)]
struct Whole<'a, T> {
    #[serde(flatten)]
    row: &'a Row<'a>,
    answer: Option<T>,
}

impl Row<'_> {
    /// With a kit; `short`: only what is looked at over many trips.
    ///
    /// # Errors
    /// [`Error`] if a value cannot be written, which no answer that was verified contains. Likewise below.
    pub fn pack(&self, answer: &PackAnswer, short: bool) -> Result<String, Error> {
        if short {
            self.line(Some(brief(answer)))
        } else {
            self.line(Some(headed("pack", Packed { answer, uncertain: None })))
        }
    }

    /// With a group's kit.
    ///
    /// # Errors
    /// As [`Row::pack`].
    pub fn split(&self, answer: &SplitAnswer) -> Result<String, Error> {
        self.line(Some(headed("split", answer)))
    }

    /// With the kits of a class.
    ///
    /// # Errors
    /// As [`Row::pack`].
    pub fn class(&self, answer: &ClassAnswer) -> Result<String, Error> {
        self.line(Some(class_document(answer)))
    }

    /// With what numbers are worth.
    ///
    /// # Errors
    /// As [`Row::pack`].
    pub fn study(&self, study: &Study) -> Result<String, Error> {
        self.line(Some(study_document(study)))
    }

    /// With why there is no kit, and the ways out.
    ///
    /// # Errors
    /// As [`Row::pack`].
    pub fn infeasible(
        &self,
        catalogue: &Catalogue,
        (shortfalls, ways): (&[Shortfall], &[TripRemedy]),
        look: &Look,
    ) -> Result<String, Error> {
        self.line(Some(infeasible_document("pack", &Unmet { catalogue, shortfalls, ways, look })))
    }

    /// Without an answer.
    ///
    /// # Errors
    /// As [`Row::pack`].
    pub fn failed(&self) -> Result<String, Error> {
        self.line(None::<()>)
    }

    fn line(&self, answer: Option<impl Serialize>) -> Result<String, Error> {
        serde_json::to_string(&Whole { row: self, answer }).map(|line| line + "\n")
    }
}
