//! What a batch came to, in a line for standard error.

use crate::cli::complain;
use crate::cli::verbosity::quiet;
use crate::report::json::Status;
use fardel_words::{say, word};
use std::collections::BTreeMap;
use std::time::Instant;

/// How many jobs ended how, since when.
pub(super) struct Tally {
    since: Instant,
    ended: BTreeMap<Status, u64>,
}

impl Tally {
    pub(super) fn begin() -> Self {
        Self { since: Instant::now(), ended: BTreeMap::new() }
    }

    pub(super) fn add(&mut self, status: Status) {
        *self.ended.entry(status).or_default() += 1;
    }

    /// Tells it, unless only answers are wanted.
    pub(super) fn tell(&self, before: u64) {
        if !quiet() {
            complain(&self.told(before, self.since.elapsed().as_secs_f64()));
        }
    }

    #[allow(clippy::cast_precision_loss, reason = "a count of jobs")]
    fn told(&self, before: u64, seconds: f64) -> String {
        let all: u64 = self.ended.values().sum();
        let jobs = |count: u64| if count == 1 { "1 job".to_owned() } else { say!("{count} jobs") };
        let earlier = if before > 0 { say!(" after {before} done before") } else { String::new() };
        let parts: Vec<String> = self.ended.iter().map(|(status, n)| format!("{n} {}", told(*status))).collect();
        let parts = if parts.is_empty() { String::new() } else { format!(": {}", parts.join(", ")) };
        say!("{}{earlier}{parts}; {seconds:.1} s, {:.1} a second.", jobs(all), all as f64 / seconds.max(1e-3))
    }
}

fn told(status: Status) -> &'static str {
    match status {
        Status::Answered => "answered",
        Status::NoKit => word!("without a kit"),
        Status::BadInput => word!("with bad input"),
        Status::Defect => word!("ended by a defect of the program"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_told_in_a_line() {
        let mut tally = Tally::begin();
        [Status::Answered, Status::BadInput, Status::Answered].into_iter().for_each(|status| tally.add(status));
        assert_eq!(tally.told(0, 1.5), "3 jobs: 2 answered, 1 with bad input; 1.5 s, 2.0 a second.");
        assert_eq!(Tally::begin().told(3, 1.0), "0 jobs after 3 done before; 1.0 s, 0.0 a second.");
    }
}
