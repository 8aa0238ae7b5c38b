//! A time limit shared out among the steps of one search.

use super::{Effort, EngineError};
use std::time::Instant;

/// When a search began and how hard it may try.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    started: Instant,
    effort: Effort,
}

impl Clock {
    pub fn new(effort: &Effort) -> Self {
        Self { started: Instant::now(), effort: *effort }
    }

    /// The effort with the time that is left.
    pub fn left(&self) -> Result<Effort, EngineError> {
        let Some(limit) = self.effort.time_limit else { return Ok(self.effort) };
        let rest = limit.checked_sub(self.started.elapsed()).ok_or(EngineError::NoAnswerInTime)?;
        Ok(Effort { time_limit: Some(rest), ..self.effort })
    }

    /// The effort with this share of the time that is left.
    pub fn share(&self, share: f64) -> Result<Effort, EngineError> {
        let left = self.left()?;
        Ok(Effort { time_limit: left.time_limit.map(|rest| rest.mul_f64(share)), ..left })
    }
}
