//! What is being done and how near the proof is, for whoever looks on. Nothing that is decided depends on it.

use std::sync::{Mutex, MutexGuard, PoisonError};

/// Where the work stands.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Progress {
    /// Stages that are being worked on, the outermost first, each with a number of its own.
    stages: Vec<(u64, &'static str)>,
    /// The next number.
    next: u64,
    /// Objective of the best point known to the stage, and the bound that none can beat.
    near: Option<(f64, f64)>,
}

/// `None`: nobody looks on.
static STATE: Mutex<Option<Progress>> = Mutex::new(None);

fn state() -> MutexGuard<'static, Option<Progress>> {
    STATE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Begins to keep track, or stops.
pub fn watch(wanted: bool) {
    *state() = wanted.then(Progress::default);
}

/// Where the work stands, if anybody looks on.
#[must_use]
pub fn now() -> Option<Progress> {
    state().clone()
}

impl Progress {
    /// The outermost stage and the one within it, as far as there are any.
    #[must_use]
    pub fn stages(&self) -> (Option<&'static str>, Option<&'static str>) {
        let at = |index: usize| self.stages.get(index).map(|(_, what)| *what);
        (at(0), at(1))
    }

    /// How far the best point known is from the bound, as a share of the bound; from 0.
    #[must_use]
    pub fn gap(&self) -> Option<f64> {
        let (at_hand, bound) = self.near?;
        (at_hand.is_finite() && bound.is_finite()).then(|| ((bound - at_hand) / bound.abs().max(1e-9)).max(0.0))
    }
}

/// A stage that is being worked on, until it is dropped.
#[derive(Debug)]
pub struct Stage(Option<u64>);

/// Begins a stage.
#[must_use]
pub fn stage(what: &'static str) -> Stage {
    let mut state = state();
    let Some(progress) = state.as_mut() else { return Stage(None) };
    let own = progress.next;
    progress.next += 1;
    progress.stages.push((own, what));
    if progress.stages.len() == 1 {
        progress.near = None;
    }
    Stage(Some(own))
}

impl Drop for Stage {
    fn drop(&mut self) {
        if let (Some(own), Some(progress)) = (self.0, state().as_mut()) {
            progress.stages.retain(|(number, _)| *number != own);
        }
    }
}

/// Notes a point and a bound of the model at hand.
pub(crate) fn found(objective: f64, bound: f64) {
    if let Some(progress) = state().as_mut() {
        progress.near = Some((objective, bound));
    }
}

#[cfg(test)]
mod tests {
    use super::{Progress, found, now, stage, watch};

    #[test]
    fn stages_nest_and_the_gap_is_a_share_of_the_bound() {
        assert_eq!(now(), None);
        watch(true);
        let outer = stage("choose the kit");
        let inner = stage("look closer");
        found(9.0, 10.0);
        let seen = now().unwrap();
        assert_eq!(seen.stages(), (Some("choose the kit"), Some("look closer")));
        assert!((seen.gap().unwrap() - 0.1).abs() < 1e-12);
        drop(outer);
        assert_eq!(now().unwrap().stages(), (Some("look closer"), None));
        drop(inner);
        watch(false);
        assert_eq!(now(), None);
        assert_eq!(Progress::default().gap(), None);
    }
}
