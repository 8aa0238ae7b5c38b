//! A time limit shared out among the steps of one search.

use crate::{EngineError, SolveOptions, control};
use std::time::Duration;
use web_time::Instant;

/// When a search began and how hard it may try.
#[derive(Debug, Clone, Copy)]
pub struct Deadline {
    started: Instant,
    options: SolveOptions,
}

impl Deadline {
    /// The deadline starts now. It is never later than that of the work on this thread ([`control::time_left`]).
    #[must_use]
    pub fn new(options: &SolveOptions) -> Self {
        Self { started: Instant::now(), options: options.within_time_left() }
    }

    /// The effort with the time that is left.
    ///
    /// # Errors
    /// [`EngineError::NoAnswerInTime`] when none is left, or when nobody waits any more ([`control`]).
    pub fn left(&self) -> Result<SolveOptions, EngineError> {
        if control::is_cancelled() {
            return Err(EngineError::NoAnswerInTime);
        }
        let Some(limit) = self.options.time_limit else { return Ok(self.options) };
        let rest = limit.checked_sub(self.started.elapsed()).ok_or(EngineError::NoAnswerInTime)?;
        Ok(SolveOptions { time_limit: Some(rest), ..self.options })
    }

    /// The effort with this share of the time that is left.
    ///
    /// # Errors
    /// [`EngineError::NoAnswerInTime`] when none is left.
    pub fn share(&self, share: f64) -> Result<SolveOptions, EngineError> {
        let left = self.left()?;
        Ok(SolveOptions { time_limit: left.time_limit.map(|rest| rest.mul_f64(share)), ..left })
    }

    /// The time that is left, but not less than `grace`; `None` without a limit.
    #[must_use]
    pub fn graced(&self, grace: Duration) -> Option<Duration> {
        let left = self.left().ok().and_then(|left| left.time_limit);
        self.options.time_limit.map(|_| left.unwrap_or(grace).max(grace))
    }

    /// Is no time left?
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.left().is_err()
    }
}
