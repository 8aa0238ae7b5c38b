//! What is looked at before leaving, to tick.

use crate::view::checks::whose;
use fardel_core::answer::BikeChecks;
use serde::Serialize;

/// The checks of one bike, or of bikes that are looked at alike.
#[derive(Serialize)]
pub(super) struct List {
    /// For anchors: `checks-1`.
    id: String,
    /// Which bikes; `None` for the only one.
    title: Option<String>,
    checks: Vec<Check>,
}

#[derive(Serialize)]
struct Check {
    tick: String,
    name: String,
    look: String,
    stop: String,
    defer: String,
}

pub(super) fn one_bike(checks: &[fardel_core::domain::Check]) -> Vec<List> {
    if checks.is_empty() { Vec::new() } else { vec![list(0, None, checks)] }
}

pub(super) fn groups(groups: &[BikeChecks]) -> Vec<List> {
    groups.iter().enumerate().map(|(at, group)| list(at, Some(whose(group)), &group.checks)).collect()
}

fn list(at: usize, title: Option<String>, checks: &[fardel_core::domain::Check]) -> List {
    let number = at + 1;
    let one = |check: &fardel_core::domain::Check| Check {
        tick: format!("check/{number}/{}", check.id),
        name: check.name.clone(),
        look: check.look.clone(),
        stop: check.stop.clone(),
        defer: check.defer.clone(),
    };
    List { id: format!("checks-{number}"), title, checks: checks.iter().map(one).collect() }
}
